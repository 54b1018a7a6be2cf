/// Quantiles of the distributions by which intervals are made. Boost.Math does the work.
#pragma once

namespace pritchel::agreement {

/// A two-sided interval in the unit of what it belongs to.
struct Interval {
  double low = 0;
  double high = 0;
};

/// Every interval of this floor.
inline constexpr double interval_probability = 0.95;

/// `probability` lies strictly between 0 and 1; degrees of freedom are positive, not always whole.
[[nodiscard]] double student_t_quantile(double probability, double degrees);
[[nodiscard]] double f_quantile(double probability, double degrees_above, double degrees_below);

/// Value plus and minus Student's t for `interval_probability` times a standard error.
[[nodiscard]] Interval student_interval(double value, double standard_error, double degrees);

} // namespace pritchel::agreement
