/// The least change, on steps a hand can keep, that brings a measurement to a rule's aim or as near
/// as the limits allow. Internal to the plan floor.
/// Exact search, no tolerances to tune: the same answer on every machine.
#pragma once

#include "plan/limits.h"

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::plan {

struct Found {
  record::FootChange change;         ///< what was there before with what is added
  bool reached = false;              ///< the aim
  std::vector<const Limit*> held_by; ///< the limits that kept its variables from going on
  std::vector<std::string> locked;   ///< its variables that a rule holds at zero
};

/// Goes through the rule's variables in their order and raises each only as far as it helps; the
/// next one is used only when those before it fall short. Never takes back what `start` holds.
[[nodiscard]] Found search(const Foot& foot,
                           const practice::Rule& rule,
                           const record::FootChange& start,
                           const std::set<std::string, std::less<>>& locked);

/// An offset from the middle of the shoe's base (practice/rule.h): wider branches move it, and no
/// prediction, which is taken from the walls, shows that.
[[nodiscard]] bool is_against_base(std::string_view aim);

/// How far the rule's aim is missed on the changed foot, in the measurement's unit: 0 when it is
/// met. Nothing when it can't be told.
[[nodiscard]] std::optional<double>
missed_by(const Foot& foot, const practice::Rule& rule, const record::FootChange& change);

} // namespace pritchel::plan
