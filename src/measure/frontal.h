/// Formulas of the dorsopalmar view. Plane frame, lateral towards +x, y up; degrees, mm, 1 or %.
/// Positive means the lateral side is wider, longer or higher; for an axis, that its proximal end
/// leans lateral. Definitions: docs/measurements.md.
#pragma once

#include "measure/sagittal.h"

#include <cmath>
#include <string>
#include <string_view>
#include <utility>

namespace pritchel::measure::frontal {

using sagittal::P;
using sagittal::plain;
using sagittal::V;

namespace detail {

using sagittal::detail::drawn_along;
using sagittal::detail::drawn_span;
using sagittal::detail::extended;
using sagittal::detail::positive;
using sagittal::detail::stroke;

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

/// Joint space on one side: P2's edge above P3's, along the normal of P3's joint line.
template <class T>
[[nodiscard]] Attempt<Drawn<T>> dip_space(const Placed<T>& p, std::string_view side) {
  const auto line = unit(p["dip-p3-lateral"] - p["dip-p3-medial"]);
  const auto& upper = p["dip-p2-" + std::string(side)];
  const auto& lower = p["dip-p3-" + std::string(side)];
  const T width = dot(upper - lower, left_normal(line));
  return positive(drawn_span(width, upper, upper - left_normal(line) * width));
}

template <class T> struct JointSpaces {
  Drawn<T> medial;
  Drawn<T> lateral;
};

template <class T> [[nodiscard]] Attempt<JointSpaces<T>> dip_spaces(const Placed<T>& p) {
  auto medial = dip_space(p, "medial");
  if (!medial)
    return because("on the medial side " + medial.error());
  auto lateral = dip_space(p, "lateral");
  if (!lateral)
    return because("on the lateral side " + lateral.error());
  return JointSpaces<T>{std::move(*medial), std::move(*lateral)};
}

template <class T>
[[nodiscard]] Construction both_drawn(const JointSpaces<T>& spaces, const Placed<T>& p) {
  Construction construction = spaces.medial.construction;
  for (const auto& each : spaces.lateral.construction.strokes)
    construction.strokes.push_back(each);
  construction.strokes.push_back(
      extended(p["dip-p3-medial"], p["dip-p3-lateral"], Tissue::bone, 0.1, 0.1));
  construction.label_at = plain(midpoint(p["dip-p3-medial"], p["dip-p3-lateral"]));
  return construction;
}

template <class T> [[nodiscard]] Drawn<T> wall_length(const Placed<T>& p, std::string_view side) {
  const auto& top = p["coronet-" + std::string(side)];
  const auto& bottom = p["wall-ground-" + std::string(side)];
  return drawn_span(distance(top, bottom), top, bottom);
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
  drawn.construction.strokes = {extended(bottom, top, Tissue::hoof, 0.1, 0.1)};
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
  auto drawn = drawn_along(*axis, wall, ground_of(p));
  drawn.value = drawn.value * outward;
  drawn.construction.strokes.push_back(stroke(p["p2-axis-proximal"], *axis, Tissue::bone));
  drawn.construction.computed = {plain(*axis)};
  return drawn;
}

} // namespace detail

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_space_medial(const Placed<T>& p) {
  return detail::dip_space(p, "medial");
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_space_lateral(const Placed<T>& p) {
  return detail::dip_space(p, "lateral");
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_space_ratio(const Placed<T>& p) {
  const auto spaces = detail::dip_spaces(p);
  if (!spaces)
    return because(spaces.error());
  return Drawn<T>{spaces->lateral.value / spaces->medial.value, detail::both_drawn(*spaces, p)};
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_symmetry_index(const Placed<T>& p) {
  const auto spaces = detail::dip_spaces(p);
  if (!spaces)
    return because(spaces.error());
  const T &lateral = spaces->lateral.value, &medial = spaces->medial.value;
  return Drawn<T>{(lateral - medial) * 200.0 / (lateral + medial), detail::both_drawn(*spaces, p)};
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_line_angle(const Placed<T>& p) {
  return detail::drawn_tilt(midpoint(p["dip-p2-medial"], p["dip-p3-medial"]),
                            midpoint(p["dip-p2-lateral"], p["dip-p3-lateral"]),
                            ground_of(p),
                            Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_ml_tilt(const Placed<T>& p) {
  return detail::drawn_tilt(
      p["p3-distal-border-medial"], p["p3-distal-border-lateral"], ground_of(p), Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p3_ml_tilt_articular(const Placed<T>& p) {
  return detail::drawn_tilt(
      p["p3-articular-medial"], p["p3-articular-lateral"], ground_of(p), Tissue::bone);
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> p2_axis_ml_angle(const Placed<T>& p) {
  const auto ground = ground_of(p);
  const auto &distal = p["p2-axis-distal"], &proximal = p["p2-axis-proximal"];
  Drawn<T> drawn{detail::lean(distal, proximal, ground), {}};
  drawn.construction.strokes = {detail::extended(distal, proximal, Tissue::bone, 0.3, 0.3)};
  drawn.construction.openings = {{plain(distal), plain(ground.n), plain(proximal - distal)}};
  drawn.construction.label_at = plain(proximal);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> dip_ml_deviation(const Placed<T>& p) {
  const auto axes = picture_axes<T>();
  const auto &medial = p["p3-articular-medial"], &lateral = p["p3-articular-lateral"];
  const auto &distal = p["p2-axis-distal"], &proximal = p["p2-axis-proximal"];
  Drawn<T> drawn{wrapped_degrees(
                     -(detail::lean(distal, proximal, axes) + detail::tilt(medial, lateral, axes))),
                 {}};
  drawn.construction.strokes = {detail::extended(medial, lateral, Tissue::bone, 0.1, 0.1),
                                detail::extended(distal, proximal, Tissue::bone, 0.8, 0.2)};
  drawn.construction.label_at = plain(distal);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> coronet_ml_tilt(const Placed<T>& p) {
  return detail::drawn_tilt(p["coronet-medial"], p["coronet-lateral"], ground_of(p), Tissue::hoof);
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
  auto drawn = detail::drawn_along(centre, *axis, ground_of(p));
  drawn.construction.strokes.push_back(detail::stroke(p["p2-axis-proximal"], *axis, Tissue::bone));
  drawn.construction.computed = {plain(*axis), plain(centre)};
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> foot_centre_offset(const Placed<T>& p) {
  const auto centre = midpoint(p["wall-ground-medial"], p["wall-ground-lateral"]);
  return detail::drawn_along(centre, p["p2-condyle-mid"], ground_of(p));
}

} // namespace pritchel::measure::frontal
