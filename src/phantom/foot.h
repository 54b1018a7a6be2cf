/// The digital foot: what can be chosen about it, and the exact skeleton of points, lines and
/// angles that its solids (solids.h) are built on and its truth (truth.h) is computed from. Lengths
/// in mm, angles in degrees, foot frame of vec3.h. Sizes: from memory, plausible for an adult
/// riding horse of 450-600 kg; no source.
#pragma once

#include "phantom/vec3.h"

#include <cstdint>
#include <string>
#include <vector>

namespace pritchel::phantom {

enum class Side { left, right };
enum class Limb { fore, hind };
enum class Shoeing { bare, shod };

/// Slopes are against the ground, open to the palmar side, as in the trade. Positive tilt: lateral
/// side higher. Positive lean: proximal end leans lateral.
struct FootParameters {
  Side side = Side::left;
  Limb limb = Limb::fore;
  double size_ratio = 1.0; ///< scales every bone and the capsule's width
  std::uint64_t grain = 1; ///< seed of trabeculae, channels and margin: the horse, not the picture

  double hoof_angle_deg = 51;
  double palmar_angle_deg = 4.5;
  double capsular_divergence_deg = 0; ///< P3 steeper than the wall = positive
  double p2_slope_deg = 52;
  double p1_slope_deg = 52;
  double heel_angle_deg = 47;
  double coronet_angle_deg = 22;

  double sole_depth_mm = 15;       ///< tip to outer sole, square to the sole
  double solar_clearance_mm = 3;   ///< outer sole under the tip above the bearing plane
  double heel_sole_depth_mm = 17;  ///< wanted under the palmar processes; limited by the ground
  double wall_thickness_mm = 16.5; ///< at the top of P3's straight parietal part, along its normal
  double coronary_extensor_mm = 5; ///< coronary band above the extensor process
  double breakover_ahead_mm = 22;  ///< in front of P3's tip; the capsule's length limits it
  double heel_behind_mm = 54;      ///< bearing end of the heel behind the coffin joint's centre
  double condyle_radius_mm = 16.5; ///< distal P2, at size 1

  double p3_tilt_deg = 0;
  double p2_lean_deg = 0;
  double joint_space_mm = 2.4;    ///< at size 1, mean of both sides
  double joint_space_ratio = 1.0; ///< lateral / medial
  double coronet_tilt_deg = 0;
  double lateral_wall_deg = 79; ///< inside the foot, 90 = upright
  double medial_wall_deg = 82;
  double lateral_half_width_mm = 61; ///< at the bearing plane, at size 1
  double medial_half_width_mm = 59;

  Shoeing shoeing = Shoeing::bare;
  double shoe_thickness_mm = 10;
  double shoe_web_mm = 22;
  double wedge_deg = 0; ///< heels of the shoe thicker
};

/// One point that a reader would be asked for, on the model itself.
/// `point` lies in the view's plane of interest (z = 0 for the lateromedial, x = 0 for the
/// dorsopalmar view). `witnesses` are the surface points it stands for: one, or a medial and a
/// lateral one whose mean it is. `part` is the solid they lie on ("" where it is a constructed
/// point).
struct Landmark {
  std::string id;
  Vec3 point;
  std::vector<Vec3> witnesses;
  std::string part;
};

/// The skeleton. Bone coordinates: a bone's own frame at size 1.
/// Law: everything with z = 0 keeps its x and y under lean and tilt, so sagittal truth doesn't
/// move.
struct Foot {
  FootParameters parameters;
  double k = 1; ///< size
  double bone_angle_deg = 48;
  /// Tangents of the parameters' angles, asked for millions of times.
  struct Tangents {
    double hoof, heel, coronet, coronet_tilt, lateral_wall, medial_wall, tilt, lean, wedge;
  } tangent{};

  Vec3 tip;     ///< of P3, untilted
  Vec3 along;   ///< unit, tip towards the palmar processes
  Vec3 upward;  ///< unit, normal of the solar line
  Vec3 cor;     ///< centre of the coffin joint
  Vec3 pip;     ///< centre of the pastern joint
  Vec3 p2_axis; ///< unit, distal to proximal
  Vec3 p1_axis;
  double cor_a = 0; ///< coffin joint centre in P3's frame, size 1
  double cor_b = 0;
  double apex_a = 0; ///< extensor process in P3's frame, size 1
  double apex_b = 0;

