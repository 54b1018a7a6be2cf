#include "phantom/foot.h"

#include "phantom/random.h"
#include "phantom/shapes.h"

#include <algorithm>
#include <cmath>

namespace pritchel::phantom {

namespace {

double tan_deg(double angle) {
  return std::tan(angle * radians_per_degree);
}

/// Unit vector up a surface or axis of this slope: up and towards the palmar side.
Vec3 up_slope(double slope_deg) {
  return {-std::cos(slope_deg * radians_per_degree), std::sin(slope_deg * radians_per_degree), 0};
}

/// Its normal on the dorsal side.
Vec3 dorsal_of(const Vec3& axis) {
  return {axis.y, -axis.x, 0};
}

/// Lean and tilt turn about the joint's x line by a map that keeps x and y where z = 0.
Vec3 turned(const Vec3& p, const Vec3& about, double tangent) {
  const double y = p.y - about.y;
  return {p.x, p.y + tangent * p.z, p.z - tangent * y};
}

Vec3 turned_back(const Vec3& p, const Vec3& about, double tangent) {
  const double y = p.y - about.y;
  const double s = 1.0 / (1.0 + tangent * tangent);
  return {p.x, about.y + s * (y - tangent * p.z), s * (p.z + tangent * y)};
}

void place_p3_shape(Foot& f) {
  const double angle = f.bone_angle_deg * radians_per_degree;
  const double ahead = shape::parietal_offset + shape::apex_ahead;
  f.apex_a = shape::apex_at * std::cos(angle) - ahead * std::sin(angle);
  f.apex_b = shape::apex_at * std::sin(angle) + ahead * std::cos(angle);
  // The process is a stout beak: the joint's arc passes a little palmar of its top.
  const double reach = f.parameters.condyle_radius_mm + f.parameters.joint_space_mm + 2.2;
  f.cor_a = f.apex_a + reach * std::cos(30 * radians_per_degree);
  f.cor_b = f.apex_b - reach * std::sin(30 * radians_per_degree);
}

void place_p3(Foot& f) {
  const FootParameters& p = f.parameters;
  f.along = up_slope(p.palmar_angle_deg);
  f.upward = dorsal_of(f.along);
  const Vec3 tip_to_cor = f.k * (f.cor_a * f.along + f.cor_b * f.upward);
  f.tip.x = -tip_to_cor.x;
  const double sole_slope = (4.0 + p.wedge_deg) * radians_per_degree;
  const Vec3 sole_toewards{std::cos(sole_slope), -std::sin(sole_slope), 0};
  const Vec3 sole_normal{std::sin(sole_slope), std::cos(sole_slope), 0};
  f.sole_under_tip.x = f.tip.x - p.sole_depth_mm * sole_normal.x;
  f.sole_under_tip.y = f.bearing(f.sole_under_tip.x) + p.solar_clearance_mm;
  f.tip.y = f.sole_under_tip.y + p.sole_depth_mm * sole_normal.y;
  f.sole_a = f.sole_under_tip + 5.0 * sole_toewards;
  f.sole_b = f.sole_under_tip - 12.0 * sole_toewards;
  f.cor = {0, f.tip.y + tip_to_cor.y, 0};
}

void place_phalanges(Foot& f) {
  f.p2_axis = up_slope(f.parameters.p2_slope_deg);
  f.p1_axis = up_slope(f.parameters.p1_slope_deg);
  f.pip = f.cor + f.k * shape::phalanx_centres * f.p2_axis;
}

/// Where the dorsal wall line meets the (rolled) underside.
Vec3 toe_of_wall(const Foot& f) {
  double low = f.tip.y - 40;
  double high = f.coronary_band.y;
  for (int i = 0; i < 60; ++i) {
    const double y = 0.5 * (low + high);
    const double x = f.wall_x(y);
    const double over = std::clamp(x - f.hoof_roll_start, 0.0, 0.9 * shape::roll_radius);
    const double roll =
        shape::roll_radius - std::sqrt(shape::roll_radius * shape::roll_radius - over * over);
    (y > f.bearing(x) + roll ? high : low) = y;
  }
  return {f.wall_x(high), high, 0};
}

void place_toe(Foot& f) {
  const FootParameters& p = f.parameters;
  // The roll has left the ground by 1 mm at the breakover point.
  const double lead = std::sqrt(2 * shape::roll_radius - 1);
  f.hoof_roll_start = 1e9;
  const double sharp_toe = toe_of_wall(f).x;
  // A bare toe rolls only as far as its bearing border reaches; a shoe can be set back anywhere.
  const bool shod = p.shoeing == Shoeing::shod;
  const double foremost = shod ? sharp_toe : sharp_toe - 3;
  const double hindmost = shod ? f.tip.x - 5 : std::max(sharp_toe - 15, f.tip.x + 15);
  const double breakover = std::min(std::max(f.tip.x + p.breakover_ahead_mm, hindmost), foremost);
  f.roll_start = breakover - lead;
  f.hoof_roll_start = shod ? sharp_toe - 9 : f.roll_start;
  f.wall_toe_ground = toe_of_wall(f);
}

void place_capsule(Foot& f) {
  const FootParameters& p = f.parameters;
  const Vec3 parietal = up_slope(p.palmar_angle_deg + f.bone_angle_deg);
  const Vec3 dorsal_proximal = f.tip + f.k * (shape::dorsal_proximal_at * parietal +
                                              shape::parietal_offset * dorsal_of(parietal));
  f.wall_point = dorsal_proximal + p.wall_thickness_mm * dorsal_of(parietal);
  const double band_y = f.from_p3(f.apex_a, f.apex_b, 0).y + p.coronary_extensor_mm;
  f.coronary_band = {f.wall_x(band_y), band_y, 0};
  f.heel_ground = {-p.heel_behind_mm, f.bearing(-p.heel_behind_mm), 0};
  // Heel wall and coronet line cross at the palmar end of the band.
  const double c = f.tangent.coronet;
  const double h = f.tangent.heel;
  const double rise_there =
      (band_y - c * (f.coronary_band.x - f.heel_ground.x) - f.heel_ground.y) / (1 + c / h);
  f.coronary_band_heel = {f.heel_ground.x - rise_there / h, f.heel_ground.y + rise_there, 0};
  const Vec3 process = f.from_p3(shape::solar_length, 0, 0);
  const double floor = f.bearing(process.x);
  f.sole_under_palmar_y = floor + std::clamp(process.y - floor - p.heel_sole_depth_mm, 1.5, 9.0);
}

} // namespace

double Foot::bearing(double x) const {
  if (parameters.shoeing == Shoeing::bare)
    return 0;
  return parameters.shoe_thickness_mm + (tip.x + 25 - x) * tangent.wedge;
}

double Foot::wall_x(double y) const {
  return wall_point.x - (y - wall_point.y) / tangent.hoof;
}

double Foot::heel_x(double y) const {
  return heel_ground.x - (y - heel_ground.y) / tangent.heel;
}

double Foot::half_width(double y, double z) const {
  const double height = y - bearing(0);
  return z >= 0 ? k * parameters.lateral_half_width_mm - height / tangent.lateral_wall
                : k * parameters.medial_half_width_mm - height / tangent.medial_wall;
}

double Foot::heel_half_width(double y, double z) const {
  return std::min(shape::heel_half_width * k, half_width(y, z) - 4);
}

double Foot::coronet_y(double x, double z) const {
  return coronary_band.y - (coronary_band.x - x) * tangent.coronet + z * tangent.coronet_tilt;
}

Vec3 Foot::from_p3(double a, double b, double z) const {
  const Vec3 flat = tip + k * (a * along + b * upward) + Vec3{0, 0, k * z};
  return turned(flat, cor, tangent.tilt);
}

Vec3 Foot::to_p3(const Vec3& p) const {
  const Vec3 d = (turned_back(p, cor, tangent.tilt) - tip) * (1 / k);
  return {dot(d, along), dot(d, upward), d.z};
}

Vec3 Foot::from_p2(double t, double d, double z) const {
  const Vec3 flat = cor + k * (t * p2_axis + d * dorsal_of(p2_axis)) + Vec3{0, 0, k * z};
  return turned(flat, cor, -tangent.lean);
}

Vec3 Foot::to_p2(const Vec3& p) const {
  const Vec3 d = (turned_back(p, cor, -tangent.lean) - cor) * (1 / k);
  return {dot(d, p2_axis), dot(d, dorsal_of(p2_axis)), d.z};
}

Vec3 Foot::from_p1(double t, double d, double z) const {
  const Vec3 flat = pip + k * (t * p1_axis + d * dorsal_of(p1_axis)) + Vec3{0, 0, k * z};
  return turned(flat, cor, -tangent.lean);
}

Vec3 Foot::to_p1(const Vec3& p) const {
  const Vec3 d = (turned_back(p, cor, -tangent.lean) - pip) * (1 / k);
  return {dot(d, p1_axis), dot(d, dorsal_of(p1_axis)), d.z};
}

double condyle_profile(double radius, double z) {
  const double from_middle = std::abs(z);
  const double groove = 1.3 * (1 - rise(0, shape::condyle_plateau, from_middle));
  const double edge = 3.0 * rise(21, 27, from_middle);
  return radius - groove - edge;
}

double joint_space(const FootParameters& p, double z) {
  const double r = p.joint_space_ratio;
  const double ramp = (r - 1) / (r + 1);
  return p.joint_space_mm * (1 + ramp * std::clamp(z / shape::joint_inset_z, -1.3, 1.3));
}

double solar_arch(double a) {
  const double s = std::clamp(a / shape::solar_length, 0.0, 1.0);
  return 2.2 * std::sin(s * 3.14159265358979323846);
}

double p3_half_width(double a, double b) {
  const double widest = shape::p3_widest_a;
  const double u = std::max(a - widest, 0.0) / (shape::solar_length + 6 - widest);
  return shape::p3_widest_half - 5.5 * u * u - 0.40 * std::clamp(b, 0.0, 44.0);
}

Foot make_foot(const FootParameters& parameters) {
  Foot f;
  f.parameters = parameters;
  f.k = parameters.size_ratio;
  f.tangent = {.hoof = tan_deg(parameters.hoof_angle_deg),
               .heel = tan_deg(parameters.heel_angle_deg),
               .coronet = tan_deg(parameters.coronet_angle_deg),
               .coronet_tilt = tan_deg(parameters.coronet_tilt_deg),
               .lateral_wall = tan_deg(parameters.lateral_wall_deg),
               .medial_wall = tan_deg(parameters.medial_wall_deg),
               .tilt = tan_deg(parameters.p3_tilt_deg),
               .lean = tan_deg(parameters.p2_lean_deg),
               .wedge = tan_deg(parameters.wedge_deg)};
  f.bone_angle_deg =
      parameters.hoof_angle_deg + parameters.capsular_divergence_deg - parameters.palmar_angle_deg;
  place_p3_shape(f);
  place_p3(f);
  place_phalanges(f);
  place_capsule(f);
  place_toe(f);
  return f;
}

} // namespace pritchel::phantom
