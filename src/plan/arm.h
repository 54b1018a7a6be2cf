/// Lever of the ground's force about the coffin joint, and how a change of the foot changes it. A
/// picture doesn't show where the force passes: half of this is an assumption, printed as one, and
/// only ratios are given. Never a load in newton, never a promise of soundness.
#pragma once

#include "measure/placed.h"

#include <optional>
#include <string>
#include <string_view>

namespace pritchel::plan {

/// In the middle of the stance the force passes in front of the joint's centre by this share of the
/// joint's height over the bearing plane (own estimate; the arm itself isn't on the picture, and
/// grows with the foot as the height does). Held to what is published as an effect a degree: 4 per
/// cent less force on the navicular bone (eliashar-2004, as others report it). Range either way:
/// 3 to 6 per cent.
inline constexpr double assumed_arm_share = 0.425;
inline constexpr double assumed_arm_share_range = 0.125;
/// Beyond this turn nothing is said, degrees.
inline constexpr double most_arm_turn_deg = 5;

/// Said beside the numbers, always.
inline constexpr std::string_view mid_stance_words =
    "Supposing that the ground's force keeps its place under the foot, and so far in front of the "
    "coffin joint that a degree takes 3 to 6\u202f% (4\u202f% is reported for the force on the "
    "navicular bone): direction likely, size uncertain. What the deep flexor is spared, the "
    "superficial flexor and the suspensory ligament may carry (Lawson 2007).";
inline constexpr std::string_view breakover_words =
    "The lever is shorter; a lower peak load was not shown (Eliashar 2002).";

/// After over before: 0.9 is a tenth less. `low` and `high`: over the assumed share's range.
struct ArmRatio {
  double ratio = 1;
  double low = 1;
  double high = 1;
};

/// The centre of pressure keeping its place in the base, a turn carries the joint over it:
/// (d - h sin(turn)) / d = 1 - sin(turn) / share, with the joint's height h and the arm d = share
/// h.
[[nodiscard]] double mid_stance_ratio(double arm_share, double turn_deg);

struct Arms {
  std::optional<ArmRatio> mid_stance; ///< fore feet only
  std::string no_mid_stance;          ///< why not
  std::optional<ArmRatio> breakover;  ///< cor-toe after over before: no assumption, no range
};

/// From a side view's landmarks before and after; what isn't measurable on them is left out.
[[nodiscard]] Arms arms_of(const measure::Placed<double>& before,
                           const measure::Placed<double>& after,
                           measure::Limb limb);

} // namespace pritchel::plan
