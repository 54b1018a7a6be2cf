#include "geometry/homography.h"

#include <cmath>

namespace pritchel {

ImagePoint apply(const Homography& h, const ImagePoint& p) {
  const double w = h[6] * p.x + h[7] * p.y + h[8];
  return {(h[0] * p.x + h[1] * p.y + h[2]) / w, (h[3] * p.x + h[4] * p.y + h[5]) / w};
}

std::optional<Homography> inverse(const Homography& h) {
  const Homography adjugate{h[4] * h[8] - h[5] * h[7],
                            h[2] * h[7] - h[1] * h[8],
                            h[1] * h[5] - h[2] * h[4],
                            h[5] * h[6] - h[3] * h[8],
                            h[0] * h[8] - h[2] * h[6],
                            h[2] * h[3] - h[0] * h[5],
                            h[3] * h[7] - h[4] * h[6],
                            h[1] * h[6] - h[0] * h[7],
                            h[0] * h[4] - h[1] * h[3]};
  const double determinant = h[0] * adjugate[0] + h[1] * adjugate[3] + h[2] * adjugate[6];
  if (!std::isfinite(1 / determinant))
    return std::nullopt;
  Homography result{};
  for (std::size_t i = 0; i < result.size(); ++i)
    result[i] = adjugate[i] / determinant;
  return result;
}

ImagePoint as_seen(const Lens& lens, const ImagePoint& straight) {
  const double x = (straight.x - lens.centre.x) / lens.focal_px;
  const double y = (straight.y - lens.centre.y) / lens.focal_px;
  const double stretch = 1 + lens.k1 * (x * x + y * y);
  return {lens.centre.x + x * stretch * lens.focal_px, lens.centre.y + y * stretch * lens.focal_px};
}

ImagePoint straightened(const Lens& lens, const ImagePoint& seen) {
  const double x = (seen.x - lens.centre.x) / lens.focal_px;
  const double y = (seen.y - lens.centre.y) / lens.focal_px;
  const double distorted = std::hypot(x, y);
  double r = distorted;
  constexpr int steps = 20;
  for (int i = 0; i < steps; ++i) // Newton on r + k1 r^3 = distorted
    r -= (r * (1 + lens.k1 * r * r) - distorted) / (1 + 3 * lens.k1 * r * r);
  const double shrink = distorted > 0 ? r / distorted : 1;
  return {lens.centre.x + x * shrink * lens.focal_px, lens.centre.y + y * shrink * lens.focal_px};
}

ImagePoint
square_on(const Homography& map, const std::optional<Lens>& lens, const ImagePoint& pixel) {
  return apply(map, lens ? straightened(*lens, pixel) : pixel);
}

} // namespace pritchel
