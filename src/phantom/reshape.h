/// What a knife and a shoe make of the digital foot: its horn is cut by a plane in space, dressed,
/// and stood on a new ground; the landmarks are found again on what is left. Knows nothing of the
/// plan's own formulas, so that the two can be held against each other.
#pragma once

#include "phantom/foot.h"

#include <functional>
#include <vector>

namespace pritchel::phantom {

/// Zero changes nothing. Millimetres square to the plane that the hoof bears on now, degrees.
struct Reshaping {
  double trim_toe_mm = 0;  ///< in the mid-plane, under the end of the toe's wall
  double trim_heel_mm = 0; ///< in the mid-plane, at the heels' bearing points
  double trim_slope = 0;   ///< how much more is cut per mm towards lateral
  double dress_toe_mm = 0; ///< off the wall's face near the ground
  double dress_medial_mm = 0;
  double dress_lateral_mm = 0;
  double thicker_mm = 0;        ///< shoe and pad, under the end of the toe's wall
  double wedge_deg = 0;         ///< heels up, on top of the wedge worn
  double side_wedge_deg = 0;    ///< lateral side up, about the mid-line
  double breakover_back_mm = 0; ///< along the ground, from where it was behind the toe
  double branch_longer_mm = 0;
  /// How far P2 and P1 turn with the foot, per degree (the horse's own business, not geometry's).
  double p2_share = 1;
  double p1_share = 1;
};

/// Two frames: the foot's own, in which capsule and coffin bone stay where they were, and the one
/// it stands in afterwards (ground at 0, coffin joint at x = 0 and z = 0).
class Reshaped {
public:
  Reshaped(const Foot& foot, const Reshaping& change);

  [[nodiscard]] const Foot& foot() const { return foot_; }
  [[nodiscard]] const Reshaping& change() const { return change_; }
  [[nodiscard]] bool shod() const;

  /// Height over the old bearing plane, and of the cut over it there.
  [[nodiscard]] double height(const Vec3& p) const;
  [[nodiscard]] double cut(const Vec3& p) const;
  /// From the foot's own frame to the one it stands in.
  [[nodiscard]] Vec3 standing(const Vec3& p) const;
  /// The same for points of P2 and P1, which turn with the foot by their shares.
  [[nodiscard]] Vec3 p2_standing(const Vec3& p) const;
  [[nodiscard]] Vec3 p1_standing(const Vec3& p) const;

  /// Own frame: where the walls end on the cut; `sign` +1 lateral, -1 medial.
  [[nodiscard]] Vec3 sharp_toe() const { return sharp_toe_; }
  [[nodiscard]] Vec3 rolled_toe() const { return rolled_toe_; }
  [[nodiscard]] Vec3 heel(double sign) const;
  [[nodiscard]] Vec3 quarter(double sign) const;
  /// Own frame: the underside of what horn is left, from `from` along `direction`.
  [[nodiscard]] Vec3 underside(const Vec3& from, const Vec3& direction) const;
  /// Own frame: straight down to the new ground.
  [[nodiscard]] Vec3 down() const { return normal_ * -1; }
  /// Old standing frame: the sharp end of the toe's wall before.
  [[nodiscard]] Vec3 old_sharp_toe() const { return old_sharp_toe_; }
  /// Own frame: on the cut in the mid-plane, so far behind the sharp end of the toe's wall.
  [[nodiscard]] Vec3 on_cut(double behind_toe) const {
    return sharp_toe_ - behind_toe * along_cut_;
  }

private:
  Foot foot_;
  Reshaping change_;
  std::function<double(const Vec3&)> hoof_;
  Vec3 along_; ///< bearing plane before: u, n
  Vec3 square_;
  double span_ = 1;
  Vec3 along_cut_; ///< in the mid-plane, towards the toe
  Vec3 square_to_cut_;
  Vec3 old_sharp_toe_;
  Vec3 sharp_toe_;
  Vec3 rolled_toe_;
  Vec3 origin_; ///< axes of the new ground, in the own frame
  Vec3 forward_;
  Vec3 normal_;
  Vec3 lateral_;
  double turn_ = 0; ///< radians, of the foot against the ground, heels up +
  double tilt_ = 0; ///< radians, lateral up +

  void find_toe();
  void lay_ground();
  [[nodiscard]] Vec3 wall_end(double inset, const Vec3& on, const Vec3& square) const;
};

/// All landmarks of a reading of the foot as it stands afterwards, in that frame.
std::vector<Landmark> lateromedial_landmarks(const Reshaped& foot);
std::vector<Landmark> dorsopalmar_landmarks(const Reshaped& foot);

} // namespace pritchel::phantom
