/// The horse of a rendered photo: one limb in full, and enough of the rest to look like a horse.
/// Built of rods with round ends on a skeleton that is the limb's truth.
/// Frame: vec3.h's foot frame, but x = 0, z = 0 at the coffin joint's centre line whatever the
/// view. Sizes: from memory, plausible for a riding horse of 1.60 m; no source.
#pragma once

#include "phantom/foot.h"
#include "phantom/vec3.h"

#include <algorithm>
#include <string>
#include <vector>

namespace pritchel::phantom {

/// Slopes against the ground, degrees. Offsets of the frontal plane: lateral +, mm.
struct HorseParameters {
  Limb limb = Limb::fore;
  Side side = Side::left;
  double size_ratio = 1;
  double hoof_angle_deg = 51;
  double heel_angle_deg = 47;
  double coronet_angle_deg = 21;
  double pastern_slope_deg = 53;
  double cannon_lean_deg = 0;   ///< distal end forward = positive
  double carpus_forward_mm = 0; ///< fore: over at the knee = positive
  double shoulder_slope_deg = 50;
  double hock_angle_deg = 157;  ///< hind: between tibia and cannon, in front
  double carpus_lateral_mm = 0; ///< or the hock
  double fetlock_lateral_mm = 0;
  double foot_lateral_mm = 0;
};

enum class Skin { hair, mane, horn, thing };

/// A rod whose radius goes evenly from a to b, its section an ellipse `flat` times as wide as deep.
struct Part {
  Vec3 a;
  Vec3 b;
  double radius_a = 10;
  double radius_b = 10;
  double flat = 1;
  double blend = 12; ///< width of the seam to the parts before it, mm
  Skin skin = Skin::hair;
  Vec3 paint; ///< of a thing, linear RGB
};

/// The hoof's capsule: straight walls, a superellipse at each height.
struct HoofShape {
  Vec3 at; ///< x and z of the coffin joint
  double scale = 1;
  double toe_x = 0; ///< where the walls meet the ground, from `at`, at scale 1
  double heel_x = 0;
  double toe_cot = 0;
  double heel_cot = 0;
  double side_cot = 0;
  double half_width = 0;
  double coronet_y = 0; ///< at x = 0
  double coronet_slope = 0;

  [[nodiscard]] double wall_x(double y) const { return toe_x - y * toe_cot; }
  [[nodiscard]] double heel_wall_x(double y) const { return heel_x - y * heel_cot; }
  [[nodiscard]] double half_width_at(double y) const { return half_width - y * side_cot; }
  [[nodiscard]] double coronet_at(double x) const { return coronet_y + x * coronet_slope; }
};

/// What lies nearest, and how near.
struct Nearest {
  double mm = 1e9;
  Skin skin = Skin::hair;
  const Part* part = nullptr;
};

struct StandingHorse {
  HorseParameters parameters;
  std::vector<Part> parts;
  std::vector<HoofShape> hooves; ///< the limb's own first
  /// Points of the skeleton in the limb, by landmark id; on bones or joints, not on the skin.
  std::vector<std::pair<std::string, Vec3>> skeleton;

  [[nodiscard]] Vec3 joint(const std::string& id) const;
};

StandingHorse make_horse(const HorseParameters& parameters);

inline double part_distance(const Part& part, const Vec3& p) {
  const Vec3 ab = part.b - part.a;
  Vec3 d = p - part.a;
  d.z /= part.flat;
  const double t = std::clamp(dot(d, ab) / std::max(dot(ab, ab), 1e-9), 0.0, 1.0);
  const double radius = part.radius_a + (part.radius_b - part.radius_a) * t;
  return (length(d - ab * t) - radius) * std::min(1.0, part.flat);
}
double hoof_distance(const HoofShape& hoof, const Vec3& p);
/// Whole horse; slow, for truth.
double skin_distance(const StandingHorse& horse, const Vec3& p);
/// The skin met from `from` along `towards` (unit), nothing met: `from`.
Vec3 skin_from(const StandingHorse& horse, const Vec3& from, const Vec3& towards);

} // namespace pritchel::phantom
