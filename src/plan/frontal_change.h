/// The front view's part of change.h; included by change.cpp alone. u runs towards lateral.
#pragma once

#include "plan/change.h"
#include "plan/sagittal_change.h"

#include <algorithm>
#include <array>
#include <string>

namespace pritchel::plan::frontal {

using measure::Attempt;
using measure::because;
using measure::Placed;
using sagittal::P;
using sagittal::V;

template <class T> [[nodiscard]] bool moves_nothing(const Amounts<T>& a) {
  const auto amounts = {a.trim_medial,
                        a.trim_lateral,
                        a.dress_medial,
                        a.dress_lateral,
                        a.shoe_thickness,
                        a.pad,
                        a.wedge_deg,
                        a.ml_wedge_deg};
  return std::all_of(
      amounts.begin(), amounts.end(), [](const T& each) { return value_of(each) == 0; });
}

/// The landmark that, with wall-ground, says how the wall leans.
template <class T>
[[nodiscard]] std::string upper_wall_point(const Placed<T>& placed, const std::string& side) {
  for (const char* stem : {"wall-proximal-", "coronet-"})
    if (placed.has(stem + side))
      return stem + side;
  return {};
}

template <class T> [[nodiscard]] std::string missing_landmark(const Placed<T>& placed) {
  for (const char* id :
       {"ground-medial", "ground-lateral", "wall-ground-medial", "wall-ground-lateral"})
    if (!placed.has(id))
      return id;
  for (const char* side : {"medial", "lateral"})
    if (upper_wall_point(placed, side).empty())
      return std::string("wall-proximal-") + side;
  return {};
}

/// How far the wall's end moves: up its wall to the cut, and in by the dressing. `outward` is +1
/// lateral, -1 medial; `steeper` is how much the cut rises outwards.
template <class T>
[[nodiscard]] V<T> slide(const Placed<T>& placed,
                         const GroundLine<T>& ground,
                         const std::string& side,
                         double outward,
                         const T& trim,
                         const T& dressing,
                         const T& steeper) {
  using std::sqrt;
  const auto up = placed[upper_wall_point(placed, side)] - placed["wall-ground-" + side];
  const T inward = dot(up, ground.u) * -outward;
  const T rise = dot(up, ground.n);
  // p = q / (tan(angle) + k) with tan = rise / inward, written so that an upright wall is no pole.
  const T p = trim * inward / (rise + steeper * inward);
  // The dressed face runs `dressing` inside the wall's, parallel to it: along the cut that is more.
  const T in = dressing * sqrt(inward * inward + rise * rise) / (rise + steeper * inward);
  return ground.u * ((p + in) * -outward) + ground.n * (trim - steeper * (p + in));
}

template <class T> [[nodiscard]] P<T> pivot_of(const Placed<T>& placed) {
  if (placed.has("p2-condyle-mid"))
    return placed["p2-condyle-mid"];
  if (placed.has("p3-articular-medial") && placed.has("p3-articular-lateral"))
    return midpoint(placed["p3-articular-medial"], placed["p3-articular-lateral"]);
  return placed["p2-axis-distal"];
}

template <class T>
void cut_sole(Placed<T>& moved, const GroundLine<T>& cut, const V<T>& old_normal) {
  for (const char* id : {"sole-medial", "sole-lateral"})
    if (moved.has(id) && cut.height(moved[id]) < 0.0)
      moved.put(id, moved[id] - old_normal * (cut.height(moved[id]) / dot(old_normal, cut.n)));
}

template <class T>
[[nodiscard]] Attempt<Placed<T>> after(const Placed<T>& placed, const Amounts<T>& amounts) {
  using std::atan;
  using std::cos;
  using std::sin;
  constexpr double least_span_mm = 40;
  if (!placed.has_scale)
    return because("the picture has no scale");
  if (const auto missing = missing_landmark(placed); !missing.empty())
    return because("the landmark " + missing + " isn't placed");
  const auto ground = measure::ground_of(placed);
  const auto &medial = placed["wall-ground-medial"], &lateral = placed["wall-ground-lateral"];
  const T span = dot(lateral - medial, ground.u);
  if (span < least_span_mm)
    return because("the two walls end less than 40 mm apart; check the landmarks");
  const T k = (amounts.trim_lateral - amounts.trim_medial) / span;
  Placed<T> moved = placed;
  moved.put(
      "wall-ground-medial",
      medial +
          slide(placed, ground, "medial", -1.0, amounts.trim_medial, amounts.dress_medial, T(-k)));
  moved.put(
      "wall-ground-lateral",
      lateral +
          slide(placed, ground, "lateral", 1.0, amounts.trim_lateral, amounts.dress_lateral, k));
  const V<T> along = unit(ground.u + ground.n * k);
  const V<T> normal = left_normal(along);
  const P<T> middle = midpoint(moved["wall-ground-medial"], moved["wall-ground-lateral"]);
  const T clearance = ground.height(midpoint(medial, lateral)) + amounts.shoe_thickness +
                      amounts.pad +
                      sin(from_degrees(amounts.wedge_deg)) * assumed_joint_behind_toe_mm;
  // A wedge under the lateral side turns the foot up there: the ground falls away below it.
  const T wedge = from_degrees(T(-amounts.ml_wedge_deg));
  const V<T> level = sagittal::turned(along, T(cos(wedge)), T(sin(wedge)));
  const GroundLine<T> new_ground{middle - normal * clearance, level, left_normal(level)};
  for (const char* id : {"ground-medial", "ground-lateral"})
    moved.put(id, new_ground.below(moved[id]));
  cut_sole(moved, GroundLine<T>{middle, along, normal}, ground.n);
  if (moved.has("p2-axis-distal") && moved.has("p2-axis-proximal")) {
    const P<T> pivot = pivot_of(placed);
    const T turn = atan(k) + wedge;
    for (const char* id : {"p2-axis-distal", "p2-axis-proximal"})
      moved.put(id, sagittal::turned_about(moved[id], pivot, turn));
  }
  return moved;
}

} // namespace pritchel::plan::frontal
