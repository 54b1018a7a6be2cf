#include "phantom/check_landmarks.h"
#include "phantom/foot.h"

#include <cmath>

namespace pritchel::phantom {

namespace {

Vec3 sagittal(const Vec3& p) {
  return {p.x, p.y, 0};
}

Vec3 frontal(const Vec3& p) {
  return {0, p.y, p.z};
}

Landmark on_mid_plane(std::string id, const Vec3& p, std::string part) {
  return {std::move(id), sagittal(p), {p}, std::move(part)};
}

Landmark paired(std::string id, const Vec3& medial, const Vec3& lateral, std::string part) {
  return {std::move(id), sagittal(mean(medial, lateral)), {medial, lateral}, std::move(part)};
}

Landmark on_frontal_plane(std::string id, const Vec3& p, std::string part) {
  return {std::move(id), frontal(p), {p}, std::move(part)};
}

Landmark constructed(std::string id, const Vec3& p) {
  return {std::move(id), p, {}, {}};
}

/// A point on the arc of a condyle, `angle` from the distal end of the bone's axis, + dorsal.
template <class FromBone>
Landmark
on_condyle(std::string id, FromBone from_bone, double radius, double angle_deg, std::string part) {
  const double a = angle_deg * radians_per_degree;
  const double t = -radius * std::cos(a);
  const double d = radius * std::sin(a);
  return paired(std::move(id),
                from_bone(t, d, -shape::condyle_plateau),
                from_bone(t, d, shape::condyle_plateau),
                std::move(part));
}

void add_p3(const Foot& f, std::vector<Landmark>& all) {
  const double angle = f.bone_angle_deg * radians_per_degree;
  const auto parietal = [&](double s) {
    const double h = shape::parietal_offset;
    return f.from_p3(
        s * std::cos(angle) - h * std::sin(angle), s * std::sin(angle) + h * std::cos(angle), 0);
  };
  all.push_back(on_mid_plane("p3-tip", f.from_p3(0, 0, 0), "p3"));
  all.push_back(paired("p3-palmar-process",
                       f.from_p3(shape::solar_length, 0, -shape::process_z),
                       f.from_p3(shape::solar_length, 0, shape::process_z),
                       "p3"));
  all.push_back(on_mid_plane("p3-dorsal-distal", parietal(shape::dorsal_distal_at), "p3"));
  all.push_back(on_mid_plane("p3-dorsal-proximal", parietal(shape::dorsal_proximal_at), "p3"));
  all.push_back(on_mid_plane("extensor-process", f.from_p3(f.apex_a, f.apex_b, 0), "p3"));
}

void add_joints(const Foot& f, std::vector<Landmark>& all) {
  const auto p2 = [&](double t, double d, double z) { return f.from_p2(t, d, z); };
  const auto p1 = [&](double t, double d, double z) { return f.from_p1(t, d, z); };
  const double r2 = f.parameters.condyle_radius_mm;
  all.push_back(on_condyle("p2-distal-condyle-1", p2, r2, 64, "p2"));
  all.push_back(on_condyle("p2-distal-condyle-2", p2, r2, 0, "p2"));
  all.push_back(on_condyle("p2-distal-condyle-3", p2, r2, -64, "p2"));
  all.push_back(on_condyle("p2-distal-condyle-4", p2, r2, 32, "p2"));
  all.push_back(on_condyle("p2-distal-condyle-5", p2, r2, -32, "p2"));
  all.push_back(constructed("dip-centre-of-rotation", f.cor));
  all.push_back(on_condyle("p1-distal-condyle-1", p1, shape::p1_radius, 60, "p1"));
  all.push_back(on_condyle("p1-distal-condyle-2", p1, shape::p1_radius, 0, "p1"));
  all.push_back(on_condyle("p1-distal-condyle-3", p1, shape::p1_radius, -60, "p1"));
  all.push_back(on_condyle("p1-distal-condyle-4", p1, shape::p1_radius, 30, "p1"));
  all.push_back(on_condyle("p1-distal-condyle-5", p1, shape::p1_radius, -30, "p1"));
  all.push_back(constructed("pip-centre-of-rotation", f.pip));
  all.push_back(constructed("p1-axis-distal", sagittal(f.from_p1(shape::p1_axis_distal_at, 0, 0))));
  all.push_back(
      constructed("p1-axis-proximal", sagittal(f.from_p1(shape::p1_axis_proximal_at, 0, 0))));
}

void add_wall(const Foot& f, std::vector<Landmark>& all) {
  const Vec3 span = f.wall_toe_ground - f.coronary_band;
  const auto down_the_wall = [&](double mm) { return f.coronary_band + mm * unit(span); };
  const auto on_heel = [&](double y, double sign) {
    return Vec3{f.heel_x(y), y, sign * 0.8 * f.heel_half_width(y, sign)};
  };
  const auto heel = [&](const std::string& id, double y) {
    return paired(id, on_heel(y, -1), on_heel(y, 1), "hoof");
  };
  // The coronet may tilt: the lateral end of the band then lies higher than the medial one.
  const auto on_band = [&](double sign) {
    const double z = sign * 0.8 * f.heel_half_width(f.coronary_band_heel.y, 1);
    const double rise = z * f.tangent.coronet_tilt / (1 + f.tangent.coronet / f.tangent.heel);
    const double y = f.coronary_band_heel.y + rise;
    return Vec3{f.heel_x(y), y, z};
  };
  const Vec3 heel_span = f.coronary_band_heel - f.heel_ground;
  all.push_back(on_mid_plane("coronary-band", f.coronary_band, "hoof"));
  all.push_back(paired("coronary-band-heel", on_band(-1), on_band(1), "hoof"));
  all.push_back(on_mid_plane("wall-dorsal-proximal", down_the_wall(11), "hoof"));
  all.push_back(on_mid_plane("wall-dorsal-mid", down_the_wall(0.33 * length(span)), "hoof"));
  all.push_back(on_mid_plane("wall-dorsal-distal", down_the_wall(0.78 * length(span)), "hoof"));
  all.push_back(on_mid_plane("wall-toe-ground", f.wall_toe_ground, "hoof"));
  all.push_back(heel("heel-ground", f.heel_ground.y));
  all.push_back(heel("heel-wall-distal", f.heel_ground.y + 0.25 * heel_span.y));
  all.push_back(heel("heel-wall-proximal", f.heel_ground.y + 0.6 * heel_span.y));
}

void add_sole(const Foot& f, std::vector<Landmark>& all) {
  const Vec3 process = f.from_p3(shape::solar_length, 0, 0);
  const double z = 26 * f.k;
  const auto sole = [&](const std::string& id, const Vec3& p) {
    const double half = sole_half_width(f, p.x);
    return paired(id, {p.x, p.y, -half}, {p.x, p.y, half}, "hoof");
  };
  all.push_back(sole("sole-a", f.sole_a));
  all.push_back(sole("sole-b", f.sole_b));
  all.push_back(paired("sole-under-palmar",
                       {process.x, f.sole_under_palmar_y, -z},
                       {process.x, f.sole_under_palmar_y, z},
                       "hoof"));
}

void add_ground(const Foot& f, std::vector<Landmark>& all) {
  const bool shod = f.parameters.shoeing == Shoeing::shod;
  const double breakover_x = f.roll_start + std::sqrt(2 * shape::roll_radius - 1);
  const double heel_z = 31 * f.k;
  all.push_back(constructed("ground-heel", {f.coronary_band_heel.x - 12, 0, 0}));
  all.push_back(constructed("ground-toe", {f.wall_toe_ground.x + 18, 0, 0}));
  all.push_back(on_mid_plane("breakover", {breakover_x, 1, 0}, shod ? "shoe" : "hoof"));
  if (!shod)
    return;
  const double end = f.shoe_heel_x();
  all.push_back(paired("shoe-heel-end", {end, 0, -heel_z}, {end, 0, heel_z}, "shoe"));
  const double toe = f.hoof_roll_start - 4;
  all.push_back(constructed("foot-plane-toe", {toe, f.bearing(toe), 0}));
  all.push_back(constructed("foot-plane-heel", f.heel_ground));
}

void add_frontal_joint(const Foot& f,
                       const std::string& side,
                       double sign,
                       std::vector<Landmark>& all) {
  // Straight below the joint's centre in the frontal plane, in P2's frame.
  const auto below = [&](double radius, double z) {
    return f.from_p2(-radius * f.p2_axis.y, radius * f.p2_axis.x, z);
  };
  const double r = f.parameters.condyle_radius_mm;
  const double inset = sign * shape::joint_inset_z;
  const double edge = sign * shape::joint_edge_z;
  all.push_back(on_frontal_plane("dip-p2-" + side, below(r, inset), "p2"));
  all.push_back(
      on_frontal_plane("dip-p3-" + side, below(r + joint_space(f.parameters, inset), inset), "p3"));
  all.push_back(on_frontal_plane(
      "p3-articular-" + side, below(r + joint_space(f.parameters, edge), edge), "p3"));
}

void add_frontal_border(const Foot& f,
                        const std::string& side,
                        double sign,
                        std::vector<Landmark>& all) {
  double a = f.cor_a;
  for (int i = 0; i < 20; ++i)
    a -= f.from_p3(a, solar_arch(a), 0).x / (f.k * f.along.x);
  all.push_back(
      on_frontal_plane("p3-distal-border-" + side,
                       f.from_p3(a, solar_arch(a), sign * p3_half_width(a, solar_arch(a))),
                       "p3"));
}

void add_frontal_wall(const Foot& f,
                      const std::string& side,
                      double sign,
                      std::vector<Landmark>& all) {
  double y = f.coronet_y(0, 0);
  for (int i = 0; i < 40; ++i)
    y = f.coronet_y(0, sign * f.half_width(y, sign));
  const auto wall = [&](double height) {
    return Vec3{0, height, sign * f.half_width(height, sign)};
  };
  const double slope = (sign > 0 ? f.parameters.lateral_wall_deg : f.parameters.medial_wall_deg) *
                       radians_per_degree;
  const double ground = f.bearing(0);
  all.push_back(on_frontal_plane("coronet-" + side, wall(y), "hoof"));
  all.push_back(on_frontal_plane("wall-proximal-" + side, wall(y - 10 * std::sin(slope)), "hoof"));
  all.push_back(on_frontal_plane("wall-ground-" + side, wall(ground), "hoof"));
  all.push_back(constructed("ground-" + side, {0, 0, sign * (f.half_width(ground, sign) + 14)}));
}

} // namespace

std::vector<Landmark> lateromedial_landmarks(const Foot& foot) {
  std::vector<Landmark> all;
  add_p3(foot, all);
  add_joints(foot, all);
  add_wall(foot, all);
  add_sole(foot, all);
  add_ground(foot, all);
  return all;
}

std::vector<Landmark> dorsopalmar_landmarks(const Foot& foot) {
  std::vector<Landmark> all;
  for (const double sign : {-1.0, 1.0}) {
    const std::string side = sign > 0 ? "lateral" : "medial";
    add_frontal_joint(foot, side, sign, all);
    add_frontal_border(foot, side, sign, all);
    add_frontal_wall(foot, side, sign, all);
  }
  const auto on_p2_axis = [&](double mm) {
    const Vec3 along = foot.from_p2(mm, 0, 0);
    return frontal(along);
  };
  all.push_back(constructed("p2-axis-distal", on_p2_axis(9)));
  all.push_back(constructed("p2-axis-proximal", on_p2_axis(34)));
  all.push_back(constructed("p2-condyle-mid", frontal(foot.cor)));
  return all;
}

} // namespace pritchel::phantom
