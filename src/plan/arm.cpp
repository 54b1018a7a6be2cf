#include "plan/arm.h"

#include "geometry/angle.h"
#include "plan/predict.h"

#include <algorithm>
#include <cmath>

namespace pritchel::plan {

double mid_stance_ratio(double arm_share, double turn_deg) {
  return 1 - std::sin(from_degrees(turn_deg)) / arm_share;
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
  const auto then = value_on(before, "hoof-angle"), now = value_on(after, "hoof-angle");
  if (!then || !now) {
    arms.no_mid_stance = "the hoof's angle isn't known";
    return arms;
  }
  const double turn = *now - *then;
  if (std::abs(turn) > most_arm_turn_deg) {
    arms.no_mid_stance = "the foot turns by more than 5\u00b0";
    return arms;
  }
  const double nearer = mid_stance_ratio(assumed_arm_share - assumed_arm_share_range, turn);
  const double farther = mid_stance_ratio(assumed_arm_share + assumed_arm_share_range, turn);
  arms.mid_stance = ArmRatio{mid_stance_ratio(assumed_arm_share, turn),
                             std::min(nearer, farther),
                             std::max(nearer, farther)};
  return arms;
}

} // namespace pritchel::plan
