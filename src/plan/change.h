/// Trim and shoe as a change of geometry: the landmarks are moved, and the same measuring code then
/// gives the numbers after the change. Hoof and bones in it stay where they are in the plane frame;
/// the ground comes to the foot. Rigid foot, standing: what the model can't know is in
/// docs/plan.md. Source: geometry; joint shares: plan/shares.h.
///
/// Lateromedial. The bearing line is the ground (bare) or the line foot-plane-heel - foot-plane-toe
/// (shod). H and T are the feet of heel-ground and wall-toe-ground on it; without wall-toe-ground T
/// is where the dorsal wall's line meets it. The cut runs from `trim_heel` above H to `trim_toe`
/// above T. Angle of the cut against the bearing line: d; turn of the foot: D = d + wedge.
///   ground-heel, ground-toe     on the new ground, which runs under the new T at the distance of
///                               the shoe worn plus `shoe_thickness` and `pad`, turned by D
///   wall-toe-ground             up the wall to the cut, back by the dressing; a rolled end is
///   taken
///                               to be rolled again by as much
///   heel-ground                 up the heel's wall to the cut, which carries it back
///   breakover                   as far behind the foot of T as before, plus `breakover_back`
///   shoe-heel-end               as far behind the foot of H as before, plus `branch_longer`; added
///                               when a bare foot gets a shoe
///   foot-plane-heel, -toe       on the cut; added when a bare foot gets a shoe
///   sole-a, sole-b, sole-under-palmar  each on the cut where that lies above it: where a cut takes
///                               one of the first two only, the line between them lies above the
///                               true sole, so that its depth is never made too good
///   p2-distal-condyle-*         turned about the coffin joint's centre by its share of D
///   p1-*                        carried along by P2 and turned by both joints' shares
///   all others                  stay: the capsule and the coffin bone are one rigid body here, and
///                               dressing ends below the points of the dorsal wall
/// Shoe amounts are differences to what is worn, so that a change of zero is the foot as it is. A
/// bare foot gets a shoe when any of them isn't zero. Width, bar, frog support and the height of a
/// roll move no landmark; neither does a wedge under one side, which turns about the mid-line.
///
/// Dorsopalmar. M and L are wall-ground-medial and -lateral; the cut runs from `trim_medial` above
/// M to `trim_lateral` above L, each end sliding up its own wall's line.
///   ground-medial, -lateral     turned with the cut, and by `ml_wedge_deg` (lateral side up);
///                               lowered by `shoe_thickness`, `pad`, and what a heel wedge is
///                               thick under the joint
///   wall-ground-medial, -lateral  up their walls to the cut, in by the dressing
///   p2-axis-*                   keep their lean to the ground: turned about p2-condyle-mid, else
///   the
///                               middle of p3-articular-*, else p2-axis-distal
///   sole-medial, -lateral       on the cut where that lies above them
///   all others                  stay. Extensions move no landmark: what they do to the middle of
///                               the base is base_shift(). Trim at toe and heel moves nothing
///                               here: what comes off a quarter is the amount of that side.
#pragma once

#include "measure/definitions.h"
#include "plan/shares.h"
#include "record/case.h"

#include <array>
#include <string_view>

