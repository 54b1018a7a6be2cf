/// Straight lines in the plane frame: distances to them, where they meet, and the ground line.
#pragma once

#include "geometry/dual.h"
#include "geometry/frames.h"

namespace pritchel {

/// The line through a and b, directed from a to b. a and b must differ.
template <class T> struct Line {
  Point<PlaneFrame, T> a;
  Point<PlaneFrame, T> b;
};

/// Signed distance of p from the line, mm: positive when p lies to the left of a->b, that is above
/// a line that runs towards the toe. Law: swapping a and b turns the sign.
template <class T>
[[nodiscard]] T distance_from(const Line<T>& line, const Point<PlaneFrame, T>& p) {
  const auto along = line.b - line.a;
  return cross(along, p - line.a) / length(along);
}

template <class T>
[[nodiscard]] Point<PlaneFrame, T> foot_of_perpendicular(const Line<T>& line,
                                                         const Point<PlaneFrame, T>& p) {
  const auto along = line.b - line.a;
  return line.a + along * (dot(p - line.a, along) / dot(along, along));
}

/// How far from p along `direction` (length 1) the line is met; negative when it lies behind p.
/// Not defined when the line runs along `direction`: the caller checks meets().
template <class T>
[[nodiscard]] T distance_along(const Point<PlaneFrame, T>& p,
                               const Vector<PlaneFrame, T>& direction,
                               const Line<T>& line) {
  const auto along = line.b - line.a;
  return cross(line.a - p, along) / cross(direction, along);
}

/// False when the line and the direction are within about a third of a degree of parallel.
template <class T>
[[nodiscard]] bool meets(const Vector<PlaneFrame, T>& direction, const Line<T>& line) {
  constexpr double least_sine = 0.005;
  const auto along = line.b - line.a;
  return std::abs(value_of(cross(direction, along))) >
         least_sine * value_of(length(direction)) * value_of(length(along));
}

/// The ground: where heights and slopes are taken from. `u` runs along the ground towards the toe
/// (side view) or lateral (front view), `n` is its normal, upwards; both have length 1.
template <class T> struct GroundLine {
  Point<PlaneFrame, T> origin;
  Vector<PlaneFrame, T> u;
  Vector<PlaneFrame, T> n;

  /// Height above the ground and place along it, mm.
  [[nodiscard]] T height(const Point<PlaneFrame, T>& p) const { return dot(p - origin, n); }
  [[nodiscard]] T along(const Point<PlaneFrame, T>& p) const { return dot(p - origin, u); }
  [[nodiscard]] Point<PlaneFrame, T> below(const Point<PlaneFrame, T>& p) const {
    return p - n * height(p);
  }
};

/// The ground through `from` and `to`, `u` running from the first to the second.
template <class T>
[[nodiscard]] GroundLine<T> ground_through(const Point<PlaneFrame, T>& from,
                                           const Point<PlaneFrame, T>& to) {
  const auto u = unit(to - from);
  return {from, u, left_normal(u)};
}

} // namespace pritchel
