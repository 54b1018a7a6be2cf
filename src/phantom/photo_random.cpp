#include "phantom/photo.h"
#include "phantom/random.h"

#include <algorithm>
#include <cmath>

namespace pritchel::phantom {

namespace {

bool is_foot(PhotoSubject s) {
  return s == PhotoSubject::foot_side || s == PhotoSubject::foot_front;
}
bool is_hind(PhotoSubject s) {
  return s == PhotoSubject::hind_side || s == PhotoSubject::hind_behind;
}

/// What the picture holds from bottom to top, in the limb's plane.
struct Field {
  double bottom_mm = -90;
  double top_mm = 1560;
  double height_over_width = 4.0 / 3.0;
  double share_of_sheet = 0.2; ///< how far the aim lies from the limb towards the card's middle
};

Field field_of(PhotoSubject subject) {
  switch (subject) {
  case PhotoSubject::fore_side:
    return {-100, 1640};
  case PhotoSubject::hind_side:
    return {-100, 1560};
  case PhotoSubject::fore_front:
  case PhotoSubject::hind_behind:
    return {-90, 1330};
  case PhotoSubject::foot_side:
  case PhotoSubject::foot_front:
    return {-50, 400, 0.75, 0.45};
  case PhotoSubject::sole:
    break;
  }
  return {-165, 165, 0.75, 0.6};
}

/// The better half of the phones and cameras around, none of them very wide.
void draw_camera(Draws& draw, PhotoParameters& p) {
  const bool foot = is_foot(p.subject);
  const bool sole = p.subject == PhotoSubject::sole;
  const double distance =
      foot ? draw.between(1100, 2400) : (sole ? draw.between(600, 1300) : draw.between(2600, 5000));
  PhotoCamera camera = framed_camera(p, distance, draw.about(0, 3, -9, 9), 1600);
  camera.k1 = draw.about(0, 0.012, -0.035, 0.035);
  camera.roll_deg = draw.about(0, 1.2, -4, 4);
  p.camera = camera;
  p.blur_px = draw.between(0.5, 1.1);
  p.noise = draw.between(0.002, 0.008);
  p.jpeg_quality = static_cast<int>(draw.between(82, 97));
}

void draw_horse(Draws& draw, HorseParameters& h) {
  h.side = draw.one_in(2) ? Side::left : Side::right;
  h.size_ratio = draw.between(0.93, 1.06);
  h.hoof_angle_deg = draw.between(46, 57);
  h.heel_angle_deg = h.hoof_angle_deg - draw.between(0, 9);
  h.coronet_angle_deg = draw.between(17, 25);
  h.pastern_slope_deg = h.hoof_angle_deg + draw.about(1, 3, -6, 7);
  h.cannon_lean_deg = draw.about(0, 1.5, -4, 4);
  h.carpus_forward_mm = draw.about(0, 6, -15, 15);
  h.shoulder_slope_deg = draw.between(46, 56);
  h.hock_angle_deg = draw.between(150, 166);
  h.carpus_lateral_mm = draw.about(0, 6, -14, 14);
  h.fetlock_lateral_mm = draw.about(0, 6, -14, 14);
  h.foot_lateral_mm = draw.about(0, 6, -12, 12);
}

/// Where the card stands: in front of the toe, or at the limb's outer side.
double sheet_left(const PhotoParameters& p) {
  const double left_side = p.horse.side == Side::left ? 1 : -1;
  const bool towards_right =
      p.subject == PhotoSubject::fore_side || p.subject == PhotoSubject::hind_side ||
              p.subject == PhotoSubject::foot_side || p.subject == PhotoSubject::hind_behind
          ? left_side < 0
          : left_side > 0;
  constexpr double width_mm = 210;
  const double gap = p.subject == PhotoSubject::sole ? 92 : 135;
  return towards_right ? gap : -gap - width_mm;
}

void draw_sheet(Draws& draw, PhotoParameters& p) {
  SheetPlace place;
  place.left_mm = sheet_left(p);
  place.base_mm = p.subject == PhotoSubject::sole ? -148 : 0;
  place.offset_mm = draw.about(0, 25, -60, 60);
  place.turned_deg = draw.about(0, 3, -9, 9);
  place.tipped_deg = draw.about(0, 1, -3, 3);
  p.sheet = place;
}

} // namespace

PhotoCamera
framed_camera(const PhotoParameters& p, double distance_mm, double around_deg, int long_side) {
  const Field field = field_of(p.subject);
  PhotoCamera camera;
  const bool portrait = field.height_over_width > 1;
  const int short_side = long_side * 3 / 4;
  camera.columns = portrait ? short_side : long_side;
  camera.rows = portrait ? long_side : short_side;
  const double focal = camera.rows * distance_mm / (field.top_mm - field.bottom_mm);
  camera.focal_35mm = focal * 43.2666153 / std::hypot(camera.columns, camera.rows);
  constexpr double half_sheet_mm = 105;
  const double sheet_middle = p.sheet ? p.sheet->left_mm + half_sheet_mm : 0;
  const Vec3 target{sheet_middle * field.share_of_sheet, 0.5 * (field.top_mm + field.bottom_mm), 0};
  return camera_towards(target, distance_mm, around_deg, target.y, camera);
}

PhotoParameters random_photo(std::uint64_t seed, PhotoSubject subject) {
  Draws draw{seed ^ (static_cast<std::uint64_t>(subject) << 32U)};
  PhotoParameters p{.subject = subject, .seed = seed};
  p.horse.limb = is_hind(subject) ? Limb::hind : Limb::fore;
  draw_horse(draw, p.horse);
  draw_sheet(draw, p);
  draw_camera(draw, p);
  const auto pick = [&](int kinds) {
    return std::min(static_cast<int>(draw.between(0, kinds)), kinds - 1);
  };
  p.coat = static_cast<Coat>(pick(4));
  p.light = static_cast<Light>(pick(4));
  p.footing = static_cast<Footing>(pick(3));
  p.backdrop = draw.one_in(2) ? Backdrop::plain : Backdrop::cluttered;
  p.sun_from_deg = draw.between(-60, 60);
  p.sun_height_deg = draw.between(25, 60);
  int next = 0;
  for (const std::string& id : dot_places(subject))
    p.dots.push_back({id, next++ % 2});
  return p;
}

} // namespace pritchel::phantom
