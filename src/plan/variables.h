/// THE table of what a plan may change: one row for each number of a record::FootChange, in the
/// order of paper and page, with the steps a hand can keep.
#pragma once

#include "record/case.h"

#include <array>
#include <span>
#include <string>
#include <string_view>

namespace pritchel::plan {

struct Variable {
  std::string_view name;        ///< as in templates/rules and in the plan's file
  std::string_view placeholder; ///< as in a rule's words: "{toe}"
  std::string_view amount;      ///< for people, with {} for the number: "{} mm off the toe"
  double record::FootChange::*field;
  double
      step; ///< smallest amount that a hand keeps or a smith stocks (own estimate), mm or degrees
  double most; ///< where a search ends; every limit is tighter, so that a limit is named
};

[[nodiscard]] std::span<const Variable> variables();
[[nodiscard]] const Variable* variable(std::string_view name);

/// "2.5", "4": at most one decimal, none where it is a whole number.
[[nodiscard]] std::string amount_for_people(double amount);

/// "4 mm off the toe, nothing off the heels": what isn't zero, and the other end of a cut with it.
/// "none" when all is zero.
[[nodiscard]] std::string amounts_for_people(const record::FootChange& change);

} // namespace pritchel::plan
