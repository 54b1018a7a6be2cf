#include "phantom/photo_horse.h"

#include "phantom/shapes.h"

#include <cmath>

namespace pritchel::phantom {

namespace {

constexpr double body_half_mm = 225; ///< limb to the horse's own mid-plane
constexpr double outline_power = 2.3;

Vec3 up_by(double length, double slope_deg) {
  return {length * std::cos(slope_deg * radians_per_degree),
          length * std::sin(slope_deg * radians_per_degree),
          0};
}

double cotangent(double degrees) {
  return 1 / std::tan(degrees * radians_per_degree);
}

HoofShape hoof_shape(const HorseParameters& p) {
  constexpr double toe_length = 88;
  HoofShape hoof{.toe_x = 86,
                 .heel_x = -48,
                 .toe_cot = cotangent(p.hoof_angle_deg),
                 .heel_cot = cotangent(p.heel_angle_deg),
                 .side_cot = cotangent(80),
                 .half_width = p.limb == Limb::fore ? 64.0 : 59.0};
  const double height = toe_length * std::sin(p.hoof_angle_deg * radians_per_degree);
  hoof.coronet_slope = std::tan(p.coronet_angle_deg * radians_per_degree);
  hoof.coronet_y = height - hoof.wall_x(height) * hoof.coronet_slope;
  return hoof;
}

/// Collects parts in one limb's own place.
class Builder {
public:
  explicit Builder(StandingHorse& horse)
      : horse_(horse) {}

