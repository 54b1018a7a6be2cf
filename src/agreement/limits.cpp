#include "agreement/limits.h"

#include <cmath>

namespace pritchel::agreement {
namespace {

constexpr double limit_factor = 1.96;

} // namespace

std::optional<Limits> limits_of_agreement(std::span<const double> differences) {
  const auto n = static_cast<double>(differences.size());
  if (differences.size() < 2)
    return std::nullopt;
  double sum = 0;
  for (const double each : differences)
    sum += each;
  const double bias = sum / n;
  double squares = 0;
  for (const double each : differences)
    squares += (each - bias) * (each - bias);
  const double sd = std::sqrt(squares / (n - 1));
  if (!std::isfinite(sd))
    return std::nullopt;
  const double lower = bias - limit_factor * sd, upper = bias + limit_factor * sd;
  const double limit_error = sd * std::sqrt(3 / n);
  return Limits{.pairs = static_cast<int>(differences.size()),
                .bias = bias,
                .sd = sd,
                .lower = lower,
                .upper = upper,
                .bias_interval = student_interval(bias, sd / std::sqrt(n), n - 1),
                .lower_interval = student_interval(lower, limit_error, n - 1),
                .upper_interval = student_interval(upper, limit_error, n - 1)};
}

} // namespace pritchel::agreement
