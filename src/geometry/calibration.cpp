#include "geometry/calibration.h"

#include "base/assert.h"

namespace pritchel {

double safety_divisor(ScaleOrigin origin) {
  switch (origin) {
  case ScaleOrigin::header_distances:
    return 1.05;
  case ScaleOrigin::detector_only:
    return 1.15;
  default:
    return 1.0;
  }
}

PlaneMap::PlaneMap(const Calibration& calibration, PictureSide toward)
    : width_(calibration.pixel_width_mm),
      height_(calibration.pixel_height_mm),
      sign_(toward == PictureSide::right ? 1.0 : -1.0),
      rectification_(calibration.rectification) {
  if (!rectification_)
    return;
  width_ = height_ = 1;
  const auto back = inverse(rectification_->map);
  PRITCHEL_ASSERT(back.has_value());
  to_picture_ = *back;
}

PlanePoint PlaneMap::to_plane(const ImagePoint& p) const {
  const auto at = rectification_ ? square_on(rectification_->map, rectification_->lens, p) : p;
  return {sign_ * width_ * at.x, -height_ * at.y};
}

ImagePoint PlaneMap::to_image(const PlanePoint& p) const {
  const ImagePoint at{sign_ * p.x / width_, -p.y / height_};
  if (!rectification_)
    return at;
  const auto straight = apply(to_picture_, at);
  return rectification_->lens ? as_seen(*rectification_->lens, straight) : straight;
}

std::vector<PlaneVector> PlaneMap::one_sigma_shifts(const ImagePoint& p) const {
  std::vector<PlaneVector> shifts;
  if (!rectification_)
    return shifts;
  const auto here = square_on(rectification_->map, rectification_->lens, p);
  for (const auto& moved : rectification_->one_sigma) {
    const auto there = square_on(moved.map, moved.lens, p);
    shifts.push_back({sign_ * (there.x - here.x), here.y - there.y});
  }
  return shifts;
}

} // namespace pritchel
