#include "imaging/card_fit.h"

#include "imaging/find_card.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace pritchel::imaging {
namespace {

/// A phone or camera straightens its pictures; about this share of the radius is left at the
/// corner [E].
constexpr double corner_distortion = 0.003;
/// A header's focal length (rounded, some cropping), a tape, and a lens nobody knows [E].
constexpr double header_focal_share = 0.05;
constexpr double tape_share = 0.02;
constexpr double unknown_focal_share = 0.4;
constexpr double usual_lens_35mm = 30;
/// A board seen more edge-on than this gives no lengths across.
constexpr double greatest_tilt_deg = 75;
/// Corners this far from a flat board's are no card's [E].
constexpr double absurd_stray_mm = 4;

Result<void> check_corners(int columns, int rows, const ScaleStatement& said) {
  const auto paper = card_paper(said.card_paper);
  if (!paper)
    return fail("The card's paper", "isn't known", "say a4 or letter");
  std::set<int> ids;
  for (const auto& each : said.card_corners) {
    const bool inside = each.at.x >= -0.5 && each.at.x <= columns - 0.5 && each.at.y >= -0.5 &&
                        each.at.y <= rows - 0.5;
    if (each.id < 0 || each.id >= corner_count(card(*paper)) || !inside)
      return fail("The card", "has a corner that can't be", "find the card again");
    ids.insert(each.id);
  }
  if (ids.size() != said.card_corners.size() || ids.size() < least_card_corners)
    return fail(
        "The card",
        fmt::format("has {} different corners, {} are needed", ids.size(), least_card_corners),
        "show the whole card and find it again");
  return {};
}

Result<void> check_numbers(const ScaleStatement& said) {
  const auto within = [](double value, double least, double most) {
    return std::isfinite(value) && value >= least && value <= most;
  };
  if (!within(said.card_offset_mm.value_or(0), -1000, 1000) ||
      !within(said.card_offset_unsure_mm.value_or(0), 0, 1000))
    return fail("The card's distance from the plane of interest", "must be \u22121000 to 1000 mm");
  if (said.camera_distance_mm != 0 && !within(said.camera_distance_mm, 150, 30'000))
    return fail("The camera's distance", "must be 150 to 30,000 mm", "measure it, or leave it out");
  if (said.lens_35mm != 0 && !within(said.lens_35mm, 6, 1500))
    return fail("The lens's focal length", "must be 6 to 1500 mm on 35-mm film", "leave it out");
  if (!within(said.card_bar_mm, 80, 120))
    return fail("The card's bar of 100 mm",
                "must measure 80 to 120 mm",
                "print the card again at its actual size");
  return {};
}

std::vector<PlanePair> pairs_of(const Card& layout, const ScaleStatement& said) {
  const double print = said.card_bar_mm / layout.bar.width;
  std::vector<PlanePair> pairs;
  for (const auto& each : said.card_corners) {
    const auto place = corner(layout, each.id);
    pairs.push_back({.in_plane = {place.x * print, place.y * print}, .seen = each.at});
  }
  return pairs;
}

ImagePoint middle_of(const std::vector<PlanePair>& pairs) {
  ImagePoint sum;
  for (const auto& each : pairs)
    sum = {sum.x + each.in_plane.x, sum.y + each.in_plane.y};
  const auto n = static_cast<double>(pairs.size());
  return {sum.x / n, sum.y / n};
}

CameraView camera_of(double lens_35mm, int columns, int rows) {
  const double focal = focal_px_of(lens_35mm, columns, rows);
  const double corner_r = std::hypot(columns, rows) / 2 / focal;
  return {.centre = {(columns - 1) / 2.0, (rows - 1) / 2.0},
          .focal_px = focal,
          .k1_unsure = corner_distortion / (corner_r * corner_r),
          .corner_r = corner_r};
}

/// The focal length at which the card lies as far away as a tape says; depth grows with it.
CameraView by_tape(const Homography& map, CameraView camera, const ImagePoint& middle, double mm) {
  constexpr int steps = 10;
  for (int i = 0; i < steps; ++i)
    camera.focal_px *= mm / pose_of(map, camera, middle).depth_mm;
  return camera;
}

double share_of_distance(const ScaleStatement& said) {
  if (said.camera_distance_mm > 0)
    return tape_share;
  return said.lens_35mm > 0 ? header_focal_share : unknown_focal_share;
}

} // namespace

double focal_px_of(double lens_35mm, int columns, int rows) {
  return lens_35mm * std::hypot(columns, rows) / std::hypot(36.0, 24.0);
}

std::optional<Lens> lens_of(const CameraView& view, double k1) {
  if (k1 == 0)
    return std::nullopt;
  return Lens{.centre = view.centre, .focal_px = view.focal_px, .k1 = k1};
}

Result<CardFit> fit_card(int columns, int rows, const ScaleStatement& said) {
  PRITCHEL_CHECK(check_corners(columns, rows, said));
  PRITCHEL_CHECK(check_numbers(said));
  const auto& layout = card(*card_paper(said.card_paper));
  const auto pairs = pairs_of(layout, said);
  const auto no_plane = fail("The card's corners",
                             "don't lie on one flat board",
                             "find the card again, or fix it to a stiff board");
  const auto view = camera_of(said.lens_35mm > 0 ? said.lens_35mm : usual_lens_35mm, columns, rows);
  const auto plane = fit_plane(pairs, view);
  if (!plane || !inverse(plane->to_picture))
    return no_plane;
  const auto middle = middle_of(pairs);
  const auto camera = said.camera_distance_mm > 0
                          ? by_tape(plane->to_picture, view, middle, said.camera_distance_mm)
                          : view;
  const auto pose = pose_of(plane->to_picture, camera, middle);
  const double stray_mm = plane->rms_px * pose.depth_mm / camera.focal_px;
  if (!(pose.distance_mm > 0) || !(stray_mm < absurd_stray_mm) ||
      !(pose.tilt_deg < greatest_tilt_deg))
    return no_plane;
  const auto straight = pritchel::apply(plane->to_picture, middle);
  const auto lens = lens_of(view, plane->k1);
  return CardFit{.layout = layout,
                 .middle = middle,
                 .middle_px = lens ? as_seen(*lens, straight) : straight,
                 .plane = *plane,
                 .lens_view = view,
                 .camera = camera,
                 .pose = pose,
                 .distance_share = share_of_distance(said)};
}

} // namespace pritchel::imaging
