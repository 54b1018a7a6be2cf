/// Is the picture fit to measure on? One check each for how the beam passed the foot, how the foot
/// stood, what the scale rests on and what the picture's edge cuts off. Checks that need pixels
/// come with the reading (Reading.picture_checks). All limits stand in one table, check_limits().
#pragma once

#include "measure/check.h"
#include "measure/reading.h"

#include <initializer_list>
#include <span>
#include <string_view>
#include <vector>

namespace pritchel::measure {

/// A check is in order up to `accept`, asks for caution up to `refuse` and refuses beyond it; none
/// means it never does. Noise alone neither warns nor refuses: a standard uncertainty is granted
/// before caution, and a refusal needs the value beyond its limit by two of them.
struct CheckLimit {
  std::string_view check;
  double accept = 0;
  std::optional<double> refuse;
  std::string_view unit;
  std::string_view source; ///< key in docs/sources.md, or "own-estimate", "geometry"
  std::string_view reason; ///< what the limit protects from
};

[[nodiscard]] std::span<const CheckLimit> check_limits();

/// Every check of the reading's view, the picture's own last. A check whose landmarks aren't
/// placed is "not checked" where its view depends on it, and left out where it only adds.
/// `spreads`: how surely the check's own landmarks were placed.
[[nodiscard]] std::vector<Check> check_reading(const Reading& reading, const Spreads& spreads);

/// Ids of the measurements of the reading's picture that need one of these landmarks.
[[nodiscard]] std::vector<std::string>
measurements_needing(const Reading& reading, std::initializer_list<std::string_view> landmarks);

/// The first check that refuses the measurement, or null.
[[nodiscard]] const Check* refusing(const std::vector<Check>& checks, std::string_view measurement);

/// Ids of the checks that ask for caution with it or weren't made.
[[nodiscard]] std::vector<std::string> cautions_for(const std::vector<Check>& checks,
                                                    std::string_view measurement);

/// The gravest verdict among them; not_checked weighs between fit and caution. Fit when empty.
[[nodiscard]] Fitness worst_of(const std::vector<Check>& checks);

[[nodiscard]] const Check* find(const std::vector<Check>& checks, std::string_view id);

} // namespace pritchel::measure
