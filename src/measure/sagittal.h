/// Formulas of the lateromedial view. Plane frame, toe towards +x, y up; results in degrees, mm
/// or 1. Each is a template over the number type, so that Dual numbers give its uncertainty. Slopes
/// are the acute angle with the ground at the palmar side. Differences of slopes: positive means
/// the distal segment is steeper (flexed, broken forward). Definitions: docs/measurements.md.
#pragma once

#include "measure/formula.h"

#include <cmath>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace pritchel::measure::sagittal {

using formula::P;
using formula::plain;
using formula::slope;
using formula::solar_slope;
using formula::V;

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

template <class T>
[[nodiscard]] Attempt<Drawn<T>> wall_thickness(const Placed<T>& p, const P<T>& from) {
  const V<T> distally = unit(p["p3-dorsal-distal"] - p["p3-dorsal-proximal"]);
  const V<T> dorsally = left_normal(distally);
  const Line<T> wall{p["wall-dorsal-proximal"], p["wall-dorsal-distal"]};
  if (!meets(dorsally, wall))
    return because("the wall and the coffin bone are too far from parallel; check the landmarks");
  const T thickness = distance_along(from, dorsally, wall);
  auto drawn = formula::drawn_span(thickness, from, from + dorsally * thickness);
  drawn.construction.strokes.push_back(formula::extended(wall.a, wall.b, Tissue::hoof, 0.1, 0.1));
  drawn.construction.strokes.push_back(
      formula::extended(p["p3-dorsal-proximal"], p["p3-dorsal-distal"], Tissue::bone, 0.1, 0.1));
  return formula::positive(std::move(drawn));
}

} // namespace detail

