/// Whether a picture is fit to measure on: the verdict of one check. What is wrong, by how much,
/// and which measurements it touches.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::measure {

enum class Fitness {
  fit,
  caution,     ///< stands beside every touched number
  unfit,       ///< touched numbers are not shown
  not_checked, ///< what the check needs isn't there
};

/// "fit", "caution", "unfit", "not-checked"
[[nodiscard]] std::string_view key(Fitness fitness);
/// "fit to measure", "with caution", "not fit to measure", "not checked"
[[nodiscard]] std::string_view for_people(Fitness fitness);

struct Check {
  std::string id;
  std::string title;
  Fitness fitness = Fitness::fit;
  std::string sentence; ///< for people: what is wrong and by how much, or that it is in order
  std::string clause;   ///< completes "not measurable: ..."; set when unfit
  std::vector<std::string> touches;  ///< ids of measurements; empty when fit
  std::optional<double> value;       ///< of what is checked, in `unit`
  std::optional<double> uncertainty; ///< standard uncertainty of the value
  std::string unit;                  ///< "deg", "mm", "%"; empty without a value
};

} // namespace pritchel::measure
