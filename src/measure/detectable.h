/// The smallest difference between two readings that is more than placement and scale explain.
#pragma once

#include "measure/measure.h"

namespace pritchel::measure {

/// Two readings of the same foot differ by more than this in only 5 % of cases when nothing
/// changed: 1.96 * sqrt(2) * u, in the unit of u. The same number from repeats is called the
/// repeatability coefficient (Bland and Altman 1986).
[[nodiscard]] constexpr double smallest_detectable_change(double standard_uncertainty) {
  constexpr double two_readings_95 = 1.96 * 1.4142135623730951;
  return two_readings_95 * standard_uncertainty;
}

/// Of a measurement that is measurable. It holds for two pictures of the same stance: how the
/// horse stood and how the beam ran are not in it.
[[nodiscard]] inline double smallest_detectable_change(const Measurement& measurement) {
  return smallest_detectable_change(measurement.standard_uncertainty);
}

} // namespace pritchel::measure
