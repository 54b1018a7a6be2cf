#include "geometry/angle.h"
#include "measure/check_work.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>

namespace pritchel::measure {
namespace {

std::vector<std::string> opened_or_bent_by_load(const CheckWork& work) {
  return work.among({"hpa-deviation",
                     "pip-deviation",
                     "dip-deviation",
                     "dip-joint-angle",
                     "dip-space-medial",
                     "dip-space-lateral",
                     "dip-space-ratio",
                     "dip-symmetry-index",
                     "dip-line-angle"});
}

std::vector<std::string> pastern_axis(const CheckWork& work) {
  return work.among({"hpa-deviation", "pip-deviation", "dip-deviation", "p1-angle", "p2-angle"});
}

std::optional<double> long_pastern_slope(const CheckWork& work) {
  if (work.reading().view != View::lateromedial || !work.has_ground() ||
      !work.has({"p1-axis-distal", "p1-axis-proximal"}))
    return std::nullopt;
  const auto up = work.at("p1-axis-proximal") - work.at("p1-axis-distal");
  return in_degrees(std::atan2(up.y, -up.x));
}

void check_weight(const CheckWork& work, std::vector<Check>& checks) {
  Check check{.id = "weight-bearing",
              .title = "Weight on the foot",
              .sentence = "The horse stands on the foot."};
  const auto slope = long_pastern_slope(work);
  if (slope) {
    check.value = *slope;
    check.unit = "deg";
  }
  if (work.reading().loading == Loading::not_loaded) {
    check.fitness = Fitness::unfit;
    check.sentence = "The horse doesn't stand on the foot in this picture.";
    check.clause = "the horse doesn't stand on the foot in this picture";
  } else if (slope && *slope > limit_of("weight-bearing").accept + 1) {
    check.fitness = Fitness::caution;
    check.sentence = fmt::format("The long pastern bone stands at {:.0f}\u00b0, steeper than under "
                                 "weight (45 to 60\u00b0): unloaded or knuckled?",
                                 *slope);
  } else if (work.reading().loading == Loading::not_stated) {
    check.fitness = Fitness::caution;
    check.sentence = "Nobody said whether the horse stands on the foot.";
  }
  if (check.fitness != Fitness::fit)
    check.touches = opened_or_bent_by_load(work);
  checks.push_back(check);
}

/// How far a bearing point lies off the ground line; `rolled` is what its definition allows above.
struct Bearing {
  double off = 0;
  double uncertainty = 0;
};
Bearing bearing(const CheckWork& work, std::string_view id, double rolled) {
  const double height = work.at(id).y;
  const double ground = std::max(work.unsure_up("ground-heel"), work.unsure_up("ground-toe"));
  return {std::max(height - rolled, -height), std::hypot(work.unsure_up(id), ground)};
}

void check_foot_flat(const CheckWork& work, std::vector<Check>& checks) {
  const bool shod = work.reading().shoeing == Shoeing::shod;
  const std::string_view heel = shod ? "shoe-heel-end" : "heel-ground";
  if (work.reading().view != View::lateromedial || !work.has_ground() ||
      !work.reading().calibration.has_scale() || !work.has({"breakover", heel}))
    return;
  constexpr double by_definition = 1; // breakover: where the toe has left the ground by 1 mm
  const Bearing toe = bearing(work, "breakover", by_definition), end = bearing(work, heel, 0);
  const auto& limit = limit_of("foot-flat");
  const auto toe_verdict = graded(limit, std::max(toe.off, 0.0), toe.uncertainty);
  const auto end_verdict = graded(limit, std::max(end.off, 0.0), end.uncertainty);
  const bool toe_is_worse = toe.off > end.off;
  const Bearing& worst = toe_is_worse ? toe : end;
  Check check{.id = "foot-flat",
              .title = "Flat on the ground",
              .fitness = worse(toe_verdict, end_verdict),
              .value = std::max(worst.off, 0.0),
              .uncertainty = worst.uncertainty,
              .unit = "mm"};
  if (check.fitness == Fitness::fit) {
    check.sentence = "Toe and heel bear on the ground line.";
  } else {
    check.sentence = fmt::format("The {} lies {:.1f} mm off the ground line.",
                                 toe_is_worse ? "breakover" : "heel's end",
                                 worst.off);
    check.touches = work.touching({"ground-heel", "ground-toe"});
    check.clause = fmt::format("the foot isn't flat on its ground line ({:.1f} mm off)", worst.off);
  }
  checks.push_back(check);
}

void check_cannon(const CheckWork& work, std::vector<Check>& checks) {
  if (!is_radiograph(work.reading().view) || !work.has_ground() ||
      !work.has({"mc3-axis-proximal", "mc3-axis-distal"}))
    return;
  const auto up = work.at("mc3-axis-proximal") - work.at("mc3-axis-distal");
  const double lean = in_degrees(std::atan2(up.x, up.y));
  const double u = in_degrees(
      std::hypot(work.unsure_along("mc3-axis-proximal"), work.unsure_along("mc3-axis-distal")) /
      length(up));
  Check check{.id = "cannon-vertical",
              .title = "Cannon bone upright",
              .fitness = graded(limit_of("cannon-vertical"), lean, u),
              .value = lean,
              .uncertainty = u,
              .unit = "deg"};
  check.sentence = fmt::format(
      "The cannon bone leans {:.0f} \u00b1 {:.0f}\u00b0 from upright.", std::abs(lean), 2 * u);
  if (check.fitness != Fitness::fit) {
    check.touches = pastern_axis(work);
    check.clause =
        fmt::format("the cannon bone leans {:.0f}\u00b0: the axis is posture then", std::abs(lean));
  }
  checks.push_back(check);
}

} // namespace

void check_stance(const CheckWork& work, std::vector<Check>& checks) {
  if (is_radiograph(work.reading().view))
    check_weight(work, checks);
  check_foot_flat(work, checks);
  check_cannon(work, checks);
}

} // namespace pritchel::measure
