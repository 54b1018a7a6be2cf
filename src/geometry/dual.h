/// Forward-mode automatic differentiation: a value and its partial derivatives to N inputs.
/// A formula written once over its number type gives its value with double and its value and
/// gradient with Dual. First order only. Law: every operation obeys the chain rule; the tests
/// compare each with central differences and with the known derivative.
/// Source: Griewank and Walther, Evaluating Derivatives, 2nd ed. (2008), chapter 3 (from memory).
#pragma once

#include <array>
#include <cmath>

namespace pritchel {

template <int N> struct Dual {
  double value = 0;
  std::array<double, N> partial{};

  constexpr Dual() = default;
  // NOLINTNEXTLINE(google-explicit-constructor): a constant is a number whose derivatives are zero
  constexpr Dual(double constant)
      : value(constant) {}

  /// The i-th input itself: derivative 1 to input i, 0 to all others.
  [[nodiscard]] static constexpr Dual input(double at, int i) {
    Dual d(at);
    d.partial[static_cast<std::size_t>(i)] = 1;
    return d;
  }
};

namespace detail {
/// f(a) with derivative slope at a.
template <int N>
[[nodiscard]] constexpr Dual<N> chain(double value, double slope, const Dual<N>& a) {
  Dual<N> r(value);
  for (std::size_t i = 0; i < N; ++i)
    r.partial[i] = slope * a.partial[i];
  return r;
}
template <int N>
[[nodiscard]] constexpr Dual<N>
chain(double value, double slope_a, const Dual<N>& a, double slope_b, const Dual<N>& b) {
  Dual<N> r(value);
  for (std::size_t i = 0; i < N; ++i)
    r.partial[i] = slope_a * a.partial[i] + slope_b * b.partial[i];
  return r;
}
} // namespace detail

template <int N> constexpr Dual<N> operator+(const Dual<N>& a, const Dual<N>& b) {
  return detail::chain(a.value + b.value, 1.0, a, 1.0, b);
}
template <int N> constexpr Dual<N> operator-(const Dual<N>& a, const Dual<N>& b) {
  return detail::chain(a.value - b.value, 1.0, a, -1.0, b);
}
template <int N> constexpr Dual<N> operator*(const Dual<N>& a, const Dual<N>& b) {
  return detail::chain(a.value * b.value, b.value, a, a.value, b);
}
template <int N> constexpr Dual<N> operator/(const Dual<N>& a, const Dual<N>& b) {
  const double q = a.value / b.value;
  return detail::chain(q, 1 / b.value, a, -q / b.value, b);
}
template <int N> constexpr Dual<N> operator-(const Dual<N>& a) {
  return detail::chain(-a.value, -1.0, a);
}
template <int N> constexpr Dual<N> operator+(const Dual<N>& a, double b) {
  return detail::chain(a.value + b, 1.0, a);
}
template <int N> constexpr Dual<N> operator+(double a, const Dual<N>& b) {
  return b + a;
}
template <int N> constexpr Dual<N> operator-(const Dual<N>& a, double b) {
  return detail::chain(a.value - b, 1.0, a);
}
template <int N> constexpr Dual<N> operator-(double a, const Dual<N>& b) {
  return detail::chain(a - b.value, -1.0, b);
}
template <int N> constexpr Dual<N> operator*(const Dual<N>& a, double b) {
  return detail::chain(a.value * b, b, a);
}
template <int N> constexpr Dual<N> operator*(double a, const Dual<N>& b) {
  return b * a;
}
template <int N> constexpr Dual<N> operator/(const Dual<N>& a, double b) {
  return detail::chain(a.value / b, 1 / b, a);
}
template <int N> constexpr Dual<N> operator/(double a, const Dual<N>& b) {
  return Dual<N>(a) / b;
}

/// Comparisons look at the value alone: they choose the branch, as with double.
template <int N> constexpr bool operator<(const Dual<N>& a, const Dual<N>& b) {
  return a.value < b.value;
}
template <int N> constexpr bool operator>(const Dual<N>& a, const Dual<N>& b) {
  return a.value > b.value;
}
template <int N> constexpr bool operator<=(const Dual<N>& a, const Dual<N>& b) {
  return a.value <= b.value;
}
template <int N> constexpr bool operator>=(const Dual<N>& a, const Dual<N>& b) {
  return a.value >= b.value;
}
template <int N> constexpr bool operator<(const Dual<N>& a, double b) {
  return a.value < b;
}
template <int N> constexpr bool operator>(const Dual<N>& a, double b) {
  return a.value > b;
}
template <int N> constexpr bool operator<=(const Dual<N>& a, double b) {
  return a.value <= b;
}
template <int N> constexpr bool operator>=(const Dual<N>& a, double b) {
  return a.value >= b;
}

template <int N> Dual<N> sqrt(const Dual<N>& a) {
  const double root = std::sqrt(a.value);
  return detail::chain(root, 0.5 / root, a);
}
template <int N> Dual<N> sin(const Dual<N>& a) {
  return detail::chain(std::sin(a.value), std::cos(a.value), a);
}
template <int N> Dual<N> cos(const Dual<N>& a) {
  return detail::chain(std::cos(a.value), -std::sin(a.value), a);
}
template <int N> Dual<N> tan(const Dual<N>& a) {
  const double t = std::tan(a.value);
  return detail::chain(t, 1 + t * t, a);
}
template <int N> Dual<N> atan(const Dual<N>& a) {
  return detail::chain(std::atan(a.value), 1 / (1 + a.value * a.value), a);
}
template <int N> Dual<N> atan2(const Dual<N>& y, const Dual<N>& x) {
  const double square = x.value * x.value + y.value * y.value;
  return detail::chain(std::atan2(y.value, x.value), x.value / square, y, -y.value / square, x);
}
template <int N> Dual<N> abs(const Dual<N>& a) {
  return a.value < 0 ? -a : a;
}

/// The value without its derivatives, whatever the number type.
[[nodiscard]] inline double value_of(double a) {
  return a;
}
template <int N> [[nodiscard]] double value_of(const Dual<N>& a) {
  return a.value;
}

} // namespace pritchel
