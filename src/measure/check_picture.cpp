#include "base/limits.h"
#include "geometry/angle.h"
#include "measure/check_work.h"
#include "measure/uncertainty.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace pritchel::measure {
namespace {

bool has_plumb(const CheckWork& work) {
  return work.has({"plumb-top", "plumb-bottom"});
}

/// Direction of the upright against the picture's own, degrees; by the plumb pair or the ground.
std::optional<double> turned(const Reading& reading) {
  const auto points = placed(reading);
  const auto [from, to] = ground_landmarks(reading.view);
  if (is_radiograph(reading.view) && !(points.has(from) && points.has(to)))
    return std::nullopt;
  const auto upright = upright_of(points);
  if (!upright)
    return std::nullopt;
  return in_degrees(std::atan2(upright->u.y, upright->u.x));
}

void check_turned(const CheckWork& work, std::vector<Check>& checks) {
  const auto angle = turned(work.reading());
  if (!angle)
    return;
  const bool film = is_radiograph(work.reading().view);
  const auto& limit = limit_of("ground-tilt");
  const double size = std::abs(*angle);
  Check check{.id = film ? "ground-tilt" : "camera-roll",
              .title = film ? "Ground level in the picture" : "Camera upright",
              .fitness = graded(limit, size, 0),
              .value = *angle,
              .unit = "deg"};
  check.sentence = fmt::format("The {} lies {:.1f}\u00b0 off {} in the picture",
                               has_plumb(work) && !film ? "plumb line" : "ground",
                               size,
                               has_plumb(work) && !film ? "upright" : "level");
  check.sentence += check.fitness == Fitness::fit ? "."
                    : film ? ". It is reckoned with; check the ground's two points."
                           : ". It is reckoned with; the camera was held askew.";
  if (check.fitness != Fitness::fit)
    check.touches = work.touching({ground_landmarks(work.reading().view).first});
  checks.push_back(check);
}

/// A ground line that isn't there, or is too short to carry an angle.
void check_ground(const CheckWork& work, std::vector<Check>& checks) {
  const auto [from, to] = ground_landmarks(work.reading().view);
  const auto touched = work.touching({from, to});
  if (touched.empty())
    return;
  Check check{.id = "ground-visible", .title = "Ground line", .sentence = "Both ends are placed."};
  if (!work.has(from) || !work.has(to)) {
    const bool one = work.has(from) || work.has(to);
    check.fitness = Fitness::unfit;
    check.clause = one ? "only one end of the ground is placed" : "the ground isn't placed";
    check.sentence = one ? "Only one end of the ground is placed." : "The ground isn't placed.";
  } else if (work.reading().calibration.has_scale()) {
    const double length = std::abs(work.at(to).x - work.at(from).x);
    check.value = length;
    check.unit = "mm";
    if (length < limits::shortest_ground_mm) {
      check.fitness = Fitness::unfit;
      check.clause = fmt::format("the ground's two points lie only {:.0f} mm apart", length);
      check.sentence = fmt::format("The ground's two points lie {:.0f} mm apart; before and behind "
                                   "the foot it takes {:.0f}.",
                                   length,
                                   limits::shortest_ground_mm);
    }
  }
  if (check.fitness != Fitness::fit)
    check.touches = touched;
  checks.push_back(check);
}

/// Photos may be read without a ground, by a plumb line.
void check_no_upright(const CheckWork& work, std::vector<Check>& checks) {
  const auto view = work.reading().view;
  const bool has_upright =
      view != View::sole && view != View::foot_above && view != View::limb_hanging;
  if (!has_upright || turned(work.reading()))
    return;
  checks.push_back({.id = "upright",
                    .title = "Upright",
                    .fitness = Fitness::caution,
                    .sentence =
                        "Neither a plumb line nor the ground is placed: nothing can be said "
                        "against upright or level.",
                    .touches = work.all()});
}

std::string origin_trouble(ScaleOrigin origin) {
  switch (origin) {
  case ScaleOrigin::none:
    return "The picture has no scale: angles and ratios only.";
  case ScaleOrigin::detector_only:
    return "The scale is the detector's alone: lengths read 5 to 15 % too long.";
  case ScaleOrigin::header_distances:
    return "The scale rests on the header's distances, which nobody confirmed.";
  case ScaleOrigin::card:
  case ScaleOrigin::marker:
  case ScaleOrigin::fiducial_spacing:
  case ScaleOrigin::measured_distances:
    break;
  }
  return {};
}

} // namespace

