/// Points and vectors that carry their frame in their type, so that mixing frames does not compile.
/// Knows no anatomy, file or picture.
#pragma once

#include <cmath>

namespace pritchel {

/// Pixels: x right, y down, centre of the top-left pixel at (0, 0), sub-pixel doubles.
struct ImageFrame {};

/// Millimetres (or, without a scale, square units of one pixel width): y up, x towards the toe in a
/// side view and towards lateral in a front view, whichever way the file is stored. Not turned to
/// the ground: see GroundLine.
struct PlaneFrame {};

/// A displacement within one frame. T is double or a Dual.
template <class Frame, class T = double> struct Vector {
  T x{};
  T y{};
};

/// A place within one frame.
template <class Frame, class T = double> struct Point {
  T x{};
  T y{};
};

using ImagePoint = Point<ImageFrame>;
using PlanePoint = Point<PlaneFrame>;
using PlaneVector = Vector<PlaneFrame>;

template <class F, class T>
[[nodiscard]] Vector<F, T> operator-(const Point<F, T>& a, const Point<F, T>& b) {
  return {a.x - b.x, a.y - b.y};
}
template <class F, class T>
[[nodiscard]] Point<F, T> operator+(const Point<F, T>& p, const Vector<F, T>& v) {
  return {p.x + v.x, p.y + v.y};
}
template <class F, class T>
[[nodiscard]] Point<F, T> operator-(const Point<F, T>& p, const Vector<F, T>& v) {
  return {p.x - v.x, p.y - v.y};
}
template <class F, class T>
[[nodiscard]] Vector<F, T> operator+(const Vector<F, T>& a, const Vector<F, T>& b) {
  return {a.x + b.x, a.y + b.y};
}
template <class F, class T>
[[nodiscard]] Vector<F, T> operator-(const Vector<F, T>& a, const Vector<F, T>& b) {
  return {a.x - b.x, a.y - b.y};
}
template <class F, class T> [[nodiscard]] Vector<F, T> operator-(const Vector<F, T>& v) {
  return {-v.x, -v.y};
}
template <class F, class T, class S>
[[nodiscard]] Vector<F, T> operator*(const Vector<F, T>& v, const S& s) {
  return {v.x * s, v.y * s};
}
template <class F, class T, class S>
[[nodiscard]] Vector<F, T> operator/(const Vector<F, T>& v, const S& s) {
  return {v.x / s, v.y / s};
}

template <class F, class T> [[nodiscard]] T dot(const Vector<F, T>& a, const Vector<F, T>& b) {
  return a.x * b.x + a.y * b.y;
}
/// ax*by - ay*bx: in the plane frame positive when b lies counter-clockwise of a.
template <class F, class T> [[nodiscard]] T cross(const Vector<F, T>& a, const Vector<F, T>& b) {
  return a.x * b.y - a.y * b.x;
}
template <class F, class T> [[nodiscard]] T length(const Vector<F, T>& v) {
  using std::sqrt;
  return sqrt(dot(v, v));
}
template <class F, class T> [[nodiscard]] T distance(const Point<F, T>& a, const Point<F, T>& b) {
  return length(a - b);
}
template <class F, class T>
[[nodiscard]] Point<F, T> midpoint(const Point<F, T>& a, const Point<F, T>& b) {
  return {(a.x + b.x) * 0.5, (a.y + b.y) * 0.5};
}
/// Same direction, length 1. The vector must not be zero.
template <class F, class T> [[nodiscard]] Vector<F, T> unit(const Vector<F, T>& v) {
  return v / length(v);
}
/// A quarter turn counter-clockwise in the plane frame (x, y) -> (-y, x).
template <class F, class T> [[nodiscard]] Vector<F, T> left_normal(const Vector<F, T>& v) {
  return {-v.y, v.x};
}

} // namespace pritchel
