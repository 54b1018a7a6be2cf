#include "imaging/map_errors.h"

#include "geometry/angle.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

Eigen::Matrix2d matrix(const PixelSteps& steps) {
  Eigen::Matrix2d m;
  m << steps[0], steps[1], steps[2], steps[3];
  return m;
}

} // namespace

PixelSteps
pixel_steps(const Homography& map, const std::optional<Lens>& lens, const ImagePoint& at) {
  constexpr double half = 1.0;
  const auto to = [&](double dx, double dy) {
    return square_on(map, lens, {at.x + dx, at.y + dy});
  };
  const auto across = to(half, 0) - to(-half, 0);
  const auto down = to(0, half) - to(0, -half);
  return {across.x / (2 * half), down.x / (2 * half), across.y / (2 * half), down.y / (2 * half)};
}

PixelSteps square_steps(double pixel_mm) {
  return {pixel_mm, 0, 0, pixel_mm};
}

PixelSpan pixel_span(const PixelSteps& steps) {
  const auto values = Eigen::JacobiSVD<Eigen::Matrix2d>(matrix(steps)).singularValues();
  return {.least = values[1], .greatest = values[0]};
}

MapError map_error(const PixelSteps& right, const PixelSteps& wrong) {
  const Eigen::Matrix2d change = matrix(wrong) * matrix(right).inverse();
  const Eigen::JacobiSVD<Eigen::Matrix2d> svd(change, Eigen::ComputeFullU | Eigen::ComputeFullV);
  const double most = svd.singularValues()[0], least = svd.singularValues()[1];
  const Eigen::Matrix2d turn = svd.matrixU() * svd.matrixV().transpose();
  // Stretched in one direction by k, two directions' angle changes by up to 2 asin((k-1)/(k+1)).
  return {.length_share = std::max(std::abs(most - 1), std::abs(least - 1)),
          .angle_deg = in_degrees(2 * std::asin((most - least) / (most + least))),
          .turn_deg = in_degrees(std::atan2(turn(1, 0), turn(0, 0)))};
}

} // namespace pritchel::imaging
