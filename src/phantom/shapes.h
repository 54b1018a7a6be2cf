/// Signed shapes (negative inside, millimetres near the surface) and how to join them, plus a
/// smooth curve through knots. Knows nothing of feet.
#pragma once

#include "phantom/vec3.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

namespace pritchel::phantom {

/// Union and intersection whose seam is rounded over about `k` mm; exact where the two differ by
/// more than k.
inline double joined(double a, double b, double k) {
  const double h = std::max(k - std::abs(a - b), 0.0) / k;
  return std::min(a, b) - h * h * k * 0.25;
}
inline double cut_to(double a, double b, double k) {
  return -joined(-a, -b, k);
}

/// 0 below `low`, 1 above `high`, smooth between.
inline double rise(double low, double high, double v) {
  const double t = std::clamp((v - low) / (high - low), 0.0, 1.0);
  return t * t * (3 - 2 * t);
}

inline double bell(double v, double width) {
  return std::exp(-(v / width) * (v / width));
}

/// Superellipse |u/a|^n + |v/b|^n = 1.
inline double superellipse(double u, double v, double a, double b, double n) {
  const double q = std::pow(std::abs(u) / a, n) + std::pow(std::abs(v) / b, n);
  return (std::pow(q, 1.0 / n) - 1.0) * std::min(a, b);
}

inline double ellipsoid(const Vec3& p, const Vec3& centre, const Vec3& radii) {
  const Vec3 d = p - centre;
  const Vec3 q{d.x / radii.x, d.y / radii.y, d.z / radii.z};
  return (length(q) - 1.0) * std::min({radii.x, radii.y, radii.z});
}

/// A rod with round ends from a to b.
inline double rod(const Vec3& p, const Vec3& a, const Vec3& b, double radius) {
  const Vec3 ab = b - a;
  const double t = std::clamp(dot(p - a, ab) / dot(ab, ab), 0.0, 1.0);
  return length(p - (a + t * ab)) - radius;
}

inline double box(const Vec3& p, const Vec3& low, const Vec3& high) {
  return std::max(
      {low.x - p.x, p.x - high.x, low.y - p.y, p.y - high.y, low.z - p.z, p.z - high.z});
}

/// A smooth curve through knots with rising abscissae that never overshoots between them (Fritsch
/// and Carlson 1980). Constant beyond the ends.
class Curve {
public:
  explicit Curve(std::vector<std::pair<double, double>> knots);
  [[nodiscard]] double at(double x) const;

private:
  std::vector<std::pair<double, double>> knots_;
  std::vector<double> slopes_;
};

/// Straight pieces between knots; constant beyond the ends. For profiles that carry landmarks.
class Polyline {
public:
  explicit Polyline(std::vector<std::pair<double, double>> knots)
      : knots_(std::move(knots)) {}
  [[nodiscard]] double at(double x) const;

private:
  std::vector<std::pair<double, double>> knots_;
};

} // namespace pritchel::phantom