template <class T> [[nodiscard]] Attempt<Drawn<T>> palmar_angle(const Placed<T>& p) {
  const auto ground = ground_of(p);
  const auto &palmar = p["p3-palmar-process"], &tip = p["p3-tip"];
  Drawn<T> drawn{solar_slope(palmar, tip, ground), {}};
  drawn.construction.strokes = {
      formula::extended(tip, palmar, Tissue::bone, 0.1, 0.15),
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
  drawn.construction.strokes = {formula::extended(tip, palmar, Tissue::bone, 0.1, 0.15)};
  if (own_plane)
    drawn.construction.strokes.push_back(
        formula::extended(p["foot-plane-heel"], p["foot-plane-toe"], Tissue::hoof, 0.1, 0.1));
  drawn.construction.label_at = plain(midpoint(palmar, tip));
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_dorsal_angle(const Placed<T>& p) {
  return formula::drawn_slope(
      p["p3-dorsal-distal"], p["p3-dorsal-proximal"], ground_of(p), Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_bone_angle(const Placed<T>& p) {
  const auto axes = picture_axes<T>();
  const auto &tip = p["p3-tip"], &palmar = p["p3-palmar-process"];
  const auto &distal = p["p3-dorsal-distal"], &proximal = p["p3-dorsal-proximal"];
  Drawn<T> drawn{wrapped_degrees(slope(distal, proximal, axes) - solar_slope(palmar, tip, axes)),
                 {}};
  drawn.construction.strokes = {formula::extended(tip, palmar, Tissue::bone, 0.1, 0.1),
                                formula::extended(distal, proximal, Tissue::bone, 0.3, 0.1)};
  drawn.construction.openings = {{plain(tip), plain(palmar - tip), plain(proximal - distal)}};
  drawn.construction.label_at = plain(tip);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> hoof_angle(const Placed<T>& p) {
  return formula::drawn_slope(
      p["wall-dorsal-distal"], p["wall-dorsal-proximal"], ground_of(p), Tissue::hoof);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> capsular_rotation(const Placed<T>& p) {
  return formula::drawn_deviation(p["p3-dorsal-distal"],
                                  p["p3-dorsal-proximal"],
                                  Tissue::bone,
                                  p["wall-dorsal-distal"],
                                  p["wall-dorsal-proximal"],
                                  Tissue::hoof);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> heel_angle(const Placed<T>& p) {
  return formula::drawn_slope(
      p["heel-wall-distal"], p["heel-wall-proximal"], ground_of(p), Tissue::hoof);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p1_angle(const Placed<T>& p) {
  return formula::drawn_slope(
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
      formula::drawn_slope(p2->coffin.centre, p2->pastern.centre, ground_of(p), Tissue::bone);
  formula::add_joint(drawn.construction, p2->coffin);
  formula::add_joint(drawn.construction, p2->pastern);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> pip_deviation(const Placed<T>& p) {
  const auto p2 = middle_phalanx(p);
  if (!p2)
    return because(p2.error());
  auto drawn = formula::drawn_deviation(p2->coffin.centre,
                                        p2->pastern.centre,
                                        Tissue::bone,
                                        p["p1-axis-distal"],
                                        p["p1-axis-proximal"],
                                        Tissue::bone);
  formula::add_joint(drawn.construction, p2->pastern);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_deviation(const Placed<T>& p) {
  const auto p2 = middle_phalanx(p);
  if (!p2)
    return because(p2.error());
  auto drawn = formula::drawn_deviation(p["p3-dorsal-distal"],
                                        p["p3-dorsal-proximal"],
                                        Tissue::bone,
                                        p2->coffin.centre,
                                        p2->pastern.centre,
                                        Tissue::bone);
  formula::add_joint(drawn.construction, p2->coffin);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> hpa_deviation(const Placed<T>& p) {
  return formula::drawn_deviation(p["p3-dorsal-distal"],
                                  p["p3-dorsal-proximal"],
                                  Tissue::bone,
                                  p["p1-axis-distal"],
                                  p["p1-axis-proximal"],
                                  Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> sole_depth_tip(const Placed<T>& p) {
  const Line<T> sole{p["sole-b"], p["sole-a"]};
  const auto foot = foot_of_perpendicular(sole, p["p3-tip"]);
  auto drawn = formula::drawn_span(distance_from(sole, p["p3-tip"]), p["p3-tip"], foot);
  drawn.construction.strokes.push_back(formula::extended(sole.a, sole.b, Tissue::hoof, 0.5, 0.5));
  drawn.construction.computed = {plain(foot)};
  return formula::positive(std::move(drawn));
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> sole_depth_palmar(const Placed<T>& p) {
  const auto ground = ground_of(p);
  const auto& process = p["p3-palmar-process"];
  const T depth = dot(process - p["sole-under-palmar"], ground.n);
  return formula::positive(formula::drawn_span(depth, process, process - ground.n * depth));
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> tip_ground_height(const Placed<T>& p) {
  const auto ground = ground_of(p);
  return formula::drawn_span(ground.height(p["p3-tip"]), p["p3-tip"], ground.below(p["p3-tip"]));
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_height(const Placed<T>& p) {
  const auto joint = coffin_joint(p);
  if (!joint)
    return because(joint.error());
  const auto ground = ground_of(p);
  auto drawn =
      formula::drawn_span(ground.height(joint->centre), joint->centre, ground.below(joint->centre));
  formula::add_joint(drawn.construction, *joint);
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
  auto drawn = formula::drawn_span(height, band, band - ground.n * height);
  const auto level = band - ground.n * height;
  drawn.construction.strokes.push_back(formula::extended(process, level, Tissue::ground, 0.3, 0.3));
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> toe_length(const Placed<T>& p) {
  return formula::drawn_span(
      distance(p["coronary-band"], p["wall-toe-ground"]), p["coronary-band"], p["wall-toe-ground"]);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> cor_toe(const Placed<T>& p) {
  const auto joint = coffin_joint(p);
  if (!joint)
    return because(joint.error());
  auto drawn = formula::drawn_along(joint->centre, p["breakover"], ground_of(p));
  formula::add_joint(drawn.construction, *joint);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> cor_heel(const Placed<T>& p) {
  const auto joint = coffin_joint(p);
  if (!joint)
    return because(joint.error());
  const auto heel = heel_end(p);
  if (!heel)
    return because(heel.error());
  auto drawn = formula::drawn_along(*heel, joint->centre, ground_of(p));
  formula::add_joint(drawn.construction, *joint);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> support_length(const Placed<T>& p) {
  const auto heel = heel_end(p);
  if (!heel)
    return because(heel.error());
  return formula::positive(formula::drawn_along(*heel, p["breakover"], ground_of(p)));
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
  return formula::drawn_along(p["p3-tip"], p["breakover"], ground_of(p));
}

/// Slope of the orthogonal least-squares line through the points on the solar border.
template <class T> [[nodiscard]] Attempt<Drawn<T>> palmar_angle_solar_line(const Placed<T>& p) {
  using std::atan2;
  const auto ground = ground_of(p);
  T sx{}, sy{}, sxx{}, sxy{}, syy{};
  double n = 0;
  PlanePoint first{}, last{};
  for (const char* id : {"p3-solar-1", "p3-solar-2", "p3-solar-3", "p3-solar-4", "p3-solar-5"}) {
    const T x = ground.along(p[id]), y = ground.height(p[id]);
    sx = sx + x, sy = sy + y;
    sxx = sxx + x * x, sxy = sxy + x * y, syy = syy + y * y;
    if (n == 0)
      first = plain(p[id]);
    last = plain(p[id]);
    n += 1;
  }
  const T cxx = sxx - sx * sx / n, cxy = sxy - sx * sy / n, cyy = syy - sy * sy / n;
  const T rise = in_degrees(atan2(cxy * 2.0, cxx - cyy)) * 0.5; // of the line, towards the toe
  Drawn<T> drawn{-rise, {}};
  drawn.construction.strokes = {{first, last, Tissue::bone}};
  drawn.construction.label_at = first;
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_joint_angle(const Placed<T>& p) {
  auto drawn = dip_deviation(p);
  if (drawn)
    drawn->value = 180.0 - drawn->value;
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> sole_depth_tip_vertical(const Placed<T>& p) {
  const auto ground = ground_of(p);
  const Line<T> sole{p["sole-b"], p["sole-a"]};
  const V<T> down = -ground.n;
  if (!meets(down, sole))
    return because("the sole's line stands upright; check its points");
  const T depth = distance_along(p["p3-tip"], down, sole);
  auto drawn = formula::drawn_span(depth, p["p3-tip"], p["p3-tip"] + down * depth);
  drawn.construction.strokes.push_back(formula::extended(sole.a, sole.b, Tissue::hoof, 0.5, 0.5));
  return formula::positive(std::move(drawn));
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_p3_ratio(const Placed<T>& p) {
  auto drawn = wall_thickness_mid(p);
  if (!drawn)
    return drawn;
  const auto &tip = p["p3-tip"], &end = p["p3-articular-palmar"];
  drawn->value = drawn->value / distance(tip, end);
  drawn->construction.strokes.push_back(formula::stroke(tip, end, Tissue::span));
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> cor_toe_capsule(const Placed<T>& p) {
  const auto joint = coffin_joint(p);
  if (!joint)
    return because(joint.error());
  auto drawn = formula::drawn_along(joint->centre, p["toe-most-dorsal"], ground_of(p));
  formula::add_joint(drawn.construction, *joint);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> toe_excess(const Placed<T>& p) {
  auto toe = cor_toe(p);
  if (!toe)
    return toe;
  const auto heel = cor_heel(p);
  if (!heel)
    return heel;
  toe->value = toe->value - heel->value;
  for (const auto& stroke : heel->construction.strokes)
    toe->construction.strokes.push_back(stroke);
  return toe;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> ddft_moment_arm(const Placed<T>& p) {
  const auto joint = coffin_joint(p);
  if (!joint)
    return because(joint.error());
  const Line<T> tendon{p["navicular-flexor-mid"], p["ddft-insertion"]};
  const T offset = distance_from(tendon, joint->centre);
  auto drawn = formula::drawn_span(
      offset < 0.0 ? -offset : offset, joint->centre, foot_of_perpendicular(tendon, joint->centre));
  drawn.construction.strokes.push_back(
      formula::extended(tendon.a, tendon.b, Tissue::bone, 0.5, 0.1));
  formula::add_joint(drawn.construction, *joint);
  return drawn;
}

} // namespace pritchel::measure::sagittal
