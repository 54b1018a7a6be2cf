/// Formulas that differ only in their landmarks, with the landmarks' ids as template arguments: the
/// rows of the tables in table_*.cpp name them. Frame and units as everywhere in this floor.
/// Side views: slopes are the acute angle with the level at the palmar side; offsets are positive
/// in front. Front views and sole: positive is lateral.
#pragma once

#include "measure/formula.h"

#include <algorithm>
#include <cstddef>
#include <string_view>

namespace pritchel::measure::generic {

using formula::P;
using formula::plain;

/// A landmark's id as a template argument.
template <std::size_t N> struct Id {
  char text[N]{};

  // NOLINTNEXTLINE(google-explicit-constructor): written as a plain literal
  consteval Id(const char (&literal)[N]) { std::copy_n(literal, N, text); }
  constexpr operator std::string_view() const { return {text, N - 1}; }
};

// ---- angles ----

/// Slope against the level.
template <class T, Tissue Kind, Id Distal, Id Proximal>
[[nodiscard]] Attempt<Drawn<T>> slope_of(const Placed<T>& p) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  return formula::drawn_slope(p[Distal], p[Proximal], *level, Kind);
}

/// Slope of the distal line less that of the proximal one; needs no level.
template <class T, Tissue KindA, Id DistalA, Id ProximalA, Tissue KindB, Id DistalB, Id ProximalB>
[[nodiscard]] Attempt<Drawn<T>> slope_difference(const Placed<T>& p) {
  return formula::drawn_deviation(p[DistalA], p[ProximalA], KindA, p[DistalB], p[ProximalB], KindB);
}

/// Slope of the first line over that of the second.
template <class T, Id DistalA, Id ProximalA, Id DistalB, Id ProximalB>
[[nodiscard]] Attempt<Drawn<T>> slope_ratio(const Placed<T>& p) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  auto drawn = formula::drawn_deviation(
      p[DistalA], p[ProximalA], Tissue::hoof, p[DistalB], p[ProximalB], Tissue::hoof);
  const T below = formula::slope(p[DistalB], p[ProximalB], *level);
  if (!(below > 0.0))
    return because("one of its lines lies below the level; check the landmarks");
  drawn.value = formula::slope(p[DistalA], p[ProximalA], *level) / below;
  return drawn;
}

/// Rise of the line from Behind to Ahead against the level, positive when Ahead is higher.
template <class T, Tissue Kind, Id Behind, Id Ahead>
[[nodiscard]] Attempt<Drawn<T>> rise_of(const Placed<T>& p) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  return formula::drawn_tilt(p[Behind], p[Ahead], *level, Kind);
}

enum class Facing { front, back };

/// Angle at Joint between the rays to Upper and Lower, 0 to 360 degrees, on the named side.
template <class T, Facing Side, Id Joint, Id Upper, Id Lower>
[[nodiscard]] Attempt<Drawn<T>> joint_angle(const Placed<T>& p) {
  using std::atan2;
  const auto up = p[Upper] - p[Joint], down = p[Lower] - p[Joint];
  const T turn = Side == Facing::front ? in_degrees(atan2(cross(down, up), dot(down, up)))
                                       : in_degrees(atan2(cross(up, down), dot(up, down)));
  Drawn<T> drawn{turn < 0.0 ? turn + 360.0 : turn, {}};
  drawn.construction.strokes = {formula::stroke(p[Joint], p[Upper], Tissue::bone),
                                formula::stroke(p[Joint], p[Lower], Tissue::bone)};
  drawn.construction.openings = {{plain(p[Joint]), plain(down), plain(up)}};
  drawn.construction.label_at = plain(p[Joint]);
  return drawn;
}

/// Lean of a segment from upright, + when its distal end lies in front (side) or lateral.
template <class T, Id Proximal, Id Distal>
[[nodiscard]] Attempt<Drawn<T>> distal_lean(const Placed<T>& p) {
  using std::atan2;
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  const auto down = p[Distal] - p[Proximal];
  Drawn<T> drawn{in_degrees(atan2(dot(down, level->u), -dot(down, level->n))), {}};
  drawn.construction.strokes = {
      formula::extended(p[Proximal], p[Distal], Tissue::bone, 0.1, 0.1),
      formula::stroke(p[Proximal], p[Proximal] - level->n * length(down), Tissue::ground)};
  drawn.construction.openings = {{plain(p[Proximal]), plain(-level->n), plain(down)}};
  drawn.construction.label_at = plain(midpoint(p[Proximal], p[Distal]));
  return drawn;
}

