/// When a rule fires: its conditions held against what is known of a foot. Internal to the plan
/// floor.
#pragma once

#include "plan/foot.h"

#include <string>
#include <vector>

namespace pritchel::plan {

enum class Holds {
  yes,
  no,
  unsure, ///< by its value, but not beyond its uncertainty
  unknown ///< a number is missing
};

/// "surely" needs the far end of the 95 % interval beyond the limit, "maybe" only the near end. A
/// number that isn't known never holds surely; a lock takes it for the worst case (Rule below).
[[nodiscard]] Holds holds(const practice::Condition& condition, const Quantity& quantity);

struct Firing {
  Holds holds = Holds::no;
  /// The conditions that kept it from a clear yes, in their order, for what to measure again.
  std::vector<const practice::Condition*> open;
};

/// All conditions together: no if any is no, else unknown, else unsure, else yes. In a lock an
/// unknown number makes a "maybe" hold.
/// `findings`: how many rules above this one have fired for the foot.
[[nodiscard]] Firing firing_of(const practice::Rule& rule, const Foot& foot, std::size_t findings);

/// The number a condition looks at.
[[nodiscard]] Quantity
looked_at(const practice::Condition& condition, const Foot& foot, std::size_t findings);

/// True when the rule looks at the case alone, so that it is said once and not for every foot.
[[nodiscard]] bool is_about_case(const practice::Rule& rule);

[[nodiscard]] bool applies_to(const practice::Rule& rule, measure::Limb limb);

} // namespace pritchel::plan
