#include "phantom/shot.h"

#include <algorithm>
#include <cmath>

namespace pritchel::phantom {

namespace {

struct Axes {
  Vec3 right;
  Vec3 up{0, 1, 0};
  Vec3 towards_source;
};

Axes axes_of(const Shot& shot) {
  const double sign = shot.facing == Facing::right ? 1.0 : -1.0;
  if (shot.view == View::lateromedial)
    return {.right = {sign, 0, 0}, .towards_source = {0, 0, 1}};
  return {.right = {0, 0, sign}, .towards_source = {1, 0, 0}};
}

Axes swung(Axes a, double yaw_deg, double roll_deg) {
  const double yaw = yaw_deg * radians_per_degree;
  const double roll = roll_deg * radians_per_degree;
  const Vec3 right = std::cos(yaw) * a.right + std::sin(yaw) * a.towards_source;
  const Vec3 level = std::cos(yaw) * a.towards_source - std::sin(yaw) * a.right;
  return {.right = right,
          .up = std::cos(roll) * a.up - std::sin(roll) * level,
          .towards_source = std::cos(roll) * level + std::sin(roll) * a.up};
}

} // namespace

Camera::Camera(const Shot& shot)
    : shot_(shot) {
  const Axes axes = swung(axes_of(shot), shot.yaw_deg, shot.roll_deg);
  right_ = axes.right;
  up_ = axes.up;
  towards_source_ = axes.towards_source;
  const Vec3 pivot = shot.view == View::lateromedial
                         ? Vec3{shot.beam_along_mm, shot.beam_height_mm, 0}
                         : Vec3{0, shot.beam_height_mm, shot.beam_along_mm};
  centre_ = pivot - shot.plane_to_detector_mm * towards_source_;
  source_ = centre_ + shot.source_to_detector_mm * towards_source_;
}

Pixel Camera::project(const Vec3& point) const {
  const Vec3 ray = point - source_;
  const double scale = shot_.source_to_detector_mm / -dot(ray, towards_source_);
  return {shot_.centre_column + dot(ray, right_) * scale / shot_.spacing_x_mm,
          shot_.centre_row - dot(ray, up_) * scale / shot_.spacing_y_mm};
}

Vec3 Camera::on_detector(double column, double row) const {
  return centre_ + (column - shot_.centre_column) * shot_.spacing_x_mm * right_ -
         (row - shot_.centre_row) * shot_.spacing_y_mm * up_;
}

double Camera::magnification() const {
  return shot_.source_to_detector_mm / (shot_.source_to_detector_mm - shot_.plane_to_detector_mm);
}

Shot framed_shot(const Foot& foot, View view, Facing facing, double spacing_mm) {
  Shot shot{.view = view, .facing = facing};
  const bool from_side = view == View::lateromedial;
  const double reach = foot.k * 66;
  const double low = from_side ? foot.coronary_band_heel.x - 34 : -reach - 38;
  const double high = from_side ? foot.wall_toe_ground.x + 48 : reach + 28;
  const double bottom = -24;
  const double top = foot.from_p1(69, 0, 0).y;
  shot.beam_along_mm = from_side ? 0.5 * (foot.wall_toe_ground.x + foot.heel_ground.x) : 0.0;
  if (!from_side)
    shot.beam_height_mm = 38; // about the joint's height, to keep its space open
  shot.spacing_x_mm = shot.spacing_y_mm = spacing_mm;
  const double scale = Camera(shot).magnification() / spacing_mm;
  shot.columns = static_cast<int>(std::lround((high - low) * scale));
  shot.rows = static_cast<int>(std::lround((top - bottom) * scale));
  const double from_left =
      facing == Facing::right ? shot.beam_along_mm - low : high - shot.beam_along_mm;
  shot.centre_column = std::round(from_left * scale);
  shot.centre_row = std::round((top - shot.beam_height_mm) * scale);
  shot.ball = {Ball{}};
  return shot;
}

Vec3 ball_centre(const Foot& foot, const Shot& shot, const Ball& ball) {
  const double height = 0.5 * ball.diameter_mm + 12;
  if (shot.view == View::lateromedial)
    return {foot.wall_toe_ground.x + 9 + 0.5 * ball.diameter_mm, height + 22, ball.offset_mm};
  const double medial = foot.half_width(foot.bearing(0), -1);
  return {ball.offset_mm, height + 40, -(medial + 6 + 0.5 * ball.diameter_mm)};
}

} // namespace pritchel::phantom