/// Lean of an axis from upright, + when its proximal end lies lateral.
template <class T, Id Distal, Id Proximal>
[[nodiscard]] Attempt<Drawn<T>> proximal_lean(const Placed<T>& p) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  return formula::drawn_lean(p[Distal], p[Proximal], *level);
}

/// How far the distal segment turns off the line of the proximal one, + when its lower end goes
/// lateral (front views) or in front (side views). Each segment runs from its upper to its lower
/// landmark; needs no level.
template <class T, Id UpperA, Id LowerA, Id UpperB, Id LowerB>
[[nodiscard]] Attempt<Drawn<T>> turn_between(const Placed<T>& p) {
  using std::atan2;
  const auto above = p[LowerA] - p[UpperA], below = p[LowerB] - p[UpperB];
  Drawn<T> drawn{in_degrees(atan2(cross(above, below), dot(above, below))), {}};
  drawn.construction.strokes = {formula::extended(p[UpperA], p[LowerA], Tissue::bone, 0.0, 0.4),
                                formula::stroke(p[UpperB], p[LowerB], Tissue::bone)};
  drawn.construction.openings = {{plain(p[UpperB]), plain(above), plain(below)}};
  drawn.construction.label_at = plain(p[UpperB]);
  return drawn;
}

// ---- lengths ----

template <class T, Id A, Id B> [[nodiscard]] Attempt<Drawn<T>> span_between(const Placed<T>& p) {
  return formula::positive(formula::drawn_span(distance(p[A], p[B]), p[A], p[B]));
}

template <class T, Id A, Id B, Id C, Id D>
[[nodiscard]] Attempt<Drawn<T>> span_ratio(const Placed<T>& p) {
  auto drawn = formula::drawn_span(distance(p[A], p[B]) / distance(p[C], p[D]), p[A], p[B]);
  drawn.construction.strokes.push_back(formula::stroke(p[C], p[D], Tissue::span));
  return drawn;
}

/// The ground pair must be placed for a height, whatever says what is upright.
template <class T> [[nodiscard]] Attempt<GroundLine<T>> ground_to_stand_on(const Placed<T>& p) {
  const auto [from, to] = ground_landmarks(p.view);
  if (!p.has(from) || !p.has(to))
    return because("the ground is not placed");
  return ground_of(p);
}

template <class T, Id Of> [[nodiscard]] Attempt<Drawn<T>> height_of(const Placed<T>& p) {
  const auto ground = ground_to_stand_on(p);
  if (!ground)
    return because(ground.error());
  return formula::positive(formula::drawn_span(ground->height(p[Of]), p[Of], ground->below(p[Of])));
}

template <class T, Id A, Id B> [[nodiscard]] Attempt<Drawn<T>> height_ratio(const Placed<T>& p) {
  auto above = height_of<T, A>(p);
  const auto below = height_of<T, B>(p);
  if (!above)
    return because(above.error());
  if (!below)
    return because(below.error());
  above->value = above->value / below->value;
  above->construction.strokes.push_back(below->construction.strokes.front());
  return above;
}

/// Height of one landmark over another along the upright.
template <class T, Id Upper, Id Lower>
[[nodiscard]] Attempt<Drawn<T>> height_difference(const Placed<T>& p) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  const T height = dot(p[Upper] - p[Lower], level->n);
  const auto foot = p[Upper] - level->n * height;
  auto drawn = formula::drawn_span(height, p[Upper], foot);
  drawn.construction.strokes.push_back(formula::stroke(p[Lower], foot, Tissue::ground));
  return drawn;
}

/// A depth: the same, refused at zero or less.
template <class T, Id Upper, Id Lower>
[[nodiscard]] Attempt<Drawn<T>> depth_between(const Placed<T>& p) {
  auto drawn = height_difference<T, Upper, Lower>(p);
  if (!drawn)
    return drawn;
  return formula::positive(std::move(*drawn));
}

