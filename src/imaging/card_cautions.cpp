#include "imaging/card_cautions.h"

#include "base/text.h"
#include "imaging/map_errors.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

/// What is asked of a photo without a word of caution.
constexpr double asked_share = 0.01;
constexpr double asked_deg = 0.5;
constexpr double normal_95 = 1.959964;
/// Corners farther than this from a flat board's: the card is bent or the photo blurred [E].
constexpr double stray_mm = 0.5;
constexpr double stray_px = 0.7;

std::string percent(double share) {
  return for_people(100 * share, 1) + " %";
}

/// Of lengths and angles at the worst place within reach.
struct Foretold {
  double share = 0;
  double degrees = 0;
  double away_mm = 0; ///< from the card's middle to the place of the worst length
};

void take_worse(Foretold& worst, double share, double degrees, double away_mm) {
  worst.degrees = std::max(worst.degrees, degrees);
  if (share <= worst.share)
    return;
  worst.share = share;
  worst.away_mm = away_mm;
}

/// Directions are held against an upright that may lie elsewhere: what turns with the place counts.
double angle_of(const MapError& here, const MapError& at_card) {
  return here.angle_deg + std::abs(here.turn_deg - at_card.turn_deg);
}

/// The places within reach, held against the card's own.
class Reach {
public:
  Reach(const Calibration& scale, const ImagePoint& middle_px, std::span<const ImagePoint> places)
      : map_(*scale.rectification),
        middle_px_(middle_px),
        places_(places) {}

  /// One standard deviation by some components of the map's uncertainty.
  [[nodiscard]] Foretold uncertainty(std::span<const Rectification::Moved> parts) const {
    Foretold worst;
    for (const auto& place : places_) {
      double shares = 0, degrees = 0;
      for (const auto& moved : parts) {
        const auto here = error_at(moved, place);
        shares += here.length_share * here.length_share;
        degrees += std::pow(angle_of(here, error_at(moved, middle_px_)), 2);
      }
      take_worse(worst, std::sqrt(shares), std::sqrt(degrees), away_mm(place));
    }
    return worst;
  }

  /// What the map makes of a plane that faces the camera, with this size of a pixel.
  [[nodiscard]] Foretold against_square(double pixel_mm) const {
    const auto square = square_steps(pixel_mm);
    const auto at_card = map_error(square, steps_at(middle_px_));
    Foretold worst;
    for (const auto& place : places_) {
      const auto here = map_error(square, steps_at(place));
      take_worse(worst, here.length_share, angle_of(here, at_card), away_mm(place));
    }
    return worst;
  }

private:
  Rectification map_;
  ImagePoint middle_px_;
  std::span<const ImagePoint> places_;

  [[nodiscard]] PixelSteps steps_at(const ImagePoint& at) const {
    return pixel_steps(map_.map, map_.lens, at);
  }
  [[nodiscard]] MapError error_at(const Rectification::Moved& moved, const ImagePoint& at) const {
    return map_error(steps_at(at), pixel_steps(moved.map, moved.lens, at));
  }
  [[nodiscard]] double away_mm(const ImagePoint& at) const {
    return distance(square_on(map_.map, map_.lens, at), square_on(map_.map, map_.lens, middle_px_));
  }
};

void add_offset(std::vector<std::string>& cautions,
                const Calibration& scale,
                const ScaleStatement& said) {
  if (!said.card_offset_mm)
    cautions.push_back(fmt::format(
        "Nobody said how far the card stood before or behind the limb's plane: lengths are known "
        "to ± {} only. Measure it and say it.",
        percent(scale.relative_uncertainty)));
}

/// A picture can't tell a turned card from a camera that looks at it aslant.
void add_turned(std::vector<std::string>& cautions, const CardFit& fit, const Reach& reach) {
  const double pixel_mm = fit.pose.depth_mm / fit.camera.focal_px;
  const auto worst = reach.against_square(pixel_mm);
  if (worst.share > asked_share || worst.degrees > asked_deg)
    cautions.push_back(fmt::format("The card is seen {}\u00b0 from square. If the camera looked "
                                   "aslant, all is well; if the card "
                                   "was turned out of the limb's plane, lengths may be off by {} "
                                   "and angles by {}\u00b0. Stand "
                                   "both square to the limb.",
                                   for_people(fit.pose.tilt_deg, 1),
                                   percent(worst.share),
                                   for_people(worst.degrees, 1)));
}

/// The eight or nine parts that the corners left unsure; the card's own turn comes after them.
std::span<const Rectification::Moved> by_corners(const CardFit& fit, const Rectification& map) {
  return std::span(map.one_sigma).first(std::min(fit.plane.one_sigma.size(), map.one_sigma.size()));
}

void add_too_small(std::vector<std::string>& cautions,
                   const CardFit& fit,
                   const Calibration& scale,
                   const ScaleStatement& said,
                   const Reach& reach) {
  const auto corners = reach.uncertainty(by_corners(fit, *scale.rectification));
  if (normal_95 * corners.share > asked_share || normal_95 * corners.degrees > asked_deg) {
    cautions.push_back(
        fmt::format("The card is too small in the photo, or shows too little ({} of {} corners, a "
                    "square is {} px): {} mm away from it lengths may be off by {} and angles by "
                    "{}\u00b0. Go nearer, or stand the card nearer to what is measured.",
                    said.card_corners.size(),
                    corner_count(fit.layout),
                    for_people(fit.layout.square_mm / scale.pixel_width_mm, 0),
                    for_people(corners.away_mm, 0),
                    percent(normal_95 * corners.share),
                    for_people(normal_95 * corners.degrees, 1)));
    return;
  }
  const auto all = reach.uncertainty(scale.rectification->one_sigma);
  const double share = std::hypot(all.share, scale.relative_uncertainty);
  if (said.card_offset_mm && share > asked_share)
    cautions.push_back(
        fmt::format("{} mm away from the card lengths are known to ± {} only, because the card "
                    "stands parallel to the limb and at its stated place only by eye. Stand the "
                    "camera farther off, or the card nearer to what is measured.",
                    for_people(all.away_mm, 0),
                    percent(share)));
}

void add_strays(std::vector<std::string>& cautions, const CardFit& fit, const Calibration& scale) {
  const double mm = fit.plane.rms_px * scale.pixel_width_mm;
  if (mm > stray_mm || fit.plane.rms_px > stray_px)
    cautions.push_back(fmt::format(
        "The card's corners lie {} px or {} mm from a flat board's: the card is bent or the photo "
        "blurred. Fix the card to a stiff board and hold the camera still.",
        for_people(fit.plane.rms_px, 1),
        for_people(mm, 1)));
}

} // namespace

std::vector<std::string> card_cautions(const CardFit& fit,
                                       const Calibration& scale,
                                       const ScaleStatement& said,
                                       std::span<const ImagePoint> places) {
  const Reach reach(scale, fit.middle_px, places);
  std::vector<std::string> cautions;
  add_offset(cautions, scale, said);
  add_turned(cautions, fit, reach);
  add_too_small(cautions, fit, scale, said, reach);
  add_strays(cautions, fit, scale);
  return cautions;
}

} // namespace pritchel::imaging
