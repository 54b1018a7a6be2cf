#include "geometry/circle.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace pritchel {
namespace {

/// Kåsa's linear fit, a start only. Nothing when the points lie on one line.
std::optional<Circle<double>> linear_fit(std::span<const PlanePoint> points) {
  const auto n = static_cast<double>(points.size());
  double mean_x = 0, mean_y = 0;
  for (const auto& p : points) {
    mean_x += p.x / n;
    mean_y += p.y / n;
  }
  double xx = 0, xy = 0, yy = 0, xz = 0, yz = 0, z_mean = 0;
  for (const auto& p : points) {
    const double x = p.x - mean_x, y = p.y - mean_y, z = x * x + y * y;
    xx += x * x;
    xy += x * y;
    yy += y * y;
    xz += x * z;
    yz += y * z;
    z_mean += z / n;
  }
  const double determinant = xx * yy - xy * xy;
  if (determinant <= 1e-9 * (xx + yy) * (xx + yy))
    return std::nullopt;
  const double cx = 0.5 * (yy * xz - xy * yz) / determinant;
  const double cy = 0.5 * (xx * yz - xy * xz) / determinant;
  return Circle<double>{{mean_x + cx, mean_y + cy}, std::sqrt(cx * cx + cy * cy + z_mean)};
}

double sum_of_squares(const Circle<double>& circle, std::span<const PlanePoint> points) {
  double sum = 0;
  for (const auto& p : points) {
    const double residual = distance(p, circle.centre) - circle.radius;
    sum += residual * residual;
  }
  return sum;
}

/// Gauss-Newton step; unlike Newton's it points downhill even far from the minimum.
Circle<double> gauss_newton_step(const Circle<double>& at, std::span<const PlanePoint> points) {
  const auto n = static_cast<double>(points.size());
  double cc = 0, cs = 0, ss = 0, c_sum = 0, s_sum = 0, c_res = 0, s_res = 0, res = 0;
  for (const auto& p : points) {
    const double d = distance(p, at.centre);
    const double c = (p.x - at.centre.x) / d, s = (p.y - at.centre.y) / d;
    const double residual = d - at.radius;
    cc += c * c;
    cs += c * s;
    ss += s * s;
    c_sum += c;
    s_sum += s;
    c_res += c * residual;
    s_res += s * residual;
    res += residual;
  }
  const double axx = cc - c_sum * c_sum / n, axy = cs - c_sum * s_sum / n,
               ayy = ss - s_sum * s_sum / n;
  const double bx = c_res - c_sum * res / n, by = s_res - s_sum * res / n;
  const double determinant = axx * ayy - axy * axy;
  const double dx = (ayy * bx - axy * by) / determinant;
  const double dy = (axx * by - axy * bx) / determinant;
  return {{at.centre.x + dx, at.centre.y + dy}, at.radius + (res - c_sum * dx - s_sum * dy) / n};
}

} // namespace

std::optional<Circle<double>> fit_circle(std::span<const PlanePoint> points) {
  if (points.size() < 3)
    return std::nullopt;
  auto circle = linear_fit(points);
  if (!circle || !std::isfinite(circle->radius))
    return std::nullopt;
  if (points.size() == 3)
    return circle;
  constexpr int most_steps = 200;
  double cost = sum_of_squares(*circle, points);
  for (int i = 0; i < most_steps; ++i) {
    const Circle<double> next = gauss_newton_step(*circle, points);
    if (!std::isfinite(next.radius) || next.radius <= 0)
      return std::nullopt;
    const double moved = distance(next.centre, circle->centre);
    const double next_cost = sum_of_squares(next, points);
    circle = next;
    if (moved <= 1e-12 * next.radius && next_cost <= cost * (1 + 1e-12))
      return detail::newton_step<double>(*circle, points);
    cost = next_cost;
  }
  return std::nullopt;
}

double worst_residual(const Circle<double>& circle, std::span<const PlanePoint> points) {
  double worst = 0;
  for (const auto& p : points)
    worst = std::max(worst, std::abs(distance(p, circle.centre) - circle.radius));
  return worst;
}

double arc_spanned(const Circle<double>& circle, std::span<const PlanePoint> points) {
  std::vector<double> bearings;
  bearings.reserve(points.size());
  for (const auto& p : points)
    bearings.push_back(std::atan2(p.y - circle.centre.y, p.x - circle.centre.x));
  std::sort(bearings.begin(), bearings.end());
  constexpr double turn = 2 * std::numbers::pi;
  double widest_gap = bearings.front() + turn - bearings.back();
  for (std::size_t i = 1; i < bearings.size(); ++i)
    widest_gap = std::max(widest_gap, bearings[i] - bearings[i - 1]);
  return turn - widest_gap;
}

} // namespace pritchel