/// From Behind forward to Ahead along the level, + when Ahead lies in front.
template <class T, Id Behind, Id Ahead>
[[nodiscard]] Attempt<Drawn<T>> along_between(const Placed<T>& p) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  return formula::drawn_along(p[Behind], p[Ahead], *level);
}

/// Where a landmark lies against the plumb line through another one: + in front of it or lateral.
template <class T>
[[nodiscard]] Attempt<Drawn<T>>
offset_from_plumb(const Placed<T>& p, const P<T>& from, const P<T>& at) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  const T offset = dot(at - from, level->u);
  const auto on_line = at - level->u * offset;
  auto drawn = formula::drawn_span(offset, on_line, at);
  drawn.construction.strokes.push_back(formula::stroke(from, on_line, Tissue::ground));
  return drawn;
}

template <class T, Id From, Id At>
[[nodiscard]] Attempt<Drawn<T>> plumb_offset(const Placed<T>& p) {
  return offset_from_plumb(p, p[From], p[At]);
}

/// The same in per cent of the limb's width at that level, which EdgeA and EdgeB give.
template <class T, Id From, Id At, Id EdgeA, Id EdgeB>
[[nodiscard]] Attempt<Drawn<T>> plumb_share(const Placed<T>& p) {
  auto drawn = offset_from_plumb(p, p[From], p[At]);
  if (!drawn)
    return drawn;
  drawn->value = drawn->value * 100.0 / distance(p[EdgeA], p[EdgeB]);
  drawn->construction.strokes.push_back(formula::stroke(p[EdgeA], p[EdgeB], Tissue::span));
  return drawn;
}

// ---- widths either side of a mid-line ----

/// Distance of `at` from the line Start->End, + to its right: lateral of a line that runs up (sole:
/// towards the toe), as lateral is +x.
template <class T> [[nodiscard]] T lateral_of(const P<T>& start, const P<T>& end, const P<T>& at) {
  return -distance_from(Line<T>{start, end}, at);
}

/// Width from the mid-line (Lower to Upper) to the edge, outwards; +1 lateral, -1 medial.
template <class T, int Outward, Id Lower, Id Upper, Id Edge>
[[nodiscard]] Attempt<Drawn<T>> half_width(const Placed<T>& p) {
  const T width = lateral_of(p[Lower], p[Upper], p[Edge]) * static_cast<double>(Outward);
  const auto foot = foot_of_perpendicular(Line<T>{p[Lower], p[Upper]}, p[Edge]);
  auto drawn = formula::drawn_span(width, p[Edge], foot);
  drawn.construction.strokes.push_back(
      formula::extended(p[Lower], p[Upper], Tissue::ground, 0.2, 0.2));
  return formula::positive(std::move(drawn));
}

/// 100 (L - M) / (L + M) of the half widths: + lateral side wider. Beyond 100 the mid-line passes
/// beside the foot: with a short axis carried far down that is a reading like any other, and to
/// refuse it would make the ones that are left look better than they are.
template <class T, Id Lower, Id Upper, Id Medial, Id Lateral>
[[nodiscard]] Attempt<Drawn<T>> width_index(const Placed<T>& p) {
  const T lateral = lateral_of(p[Lower], p[Upper], p[Lateral]);
  const T medial = -lateral_of(p[Lower], p[Upper], p[Medial]);
  if (!(lateral + medial > 0.0))
    return because("the lateral edge lies medial of the medial one; check the landmarks");
  const Line<T> middle{p[Lower], p[Upper]};
  auto drawn = formula::drawn_span((lateral - medial) * 100.0 / (lateral + medial),
                                   p[Lateral],
                                   foot_of_perpendicular(middle, p[Lateral]));
  drawn.construction.strokes.push_back(
      formula::stroke(p[Medial], foot_of_perpendicular(middle, p[Medial]), Tissue::span));
  drawn.construction.strokes.push_back(
      formula::extended(p[Lower], p[Upper], Tissue::ground, 0.2, 0.2));
  return drawn;
}

} // namespace pritchel::measure::generic