void check_upright(const CheckWork& work, std::vector<Check>& checks) {
  if (is_radiograph(work.reading().view))
    check_ground(work, checks);
  else
    check_no_upright(work, checks);
  check_turned(work, checks);
}

void check_scale(const CheckWork& work, std::vector<Check>& checks) {
  const auto& calibration = work.reading().calibration;
  const double unsure = 100 * calibration.relative_uncertainty;
  Check check{.id = "scale", .title = "Scale"};
  check.sentence = origin_trouble(calibration.origin);
  if (calibration.has_scale()) {
    check.value = unsure;
    check.unit = "%";
    if (check.sentence.empty() && unsure > limit_of("scale").accept)
      check.sentence = fmt::format("The scale is known to \u00b1 {:.1f} % only: a length of 100 mm "
                                   "may be {:.1f} mm wrong by it.",
                                   2 * unsure,
                                   2 * unsure);
    for (const auto& each : calibration.cautions)
      check.sentence += (check.sentence.empty() ? "" : " ") + each;
  }
  if (check.sentence.empty()) {
    check.sentence = fmt::format("The scale is known to \u00b1 {:.1f} %.", 2 * unsure);
  } else {
    check.fitness = calibration.has_scale() ? Fitness::caution : Fitness::unfit;
    check.touches = work.lengths();
    if (check.fitness == Fitness::unfit)
      check.clause = "the picture has no scale";
  }
  checks.push_back(check);
}

void check_edges(const CheckWork& work, std::vector<Check>& checks) {
  const auto& reading = work.reading();
  if (reading.columns <= 0 || reading.rows <= 0)
    return;
  const auto& c = reading.calibration;
  const double mm = c.has_scale() && !c.rectification ? c.pixel_width_mm : c.nominal_pixel_mm;
  const double margin = limit_of("cut-off").accept / mm;
  std::vector<std::string> at_edge, beyond;
  const auto ground = ground_landmarks(reading.view);
  for (const auto& each : reading.landmarks) {
    if (each.id == ground.first || each.id == ground.second)
      continue; // anywhere on its line is right
    const double inside = std::min(
        {each.at.x, each.at.y, reading.columns - 1 - each.at.x, reading.rows - 1 - each.at.y});
    if (inside < 0)
      beyond.push_back(each.id);
    else if (inside < margin)
      at_edge.push_back(each.id);
  }
  const auto& named = beyond.empty() ? at_edge : beyond;
  Check check{.id = "cut-off",
              .title = "Nothing cut off",
              .sentence = "Every landmark lies well inside the picture."};
  if (!named.empty()) {
    check.fitness = beyond.empty() ? Fitness::caution : Fitness::unfit;
    check.sentence = beyond.empty() ? "At the picture's very edge, where the foot may go on: "
                                    : "Placed beyond the picture's edge: ";
    for (std::size_t i = 0; i < named.size(); ++i)
      check.sentence += (i == 0 ? "" : ", ") + named[i];
    check.sentence += ".";
    for (const auto& id : named)
      for (const auto& touched : work.touching({id}))
        if (std::find(check.touches.begin(), check.touches.end(), touched) == check.touches.end())
          check.touches.push_back(touched);
    check.clause = "a landmark it needs lies beyond the picture's edge";
  }
  checks.push_back(check);
}

} // namespace pritchel::measure
