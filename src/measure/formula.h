/// What formulas are made of: slopes, and the strokes that show how a number came about. Every
/// formula is a template over the number type, so that Dual numbers give its uncertainty.
#pragma once

#include "base/limits.h"
#include "geometry/angle.h"
#include "geometry/circle.h"
#include "measure/attempt.h"
#include "measure/placed.h"

#include <cmath>
#include <utility>

namespace pritchel::measure::formula {

template <class T> using P = Point<PlaneFrame, T>;
template <class T> using V = Vector<PlaneFrame, T>;

template <class T> [[nodiscard]] PlanePoint plain(const P<T>& p) {
  return {value_of(p.x), value_of(p.y)};
}
template <class T> [[nodiscard]] PlaneVector plain(const V<T>& v) {
  return {value_of(v.x), value_of(v.y)};
}

/// What is upright and level in a photo, from points far enough apart to say so (a scale is needed
/// to know how far).
template <class T> [[nodiscard]] Attempt<GroundLine<T>> level_of(const Placed<T>& p) {
  const auto [from, to] = ground_landmarks(p.view);
  const bool plumb = p.has("plumb-top") && p.has("plumb-bottom");
  if (p.has_scale && (plumb || (p.has(from) && p.has(to)))) {
    const T apart = plumb ? distance(p["plumb-top"], p["plumb-bottom"]) : distance(p[from], p[to]);
    if (!(apart >= limits::shortest_ground_mm))
      return because(plumb ? "the plumb line's two points lie too close together"
                           : "the ground's two points lie too close together");
  }
  return upright_of(p);
}

/// Angle at the palmar side of a line from `distal` up and back to `proximal`, degrees (-180, 180].
template <class T>
[[nodiscard]] T slope(const P<T>& distal, const P<T>& proximal, const GroundLine<T>& ground) {
  using std::atan2;
  return in_degrees(atan2(dot(proximal - distal, ground.n), dot(distal - proximal, ground.u)));
}

/// Angle of the line heel->toe pair against the ground, positive when its palmar end is higher.
template <class T>
[[nodiscard]] T solar_slope(const P<T>& palmar, const P<T>& tip, const GroundLine<T>& ground) {
  using std::atan2;
  return in_degrees(atan2(dot(palmar - tip, ground.n), dot(tip - palmar, ground.u)));
}

template <class T> [[nodiscard]] Stroke stroke(const P<T>& a, const P<T>& b, Tissue tissue) {
  return {plain(a), plain(b), tissue};
}

/// A line drawn beyond its ends by a share of its length, so that it reads as a line.
template <class T>
[[nodiscard]] Stroke
extended(const P<T>& a, const P<T>& b, Tissue tissue, double before, double after) {
  const PlanePoint from = plain(a), to = plain(b);
  const PlaneVector along = to - from;
  return {from - along * before, to + along * after, tissue};
}

/// A slope of the line distal-proximal drawn with its angle against the ground.
template <class T>
[[nodiscard]] Drawn<T>
drawn_slope(const P<T>& distal, const P<T>& proximal, const GroundLine<T>& ground, Tissue tissue) {
  const PlanePoint at = plain(distal);
  Drawn<T> drawn{slope(distal, proximal, ground), {}};
  drawn.construction.strokes = {extended(distal, proximal, tissue, 0.1, 0.1)};
  drawn.construction.openings = {{at, plain(V<T>{-ground.u}), plain(proximal - distal)}};
  drawn.construction.label_at = at;
  return drawn;
}

/// The difference of two slopes, distal segment less proximal one, with both lines drawn.
template <class T>
[[nodiscard]] Drawn<T> drawn_deviation(const P<T>& distal_a,
                                       const P<T>& distal_b,
                                       Tissue distal_tissue,
                                       const P<T>& proximal_a,
                                       const P<T>& proximal_b,
                                       Tissue proximal_tissue) {
  const auto axes = picture_axes<T>();
  Drawn<T> drawn{
      wrapped_degrees(slope(distal_a, distal_b, axes) - slope(proximal_a, proximal_b, axes)), {}};
  drawn.construction.strokes = {extended(distal_a, distal_b, distal_tissue, 0.1, 0.3),
                                extended(proximal_a, proximal_b, proximal_tissue, 0.3, 0.1)};
  drawn.construction.openings = {
      {plain(distal_b), plain(proximal_b - proximal_a), plain(distal_b - distal_a)}};
  drawn.construction.label_at = plain(distal_b);
  return drawn;
}

/// A height or depth from `from` to `to`, with a dimension line.
template <class T>
[[nodiscard]] Drawn<T> drawn_span(const T& value, const P<T>& from, const P<T>& to) {
  Drawn<T> drawn{value, {}};
  drawn.construction.strokes = {stroke(from, to, Tissue::span)};
  drawn.construction.label_at = plain(midpoint(from, to));
  return drawn;
}

/// A distance along the ground from `back` to `front`, dropped to the ground with plumb lines.
template <class T>
[[nodiscard]] Drawn<T>
drawn_along(const P<T>& back, const P<T>& front, const GroundLine<T>& ground) {
  const P<T> a = ground.below(back), b = ground.below(front);
  Drawn<T> drawn{ground.along(front) - ground.along(back), {}};
  drawn.construction.strokes = {stroke(a, b, Tissue::span),
                                stroke(back, a, Tissue::ground),
                                stroke(front, b, Tissue::ground)};
  drawn.construction.label_at = plain(midpoint(a, b));
  return drawn;
}

/// Adds the circle of a joint and its centre to a construction.
template <class T> void add_joint(Construction& construction, const Circle<T>& joint) {
  construction.rounds.push_back({plain(joint.centre), value_of(joint.radius), Tissue::bone});
  construction.computed.push_back(plain(joint.centre));
}

/// A depth or thickness at or below zero is a misplaced landmark, never a number.
template <class T> [[nodiscard]] Attempt<Drawn<T>> positive(Drawn<T> drawn) {
  if (!(drawn.value > 0.0))
    return because("it comes out at zero or less; check the landmarks");
  return drawn;
}

/// Tilt of the line medial->lateral against the ground, + lateral higher.
template <class T>
[[nodiscard]] T tilt(const P<T>& medial, const P<T>& lateral, const GroundLine<T>& ground) {
  using std::atan2;
  return in_degrees(atan2(dot(lateral - medial, ground.n), dot(lateral - medial, ground.u)));
}

template <class T>
[[nodiscard]] Drawn<T>
drawn_tilt(const P<T>& medial, const P<T>& lateral, const GroundLine<T>& ground, Tissue tissue) {
  Drawn<T> drawn{tilt(medial, lateral, ground), {}};
  const T span = distance(medial, lateral);
  drawn.construction.strokes = {extended(medial, lateral, tissue, 0.15, 0.15),
                                stroke(medial, medial + ground.u * span, Tissue::ground)};
  drawn.construction.openings = {{plain(medial), plain(ground.u), plain(lateral - medial)}};
  drawn.construction.label_at = plain(midpoint(medial, lateral));
  return drawn;
}

/// Lean of the axis distal->proximal from the ground's normal, + proximal end lateral.
template <class T>
[[nodiscard]] T lean(const P<T>& distal, const P<T>& proximal, const GroundLine<T>& ground) {
  using std::atan2;
  return in_degrees(atan2(dot(proximal - distal, ground.u), dot(proximal - distal, ground.n)));
}

template <class T>
[[nodiscard]] Drawn<T>
drawn_lean(const P<T>& distal, const P<T>& proximal, const GroundLine<T>& ground) {
  Drawn<T> drawn{lean(distal, proximal, ground), {}};
  drawn.construction.strokes = {extended(distal, proximal, Tissue::bone, 0.3, 0.3)};
  drawn.construction.openings = {{plain(distal), plain(ground.n), plain(proximal - distal)}};
  drawn.construction.label_at = plain(proximal);
  return drawn;
}

} // namespace pritchel::measure::formula