  void bone(const std::string& id, const Vec3& p) { horse_.skeleton.emplace_back(id, p); }
  void rod(const Vec3& a, double ra, const Vec3& b, double rb, double flat, double blend = 12) {
    horse_.parts.push_back({a, b, ra, rb, flat, blend, Skin::hair, {}});
  }
  void mane(const Vec3& a, double ra, const Vec3& b, double rb, double flat) {
    horse_.parts.push_back({a, b, ra, rb, flat, 4, Skin::mane, {}});
  }

private:
  StandingHorse& horse_;
};

/// Foot to fetlock; gives the fetlock.
Vec3 build_foot(Builder& build, StandingHorse& horse, const HorseParameters& p) {
  const HoofShape hoof = hoof_shape(p);
  horse.hooves.push_back(hoof);
  const Vec3 dip{-6, hoof.coronet_at(-6) + 6, 0};
  const Vec3 fetlock =
      dip + up_by(132, 180 - p.pastern_slope_deg) + Vec3{0, 0, p.fetlock_lateral_mm};
  const Vec3 pip = dip + (fetlock - dip) * 0.36;
  build.bone("dip-lateral", dip);
  build.bone("pip-lateral", pip);
  build.bone("fetlock-lateral", fetlock);
  build.rod(dip + Vec3{-6, -10, 0}, 45, pip, 33, 1.0, 8);
  build.rod(pip, 33, fetlock, 33, 0.95);
  for (const double z : {-21.0, 21.0})
    build.rod({-56, 34, z}, 21, {-40, 50, z}, 24, 1.0, 10);
  build.rod(fetlock + Vec3{2, 8, 0}, 36, fetlock + Vec3{0, -8, 0}, 36, 0.9, 16);
  build.rod(fetlock + Vec3{-24, -2, 0}, 24, fetlock + Vec3{-20, 18, 0}, 22, 0.95, 18);
  return fetlock;
}

void build_cannon(Builder& build, const Vec3& fetlock, const Vec3& top, double deep) {
  build.rod(fetlock + Vec3{7, 15, 0}, 23, top + Vec3{8, -40, 0}, 24, 0.95, 14);
  build.rod(fetlock + Vec3{-21, 22, 0}, 15, top + Vec3{-deep, -52, 0}, 16, 0.9, 14);
}

void build_fore(Builder& build, StandingHorse& horse, const HorseParameters& p) {
  const Vec3 fetlock = build_foot(build, horse, p);
  const Vec3 across{0, 0, p.carpus_lateral_mm - p.fetlock_lateral_mm};
  const Vec3 carpus =
      fetlock + up_by(272, 90 + p.cannon_lean_deg) + across + Vec3{p.carpus_forward_mm, 0, 0};
  const Vec3 elbow =
      fetlock + up_by(652, 90 + p.cannon_lean_deg) + Vec3{8, 0, -p.fetlock_lateral_mm};
  const Vec3 point = elbow + up_by(280, 52);
  const Vec3 top = point + up_by(440, 180 - p.shoulder_slope_deg);
  build.bone("mc3-proximal-lateral", fetlock + (carpus - fetlock) * 0.86);
  build.bone("carpus-lateral", carpus);
  build.bone("elbow", elbow);
  build.bone("point-of-shoulder", point);
  build.bone("scapula-tuber", point + (top - point) * 0.6);
  build.bone("scapular-spine-top", top);
  build_cannon(build, fetlock, carpus, 23);
  build.rod(carpus + Vec3{5, -36, 0}, 38, carpus + Vec3{3, 34, 0}, 41, 0.98, 16);
  build.rod(carpus + Vec3{-34, 16, 0}, 17, carpus + Vec3{-30, -8, 0}, 15, 0.8, 16);
  build.rod(carpus + Vec3{2, 45, 0}, 39, elbow + Vec3{18, -90, 0}, 80, 0.78, 20);
  build.rod(carpus + Vec3{18, 160, 4}, 38, elbow + Vec3{52, -70, 0}, 56, 0.8, 30);
  build.rod(elbow + Vec3{-70, 30, -6}, 36, elbow + Vec3{-20, -40, 0}, 60, 0.8, 30);
  build.rod(elbow + Vec3{-40, 60, -40}, 100, top + Vec3{-40, -230, -70}, 130, 0.75, 50);
  build.rod(elbow + Vec3{10, 20, -15}, 88, point + Vec3{-75, -10, -35}, 96, 0.75, 50);
  build.rod(point + Vec3{-58, 12, -35}, 62, top + Vec3{10, -60, -70}, 92, 0.85, 60);
}

void build_front_body(Builder& build, const StandingHorse& horse) {
  const Vec3 point = horse.joint("point-of-shoulder");
  const double x = point.x;
  const double y = point.y;
  const double mid = -body_half_mm;
  build.rod({x - 300, y + 10, mid}, 290, {x - 560, y + 40, mid}, 335, 0.86, 80);
  build.rod({x - 560, y + 40, mid}, 335, {x - 1250, y + 90, mid}, 315, 0.88, 80);
  build.rod({x - 110, y - 10, mid}, 165, {x - 240, y - 60, mid}, 180, 1.35, 60);
  build.rod({x - 260, y + 200, mid}, 220, {x + 80, y + 430, mid}, 155, 0.6, 90);
  build.rod({x + 80, y + 430, mid}, 155, {x + 330, y + 680, mid}, 110, 0.6, 60);
  build.mane({x - 260, y + 440, mid}, 16, {x + 180, y + 700, mid}, 26, 1.6);
}

void build_hind(Builder& build, StandingHorse& horse, const HorseParameters& p) {
  const Vec3 fetlock = build_foot(build, horse, p);
  const Vec3 across{0, 0, p.carpus_lateral_mm - p.fetlock_lateral_mm};
  const double cannon = 90 + p.cannon_lean_deg;
  const Vec3 hock = fetlock + up_by(345, cannon) + across;
  const Vec3 stifle =
      hock + up_by(365, cannon - 180 + p.hock_angle_deg) - Vec3{0, 0, p.carpus_lateral_mm};
  const Vec3 hip = stifle + up_by(395, 102);
  const Vec3 calcaneus = hock + up_by(92, cannon + 38);
  const Vec3 buttock = hip + Vec3{-195, -30, -10};
  const Vec3 haunch = hip + Vec3{235, 150, -30};
  build.bone("mt3-distal-lateral", fetlock + (hock - fetlock) * 0.1);
  build.bone("mt3-proximal-lateral", fetlock + (hock - fetlock) * 0.8);
  build.bone("hock-lateral", hock);
  build.bone("hock-point", calcaneus);
  build.bone("stifle-lateral", stifle);
  build.bone("greater-trochanter", hip);
  build.bone("tuber-ischii", buttock);
  build.bone("tuber-coxae", haunch);
  build_cannon(build, fetlock, hock, 26);
  build.rod(hock + Vec3{-2, -48, 0}, 34, hock + Vec3{6, 20, 0}, 41, 0.85, 18);
  build.rod(hock + Vec3{-30, -30, 0}, 22, calcaneus + Vec3{14, -10, 0}, 23, 0.8, 22);
  build.rod(hock + up_by(20, 80), 40, hock + (stifle - hock) * 0.55, 60, 0.72, 26);
  build.rod(hock + (stifle - hock) * 0.5, 62, stifle + Vec3{-70, 10, -10}, 100, 0.75, 40);
  build.rod(calcaneus + Vec3{16, 4, 0}, 15, stifle + Vec3{-160, -50, -10}, 50, 0.8, 30);
  build.rod(stifle + Vec3{-50, 10, -15}, 74, hip + Vec3{30, 30, -60}, 150, 0.72, 70);
  build.rod(stifle + Vec3{-150, 40, -20}, 92, buttock + Vec3{85, 15, -40}, 100, 0.85, 70);
  build.rod(hip + Vec3{-60, 30, -70}, 160, haunch + Vec3{-110, -130, -60}, 150, 0.85, 80);
  build.rod(haunch + Vec3{-10, -18, -10}, 26, haunch + Vec3{-70, -10, -30}, 40, 1, 60);
}

void build_back_body(Builder& build, const StandingHorse& horse) {
  const Vec3 hip = horse.joint("greater-trochanter");
  const double mid = -body_half_mm;
  build.rod(hip + Vec3{-60, 10, mid}, 180, hip + Vec3{180, 40, mid}, 225, 0.9, 80);
  build.rod(hip + Vec3{230, 10, mid}, 250, hip + Vec3{1000, -50, mid}, 330, 0.9, 90);
  const Vec3 dock = hip + Vec3{-215, 110, mid};
  build.mane(dock + Vec3{20, 20, 0}, 26, dock + Vec3{-45, -90, 0}, 38, 1);
  build.mane(dock + Vec3{-45, -90, 0}, 40, dock + Vec3{-20, -600, 0}, 55, 0.9);
  build.mane(dock + Vec3{-20, -600, 0}, 54, dock + Vec3{-10, -760, 0}, 22, 0.9);
}

/// The limb of the other side, mirrored in the horse's mid-plane and standing a little apart.
void add_other_limb(StandingHorse& horse, double ahead) {
  const auto mirrored = [ahead](Vec3 p) { return Vec3{p.x + ahead, p.y, -2 * body_half_mm - p.z}; };
  const std::vector<Part> own = horse.parts;
  for (Part part : own) {
    part.a = mirrored(part.a);
    part.b = mirrored(part.b);
    horse.parts.push_back(part);
  }
  HoofShape hoof = horse.hooves.front();
  hoof.at = mirrored(hoof.at);
  horse.hooves.push_back(hoof);
}

void scale_by(StandingHorse& horse, double ratio, double foot_lateral) {
  const auto place = [&](Vec3& p) {
    // The foot's own lateral offset is a lean of the pastern: full at the ground, none above.
    const double share = 1 - rise(20, 200, p.y);
    p = Vec3{p.x, p.y, p.z + share * foot_lateral} * ratio;
  };
  for (Part& part : horse.parts) {
    place(part.a);
    place(part.b);
    part.radius_a *= ratio;
    part.radius_b *= ratio;
    part.blend *= ratio;
  }
  for (HoofShape& hoof : horse.hooves) {
    place(hoof.at);
    hoof.scale = ratio;
  }
  for (auto& [id, p] : horse.skeleton)
    place(p);
}

} // namespace

Vec3 StandingHorse::joint(const std::string& id) const {
  for (const auto& [name, p] : skeleton)
    if (name == id)
      return p;
  return {};
}

StandingHorse make_horse(const HorseParameters& p) {
  StandingHorse horse{.parameters = p};
  Builder build{horse};
  if (p.limb == Limb::fore)
    build_fore(build, horse, p);
  else
    build_hind(build, horse, p);
  add_other_limb(horse, p.limb == Limb::fore ? 70 : -90);
  if (p.limb == Limb::fore)
    build_front_body(build, horse);
  else
    build_back_body(build, horse);
  scale_by(horse, p.size_ratio, p.foot_lateral_mm);
  return horse;
}

double hoof_distance(const HoofShape& hoof, const Vec3& p) {
  const Vec3 q = (p - hoof.at) * (1 / hoof.scale);
  const double heel = hoof.heel_wall_x(q.y);
  const double toe = hoof.wall_x(q.y);
  const double walls = superellipse(q.x - 0.5 * (heel + toe),
                                    q.z,
                                    std::max(0.5 * (toe - heel), 5.0),
                                    std::max(hoof.half_width_at(q.y), 5.0),
                                    outline_power);
  constexpr double lean = 0.75; // the walls slope, so the true distance is shorter
  return std::max({walls * lean, -q.y, (q.y - hoof.coronet_at(q.x)) * 0.93}) * hoof.scale;
}

double skin_distance(const StandingHorse& horse, const Vec3& p) {
  double d = 1e9;
  for (const Part& part : horse.parts)
    d = joined(d, part_distance(part, p), part.blend);
  for (const HoofShape& hoof : horse.hooves)
    d = std::min(d, hoof_distance(hoof, p));
  return d;
}

Vec3 skin_from(const StandingHorse& horse, const Vec3& from, const Vec3& towards) {
  constexpr double near_enough = 1e-4;
  constexpr int steps = 400;
  constexpr double care = 0.8;
  Vec3 p = from;
  for (int i = 0; i < steps; ++i) {
    const double d = skin_distance(horse, p);
    if (std::abs(d) < near_enough)
      return p;
    p = p + towards * (care * d);
    if (length(p - from) > 3000)
      break;
  }
  return from;
}

} // namespace pritchel::phantom
