#include "phantom/photo_scene.h"

#include "phantom/random.h"

#include <algorithm>
#include <cmath>

namespace pritchel::phantom {

namespace {

bool is_front(PhotoSubject s) {
  return s == PhotoSubject::fore_front || s == PhotoSubject::foot_front;
}
bool is_side(PhotoSubject s) {
  return s == PhotoSubject::fore_side || s == PhotoSubject::hind_side ||
         s == PhotoSubject::foot_side;
}

double sign_of(PhotoSubject subject, Side side) {
  const double left = side == Side::left ? 1 : -1;
  if (is_side(subject) || subject == PhotoSubject::hind_behind)
    return -left;
  return left;
}

/// Where the limb's plane lies along the line of sight, in the horse's frame.
double plane_of(const StandingHorse& horse, PhotoSubject subject) {
  const HoofShape& hoof = horse.hooves.front();
  if (subject == PhotoSubject::foot_front)
    return hoof.at.x + 0.5 * (hoof.toe_x + hoof.heel_x) * hoof.scale;
  if (is_front(subject) || subject == PhotoSubject::hind_behind)
    return horse.joint("fetlock-lateral").x;
  return 0;
}

Vec3 gradient(const StandingHorse& horse, const Vec3& p) {
  constexpr double step = 0.5;
  return unit(
      {skin_distance(horse, p + Vec3{step, 0, 0}) - skin_distance(horse, p - Vec3{step, 0, 0}),
       skin_distance(horse, p + Vec3{0, step, 0}) - skin_distance(horse, p - Vec3{0, step, 0}),
       skin_distance(horse, p + Vec3{0, 0, step}) - skin_distance(horse, p - Vec3{0, 0, step})});
}

void stick_dots(PhotoScene& scene) {
  const auto landmarks = photo_landmarks(scene.horse, scene.parameters.subject);
  constexpr double foil_mm = 0.6;
  for (const DotPlan& plan : scene.parameters.dots)
    for (const HorsePoint& l : landmarks)
      if (l.id == plan.id) {
        const Vec3 normal = gradient(scene.horse, l.at);
        scene.discs.push_back({.centre = scene.stance.to_photo(l.at + normal * foil_mm),
                               .normal = scene.stance.turned_to_photo(normal),
                               .radius_mm = 0.5 * scene.parameters.dot_mm,
                               .colour = plan.colour,
                               .id = l.id});
      }
  scene.on_skin = scene.discs.size();
}

/// Foil discs stuck on the wall behind, none of them behind the horse's limb for sure.
void stick_lookalikes(PhotoScene& scene) {
  Draws draw{scene.parameters.seed ^ 0x10ACULL};
  const PhotoCamera& camera = scene.parameters.camera;
  const PhotoLens lens{camera};
  for (int i = 0; i < scene.parameters.lookalikes; ++i) {
    const double column = draw.between(0.08, 0.92) * camera.columns;
    const double row = draw.between(0.1, 0.7) * camera.rows;
    const Vec3 ray = lens.ray(column, row);
    const double t = (scene.wall_z + 1 - lens.eye().z) / ray.z;
    scene.discs.push_back({.centre = lens.eye() + ray * t,
                           .normal = {0, 0, 1},
                           .radius_mm = 0.5 * scene.parameters.dot_mm * draw.between(0.9, 1.8),
                           .colour = static_cast<int>(draw.one_in(2)),
                           .id = {}});
  }
}

/// A bucket and a jacket on the ground behind the horse.
void put_clutter(PhotoScene& scene) {
  Draws draw{scene.parameters.seed ^ 0xC1u};
  const bool close = scene.parameters.subject == PhotoSubject::foot_side ||
                     scene.parameters.subject == PhotoSubject::foot_front;
  const double z = scene.wall_z + (close ? 330 : 260);
  const double x = draw.between(250, 500) * (draw.one_in(2) ? 1 : -1);
  const auto put = [&](Vec3 a, double ra, Vec3 b, double rb, Vec3 paint) {
    a = scene.stance.to_horse(a);
    b = scene.stance.to_horse(b);
    scene.horse.parts.push_back({a, b, ra, rb, 1, 1, Skin::thing, paint});
  };
  put({x, 100, z}, 100, {x, 190, z}, 125, {0.02, 0.08, 0.42});
  put({-x, 60, z + 40}, 60, {-x + 260, 70, z}, 80, {0.55, 0.05, 0.03});
}

/// Behind the limb, where the card isn't.
Vec3 cord_at(const PhotoScene& scene, double height) {
  const bool close = scene.parameters.subject == PhotoSubject::foot_side ||
                     scene.parameters.subject == PhotoSubject::foot_front;
  const double away = close ? 150 : 330;
  return scene.stance.to_horse({-scene.stance.sign() * away, height, 0});
}

void hang_cord(PhotoScene& scene) {
  const Vec3 white{0.75, 0.74, 0.7};
  const auto put = [&](double low, double high, double radius, const Vec3& paint) {
    scene.horse.parts.push_back(
        {cord_at(scene, low), cord_at(scene, high), radius, radius, 1, 0.5, Skin::thing, paint});
  };
  put(40, 2600, 2.5, white);
  put(20, 60, 9, {0.5, 0.3, 0.06});
}

} // namespace

std::vector<HorsePoint> cord_ends(const PhotoScene& scene) {
  const bool close = scene.parameters.subject == PhotoSubject::foot_side ||
                     scene.parameters.subject == PhotoSubject::foot_front;
  return {{"plumb-top", cord_at(scene, close ? 340 : 1150)}, {"plumb-bottom", cord_at(scene, 90)}};
}

Stance::Stance(PhotoSubject subject, Side side, double plane_mm)
    : subject_(subject),
      sign_(sign_of(subject, side)),
      plane_mm_(plane_mm) {}

Vec3 Stance::turned_to_photo(const Vec3& d) const {
  if (is_side(subject_))
    return {sign_ * d.x, d.y, d.z};
  if (subject_ == PhotoSubject::sole)
    return {sign_ * d.z, d.x, -d.y};
  return {sign_ * d.z, d.y, is_front(subject_) ? d.x : -d.x};
}

Vec3 Stance::turned_to_horse(const Vec3& d) const {
  if (is_side(subject_))
    return {sign_ * d.x, d.y, d.z};
  if (subject_ == PhotoSubject::sole)
    return {d.y, -d.z, sign_ * d.x};
  return {is_front(subject_) ? d.z : -d.z, d.y, sign_ * d.x};
}

Vec3 Stance::to_photo(const Vec3& horse) const {
  const double toward = subject_ == PhotoSubject::hind_behind ? -1 : 1;
  return turned_to_photo(horse) - Vec3{0, 0, toward * plane_mm_};
}

Vec3 Stance::to_horse(const Vec3& photo) const {
  const double toward = subject_ == PhotoSubject::hind_behind ? -1 : 1;
  return turned_to_horse(photo + Vec3{0, 0, toward * plane_mm_});
}

SheetPlane sheet_plane(const SheetPlace& place, const PrintedSheet& sheet) {
  const double turn = place.turned_deg * radians_per_degree;
  const double tip = place.tipped_deg * radians_per_degree;
  const Vec3 right{std::cos(turn), 0, -std::sin(turn)};
  const Vec3 facing{std::sin(turn), 0, std::cos(turn)};
  const Vec3 up = Vec3{0, std::cos(tip), 0} - facing * std::sin(tip);
  const Vec3 middle{place.left_mm + 0.5 * sheet.width_mm,
                    place.base_mm + 0.5 * sheet.height_mm * std::cos(tip),
                    place.offset_mm};
  return {middle - right * (0.5 * sheet.width_mm) - up * (0.5 * sheet.height_mm),
          right,
          up,
          facing * std::cos(tip) + Vec3{0, std::sin(tip), 0}};
}

PhotoScene photo_scene(const PhotoParameters& parameters) {
  StandingHorse horse = make_horse(parameters.horse);
  const Stance stance{
      parameters.subject, parameters.horse.side, plane_of(horse, parameters.subject)};
  PhotoScene scene{.parameters = parameters, .horse = std::move(horse), .stance = stance};
  const PhotoSubject s = parameters.subject;
  if (s == PhotoSubject::sole) {
    scene.wall_z = -520;
    scene.ground_y = -1e7;
    std::erase_if(scene.horse.parts, [&](const Part& part) {
      return std::max(part.a.y, part.b.y) > 230 * parameters.horse.size_ratio || part.a.z < -100;
    });
    scene.horse.hooves.resize(1);
  } else if (s == PhotoSubject::fore_front || s == PhotoSubject::hind_behind)
    scene.wall_z = -3600;
  else if (s == PhotoSubject::foot_front)
    scene.wall_z = -2200;
  stick_dots(scene);
  stick_lookalikes(scene);
  if (parameters.backdrop == Backdrop::cluttered && s != PhotoSubject::sole)
    put_clutter(scene);
  if (parameters.cord == PhotoParameters::Cord::hanging)
    hang_cord(scene);
  return scene;
}

} // namespace pritchel::phantom
