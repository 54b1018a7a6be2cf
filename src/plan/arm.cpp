#include "plan/arm.h"

#include "geometry/angle.h"
#include "measure/sagittal.h"
#include "plan/change.h"
#include "plan/predict.h"

#include <algorithm>
#include <cmath>

namespace pritchel::plan {

double mid_stance_ratio(double joint_height_mm, double arm_mm, double turn_deg) {
  return (arm_mm - joint_height_mm * std::sin(from_degrees(turn_deg))) / arm_mm;
}

Arms arms_of(const measure::Placed<double>& before,
             const measure::Placed<double>& after,
             measure::Limb limb) {
  Arms arms;
  const auto toe_before = value_on(before, "cor-toe"), toe_after = value_on(after, "cor-toe");
  if (toe_before && toe_after && *toe_before > 0) {
    const double ratio = *toe_after / *toe_before;
    arms.breakover = ArmRatio{ratio, ratio, ratio};
  }
  if (measure::is_hind(limb)) {
    arms.no_mid_stance = "where the force passes was measured on fore feet only";
    return arms;
  }
  const auto joint = measure::sagittal::coffin_joint(after);
  const auto bearing = bearing_of(after);
  const auto then = value_on(before, "hoof-angle"), now = value_on(after, "hoof-angle");
  if (!joint || !bearing || !then || !now) {
    arms.no_mid_stance = "the coffin joint's centre or the hoof's angle isn't known";
    return arms;
  }
  const double turn = *now - *then;
  if (std::abs(turn) > most_arm_turn_deg) {
    arms.no_mid_stance = "the foot turns by more than 5\u00b0";
    return arms;
  }
  const double height = bearing->y(joint->centre);
  const auto at = [&](double arm) { return mid_stance_ratio(height, arm, turn); };
  const double shorter = at(assumed_arm_mm - assumed_arm_range_mm);
  const double longer = at(assumed_arm_mm + assumed_arm_range_mm);
  arms.mid_stance =
      ArmRatio{at(assumed_arm_mm), std::min(shorter, longer), std::max(shorter, longer)};
  return arms;
}

} // namespace pritchel::plan