namespace pritchel::plan {

/// Without heel-wall-* the heel's wall is taken to be this much flatter than the dorsal wall (own
/// estimate). It only says how far lowering the heel carries its bearing point back.
inline constexpr double assumed_heel_flatter_deg = 5;

/// A front view doesn't show how far behind the toe the joint stands: that much is taken, to say
/// how thick a heel wedge is under it (own estimate; ten millimetres off are 0.5 mm of 3 degrees).
inline constexpr double assumed_joint_behind_toe_mm = 75;

/// A FootChange over a number type, so that the hand's own spread can be an input.
template <class T> struct Amounts {
  T trim_toe{};
  T trim_heel{};
  T dress_toe{};
  T trim_medial{};
  T trim_lateral{};
  T shoe_thickness{};
  T wedge_deg{};
  T breakover_back{};
  T branch_longer{};
  T dress_medial{};
  T dress_lateral{};
  T pad{};
  T ml_wedge_deg{};
};

template <class T> [[nodiscard]] Amounts<T> amounts_of(const record::FootChange& change) {
  return {T(change.trim_toe_mm),
          T(change.trim_heel_mm),
          T(change.dress_toe_mm),
          T(change.trim_medial_mm),
          T(change.trim_lateral_mm),
          T(change.shoe_thickness_mm),
          T(change.wedge_deg),
          T(change.breakover_back_mm),
          T(change.branch_longer_mm),
          T(change.dress_medial_mm),
          T(change.dress_lateral_mm),
          T(change.pad_mm),
          T(change.ml_wedge_deg)};
}

/// The amounts that are the shoe's.
inline constexpr std::array<double record::FootChange::*, 8> shoe_amounts{
    &record::FootChange::shoe_thickness_mm,
    &record::FootChange::wedge_deg,
    &record::FootChange::breakover_back_mm,
    &record::FootChange::branch_longer_mm,
    &record::FootChange::extend_medial_mm,
    &record::FootChange::extend_lateral_mm,
    &record::FootChange::pad_mm,
    &record::FootChange::ml_wedge_deg};

/// True when a shoe amount isn't zero.
[[nodiscard]] bool changes_shoe(const record::FootChange& change);
/// True when no amount at all is changed; a shoe may be chosen all the same.
[[nodiscard]] bool changes_nothing(const record::FootChange& change);
/// True when no shoe is chosen either.
[[nodiscard]] bool asks_nothing(const record::FootChange& change);

/// The foot in the side view as the trim sees it. Lengths mm, in the bearing line's own frame with
/// H as origin: x along it towards the toe, y up.
template <class T> struct Bearing {
  Point<PlaneFrame, T> heel;
  Point<PlaneFrame, T> toe;
  Vector<PlaneFrame, T> u;
  Vector<PlaneFrame, T> n;
  T span{};                   ///< S, from H to T
  Vector<PlaneFrame, T> wall; ///< unit, up the dorsal wall
  T wall_tangent{};           ///< tan of the dorsal wall's angle to the bearing line
  T heel_tangent{};           ///< tan of the heel wall's
  T worn_wedge_deg{};         ///< of the shoe on the picture, + heel up; 0 when bare
  T worn_thickness{};         ///< of the shoe on the picture under T; 0 when bare

  [[nodiscard]] T x(const Point<PlaneFrame, T>& p) const { return dot(p - heel, u); }
  [[nodiscard]] T y(const Point<PlaneFrame, T>& p) const { return dot(p - heel, n); }
};

/// Not knowable, with the reason: a landmark missing, a shod foot without its two points of hoof on
/// shoe, heel and toe too close together, a wall that lies along the ground.
template <class T>
[[nodiscard]] measure::Attempt<Bearing<T>> bearing_of(const measure::Placed<T>& placed);

/// Angle d of the cut to the bearing line, degrees: + when more comes off the toe.
template <class T>
[[nodiscard]] T cut_angle_deg(const Bearing<T>& bearing, const Amounts<T>& amounts);
/// Height of the cut above the bearing line at x, mm.
template <class T>
[[nodiscard]] T cut_height(const Bearing<T>& bearing, const Amounts<T>& amounts, const T& x);
/// Length taken off the dorsal wall, along it, mm.
template <class T> [[nodiscard]] T wall_taken(const Bearing<T>& bearing, const Amounts<T>& amounts);

/// The landmarks after the change. Laws: a change of zero gives back the landmarks themselves;
/// angles between bone and hoof never change; p3-dorsal = p1 + pastern + coffin deviation still
/// holds; equal trim at toe and heel turns nothing.
template <class T>
[[nodiscard]] measure::Attempt<measure::Placed<T>>
after(const measure::Placed<T>& placed,
      const Amounts<T>& amounts,
      const JointShares& shares = standing_shares);
template <class T>
[[nodiscard]] measure::Attempt<measure::Placed<T>>
after(const measure::Placed<T>& placed,
      const record::FootChange& change,
      const JointShares& shares = standing_shares) {
  return after(placed, amounts_of<T>(change), shares);
}

/// What wider branches do to the middle of the shoe's base, mm towards lateral: foot-axis-offset
/// and foot-centre-offset are taken from the middle of the walls; against the shoe's base they are
/// smaller by this.
[[nodiscard]] double base_shift(const record::FootChange& change);

/// What this model can't predict and therefore never shows as a prediction: the joint spaces, which
/// stance alone changes, the short pastern's lean, which is free to adapt, and what is drawn
/// between it and the coffin bone.
[[nodiscard]] bool is_predictable(std::string_view measurement);

} // namespace pritchel::plan
