/// Formulas of photos that aren't of a general shape (generic.h): joints against lines that other
/// points make. Frames and signs: view.h, generic.h. Definitions: docs/measurements.md.
#pragma once

#include "measure/generic.h"

#include <string>
#include <string_view>

namespace pritchel::measure::photo {

using formula::P;
using formula::plain;
using formula::V;

/// Interior angle of the wall with the level, inside the foot; 90 is upright, less is flared.
/// `outward` is +1 lateral, -1 medial.
template <class T>
[[nodiscard]] Attempt<Drawn<T>>
wall_angle(const Placed<T>& p, std::string_view side, double outward) {
  using std::atan2;
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  const auto& top = p["wall-mid-" + std::string(side)];
  const auto& bottom = p["wall-ground-" + std::string(side)];
  const auto up = top - bottom;
  Drawn<T> drawn{in_degrees(atan2(dot(up, level->n), dot(up, level->u) * -outward)), {}};
  drawn.construction.strokes = {formula::extended(bottom, top, Tissue::hoof, 0.1, 0.1)};
  drawn.construction.openings = {{plain(bottom), plain(level->u * -outward), plain(up)}};
  drawn.construction.label_at = plain(bottom);
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_angle_medial(const Placed<T>& p) {
  return wall_angle(p, "medial", -1.0);
}
template <class T> [[nodiscard]] Attempt<Drawn<T>> wall_angle_lateral(const Placed<T>& p) {
  return wall_angle(p, "lateral", 1.0);
}

/// Medial less lateral wall angle: + when the lateral side is the flatter one.
template <class T> [[nodiscard]] Attempt<Drawn<T>> capsule_distortion(const Placed<T>& p) {
  auto medial = wall_angle_medial(p);
  const auto lateral = wall_angle_lateral(p);
  if (!medial || !lateral)
    return because(medial ? lateral.error() : medial.error());
  medial->value = medial->value - lateral->value;
  for (const auto& each : lateral->construction.strokes)
    medial->construction.strokes.push_back(each);
  return medial;
}

/// The sole's own direction towards the toe, from the frog's base to its apex, and across it.
template <class T> [[nodiscard]] V<T> frog_direction(const Placed<T>& p) {
  return unit(p["frog-mid-2"] - p["frog-mid-1"]);
}
template <class T> [[nodiscard]] P<T> heel_buttresses(const Placed<T>& p) {
  return midpoint(p["heel-buttress-medial"], p["heel-buttress-lateral"]);
}

template <class T> struct Sole {
  V<T> v; ///< along the frog's mid-line towards the toe
  V<T> w; ///< across it, lateral
  P<T> heels;
  P<T> widest;
  P<T> toe;

  [[nodiscard]] T along(const P<T>& at) const { return dot(at - heels, v); }
  [[nodiscard]] P<T> on_mid_line(const P<T>& at) const { return toe + v * dot(at - toe, v); }
};

template <class T> [[nodiscard]] Sole<T> sole_of(const Placed<T>& p) {
  const auto v = frog_direction(p);
  return {v,
          {v.y, -v.x},
          heel_buttresses(p),
          midpoint(p["wall-widest-medial"], p["wall-widest-lateral"]),
          p["toe-centre"]};
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> solar_base_proportion(const Placed<T>& p) {
  const auto sole = sole_of(p);
  const T toe_part = sole.along(sole.toe) - sole.along(sole.widest);
  const T whole = sole.along(sole.toe);
  if (!(toe_part > 0.0) || !(whole > toe_part))
    return because("toe, widest part and heels don't follow one another; check the landmarks");
  auto drawn = formula::drawn_span(
      toe_part / whole, sole.on_mid_line(sole.widest), sole.on_mid_line(sole.toe));
  drawn.construction.strokes.push_back(
      formula::stroke(sole.on_mid_line(sole.heels), sole.on_mid_line(sole.widest), Tissue::ground));
  drawn.construction.strokes.push_back(
      formula::stroke(p["wall-widest-medial"], p["wall-widest-lateral"], Tissue::hoof));
  drawn.construction.strokes.push_back(
      formula::stroke(p["heel-buttress-medial"], p["heel-buttress-lateral"], Tissue::hoof));
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> solar_length_width(const Placed<T>& p) {
  const auto sole = sole_of(p);
  const T width = dot(p["wall-widest-lateral"] - p["wall-widest-medial"], sole.w);
  if (!(width > 0.0))
    return because("the widest points lie on the wrong sides; check the landmarks");
  auto drawn = formula::drawn_span(
      sole.along(sole.toe) / width, sole.on_mid_line(sole.heels), sole.on_mid_line(sole.toe));
  drawn.construction.strokes.push_back(
      formula::stroke(p["wall-widest-medial"], p["wall-widest-lateral"], Tissue::span));
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> frog_width_ratio(const Placed<T>& p) {
  const auto &medial = p["frog-widest-medial"], &lateral = p["frog-widest-lateral"];
  const auto base = midpoint(medial, lateral);
  const T length = distance(p["frog-apex-true"], base);
  auto drawn = formula::drawn_span(distance(medial, lateral) / length, medial, lateral);
  drawn.construction.strokes.push_back(formula::stroke(base, p["frog-apex-true"], Tissue::span));
  return drawn;
}

template <class T> [[nodiscard]] Attempt<Drawn<T>> heel_forward_migration(const Placed<T>& p) {
  const auto v = frog_direction(p);
  const auto frog = midpoint(p["frog-widest-medial"], p["frog-widest-lateral"]);
  const T forward = dot(heel_buttresses(p) - frog, v);
  auto drawn = formula::drawn_span(forward, frog, frog + v * forward);
  drawn.construction.strokes.push_back(
      formula::stroke(p["heel-buttress-medial"], p["heel-buttress-lateral"], Tissue::hoof));
  return drawn;
}

/// Angle between the foot's axis and the way the horse goes, + toe turned out (lateral).
template <class T> [[nodiscard]] Attempt<Drawn<T>> toe_direction(const Placed<T>& p) {
  using std::atan2;
  const auto way = p["travel-front"] - p["travel-back"];
  const auto axis = p["axis-toe"] - p["axis-heel"];
  Drawn<T> drawn{in_degrees(atan2(cross(axis, way), dot(axis, way))), {}};
  drawn.construction.strokes = {
      formula::extended(p["axis-heel"], p["axis-toe"], Tissue::hoof, 0.1, 0.3),
      formula::stroke(p["axis-heel"], p["axis-heel"] + unit(way) * length(axis), Tissue::ground)};
  drawn.construction.openings = {{plain(p["axis-heel"]), plain(way), plain(axis)}};
  drawn.construction.label_at = plain(p["axis-heel"]);
  return drawn;
}

/// Hind coronary-band line carried forward to the fore carpus: how much higher than the carpus's
/// palmar edge it passes.
template <class T> [[nodiscard]] Attempt<Drawn<T>> coronet_line_carpus(const Placed<T>& p) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  const auto &heel = p["hairline-heel"], &toe = p["hairline-toe"],
             &carpus = p["fore-carpus-palmar"];
  if (!meets(level->n, Line<T>{heel, toe}))
    return because("the coronary band's line stands upright; check its points");
  const T above = distance_along(carpus, level->n, Line<T>{heel, toe});
  const auto met = carpus + level->n * above;
  auto drawn = formula::drawn_span(above, carpus, met);
  drawn.construction.strokes.push_back(formula::stroke(heel, met, Tissue::hoof));
  drawn.construction.computed = {plain(met)};
  return drawn;
}

/// The same over the carpus's own height above the ground, per cent: needs no scale.
template <class T> [[nodiscard]] Attempt<Drawn<T>> coronet_line_carpus_share(const Placed<T>& p) {
  auto drawn = coronet_line_carpus(p);
  if (!drawn)
    return drawn;
  const auto level = formula::level_of(p);
  const T height = dot(p["fore-carpus-palmar"] - p["fore-ground"], level->n);
  if (!(height > 0.0))
    return because("the carpus lies below the ground; check the landmarks");
  drawn->value = drawn->value * 100.0 / height;
  return drawn;
}

/// Angle of the cannon against the forearm from the side, + when the carpus lies in front of the
/// line from elbow to fetlock (over at the knee).
template <class T> [[nodiscard]] Attempt<Drawn<T>> carpus_sagittal(const Placed<T>& p) {
  auto drawn =
      generic::turn_between<T, "elbow", "carpus-lateral", "carpus-lateral", "fetlock-lateral">(p);
  drawn->value = -drawn->value;
  return drawn;
}

/// How far the cannon's axis lies beside the radius's at the carpus, + lateral.
template <class T> [[nodiscard]] Attempt<Drawn<T>> carpus_offset(const Placed<T>& p) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  const auto& carpus = p["carpus-mid"];
  const Line<T> cannon{p["cannon-mid-proximal"], p["cannon-mid-distal"]};
  const Line<T> radius{p["radius-mid-proximal"], p["radius-mid-distal"]};
  if (!meets(level->u, cannon) || !meets(level->u, radius))
    return because("an axis lies level; check its points");
  const T on_cannon = distance_along(carpus, level->u, cannon);
  const T on_radius = distance_along(carpus, level->u, radius);
  auto drawn = formula::drawn_span(
      on_cannon - on_radius, carpus + level->u * on_radius, carpus + level->u * on_cannon);
  drawn.construction.strokes.push_back(
      formula::extended(cannon.a, cannon.b, Tissue::bone, 0.3, 0.0));
  drawn.construction.strokes.push_back(
      formula::extended(radius.a, radius.b, Tissue::bone, 0.0, 0.3));
  return drawn;
}

/// Distance of the feet over the distance of the points of the shoulders.
template <class T> [[nodiscard]] Attempt<Drawn<T>> base_ratio(const Placed<T>& p) {
  const auto level = formula::level_of(p);
  if (!level)
    return because(level.error());
  const auto apart = [&](std::string_view a, std::string_view b) {
    const T along = dot(p[a] - p[b], level->u);
    return along < 0.0 ? -along : along;
  };
  const T shoulders = apart("point-of-shoulder", "other-point-of-shoulder");
  if (!(shoulders > 0.0))
    return because("the points of the shoulders lie on one spot");
  auto drawn = formula::drawn_span(
      apart("toe-mid", "other-toe-mid") / shoulders, p["toe-mid"], p["other-toe-mid"]);
  drawn.construction.strokes.push_back(
      formula::stroke(p["point-of-shoulder"], p["other-point-of-shoulder"], Tissue::span));
  return drawn;
}

/// Angle of the line of the heels with the cannon's axis, 90 when square; more when the lateral
/// heel lies higher.
template <class T> [[nodiscard]] Attempt<Drawn<T>> heel_line(const Placed<T>& p) {
  using std::atan2;
  const auto up = p["cannon-mid-proximal"] - p["cannon-mid-distal"];
  const auto &medial = p["heel-buttress-medial"], &lateral = p["heel-buttress-lateral"];
  const auto across = lateral - medial;
  const V<T> square{up.y, -up.x}; // lateral, square to the cannon
  Drawn<T> drawn{in_degrees(atan2(cross(square, across), dot(square, across))) + 90.0, {}};
  drawn.construction.strokes = {
      formula::extended(medial, lateral, Tissue::hoof, 0.2, 0.2),
      formula::extended(p["cannon-mid-proximal"], p["cannon-mid-distal"], Tissue::bone, 0.1, 0.6)};
  drawn.construction.label_at = plain(midpoint(medial, lateral));
  return drawn;
}

} // namespace pritchel::measure::photo
