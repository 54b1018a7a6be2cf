#include "teach/films.h"

#include "phantom/exposure.h"
#include "phantom/random.h"

#include <algorithm>
#include <cmath>

namespace pritchel::teach {
namespace {

using phantom::Draws;
using phantom::Foot;
using phantom::Shot;
using phantom::View;

/// How much wider than the taught ranges.
constexpr double wider = 1.15;

struct Ranges {
  Draws& draw;
  double stretch;
  /// Even between the ends, the range stretched about its middle.
  double between(double low, double high) {
    const double middle = 0.5 * (low + high), half = 0.5 * stretch * (high - low);
    return draw.between(middle - half, middle + half);
  }
  /// Even in the logarithm.
  double ratio(double low, double high) { return std::exp(between(std::log(low), std::log(high))); }
};

/// The same field at another magnification, then larger or smaller by so many millimetres a side.
void set_field(Shot& shot, double framed_at, Ranges& of) {
  const double magnification = phantom::Camera(shot).magnification();
  const double scale = magnification / shot.spacing_x_mm;
  shot.columns = static_cast<int>(shot.columns * magnification / framed_at);
  shot.rows = static_cast<int>(shot.rows * magnification / framed_at);
  shot.centre_column = std::round(shot.centre_column * magnification / framed_at);
  shot.centre_row = std::round(shot.centre_row * magnification / framed_at);
  const double left = of.between(-8, 45) * scale, right = of.between(-8, 45) * scale;
  const double top = of.between(0, 30) * scale, bottom = of.between(-8, 35) * scale;
  shot.columns += static_cast<int>(left + right);
  shot.rows += static_cast<int>(top + bottom);
  shot.centre_column += std::round(left);
  shot.centre_row += std::round(top);
}

Shot drawn_shot(const Foot& foot, View view, Draws& draw, double stretch) {
  Ranges of{draw, stretch};
  const auto facing = draw.one_in(2) ? phantom::Facing::left : phantom::Facing::right;
  Shot shot = phantom::framed_shot(foot, view, facing, of.between(0.34, 0.44));
  const double framed_at = phantom::Camera(shot).magnification();
  const double framed_height = shot.beam_height_mm;
  shot.source_to_detector_mm = of.between(650, 1100);
  shot.plane_to_detector_mm = of.between(50, 110);
  shot.beam_height_mm = view == View::lateromedial ? of.between(6, 34) : of.between(22, 50);
  set_field(shot, framed_at, of);
  // The field stays where it is; the central ray falls elsewhere in it.
  shot.centre_row -= std::round((shot.beam_height_mm - framed_height) *
                                phantom::Camera(shot).magnification() / shot.spacing_x_mm);
  shot.yaw_deg = of.between(-2.6, 2.6);
  shot.roll_deg = of.between(-1.6, 1.6);
  shot.exposure_ratio = of.ratio(0.5, 2);
  shot.focal_spot_mm = of.between(0.6, 1.2);
  shot.motion_mm = of.between(0, 0.25);
  if (draw.one_in(4))
    shot.collimation = phantom::Collimation::open;
  if (draw.one_in(4))
    shot.ball.clear();
  else
    shot.ball = {phantom::Ball{.diameter_mm = of.between(20, 30), .offset_mm = of.between(-8, 8)}};
  return shot;
}

/// The maker's greys: a bent curve, and one polarity or the other.
imaging::Picture picture_of(const phantom::Film& film, Draws& draw, double stretch) {
  Ranges of{draw, stretch};
  const double bend = of.ratio(0.75, 1.33);
  constexpr double top = (1 << phantom::stored_bits) - 1;
  imaging::Picture picture{
      .columns = film.columns, .rows = film.rows, .bits_stored = phantom::stored_bits};
  picture.inverse = draw.one_in(2);
  picture.samples.reserve(film.values.size());
  for (const auto value : film.values) {
    const double grey = top * std::pow(value / top, bend);
    picture.samples.push_back(
        static_cast<std::uint16_t>(std::lround(picture.inverse ? top - grey : grey)));
  }
  return picture;
}

bool is_main(const std::string& id) {
  return id.find("centre-of-rotation") == std::string::npos;
}

void add_as_if_shod(const Foot& foot, const Shot& shot, Drawn& drawn) {
  const phantom::Camera camera{shot};
  const double toe = foot.hoof_roll_start - 4;
  drawn.as_if_shod = {
      {"shoe-heel-end", camera.project({foot.shoe_heel_x(), 0, 0})},
      {"foot-plane-toe", camera.project({toe, foot.bearing(toe), 0})},
      {"foot-plane-heel", camera.project(foot.heel_ground)},
  };
}

} // namespace

Drawn drawn_film(Kind kind, View view, std::uint64_t number) {
  const std::uint64_t seed = (kind == Kind::taught ? 0x7EAC'0000ULL : 0x0DEE'0000'0000ULL) +
                             number + (view == View::lateromedial ? 0 : 0x4000'0000ULL);
  const double stretch = kind == Kind::taught ? 1 : wider;
  Draws draw{seed};
  const auto limb = draw.one_in(3) ? phantom::Limb::hind : phantom::Limb::fore;
  const auto side = draw.one_in(2) ? phantom::Side::left : phantom::Side::right;
  const Foot foot = phantom::make_foot(phantom::random_foot(seed, limb, side));
  Shot shot = drawn_shot(foot, view, draw, stretch);
  shot.seed = seed;
  const auto truth = phantom::truth_of(foot, shot);
  Drawn drawn{
      .picture = picture_of(phantom::make_film(foot, shot, phantom::Quality::draft), draw, stretch),
      .facing = shot.facing,
      .shoeing = foot.parameters.shoeing,
      .mm_per_pixel = truth.mm_per_pixel_x};
  const auto checks = (view == View::lateromedial ? phantom::lateromedial_check_landmarks(foot)
                                                  : phantom::dorsopalmar_check_landmarks(foot));
  const auto is_check = [&](const std::string& id) {
    return std::any_of(
        checks.begin(), checks.end(), [&](const auto& each) { return each.id == id; });
  };
  for (const auto& each : truth.landmarks)
    if (is_main(each.landmark.id) && !is_check(each.landmark.id))
      drawn.truth.push_back({each.landmark.id, each.pixel});
  if (view == View::lateromedial && drawn.shoeing == phantom::Shoeing::bare)
    add_as_if_shod(foot, shot, drawn);
  return drawn;
}

} // namespace pritchel::teach
