/// Formulas of the lateromedial view. Plane frame, toe towards +x, y up; results in degrees, mm
/// or 1. Each is a template over the number type, so that Dual numbers give its uncertainty. Slopes
/// are the acute angle with the ground at the palmar side. Differences of slopes: positive means
/// the distal segment is steeper (flexed, broken forward). Definitions: docs/measurements.md.
#pragma once

#include "geometry/angle.h"
#include "geometry/circle.h"
#include "measure/attempt.h"
#include "measure/placed.h"

#include <cmath>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace pritchel::measure::sagittal {

template <class T> using P = Point<PlaneFrame, T>;
template <class T> using V = Vector<PlaneFrame, T>;

template <class T> [[nodiscard]] PlanePoint plain(const P<T>& p) {
  return {value_of(p.x), value_of(p.y)};
}
template <class T> [[nodiscard]] PlaneVector plain(const V<T>& v) {
  return {value_of(v.x), value_of(v.y)};
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

/// Centre and radius of a distal condyle from three to five points on its arc.
/// Refused: a radius outside 9-25 mm or a point more than 1 mm off the circle (adult horse, own
/// estimate); an arc under 80 degrees, because below it first order no longer gives the centre's
/// uncertainty (docs/accuracy.md). The condyle isn't a true circle: the centre is a convention.
template <class T>
[[nodiscard]] Attempt<Circle<T>> condyle_circle(const Placed<T>& placed, std::string_view bone) {
  std::vector<P<T>> points;
  for (const char* i : {"-1", "-2", "-3", "-4", "-5"})
    if (const std::string id = std::string(bone) + "-distal-condyle" + i; placed.has(id))
      points.push_back(placed[id]);
  const auto circle = fit_circle(std::span<const P<T>>(points));
  if (!circle)
    return because("the points on the condyle don't make a circle");
  std::vector<PlanePoint> plain_points;
  plain_points.reserve(points.size());
  for (const auto& p : points)
    plain_points.push_back(plain(p));
  const Circle<double> found{plain(circle->centre), value_of(circle->radius)};
  constexpr double least_arc_deg = 80, least_radius_mm = 9, most_radius_mm = 25, most_off_mm = 1;
  if (in_degrees(arc_spanned(found, plain_points)) < least_arc_deg)
    return because("the points on the condyle lie too close together; spread them along its arc");
  if (placed.has_scale && (found.radius < least_radius_mm || found.radius > most_radius_mm))
    return because("the circle on the condyle is no size a horse's can be; check its points");
  if (placed.has_scale && worst_residual(found, plain_points) > most_off_mm)
    return because("the points on the condyle don't lie on one circle; check them");
  return *circle;
}

template <class T> [[nodiscard]] Attempt<Circle<T>> coffin_joint(const Placed<T>& placed) {
  return condyle_circle(placed, "p2");
}
template <class T> [[nodiscard]] Attempt<Circle<T>> pastern_joint(const Placed<T>& placed) {
  return condyle_circle(placed, "p1");
}

/// Last bearing point at the heel: the hoof's own when bare, the shoe's when shod. The two are
/// different quantities, so a shod foot without the shoe's point is refused, not guessed.
template <class T> [[nodiscard]] Attempt<P<T>> heel_end(const Placed<T>& placed) {
  if (placed.shoeing == Shoeing::bare)
    return placed["heel-ground"];
  if (!placed.has("shoe-heel-end"))
    return because("a shod foot needs the point where the shoe's branch ends");
  return placed["shoe-heel-end"];
}

namespace detail {

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

template <class T>
[[nodiscard]] Attempt<Drawn<T>> wall_thickness(const Placed<T>& p, const P<T>& from) {
  const V<T> distally = unit(p["p3-dorsal-distal"] - p["p3-dorsal-proximal"]);
  const V<T> dorsally = left_normal(distally);
  const Line<T> wall{p["wall-dorsal-proximal"], p["wall-dorsal-distal"]};
  if (!meets(dorsally, wall))
    return because("the wall and the coffin bone are too far from parallel; check the landmarks");
  const T thickness = distance_along(from, dorsally, wall);
  auto drawn = drawn_span(thickness, from, from + dorsally * thickness);
  drawn.construction.strokes.push_back(extended(wall.a, wall.b, Tissue::hoof, 0.1, 0.1));
  drawn.construction.strokes.push_back(
      extended(p["p3-dorsal-proximal"], p["p3-dorsal-distal"], Tissue::bone, 0.1, 0.1));
  return positive(std::move(drawn));
}

} // namespace detail

template <class T> [[nodiscard]] Attempt<Drawn<T>> palmar_angle(const Placed<T>& p) {
  const auto ground = ground_of(p);
  const auto &palmar = p["p3-palmar-process"], &tip = p["p3-tip"];
  Drawn<T> drawn{solar_slope(palmar, tip, ground), {}};
  drawn.construction.strokes = {
      detail::extended(tip, palmar, Tissue::bone, 0.1, 0.15),
      {plain(tip), plain(tip - ground.u * T(distance(tip, palmar))), Tissue::ground}};
  drawn.construction.openings = {{plain(tip), plain(V<T>{-ground.u}), plain(palmar - tip)}};
  drawn.construction.label_at = plain(midpoint(palmar, tip));
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> palmar_angle_foot(const Placed<T>& p) {
  const bool own_plane = p.has("foot-plane-heel") && p.has("foot-plane-toe");
  if (!own_plane && p.shoeing == Shoeing::shod)
    return because("a shod foot needs the two points where hoof meets shoe");
  const auto plane =
      own_plane ? ground_through(p["foot-plane-heel"], p["foot-plane-toe"]) : ground_of(p);
  const auto &palmar = p["p3-palmar-process"], &tip = p["p3-tip"];
  Drawn<T> drawn{solar_slope(palmar, tip, plane), {}};
  drawn.construction.strokes = {detail::extended(tip, palmar, Tissue::bone, 0.1, 0.15)};
  if (own_plane)
    drawn.construction.strokes.push_back(
        detail::extended(p["foot-plane-heel"], p["foot-plane-toe"], Tissue::hoof, 0.1, 0.1));
  drawn.construction.label_at = plain(midpoint(palmar, tip));
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_dorsal_angle(const Placed<T>& p) {
  return detail::drawn_slope(
      p["p3-dorsal-distal"], p["p3-dorsal-proximal"], ground_of(p), Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_bone_angle(const Placed<T>& p) {
  const auto axes = picture_axes<T>();
  const auto &tip = p["p3-tip"], &palmar = p["p3-palmar-process"];
  const auto &distal = p["p3-dorsal-distal"], &proximal = p["p3-dorsal-proximal"];
  Drawn<T> drawn{wrapped_degrees(slope(distal, proximal, axes) - solar_slope(palmar, tip, axes)),
                 {}};
  drawn.construction.strokes = {detail::extended(tip, palmar, Tissue::bone, 0.1, 0.1),
                                detail::extended(distal, proximal, Tissue::bone, 0.3, 0.1)};
  drawn.construction.openings = {{plain(tip), plain(palmar - tip), plain(proximal - distal)}};
  drawn.construction.label_at = plain(tip);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> hoof_angle(const Placed<T>& p) {
  return detail::drawn_slope(
      p["wall-dorsal-distal"], p["wall-dorsal-proximal"], ground_of(p), Tissue::hoof);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> capsular_rotation(const Placed<T>& p) {
  return detail::drawn_deviation(p["p3-dorsal-distal"],
                                 p["p3-dorsal-proximal"],
                                 Tissue::bone,
                                 p["wall-dorsal-distal"],
                                 p["wall-dorsal-proximal"],
                                 Tissue::hoof);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> heel_angle(const Placed<T>& p) {
  return detail::drawn_slope(
      p["heel-wall-distal"], p["heel-wall-proximal"], ground_of(p), Tissue::hoof);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p1_angle(const Placed<T>& p) {
  return detail::drawn_slope(
      p["p1-axis-distal"], p["p1-axis-proximal"], ground_of(p), Tissue::bone);
}

/// The axis of P2 runs from the centre of the coffin joint to that of the pastern joint.
template <class T> struct MiddlePhalanx {
  Circle<T> coffin;
  Circle<T> pastern;
};

template <class T> [[nodiscard]] Attempt<MiddlePhalanx<T>> middle_phalanx(const Placed<T>& p) {
  auto coffin = coffin_joint(p);
  if (!coffin)
    return because(coffin.error());
  auto pastern = pastern_joint(p);
  if (!pastern)
    return because(pastern.error());
  return MiddlePhalanx<T>{std::move(*coffin), std::move(*pastern)};
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p2_angle(const Placed<T>& p) {
  const auto p2 = middle_phalanx(p);
  if (!p2)
    return because(p2.error());
  auto drawn =
      detail::drawn_slope(p2->coffin.centre, p2->pastern.centre, ground_of(p), Tissue::bone);
  detail::add_joint(drawn.construction, p2->coffin);
  detail::add_joint(drawn.construction, p2->pastern);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> pip_deviation(const Placed<T>& p) {
  const auto p2 = middle_phalanx(p);
  if (!p2)
    return because(p2.error());
  auto drawn = detail::drawn_deviation(p2->coffin.centre,
                                       p2->pastern.centre,
                                       Tissue::bone,
                                       p["p1-axis-distal"],
                                       p["p1-axis-proximal"],
                                       Tissue::bone);
  detail::add_joint(drawn.construction, p2->pastern);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_deviation(const Placed<T>& p) {
  const auto p2 = middle_phalanx(p);
  if (!p2)
    return because(p2.error());
  auto drawn = detail::drawn_deviation(p["p3-dorsal-distal"],
                                       p["p3-dorsal-proximal"],
                                       Tissue::bone,
                                       p2->coffin.centre,
                                       p2->pastern.centre,
                                       Tissue::bone);
  detail::add_joint(drawn.construction, p2->coffin);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> hpa_deviation(const Placed<T>& p) {
  return detail::drawn_deviation(p["p3-dorsal-distal"],
                                 p["p3-dorsal-proximal"],
                                 Tissue::bone,
                                 p["p1-axis-distal"],
                                 p["p1-axis-proximal"],
                                 Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> sole_depth_tip(const Placed<T>& p) {
  const Line<T> sole{p["sole-b"], p["sole-a"]};
  const auto foot = foot_of_perpendicular(sole, p["p3-tip"]);
  auto drawn = detail::drawn_span(distance_from(sole, p["p3-tip"]), p["p3-tip"], foot);
  drawn.construction.strokes.push_back(detail::extended(sole.a, sole.b, Tissue::hoof, 0.5, 0.5));
  drawn.construction.computed = {plain(foot)};
  return detail::positive(std::move(drawn));
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> sole_depth_palmar(const Placed<T>& p) {
  const auto ground = ground_of(p);
  const auto& process = p["p3-palmar-process"];
  const T depth = dot(process - p["sole-under-palmar"], ground.n);
  return detail::positive(detail::drawn_span(depth, process, process - ground.n * depth));
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> tip_ground_height(const Placed<T>& p) {
  const auto ground = ground_of(p);
  return detail::drawn_span(ground.height(p["p3-tip"]), p["p3-tip"], ground.below(p["p3-tip"]));
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_height(const Placed<T>& p) {
  const auto joint = coffin_joint(p);
  if (!joint)
    return because(joint.error());
  const auto ground = ground_of(p);
  auto drawn =
      detail::drawn_span(ground.height(joint->centre), joint->centre, ground.below(joint->centre));
  detail::add_joint(drawn.construction, *joint);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_thickness_proximal(const Placed<T>& p) {
  return detail::wall_thickness(p, p["p3-dorsal-proximal"]);
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_thickness_mid(const Placed<T>& p) {
  return detail::wall_thickness(p, midpoint(p["p3-dorsal-proximal"], p["p3-dorsal-distal"]));
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_thickness_distal(const Placed<T>& p) {
  return detail::wall_thickness(p, p["p3-dorsal-distal"]);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> coronary_extensor_distance(const Placed<T>& p) {
  const auto ground = ground_of(p);
  const auto &band = p["coronary-band"], &process = p["extensor-process"];
  const T height = dot(band - process, ground.n);
  auto drawn = detail::drawn_span(height, band, band - ground.n * height);
  const auto level = band - ground.n * height;
  drawn.construction.strokes.push_back(detail::extended(process, level, Tissue::ground, 0.3, 0.3));
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> toe_length(const Placed<T>& p) {
  return detail::drawn_span(
      distance(p["coronary-band"], p["wall-toe-ground"]), p["coronary-band"], p["wall-toe-ground"]);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> cor_toe(const Placed<T>& p) {
  const auto joint = coffin_joint(p);
  if (!joint)
    return because(joint.error());
  auto drawn = detail::drawn_along(joint->centre, p["breakover"], ground_of(p));
  detail::add_joint(drawn.construction, *joint);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> cor_heel(const Placed<T>& p) {
  const auto joint = coffin_joint(p);
  if (!joint)
    return because(joint.error());
  const auto heel = heel_end(p);
  if (!heel)
    return because(heel.error());
  auto drawn = detail::drawn_along(*heel, joint->centre, ground_of(p));
  detail::add_joint(drawn.construction, *joint);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> support_length(const Placed<T>& p) {
  const auto heel = heel_end(p);
  if (!heel)
    return because(heel.error());
  return detail::positive(detail::drawn_along(*heel, p["breakover"], ground_of(p)));
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> base_proportion(const Placed<T>& p) {
  const auto toe = cor_toe(p);
  if (!toe)
    return because(toe.error());
  const auto heel = cor_heel(p);
  if (!heel)
    return because(heel.error());
  const T whole = toe->value + heel->value;
  if (!(whole > 0.0))
    return because("breakover lies behind the heel; check the landmarks");
  Drawn<T> drawn{toe->value / whole, toe->construction};
  for (const auto& stroke : heel->construction.strokes)
    drawn.construction.strokes.push_back(stroke);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> breakover_distance(const Placed<T>& p) {
  return detail::drawn_along(p["p3-tip"], p["breakover"], ground_of(p));
}

} // namespace pritchel::measure::sagittal
