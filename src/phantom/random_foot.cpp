#include "phantom/foot.h"
#include "phantom/random.h"

namespace pritchel::phantom {

namespace {

/// Bone angle drawn, hoof angle following: P3's own shape hardly varies, its place in the capsule
/// does.
void draw_sagittal(Draws& draw, FootParameters& p) {
  const bool hind = p.limb == Limb::hind;
  double bone = 0;
  do {
    p.palmar_angle_deg = hind ? draw.between(-3, 6) : draw.between(-4, 12);
    bone = draw.about(48.5, 1.6, 45, 52);
    p.capsular_divergence_deg = draw.one_in(4) ? draw.between(2, 12) : draw.about(0, 1.4, -3, 3);
    p.hoof_angle_deg = p.palmar_angle_deg + bone - p.capsular_divergence_deg;
  } while (p.hoof_angle_deg < 42 || p.hoof_angle_deg > 60);
  p.p1_slope_deg = draw.between(45, 60);
  p.p2_slope_deg = p.p1_slope_deg + draw.about(0, 4, -9, 9);
  p.heel_angle_deg = p.hoof_angle_deg - draw.about(6, 5, 0, 20);
  p.coronet_angle_deg = draw.about(22, 2, 17, 27);
}

void draw_depths(Draws& draw, FootParameters& p) {
  p.sole_depth_mm = draw.between(5, 25);
  p.solar_clearance_mm = draw.between(2, 5);
  p.heel_sole_depth_mm = draw.between(10, 22);
  p.wall_thickness_mm = draw.about(16.5, 1.2, 14, 19.5);
  p.coronary_extensor_mm = draw.about(4, 3, -2, 12);
  p.breakover_ahead_mm = draw.between(0, 30);
  p.heel_behind_mm = draw.about(54, 6, 40, 66) * p.size_ratio;
  p.condyle_radius_mm = draw.about(16.5, 0.6, 15, 18);
}

void draw_frontal(Draws& draw, FootParameters& p) {
  p.p3_tilt_deg = draw.about(0, 2, -5, 5);
  p.joint_space_mm = draw.between(2, 3);
  p.joint_space_ratio = std::exp2(draw.about(0, 0.4, -1, 1));
  const double opening = 3.4 * (p.joint_space_ratio - 1) / (p.joint_space_ratio + 1);
  p.p2_lean_deg = -p.p3_tilt_deg - opening + draw.about(0, 0.7, -1.5, 1.5);
  p.coronet_tilt_deg = draw.about(0, 1.5, -4, 4);
  p.lateral_wall_deg = draw.between(70, 82);
  p.medial_wall_deg = p.lateral_wall_deg + draw.between(0, 5);
  p.lateral_half_width_mm = draw.between(58, 66);
  p.medial_half_width_mm = p.lateral_half_width_mm - draw.between(0, 4);
  if (p.limb == Limb::hind) {
    p.lateral_half_width_mm *= 0.94;
    p.medial_half_width_mm *= 0.94;
  }
}

} // namespace

FootParameters random_foot(std::uint64_t seed, Limb limb, Side side) {
  Draws draw{seed};
  FootParameters p{.side = side, .limb = limb};
  p.grain = seed;
  p.size_ratio = draw.between(0.88, 1.12);
  draw_sagittal(draw, p);
  draw_depths(draw, p);
  draw_frontal(draw, p);
  if (draw.one_in(2)) {
    p.shoeing = Shoeing::shod;
    p.shoe_thickness_mm = draw.between(8, 11);
    p.shoe_web_mm = draw.between(20, 25);
    p.wedge_deg = draw.one_in(4) ? draw.between(1, 5) : 0;
  }
  return p;
}

} // namespace pritchel::phantom
