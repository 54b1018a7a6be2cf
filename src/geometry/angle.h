/// The one place where degrees become radians. Inside formulas angles are radians; people see
/// degrees.
#pragma once

#include <cmath>
#include <numbers>

namespace pritchel {

inline constexpr double degrees_per_radian = 180.0 / std::numbers::pi;

template <class T> [[nodiscard]] T in_degrees(const T& radians) {
  return radians * degrees_per_radian;
}

template <class T> [[nodiscard]] T from_degrees(const T& degrees) {
  return degrees / degrees_per_radian;
}

/// The same angle in (-180, 180] degrees, for differences of slopes.
template <class T> [[nodiscard]] T wrapped_degrees(T degrees) {
  while (degrees > 180.0)
    degrees = degrees - 360.0;
  while (degrees <= -180.0)
    degrees = degrees + 360.0;
  return degrees;
}

} // namespace pritchel