  Vec3 wall_point; ///< on the outer dorsal wall, opposite p3-dorsal-proximal
  Vec3 coronary_band;
  Vec3 coronary_band_heel;
  Vec3 heel_ground;
  Vec3 sole_under_tip;
  Vec3 sole_a;
  Vec3 sole_b;
  double sole_under_palmar_y = 0;
  Vec3 wall_toe_ground;
  double roll_start = 0;      ///< x where the ground surface starts to rise towards the toe
  double hoof_roll_start = 0; ///< same for the hoof's own underside (differs when shod)

  /// Height of the hoof's bearing plane (ground, or top of the shoe).
  [[nodiscard]] double bearing(double x) const;
  /// x of the outer dorsal wall and of the heel wall at height y.
  [[nodiscard]] double wall_x(double y) const;
  [[nodiscard]] double heel_x(double y) const;
  /// z-extent (positive) of the outer wall at x = 0, height y, on the side of `z`.
  [[nodiscard]] double half_width(double y, double z) const;
  /// Where the heel wall ends sideways, at height y on the side of z.
  [[nodiscard]] double heel_half_width(double y, double z) const;
  [[nodiscard]] double coronet_y(double x, double z) const;
  /// Palmar end of the shoe's branches (shod feet).
  [[nodiscard]] double shoe_heel_x() const { return heel_ground.x - 4; }

  /// P3's frame (a palmar along the solar line, b up, z) to foot frame and back, with its tilt.
  [[nodiscard]] Vec3 from_p3(double a, double b, double z) const;
  [[nodiscard]] Vec3 to_p3(const Vec3& p) const;
  /// P2's frame (x: along the axis from the coffin joint, y: dorsal, z) and back, with its lean.
  [[nodiscard]] Vec3 from_p2(double t, double d, double z) const;
  [[nodiscard]] Vec3 to_p2(const Vec3& p) const;
  /// The same for P1, from the pastern joint.
  [[nodiscard]] Vec3 from_p1(double t, double d, double z) const;
  [[nodiscard]] Vec3 to_p1(const Vec3& p) const;
};

/// Fixed proportions at size 1 that solids and landmarks share.
namespace shape {
inline constexpr double solar_length = 71;     ///< tip to palmar process
inline constexpr double process_z = 29;        ///< the processes' distance from the mid-plane
inline constexpr double parietal_offset = 0.7; ///< straight parietal line in front of the tip
inline constexpr double dorsal_distal_at = 10; ///< along the parietal line
inline constexpr double dorsal_proximal_at = 44;
inline constexpr double apex_at = 56.5;
inline constexpr double apex_ahead = 2.2;       ///< extensor process in front of the line
inline constexpr double phalanx_centres = 41.5; ///< coffin to pastern joint centre
inline constexpr double p1_radius = 14.5;
inline constexpr double pip_space = 2.0;
inline constexpr double p1_axis_distal_at = 12;
inline constexpr double p1_axis_proximal_at = 50;
inline constexpr double condyle_plateau = 12; ///< z of the condyles' highest ridge
inline constexpr double joint_inset_z = 20;   ///< 5 mm inside the joint's edge
inline constexpr double joint_edge_z = 25;
inline constexpr double p3_widest_half = 39.5;
inline constexpr double p3_widest_a = 47;
inline constexpr double roll_radius = 28; ///< of a rolled toe, mm, not scaled
inline constexpr double wall_rim = 10;    ///< bearing border's width, mm
inline constexpr double heel_half_width = 40;
} // namespace shape

/// P2's distal condyle, radius at z in P2's frame at size 1: a groove between two equal ridges.
double condyle_profile(double radius, double z);
/// Joint space at z (P2's frame, size 1), so that lateral / medial at the inset is the given ratio.
double joint_space(const FootParameters& p, double z);
/// Height of P3's solar margin above the straight solar line: an arch that meets it at both ends.
double solar_arch(double a);
/// Half-width of P3's side at a (widest part and behind) and height b.
double p3_half_width(double a, double b);

Foot make_foot(const FootParameters& parameters);

/// A foot drawn from the ranges in which feet vary: broken either way, tilted, thin-soled, rotated,
/// bare or shod. The same seed gives the same foot. Capsule, joints and bones stay anatomically
/// possible: where a draw isn't, the next one is taken.
FootParameters random_foot(std::uint64_t seed, Limb limb = Limb::fore, Side side = Side::left);

/// All landmarks of a lateromedial / dorsopalmar reading of this foot, ids as in readings.
std::vector<Landmark> lateromedial_landmarks(const Foot& foot);
std::vector<Landmark> dorsopalmar_landmarks(const Foot& foot);

} // namespace pritchel::phantom
