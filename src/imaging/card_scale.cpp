#include "imaging/card_scale.h"

#include "base/assert.h"
#include "base/text.h"
#include "imaging/card_cautions.h"
#include "imaging/card_fit.h"
#include "imaging/header_scale.h"
#include "imaging/map_errors.h"

#include <fmt/format.h>

#include <cmath>

namespace pritchel::imaging {
namespace {

/// A print of unmeasured size; a bar read by ruler to a quarter of a millimetre leaves half of it.
constexpr double print_share = 0.002;
constexpr double measured_print_share = 0.001;
using Stood = ScaleStatement::CardStood;

/// Standard deviation of how parallel a card stands to a limb, about either axis: by eye, and along
/// a board (5 mm over half a metre, and as much again for the limb itself). Own estimates.
double turn_unsure_deg(Stood stood) {
  return stood == Stood::by_eye ? 3.0 : 0.7;
}
/// The same of its distance from the plane of interest: by eye, and by tape from the board.
double offset_unsure_mm(Stood stood) {
  return stood == Stood::by_eye ? 10 : 5;
}
/// A card beside a limb that nobody measured: half a foot's breadth before or behind its middle.
constexpr double unsaid_offset_mm = 40;
/// Of the picture's sides, left out where nobody says what is measured.
constexpr double bare_edge = 0.1;

std::string percent(double share) {
  return for_people(100 * share, 1) + " %";
}

Homography turned_round(const Homography& map) {
  const auto back = inverse(map);
  PRITCHEL_ASSERT(back.has_value());
  return *back;
}

/// Turned about the card's middle so that the picture's down stays down there.
Homography upright_turn(const Homography& map, const std::optional<Lens>& lens, ImagePoint at) {
  const auto steps = pixel_steps(map, lens, at);
  const double angle = std::atan2(steps[1], steps[3]);
  const double c = std::cos(angle), s = std::sin(angle);
  return {c, -s, 0, s, c, 0, 0, 0, 1};
}

Rectification rectification_of(const CardFit& fit, double offset_mm, double turn_deg) {
  const auto lens = lens_of(fit.lens_view, fit.plane.k1);
  const auto onto_card = turned_round(fit.plane.to_picture);
  const auto behind = to_plane_behind(fit.pose, offset_mm);
  const auto last = after(upright_turn(after(behind, onto_card), lens, fit.middle_px), behind);
  Rectification out{.map = after(last, onto_card), .lens = lens};
  for (const auto& moved : fit.plane.one_sigma)
    if (const auto back = inverse(moved.to_picture))
      out.one_sigma.push_back({after(last, *back), lens_of(fit.lens_view, moved.k1)});
  for (const auto axis : {TurnAbout::upright, TurnAbout::level})
    out.one_sigma.push_back(
        {after(last, after(to_turned_plane(fit.pose, fit.middle, axis, turn_deg), onto_card)),
         lens});
  return out;
}

double common_share(const CardFit& fit, const ScaleStatement& said) {
  const double unsure = said.card_offset_mm
                            ? said.card_offset_unsure_mm.value_or(offset_unsure_mm(said.card_stood))
                            : unsaid_offset_mm;
  const double by_distance = said.card_offset_mm.value_or(0) * fit.distance_share;
  const double print =
      said.card_bar_mm == fit.layout.bar.width ? print_share : measured_print_share;
  return std::hypot(print, unsure / fit.pose.distance_mm, by_distance / fit.pose.distance_mm);
}

std::string offset_words(const ScaleStatement& said) {
  if (!said.card_offset_mm || *said.card_offset_mm == 0)
    return {};
  return fmt::format("; corrected for a card {} mm {} the plane of interest",
                     for_people(std::abs(*said.card_offset_mm), 0),
                     *said.card_offset_mm > 0 ? "before" : "behind");
}

std::string distance_words(const CardFit& fit, const ScaleStatement& said) {
  const auto metres = for_people(fit.pose.depth_mm / 1000, 1);
  if (said.camera_distance_mm > 0)
    return metres + " m as measured";
  return said.lens_35mm > 0 ? metres + " m by its lens" : "perhaps " + metres + " m";
}

std::string sentence_of(const CardFit& fit, const Calibration& scale, const ScaleStatement& said) {
  const double stray_mm = fit.plane.rms_px * scale.pixel_width_mm;
  return fmt::format(
      "Scale from the printed card: {} of its {} corners, {} px or {} mm from a flat "
      "board; the camera {} away, the card {}\u00b0 from square{}; a pixel is {} there, "
      "± {}{}.",
      said.card_corners.size(),
      corner_count(fit.layout),
      for_people(fit.plane.rms_px, 2),
      for_people(stray_mm, 2),
      distance_words(fit, said),
      for_people(fit.pose.tilt_deg, 1),
      fit.plane.distortion == PlaneFit::Distortion::fitted ? "; the lens's bending is taken out"
                                                           : "",
      in_words({.row_mm = scale.pixel_width_mm, .column_mm = scale.pixel_width_mm}),
      percent(scale.relative_uncertainty),
      offset_words(said));
}

/// Where measurements may lie when nobody says: the picture without its edges.
std::vector<ImagePoint> whole_picture(int columns, int rows) {
  constexpr int steps = 4;
  std::vector<ImagePoint> places;
  for (int i = 0; i <= steps; ++i)
    for (int j = 0; j <= steps; ++j)
      places.push_back({columns * (bare_edge + (1 - 2 * bare_edge) * i / steps),
                        rows * (bare_edge + (1 - 2 * bare_edge) * j / steps)});
  return places;
}

} // namespace

Result<Calibration> card_calibration(int columns,
                                     int rows,
                                     const ScaleStatement& said,
                                     std::span<const ImagePoint> reach) {
  PRITCHEL_TRY(fit, fit_card(columns, rows, said));
  Calibration scale{.origin = ScaleOrigin::card,
                    .relative_uncertainty = common_share(fit, said),
                    .rectification = rectification_of(
                        fit, said.card_offset_mm.value_or(0), turn_unsure_deg(said.card_stood))};
  const auto steps =
      pixel_steps(scale.rectification->map, scale.rectification->lens, fit.middle_px);
  const double pixel = std::sqrt(std::abs(steps[0] * steps[3] - steps[1] * steps[2]));
  if (!std::isfinite(pixel) || pixel <= 0)
    return fail("The card's corners", "give an impossible size of a pixel", "find the card again");
  scale.pixel_width_mm = scale.pixel_height_mm = pixel;
  scale.sentence = sentence_of(fit, scale, said);
  const auto everywhere = whole_picture(columns, rows);
  scale.cautions = card_cautions(fit, scale, said, reach.empty() ? std::span(everywhere) : reach);
  return scale;
}

} // namespace pritchel::imaging
