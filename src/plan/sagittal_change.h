/// The side view's part of change.h; included by change.cpp and growth.cpp alone. Letters as in the
/// closed formulas of docs/plan.md: a, b trim at toe and heel, S span, k = (a - b) / S, p and q how
/// far the bearing points slide along the bearing line.
#pragma once

#include "measure/sagittal.h"
#include "plan/change.h"

#include <array>
#include <string>

namespace pritchel::plan::sagittal {

using measure::Attempt;
using measure::because;
using measure::Placed;
using measure::Shoeing;
using measure::sagittal::P;
using measure::sagittal::V;

template <class T> [[nodiscard]] V<T> turned(const V<T>& v, const T& cosine, const T& sine) {
  return {v.x * cosine - v.y * sine, v.x * sine + v.y * cosine};
}

template <class T> [[nodiscard]] P<T> turned_about(const P<T>& p, const P<T>& pivot, const T& by) {
  using std::cos;
  using std::sin;
  return pivot + turned(p - pivot, T(cos(by)), T(sin(by)));
}

template <class T> [[nodiscard]] std::string missing_landmark(const Placed<T>& placed) {
  for (const char* id :
       {"ground-heel", "ground-toe", "heel-ground", "wall-dorsal-distal", "wall-dorsal-proximal"})
    if (!placed.has(id))
      return id;
  return {};
}

/// Tangent of the acute angle that a line up a wall (unit) makes with the bearing line.
template <class T> [[nodiscard]] T steepness(const V<T>& up, const V<T>& u, const V<T>& n) {
  return dot(up, n) / -dot(up, u);
}

template <class T>
[[nodiscard]] T heel_steepness(const Placed<T>& placed, const Bearing<T>& bearing) {
  using std::atan;
  using std::tan;
  if (placed.has("heel-wall-distal") && placed.has("heel-wall-proximal"))
    return steepness(
        V<T>(placed["heel-wall-proximal"] - placed["heel-wall-distal"]), bearing.u, bearing.n);
  return tan(atan(bearing.wall_tangent) - from_degrees(assumed_heel_flatter_deg));
}

template <class T> [[nodiscard]] Attempt<Bearing<T>> bearing_of(const Placed<T>& placed) {
  using std::atan2;
  constexpr double least_span_mm = 60, least_tangent = 0.2;
  if (const auto missing = missing_landmark(placed); !missing.empty())
    return because("the landmark " + missing + " isn't placed");
  const bool shod = placed.shoeing == Shoeing::shod;
  if (shod && !(placed.has("foot-plane-heel") && placed.has("foot-plane-toe")))
    return because("the two points where hoof meets shoe aren't placed, so the shoe can't be told "
                   "from the foot");
  const auto ground = measure::ground_of(placed);
  const auto plane =
      shod ? ground_through(placed["foot-plane-heel"], placed["foot-plane-toe"]) : ground;
  Bearing<T> bearing{.u = plane.u, .n = plane.n};
  bearing.wall = unit(placed["wall-dorsal-proximal"] - placed["wall-dorsal-distal"]);
  if (dot(bearing.wall, plane.u) > -0.05)
    return because("the dorsal wall doesn't lean back; check its two points");
  const Line<T> line{plane.origin, plane.origin + plane.u};
  const auto& on_wall = placed["wall-dorsal-distal"];
  bearing.heel = plane.below(placed["heel-ground"]);
  bearing.toe = placed.has("wall-toe-ground")
                    ? plane.below(placed["wall-toe-ground"])
                    : on_wall + bearing.wall * distance_along(on_wall, bearing.wall, line);
  bearing.span = bearing.x(bearing.toe);
  bearing.wall_tangent = steepness(bearing.wall, plane.u, plane.n);
  bearing.heel_tangent = heel_steepness(placed, bearing);
  if (bearing.span < least_span_mm)
    return because("toe and heel bear less than 60 mm apart; check the landmarks");
  if (bearing.wall_tangent < least_tangent || bearing.heel_tangent < least_tangent)
    return because("a wall lies along the ground; check the landmarks");
  if (shod) {
    const Line<T> ground_line{ground.origin, ground.origin + ground.u};
    bearing.worn_wedge_deg = in_degrees(atan2(cross(plane.u, ground.u), dot(plane.u, ground.u)));
    bearing.worn_thickness = distance_along(bearing.toe, -plane.n, ground_line);
  }
  return bearing;
}

/// The foot after the knife and with the new ground under it.
template <class T> struct Trimmed {
  P<T> heel; ///< H'
  P<T> toe;  ///< T', dressed
  V<T> u;    ///< along the cut
  V<T> n;
  T turn{};             ///< d + change of the wedge, radians
  GroundLine<T> ground; ///< new
};

template <class T>
[[nodiscard]] Trimmed<T> trimmed(const Bearing<T>& b, const Amounts<T>& amounts) {
  using std::atan;
  using std::cos;
  using std::sin;
  using std::sqrt;
  const T k = (amounts.trim_toe - amounts.trim_heel) / b.span;
  const T p = amounts.trim_toe / (b.wall_tangent + k);
  const T q = amounts.trim_heel / (b.heel_tangent + k);
  Trimmed<T> foot;
  foot.u = unit(b.u + b.n * k);
  foot.n = left_normal(foot.u);
  foot.heel = b.heel - b.u * q + b.n * (amounts.trim_heel - k * q);
  const P<T> cut_toe = b.toe - b.u * p + b.n * (amounts.trim_toe - k * p);
  foot.toe = cut_toe - foot.u * (amounts.dress_toe / dot(b.wall, foot.n));
  const T wedge = from_degrees(T(b.worn_wedge_deg + amounts.wedge_deg));
  foot.turn = atan(k) + from_degrees(amounts.wedge_deg);
  const V<T> along = turned(foot.u, T(cos(wedge)), T(sin(wedge)));
  foot.ground = {foot.toe - foot.n * (b.worn_thickness + amounts.shoe_thickness + amounts.pad),
                 along,
                 left_normal(along)};
  return foot;
}

/// Puts a landmark as far along and above the new ground, seen from `now`, as it was from `then`.
template <class T>
[[nodiscard]] P<T> carried(const P<T>& landmark,
                           const P<T>& then,
                           const P<T>& now,
                           const GroundLine<T>& before,
                           const GroundLine<T>& ground,
                           const T& back) {
  const T ahead = before.along(landmark) - before.along(then) - back;
  return ground.below(now) + ground.u * ahead + ground.n * before.height(landmark);
}

template <class T> void move_ground(Placed<T>& moved, const Trimmed<T>& foot, const Bearing<T>& b) {
  for (const char* id : {"ground-heel", "ground-toe"})
    moved.put(id, foot.ground.below(moved[id]));
  moved.put("heel-ground", moved["heel-ground"] + (foot.heel - b.heel));
  if (moved.has("wall-toe-ground"))
    moved.put("wall-toe-ground", moved["wall-toe-ground"] + (foot.toe - b.toe));
}

template <class T>
void move_shoe(Placed<T>& moved,
               const Trimmed<T>& foot,
               const Bearing<T>& b,
               const GroundLine<T>& before,
               const Amounts<T>& amounts) {
  const bool was_shod = moved.shoeing == Shoeing::shod;
  if (moved.has("breakover"))
    moved.put(
        "breakover",
        carried(moved["breakover"], b.toe, foot.toe, before, foot.ground, amounts.breakover_back));
  const bool gets_shoe = value_of(amounts.shoe_thickness) != 0 || value_of(amounts.pad) != 0 ||
                         value_of(amounts.wedge_deg) != 0 ||
                         value_of(amounts.breakover_back) != 0 ||
                         value_of(amounts.branch_longer) != 0;
  if (!was_shod && !gets_shoe)
    return;
  if (was_shod && moved.has("shoe-heel-end"))
    moved.put(
        "shoe-heel-end",
        carried(
            moved["shoe-heel-end"], b.heel, foot.heel, before, foot.ground, amounts.branch_longer));
  else
    moved.put("shoe-heel-end",
              foot.ground.below(foot.heel) - foot.ground.u * amounts.branch_longer);
  const GroundLine<T> plane{foot.heel, foot.u, foot.n};
  moved.put("foot-plane-heel", was_shod ? plane.below(moved["foot-plane-heel"]) : foot.heel);
  moved.put("foot-plane-toe", was_shod ? plane.below(moved["foot-plane-toe"]) : foot.toe);
  moved.shoeing = Shoeing::shod;
}

template <class T> void cut_sole(Placed<T>& moved, const Bearing<T>& b, const Amounts<T>& amounts) {
  if (value_of(amounts.trim_toe) == 0 && value_of(amounts.trim_heel) == 0)
    return;
  for (const char* id : {"sole-a", "sole-b", "sole-under-palmar"})
    if (moved.has(id))
      if (const T height = cut_height(b, amounts, b.x(moved[id])); height > b.y(moved[id]))
        moved.put(id, b.heel + b.u * b.x(moved[id]) + b.n * height);
}

[[nodiscard]] inline bool is_on(const std::string& landmark, std::string_view bone) {
  return landmark.compare(0, bone.size(), bone) == 0;
}

/// P2 turns about the coffin joint, P1 about the pastern joint. Where a joint's centre isn't known,
/// P1 turns about its own distal point: its angle is right, its place is not.
template <class T> void turn_pasterns(Placed<T>& moved, const T& turn, const JointShares& shares) {
  const auto coffin = measure::sagittal::coffin_joint(moved);
  const auto pastern = measure::sagittal::pastern_joint(moved);
  const T p2_turn = turn * shares.coffin;
  const T p1_turn = turn * (shares.coffin + shares.pastern);
  const bool hinged = coffin && pastern;
  if (!hinged && !moved.has("p1-axis-distal"))
    return;
  const P<T> from = hinged ? pastern->centre : moved["p1-axis-distal"];
  const P<T> to = hinged ? turned_about(pastern->centre, coffin->centre, p2_turn) : from;
  for (auto& [id, at] : moved.points()) {
    if (is_on(id, "p1-"))
      at = to + (turned_about(at, from, p1_turn) - from);
    else if (coffin && is_on(id, "p2-"))
      at = turned_about(at, coffin->centre, p2_turn);
  }
}

template <class T>
[[nodiscard]] Attempt<Placed<T>>
after(const Placed<T>& placed, const Amounts<T>& amounts, const JointShares& shares) {
  if (!placed.has_scale)
    return because("the picture has no scale");
  const auto bearing = bearing_of(placed);
  if (!bearing)
    return because(bearing.error());
  const auto foot = trimmed(*bearing, amounts);
  const auto before = measure::ground_of(placed);
  Placed<T> moved = placed;
  move_ground(moved, foot, *bearing);
  move_shoe(moved, foot, *bearing, before, amounts);
  cut_sole(moved, *bearing, amounts);
  turn_pasterns(moved, foot.turn, shares);
  return moved;
}

} // namespace pritchel::plan::sagittal
