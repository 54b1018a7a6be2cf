#include "geometry/angle.h"
#include "measure/check_work.h"

#include <fmt/core.h>

#include <cmath>

namespace pritchel::measure {
namespace {

/// Front-to-back distance of the marker on the dorsal wall from the one in the frog's groove:
/// typically 90-110 mm.
constexpr double between_markers_mm = 100;
constexpr double between_markers_unsure_mm = 7;

/// A beam of joint height opens the coffin joint's space: 30-50 mm, own estimate.
constexpr double joint_low_mm = 30;
constexpr double joint_high_mm = 50;

std::vector<std::string> joint_spaces(const CheckWork& work) {
  return work.touching({"dip-p2-medial", "dip-p2-lateral"});
}

Check not_checked(const CheckWork& work) {
  return {.id = "dp-rotation",
          .title = "Turned to the side",
          .fitness = Fitness::not_checked,
          .sentence = "View not checked: the markers in the middle of the dorsal wall and of the "
                      "frog's groove aren't placed.",
          .touches = work.all()};
}

Check rotation(const CheckWork& work) {
  const double apart = work.at("dorsal-mid-marker").x - work.at("frog-mid-marker").x;
  const auto angle = obliquity_deg(apart, between_markers_mm);
  const double placed =
      std::hypot(work.unsure_along("dorsal-mid-marker"), work.unsure_along("frog-mid-marker"));
  const double u =
      in_degrees(std::hypot(placed, apart * between_markers_unsure_mm / between_markers_mm) /
                 between_markers_mm);
  const double value = std::abs(angle.value_or(90));
  Check check{.id = "dp-rotation",
              .title = "Turned to the side",
              .fitness = graded(limit_of("dp-rotation"), value, u),
              .value = value,
              .uncertainty = u,
              .unit = "deg"};
  check.sentence =
      fmt::format("The beam is turned {:.1f} \u00b1 {:.1f}\u00b0 from the foot's own middle plane.",
                  value,
                  2 * u);
  if (check.fitness == Fitness::fit)
    return check;
  check.touches = check.fitness == Fitness::unfit ? joint_spaces(work) : work.all();
  check.clause = fmt::format("the beam is turned {:.0f}\u00b0 from the foot's middle plane", value);
  return check;
}

Check beam(const CheckWork& work) {
  const double gap = work.at("block-edge-far").y - work.at("block-edge-near").y;
  const double height = beam_height_mm(gap, usual_block_length_mm, work.source_to_foot().value);
  const double placed =
      std::hypot(work.unsure_up("block-edge-near"), work.unsure_up("block-edge-far"));
  const double u =
      std::hypot(beam_height_mm(placed, usual_block_length_mm, work.source_to_foot().value),
                 2 * block_size_unsure * height);
  Check check{.id = "dp-beam",
              .title = "Height of the beam",
              .value = height,
              .uncertainty = u,
              .unit = "mm"};
  check.sentence = fmt::format(
      "The central ray passes {:.0f} \u00b1 {:.0f} mm above the block's top", height, 2 * u);
  const bool for_sole = height + u > 0 && height - u <= limit_of("dp-beam").accept;
  const bool for_joint = height + u >= joint_low_mm && height - u <= joint_high_mm;
  if (for_sole && for_joint)
    check.sentence += ".";
  else if (for_joint)
    check.sentence += ": right for the joint space, too high for the borders of sole and bone.";
  else if (for_sole)
    check.sentence += ": right for the borders of sole and bone; the joint space may be closed.";
  else
    check.sentence += ": neither sole nor joint space compares with another visit.";
  if (!for_joint)
    check.touches = joint_spaces(work);
  if (!for_sole)
    for (const auto& each : work.touching({"p3-distal-border-medial",
                                           "p3-distal-border-lateral",
                                           "sole-medial",
                                           "sole-lateral"}))
      check.touches.push_back(each);
  check.fitness = check.touches.empty() ? Fitness::fit : Fitness::caution;
  return check;
}

} // namespace

void check_front_on(const CheckWork& work, std::vector<Check>& checks) {
  if (work.reading().view != View::dorsopalmar)
    return;
  const bool markers =
      work.reading().calibration.has_scale() && work.has({"dorsal-mid-marker", "frog-mid-marker"});
  checks.push_back(markers ? rotation(work) : not_checked(work));
  if (work.reading().calibration.has_scale() && work.has_ground() &&
      work.has({"block-edge-near", "block-edge-far"}))
    checks.push_back(beam(work));
}

} // namespace pritchel::measure
