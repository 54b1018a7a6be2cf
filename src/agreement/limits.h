/// Limits of agreement of two readers or two ways of measuring (Bland and Altman, Lancet 1986;
/// i:307-310). A correlation coefficient is no agreement and is nowhere in this floor.
#pragma once

#include <optional>
#include <span>

#include "agreement/quantile.h"

namespace pritchel::agreement {

/// Between `lower` and `upper` lie 95 % of differences (normal ones), as far as these pairs tell:
/// bias and limits each carry a 95 % interval of their own.
struct Limits {
  int pairs = 0;
  double bias = 0; ///< mean of first minus second
  double sd = 0;   ///< of the differences, n - 1
  double lower = 0;
  double upper = 0;
  Interval bias_interval;
  Interval lower_interval; ///< by the paper's standard error of a limit, sqrt(3 s^2 / n)
  Interval upper_interval;
};

/// From first minus second of each pair, in any unit. Nothing for fewer than two pairs or where a
/// number isn't finite.
[[nodiscard]] std::optional<Limits> limits_of_agreement(std::span<const double> differences);

} // namespace pritchel::agreement
