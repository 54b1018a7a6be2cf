/// Circle through points: the geometric (orthogonal distance) least-squares fit.
/// Not the algebraic fits, which pull the circle towards short arcs.
/// Source: Gander, Golub and Strebel (1994), Least-squares fitting of circles and ellipses, BIT
/// 34:558-578.
#pragma once

#include "geometry/dual.h"
#include "geometry/frames.h"

#include <optional>
#include <span>
#include <vector>

namespace pritchel {

template <class T> struct Circle {
  Point<PlaneFrame, T> centre;
  T radius{};
};

/// The circle that minimises the sum of squared distances of the points from it, in double.
/// Exact for three points. Nothing for fewer than three points, points on one line or not
/// finite, or no convergence (centre running to infinity).
[[nodiscard]] std::optional<Circle<double>> fit_circle(std::span<const PlanePoint> points);

/// Largest distance of a point from the circle, mm.
[[nodiscard]] double worst_residual(const Circle<double>& circle,
                                    std::span<const PlanePoint> points);

/// Angle at the centre that the points span, radians (0, 2 pi): the largest gap between
/// neighbouring points taken from the full turn.
[[nodiscard]] double arc_spanned(const Circle<double>& circle, std::span<const PlanePoint> points);

namespace detail {
/// One Newton step from `at` on the sum of squared distances, with data of any number type. At the
/// minimum the step itself is zero and its derivatives are those of the minimum to the data
/// (implicit function theorem), so a Dual gets an exact gradient.
template <class T>
[[nodiscard]] Circle<T> newton_step(const Circle<double>& at,
                                    std::span<const Point<PlaneFrame, T>> points) {
  using std::sqrt;
  T gx{}, gy{}, gr{};
  T hxx{}, hxy{}, hyy{}, hxr{}, hyr{};
  for (const auto& p : points) {
    const T dx = p.x - at.centre.x;
    const T dy = p.y - at.centre.y;
    const T d = sqrt(dx * dx + dy * dy);
    const T c = dx / d, s = dy / d;
    const T residual = d - at.radius;
    gx = gx - residual * c;
    gy = gy - residual * s;
    gr = gr - residual;
    const T bend = residual / d;
    hxx = hxx + c * c + bend * s * s;
    hyy = hyy + s * s + bend * c * c;
    hxy = hxy + c * s - bend * c * s;
    hxr = hxr + c;
    hyr = hyr + s;
  }
  const auto n = static_cast<double>(points.size());
  // Eliminate the radius, then solve the 2x2 system for the centre.
  const T axx = hxx - hxr * hxr / n, axy = hxy - hxr * hyr / n, ayy = hyy - hyr * hyr / n;
  const T bx = gx - hxr * gr / n, by = gy - hyr * gr / n;
  const T determinant = axx * ayy - axy * axy;
  const T step_x = (ayy * bx - axy * by) / determinant;
  const T step_y = (axx * by - axy * bx) / determinant;
  const T step_r = (gr - hxr * step_x - hyr * step_y) / n;
  return {{at.centre.x - step_x, at.centre.y - step_y}, at.radius - step_r};
}
} // namespace detail

/// The same fit with derivatives to the points' coordinates. The overload's frame and unit are
/// those of the points.
template <class T>
[[nodiscard]] std::optional<Circle<T>> fit_circle(std::span<const Point<PlaneFrame, T>> points) {
  std::vector<PlanePoint> plain;
  plain.reserve(points.size());
  for (const auto& p : points)
    plain.push_back({value_of(p.x), value_of(p.y)});
  const auto found = fit_circle(std::span<const PlanePoint>(plain));
  if (!found)
    return std::nullopt;
  return detail::newton_step(*found, points);
}

} // namespace pritchel
