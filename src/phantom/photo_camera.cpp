#include "phantom/photo_camera.h"

#include <cmath>

namespace pritchel::phantom {

namespace {

constexpr double film_diagonal_mm = 43.2666153;

Vec3 cross(const Vec3& a, const Vec3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

} // namespace

double focal_px(const PhotoCamera& camera) {
  return camera.focal_35mm / film_diagonal_mm * std::hypot(camera.columns, camera.rows);
}

PhotoCamera camera_towards(const Vec3& target,
                           double distance_mm,
                           double around_deg,
                           double height_mm,
                           const PhotoCamera& kind) {
  PhotoCamera camera = kind;
  const double around = around_deg * radians_per_degree;
  camera.position = {target.x + distance_mm * std::sin(around),
                     height_mm,
                     target.z + distance_mm * std::cos(around)};
  const Vec3 look = target - camera.position;
  camera.yaw_deg = std::atan2(look.x, -look.z) / radians_per_degree;
  camera.pitch_deg = std::atan2(look.y, std::hypot(look.x, look.z)) / radians_per_degree;
  return camera;
}

PhotoLens::PhotoLens(const PhotoCamera& camera)
    : eye_(camera.position),
      axes_{},
      focal_(focal_px(camera)),
      k1_(camera.k1),
      centre_x_(0.5 * (camera.columns - 1)),
      centre_y_(0.5 * (camera.rows - 1)) {
  const double yaw = camera.yaw_deg * radians_per_degree;
  const double pitch = camera.pitch_deg * radians_per_degree;
  const double roll = camera.roll_deg * radians_per_degree;
  const Vec3 forward{
      std::sin(yaw) * std::cos(pitch), std::sin(pitch), -std::cos(yaw) * std::cos(pitch)};
  const Vec3 level_right{std::cos(yaw), 0, std::sin(yaw)};
  const Vec3 level_down = cross(forward, level_right);
  const Vec3 right = level_right * std::cos(roll) + level_down * std::sin(roll);
  axes_ = {right, cross(forward, right), forward};
}

std::optional<Pixel> PhotoLens::project(const Vec3& point) const {
  const Vec3 d = point - eye_;
  const double depth = dot(d, axes_[2]);
  if (depth <= 1)
    return std::nullopt;
  const double x = dot(d, axes_[0]) / depth;
  const double y = dot(d, axes_[1]) / depth;
  const double r2 = x * x + y * y;
  if (1 + 3 * k1_ * r2 <= 0)
    return std::nullopt;
  const double stretch = focal_ * (1 + k1_ * r2);
  return Pixel{centre_x_ + stretch * x, centre_y_ + stretch * y};
}

Vec3 PhotoLens::ray(double column, double row) const {
  const double x = (column - centre_x_) / focal_;
  const double y = (row - centre_y_) / focal_;
  const double seen2 = x * x + y * y;
  double shrink = 1;
  constexpr int rounds = 12;
  for (int i = 0; k1_ != 0 && i < rounds; ++i) // Newton on s + k1 r^2 s^3 = 1
    shrink -= (shrink * (1 + k1_ * seen2 * shrink * shrink) - 1) /
              (1 + 3 * k1_ * seen2 * shrink * shrink);
  return unit(axes_[0] * (x * shrink) + axes_[1] * (y * shrink) + axes_[2]);
}

} // namespace pritchel::phantom
