#include "imaging/card_cautions.h"

#include "base/text.h"
#include "geometry/angle.h"
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
/// Nothing shorter is judged by its share: a placed point's own spread outweighs it.
constexpr double shortest_mm = 60;
/// A joint's middle lies within 20 mm of the plane of interest: 2 mm at this slant [E].
constexpr double aslant_deg = 6;

std::string percent(double share) {
  return for_people(100 * share, 1) + " %";
}

/// Of the length and the direction between two places within reach, the worst of all pairs.
struct Foretold {
  double share = 0;
  double degrees = 0;
  double away_mm = 0; ///< from the card's middle to the farther end of the worst length
};

/// What another map makes of the length and the direction between two places.
struct Change {
  double share = 0;
  double degrees = 0;
};

/// The places within reach, as pairs that something may be measured between.
class Reach {
public:
  Reach(const Calibration& scale, const ImagePoint& middle_px, std::span<const ImagePoint> places)
      : map_(*scale.rectification),
        middle_px_(middle_px),
        places_(places),
        right_(placed(map_.map, map_.lens)) {
    for (std::size_t j = 1; j < places.size(); ++j)
      for (std::size_t i = 0; i < j; ++i)
        if (distance(right_[i], right_[j]) >= shortest_mm)
          pairs_.push_back({i, j});
  }

  /// One standard deviation by some components of the map's uncertainty.
  [[nodiscard]] Foretold uncertainty(std::span<const Rectification::Moved> parts) const {
    std::vector<Change> squares(pairs_.size());
    for (const auto& moved : parts) {
      const auto places = placed(moved.map, moved.lens);
      const double turned = turn_of(pixel_steps(moved.map, moved.lens, middle_px_));
      for (std::size_t k = 0; k < pairs_.size(); ++k) {
        const auto change = change_of(pairs_[k], places, turned);
        squares[k].share += change.share * change.share;
        squares[k].degrees += change.degrees * change.degrees;
      }
    }
    for (auto& each : squares)
      each = {std::sqrt(each.share), std::sqrt(each.degrees)};
    return worst_of(squares);
  }

  /// What the map makes of a plane that faces the camera, with this size of a pixel.
  [[nodiscard]] Foretold against_square(double pixel_mm) const {
    const Homography square{pixel_mm, 0, 0, 0, pixel_mm, 0, 0, 0, 1};
    const auto places = placed(square, map_.lens);
    const double turned = turn_of(square_steps(pixel_mm));
    std::vector<Change> changes;
    for (const auto& pair : pairs_)
      changes.push_back(change_of(pair, places, turned));
    return worst_of(changes);
  }

private:
  struct Pair {
    std::size_t from = 0;
    std::size_t to = 0;
  };

  Rectification map_;
  ImagePoint middle_px_;
  std::span<const ImagePoint> places_;
  std::vector<ImagePoint> right_; ///< the places by the map itself, mm
  std::vector<Pair> pairs_;

  [[nodiscard]] std::vector<ImagePoint> placed(const Homography& map,
                                               const std::optional<Lens>& lens) const {
    std::vector<ImagePoint> all;
    for (const auto& each : places_)
      all.push_back(square_on(map, lens, each));
    return all;
  }
  /// Directions are held against an upright by the card, so what turns all alike doesn't count.
  [[nodiscard]] double turn_of(const PixelSteps& steps) const {
    return map_error(pixel_steps(map_.map, map_.lens, middle_px_), steps).turn_deg;
  }
  [[nodiscard]] Change
  change_of(const Pair& pair, const std::vector<ImagePoint>& places, double turned) const {
    const auto was = right_[pair.to] - right_[pair.from];
    const auto is = places[pair.to] - places[pair.from];
    const double turn = in_degrees(std::atan2(cross(was, is), dot(was, is)));
    return {std::abs(length(is) / length(was) - 1), std::abs(turn - turned)};
  }
  [[nodiscard]] Foretold worst_of(const std::vector<Change>& changes) const {
    Foretold worst;
    for (std::size_t k = 0; k < changes.size(); ++k) {
      worst.degrees = std::max(worst.degrees, changes[k].degrees);
      if (changes[k].share <= worst.share)
        continue;
      worst.share = changes[k].share;
      worst.away_mm = std::max(away_mm(pairs_[k].from), away_mm(pairs_[k].to));
    }
    return worst;
  }
  [[nodiscard]] double away_mm(std::size_t place) const {
    return distance(right_[place], square_on(map_.map, map_.lens, middle_px_));
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

/// What isn't in the plane of interest shifts when the camera looks aslant.
void add_aslant(std::vector<std::string>& cautions, const CardFit& fit) {
  if (fit.pose.tilt_deg > aslant_deg)
    cautions.push_back(fmt::format("The camera looked {}\u00b0 aslant: what lies nearer to it or "
                                   "farther from it than the card is shifted. Stand square to the "
                                   "limb.",
                                   for_people(fit.pose.tilt_deg, 1)));
}

/// A picture can't tell a turned card from a camera that looks at it aslant; a board can.
void add_turned(std::vector<std::string>& cautions,
                const CardFit& fit,
                const ScaleStatement& said,
                const Reach& reach) {
  if (said.card_stood == ScaleStatement::CardStood::along_a_board)
    return add_aslant(cautions, fit);
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
  const bool by_eye = said.card_stood == ScaleStatement::CardStood::by_eye;
  const double share = normal_95 * std::hypot(all.share, scale.relative_uncertainty);
  if (said.card_offset_mm && share > asked_share)
    cautions.push_back(
        fmt::format("{} mm away from the card lengths are known to ± {} only, because the card "
                    "stands parallel to the limb and at its stated place only {}. {}tand the "
                    "camera farther off, or the card nearer to what is measured.",
                    for_people(all.away_mm, 0),
                    percent(share),
                    by_eye ? "by eye" : "as a board and a tape have it",
                    by_eye ? "Stand the card along a board, s" : "S"));
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
  add_turned(cautions, fit, said, reach);
  add_too_small(cautions, fit, scale, said, reach);
  add_strays(cautions, fit, scale);
  return cautions;
}

} // namespace pritchel::imaging
