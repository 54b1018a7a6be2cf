#include "phantom/photo_scene.h"

#include <cmath>

namespace pritchel::phantom {

namespace {

constexpr double far_off = 700;

struct Places {
  const StandingHorse& horse;
  std::vector<HorsePoint> all;

  [[nodiscard]] double ratio() const { return horse.parameters.size_ratio; }
  [[nodiscard]] const HoofShape& hoof() const { return horse.hooves.front(); }
  [[nodiscard]] Vec3 on_hoof(double x, double y, double z) const {
    return hoof().at + Vec3{x, y, z} * hoof().scale;
  }
  void add(const std::string& id, const Vec3& p) { all.push_back({id, p}); }

  /// The joint, on the skin of the outer side.
  void lateral(const std::string& id) {
    const Vec3 p = horse.joint(id);
    add(id, skin_from(horse, {p.x, p.y, far_off}, {0, 0, -1}));
  }
  /// On the outline in the limb's plane, in front of or behind p.
  void outline(const std::string& id, const Vec3& p, double side) {
    add(id, skin_from(horse, {p.x + side * 250, p.y, 0}, {-side, 0, 0}));
  }
  /// Outlines at both sides, seen from the front: lateral and medial.
  [[nodiscard]] std::pair<Vec3, Vec3> sides(const Vec3& p) const {
    return {skin_from(horse, {p.x, p.y, 260}, {0, 0, -1}),
            skin_from(horse, {p.x, p.y, p.z - 110}, {0, 0, 1})};
  }
  void middle(const std::string& id, const Vec3& p) {
    const auto [lateral_side, medial_side] = sides(p);
    add(id, mean(lateral_side, medial_side));
  }
  void both_sides(const std::string& name, const Vec3& p) {
    const auto [lateral_side, medial_side] = sides(p);
    add(name + "-medial", medial_side);
    add(name + "-lateral", lateral_side);
  }
};

/// Where a wall's line meets the coronary band, in the hoof's own millimetres.
Vec3 hairline(const HoofShape& hoof, double ground_x, double cot) {
  const double x = (ground_x - cot * hoof.coronet_y) / (1 + cot * hoof.coronet_slope);
  return {x, hoof.coronet_at(x), 0};
}

void foot_from_side(Places& places) {
  const HoofShape& hoof = places.hoof();
  const Vec3 toe = hairline(hoof, hoof.toe_x, hoof.toe_cot);
  const Vec3 heel = hairline(hoof, hoof.heel_x, hoof.heel_cot);
  constexpr double third = 1.0 / 3.0;
  const auto at = [&](const char* id, const Vec3& p) {
    places.add(id, places.on_hoof(p.x, p.y, 0));
  };
  at("ground-heel", {hoof.heel_x - 110, 0, 0});
  at("ground-toe", {hoof.toe_x + 90, 0, 0});
  at("hairline-toe", toe);
  at("hairline-heel", heel);
  at("wall-dorsal-proximal", {hoof.wall_x(toe.y * 2 * third), toe.y * 2 * third, 0});
  at("wall-dorsal-distal", {hoof.wall_x(toe.y * third), toe.y * third, 0});
  at("wall-toe-ground", {hoof.toe_x, 0, 0});
  at("heel-wall-proximal", {hoof.heel_wall_x(heel.y * 2 * third), heel.y * 2 * third, 0});
  at("heel-wall-distal", {hoof.heel_wall_x(heel.y * third), heel.y * third, 0});
  at("heel-ground", {hoof.heel_x, 0, 0});
}

void fore_from_side(Places& places) {
  for (const char* id : {"scapular-spine-top",
                         "scapula-tuber",
                         "point-of-shoulder",
                         "elbow",
                         "carpus-lateral",
                         "mc3-proximal-lateral",
                         "fetlock-lateral",
                         "pip-lateral",
                         "dip-lateral"})
    places.lateral(id);
  foot_from_side(places);
  const Vec3 carpus = places.horse.joint("carpus-lateral");
  places.outline("carpus-dorsal", carpus, 1);
  places.outline("carpus-palmar", carpus, -1);
}

void hind_from_side(Places& places) {
  for (const char* id : {"tuber-coxae",
                         "greater-trochanter",
                         "stifle-lateral",
                         "hock-lateral",
                         "mt3-proximal-lateral",
                         "mt3-distal-lateral",
                         "fetlock-lateral",
                         "pip-lateral",
                         "dip-lateral"})
    places.lateral(id);
  foot_from_side(places);
  const StandingHorse& horse = places.horse;
  const Vec3 hock = horse.joint("hock-lateral");
  const Vec3 fetlock = horse.joint("fetlock-lateral");
  places.outline("tuber-ischii", horse.joint("tuber-ischii"), -1);
  places.outline("hock-point", horse.joint("hock-point"), -1);
  places.outline("cannon-plantar-proximal", fetlock + (hock - fetlock) * 0.7, -1);
  places.outline("cannon-plantar-distal", fetlock + (hock - fetlock) * 0.3, -1);
}

void foot_close_from_side(Places& places) {
  foot_from_side(places);
  const Vec3 pip = places.horse.joint("pip-lateral");
  const Vec3 fetlock = places.horse.joint("fetlock-lateral");
  places.outline("pastern-dorsal-proximal", pip + (fetlock - pip) * 0.65, 1);
  places.outline("pastern-dorsal-distal", pip + (fetlock - pip) * 0.2, 1);
  places.add("heel-bulb", Vec3{-77, 34, 21} * places.ratio() + places.hoof().at);
}

void foot_from_front(Places& places) {
  const HoofShape& hoof = places.hoof();
  const double middle = 0.5 * (hoof.toe_x + hoof.heel_x);
  for (const double side : {-1.0, 1.0}) {
    const std::string name = side > 0 ? "-lateral" : "-medial";
    const auto wall = [&](double y) {
      const double x = 0.5 * (hoof.wall_x(y) + hoof.heel_wall_x(y));
      return places.on_hoof(x, y, side * hoof.half_width_at(y));
    };
    // The coronary band at the widest part's own x, which moves back as the walls lean.
    const double cot = 0.5 * (hoof.toe_cot + hoof.heel_cot);
    const double top = hairline(hoof, middle, cot).y;
    places.add("ground" + name, places.on_hoof(middle, 0, side * (hoof.half_width + 60)));
    places.add("hairline" + name, wall(top));
    places.add("wall-mid" + name, wall(0.5 * top));
    places.add("wall-ground" + name, wall(0));
    places.add("wall-widest" + name, wall(0));
  }
  places.add("toe-mid", places.on_hoof(hoof.toe_x, 0, 0));
}

/// Points between the outlines, from the carpus or hock down.
void column_middles(Places& places, const std::string& top_joint) {
  const Vec3 fetlock = places.horse.joint("fetlock-lateral");
  const Vec3 top = places.horse.joint(top_joint);
  places.middle("cannon-mid-proximal", fetlock + (top - fetlock) * 0.75);
  places.middle("cannon-mid-distal", fetlock + (top - fetlock) * 0.25);
  places.middle("fetlock-mid", fetlock);
  places.both_sides("fetlock", fetlock);
  places.middle("pastern-mid", mean(fetlock, places.horse.joint("pip-lateral")));
}

void fore_from_front(Places& places) {
  const StandingHorse& horse = places.horse;
  const Vec3 point = horse.joint("point-of-shoulder");
  const Vec3 elbow = horse.joint("elbow");
  const Vec3 carpus = horse.joint("carpus-lateral");
  const HoofShape& other = horse.hooves.at(1);
  places.add("point-of-shoulder",
             skin_from(horse, {point.x + far_off, point.y, point.z}, {-1, 0, 0}));
  places.add("elbow-mid", elbow);
  places.middle("radius-mid-distal", carpus + (elbow - carpus) * 0.25);
  places.middle("carpus-mid", carpus);
  places.both_sides("carpus", carpus);
  column_middles(places, "carpus-lateral");
  foot_from_front(places);
  const Vec3 toe = hairline(places.hoof(), places.hoof().toe_x, places.hoof().toe_cot);
  places.add("coronet-mid", places.on_hoof(toe.x, toe.y, 0));
  places.add("other-toe-mid", other.at + Vec3{other.toe_x, 0, 0} * other.scale);
}

void hind_from_behind(Places& places) {
  const StandingHorse& horse = places.horse;
  const Vec3 buttock = horse.joint("tuber-ischii");
  const Vec3 hock = horse.joint("hock-lateral");
  const Vec3 point = horse.joint("hock-point");
  const HoofShape& hoof = places.hoof();
  places.add("tuber-ischii",
             skin_from(horse, {buttock.x - far_off, buttock.y, buttock.z}, {1, 0, 0}));
  places.middle("tibia-mid-proximal", hock + (horse.joint("stifle-lateral") - hock) * 0.55);
  places.add("hock-point", skin_from(horse, {point.x - 200, point.y, point.z}, {1, 0, 0}));
  places.middle("hock-mid", hock);
  places.both_sides("hock", hock);
  column_middles(places, "hock-lateral");
  places.add("bulb-mid", places.on_hoof(-77, 34, 0));
  for (const double side : {-1.0, 1.0}) {
    const std::string name = side > 0 ? "-lateral" : "-medial";
    places.add("ground" + name, places.on_hoof(hoof.heel_x, 0, side * (hoof.half_width + 60)));
    places.add("heel-ground" + name, places.on_hoof(hoof.heel_x + 6, 0, side * 28));
  }
}

/// Everything in the bearing plane.
void sole(Places& places) {
  const HoofShape& hoof = places.hoof();
  const double middle = 0.5 * (hoof.toe_x + hoof.heel_x);
  const double apex = hoof.heel_x + 0.64 * (hoof.toe_x - hoof.heel_x);
  places.add("frog-mid-1", places.on_hoof(hoof.heel_x + 18, 0, 0));
  places.add("frog-mid-2", places.on_hoof(apex - 8, 0, 0));
  places.add("frog-apex-true", places.on_hoof(apex, 0, 0));
  places.add("toe-centre", places.on_hoof(hoof.toe_x, 0, 0));
  places.add("white-line-toe", places.on_hoof(hoof.toe_x - 11, 0, 0));
  for (const double side : {-1.0, 1.0}) {
    const std::string name = side > 0 ? "-lateral" : "-medial";
    places.add("wall-widest" + name, places.on_hoof(middle, 0, side * hoof.half_width));
    places.add("heel-buttress" + name, places.on_hoof(hoof.heel_x + 7, 0, side * 38));
    places.add("frog-widest" + name, places.on_hoof(hoof.heel_x + 14, 0, side * 24));
    places.add("bar-end" + name, places.on_hoof(hoof.heel_x + 52, 0, side * 19));
  }
}

} // namespace

std::vector<HorsePoint> photo_landmarks(const StandingHorse& horse, PhotoSubject subject) {
  Places places{horse, {}};
  switch (subject) {
  case PhotoSubject::fore_side:
    fore_from_side(places);
    break;
  case PhotoSubject::hind_side:
    hind_from_side(places);
    break;
  case PhotoSubject::fore_front:
    fore_from_front(places);
    break;
  case PhotoSubject::hind_behind:
    hind_from_behind(places);
    break;
  case PhotoSubject::foot_side:
    foot_close_from_side(places);
    break;
  case PhotoSubject::foot_front:
    foot_from_front(places);
    places.middle("pastern-mid", mean(horse.joint("fetlock-lateral"), horse.joint("pip-lateral")));
    break;
  case PhotoSubject::sole:
    sole(places);
    break;
  }
  return places.all;
}

} // namespace pritchel::phantom
