/// Formulas of the dorsopalmar view. Plane frame, lateral towards +x, y up; degrees, mm, 1 or %.
/// Positive means the lateral side is wider, longer or higher; for an axis, that its proximal end
/// leans lateral. Definitions: docs/measurements.md.
#pragma once

#include "measure/formula.h"

#include <cmath>
#include <string>
#include <string_view>
#include <utility>

namespace pritchel::measure::frontal {

using formula::P;
using formula::plain;
using formula::V;

namespace detail {

/// The edges of a joint by the stems of their landmarks.
struct Joint {
  std::string upper;
  std::string lower;
};
inline const Joint coffin{"dip-p2-", "dip-p3-"};
inline const Joint pastern{"pip-p1-", "pip-p2-"};

/// Joint space on one side: the upper edge over the lower one, along the normal of the lower line.
template <class T>
[[nodiscard]] Attempt<Drawn<T>>
joint_space(const Placed<T>& p, const Joint& joint, std::string_view side) {
  const auto line = unit(p[joint.lower + "lateral"] - p[joint.lower + "medial"]);
  const auto& upper = p[joint.upper + std::string(side)];
  const auto& lower = p[joint.lower + std::string(side)];
  const T width = dot(upper - lower, left_normal(line));
  return formula::positive(formula::drawn_span(width, upper, upper - left_normal(line) * width));
}

template <class T> struct JointSpaces {
  Drawn<T> medial;
  Drawn<T> lateral;
};

template <class T>
[[nodiscard]] Attempt<JointSpaces<T>> joint_spaces(const Placed<T>& p, const Joint& joint) {
  auto medial = joint_space(p, joint, "medial");
  if (!medial)
    return because("on the medial side " + medial.error());
  auto lateral = joint_space(p, joint, "lateral");
  if (!lateral)
    return because("on the lateral side " + lateral.error());
  return JointSpaces<T>{std::move(*medial), std::move(*lateral)};
}

template <class T>
[[nodiscard]] Construction
both_drawn(const JointSpaces<T>& spaces, const Placed<T>& p, const Joint& joint) {
  const auto &medial = p[joint.lower + "medial"], &lateral = p[joint.lower + "lateral"];
  Construction construction = spaces.medial.construction;
  for (const auto& each : spaces.lateral.construction.strokes)
    construction.strokes.push_back(each);
  construction.strokes.push_back(formula::extended(medial, lateral, Tissue::bone, 0.1, 0.1));
  construction.label_at = plain(midpoint(medial, lateral));
  return construction;
}

template <class T>
[[nodiscard]] Attempt<Drawn<T>> symmetry_index(const Placed<T>& p, const Joint& joint) {
  const auto spaces = joint_spaces(p, joint);
  if (!spaces)
    return because(spaces.error());
  const T &lateral = spaces->lateral.value, &medial = spaces->medial.value;
  return Drawn<T>{(lateral - medial) * 200.0 / (lateral + medial), both_drawn(*spaces, p, joint)};
}

/// From P3's abaxial point out to the wall along the ground. `outward`: +1 lateral, -1 medial.
template <class T>
[[nodiscard]] Attempt<Drawn<T>> p3_wall(const Placed<T>& p, std::string_view side, double outward) {
  const auto out = ground_of(p).u * outward;
  const auto& bone = p["p3-abaxial-" + std::string(side)];
  const Line<T> wall{p["wall-ground-" + std::string(side)],
                     p["wall-proximal-" + std::string(side)]};
  if (!meets(out, wall))
    return because("the wall runs along the ground; check its points");
  const T gap = distance_along(bone, out, wall);
  auto drawn = formula::drawn_span(gap, bone, bone + out * gap);
  drawn.construction.strokes.push_back(formula::extended(wall.a, wall.b, Tissue::hoof, 0.1, 0.1));
  return formula::positive(std::move(drawn));
}

template <class T> [[nodiscard]] Drawn<T> wall_length(const Placed<T>& p, std::string_view side) {
  const auto& top = p["coronet-" + std::string(side)];
  const auto& bottom = p["wall-ground-" + std::string(side)];
  return formula::drawn_span(distance(top, bottom), top, bottom);
}

/// Interior angle of the wall with the ground, inside the foot. `outward` is +1 lateral, -1 medial.
template <class T>
[[nodiscard]] Drawn<T> wall_angle(const Placed<T>& p, std::string_view side, double outward) {
  using std::atan2;
  const auto ground = ground_of(p);
  const auto& top = p["wall-proximal-" + std::string(side)];
  const auto& bottom = p["wall-ground-" + std::string(side)];
  const auto up = top - bottom;
  Drawn<T> drawn{in_degrees(atan2(dot(up, ground.n), dot(up, ground.u) * -outward)), {}};
  drawn.construction.strokes = {formula::extended(bottom, top, Tissue::hoof, 0.1, 0.1)};
  drawn.construction.openings = {{plain(bottom), plain(ground.u * -outward), plain(up)}};
  drawn.construction.label_at = plain(bottom);
  return drawn;
}

/// Where the prolonged axis of P2 meets the ground.
template <class T> [[nodiscard]] Attempt<P<T>> axis_on_ground(const Placed<T>& p) {
  const auto ground = ground_of(p);
  const auto down = unit(p["p2-axis-distal"] - p["p2-axis-proximal"]);
  const Line<T> line{ground.origin, ground.origin + ground.u};
  if (!meets(down, line))
    return because("the axis of the short pastern bone runs along the ground; check its points");
  return p["p2-axis-distal"] + down * distance_along(p["p2-axis-distal"], down, line);
}

template <class T>
[[nodiscard]] Attempt<Drawn<T>>
axis_to_wall(const Placed<T>& p, std::string_view side, double outward) {
  const auto axis = axis_on_ground(p);
  if (!axis)
    return because(axis.error());
  const auto& wall = p["wall-ground-" + std::string(side)];
  auto drawn = formula::drawn_along(*axis, wall, ground_of(p));
  drawn.value = drawn.value * outward;
  drawn.construction.strokes.push_back(formula::stroke(p["p2-axis-proximal"], *axis, Tissue::bone));
  drawn.construction.computed = {plain(*axis)};
  return drawn;
}

} // namespace detail

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_space_medial(const Placed<T>& p) {
  return detail::joint_space(p, detail::coffin, "medial");
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_space_lateral(const Placed<T>& p) {
  return detail::joint_space(p, detail::coffin, "lateral");
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_space_ratio(const Placed<T>& p) {
  const auto spaces = detail::joint_spaces(p, detail::coffin);
  if (!spaces)
    return because(spaces.error());
  return Drawn<T>{spaces->lateral.value / spaces->medial.value,
                  detail::both_drawn(*spaces, p, detail::coffin)};
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_symmetry_index(const Placed<T>& p) {
  return detail::symmetry_index(p, detail::coffin);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> pip_space_medial(const Placed<T>& p) {
  return detail::joint_space(p, detail::pastern, "medial");
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> pip_space_lateral(const Placed<T>& p) {
  return detail::joint_space(p, detail::pastern, "lateral");
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> pip_symmetry_index(const Placed<T>& p) {
  return detail::symmetry_index(p, detail::pastern);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_wall_medial(const Placed<T>& p) {
  return detail::p3_wall(p, "medial", -1.0);
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_wall_lateral(const Placed<T>& p) {
  return detail::p3_wall(p, "lateral", 1.0);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_line_angle(const Placed<T>& p) {
  return formula::drawn_tilt(midpoint(p["dip-p2-medial"], p["dip-p3-medial"]),
                             midpoint(p["dip-p2-lateral"], p["dip-p3-lateral"]),
                             ground_of(p),
                             Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_ml_tilt(const Placed<T>& p) {
  return formula::drawn_tilt(
      p["p3-distal-border-medial"], p["p3-distal-border-lateral"], ground_of(p), Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_ml_tilt_articular(const Placed<T>& p) {
  return formula::drawn_tilt(
      p["p3-articular-medial"], p["p3-articular-lateral"], ground_of(p), Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p2_axis_ml_angle(const Placed<T>& p) {
  return formula::drawn_lean(p["p2-axis-distal"], p["p2-axis-proximal"], ground_of(p));
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_ml_deviation(const Placed<T>& p) {
  const auto axes = picture_axes<T>();
  const auto &medial = p["p3-articular-medial"], &lateral = p["p3-articular-lateral"];
  const auto &distal = p["p2-axis-distal"], &proximal = p["p2-axis-proximal"];
  Drawn<T> drawn{wrapped_degrees(-(formula::lean(distal, proximal, axes) +
                                   formula::tilt(medial, lateral, axes))),
                 {}};
  drawn.construction.strokes = {formula::extended(medial, lateral, Tissue::bone, 0.1, 0.1),
                                formula::extended(distal, proximal, Tissue::bone, 0.8, 0.2)};
  drawn.construction.label_at = plain(distal);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> coronet_ml_tilt(const Placed<T>& p) {
  return formula::drawn_tilt(p["coronet-medial"], p["coronet-lateral"], ground_of(p), Tissue::hoof);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_length_medial(const Placed<T>& p) {
  return detail::wall_length(p, "medial");
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_length_lateral(const Placed<T>& p) {
  return detail::wall_length(p, "lateral");
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_length_difference(const Placed<T>& p) {
  auto lateral = detail::wall_length(p, "lateral");
  const auto medial = detail::wall_length(p, "medial");
  lateral.value = lateral.value - medial.value;
  lateral.construction.strokes.push_back(medial.construction.strokes.front());
  return lateral;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_angle_medial(const Placed<T>& p) {
  return detail::wall_angle(p, "medial", -1.0);
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_angle_lateral(const Placed<T>& p) {
  return detail::wall_angle(p, "lateral", 1.0);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> axis_to_wall_medial(const Placed<T>& p) {
  return detail::axis_to_wall(p, "medial", -1.0);
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> axis_to_wall_lateral(const Placed<T>& p) {
  return detail::axis_to_wall(p, "lateral", 1.0);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> foot_axis_offset(const Placed<T>& p) {
  const auto axis = detail::axis_on_ground(p);
  if (!axis)
    return because(axis.error());
  const auto centre = midpoint(p["wall-ground-medial"], p["wall-ground-lateral"]);
  auto drawn = formula::drawn_along(centre, *axis, ground_of(p));
  drawn.construction.strokes.push_back(formula::stroke(p["p2-axis-proximal"], *axis, Tissue::bone));
  drawn.construction.computed = {plain(*axis), plain(centre)};
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> foot_centre_offset(const Placed<T>& p) {
  const auto centre = midpoint(p["wall-ground-medial"], p["wall-ground-lateral"]);
  return formula::drawn_along(centre, p["p2-condyle-mid"], ground_of(p));
}

} // namespace pritchel::measure::frontal
