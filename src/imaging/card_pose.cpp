#include "imaging/card_pose.h"

#include "base/assert.h"
#include "geometry/angle.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

using Rows = Eigen::Matrix<double, 3, 3, Eigen::RowMajor>;

Homography plain(const Rows& m) {
  Homography out{};
  std::copy_n(m.data(), out.size(), out.begin());
  return out;
}

Rows rows_of(const Homography& h) {
  return Eigen::Map<const Rows>(h.data());
}

} // namespace

Homography after(const Homography& second, const Homography& first) {
  return plain(rows_of(second) * rows_of(first));
}

CardPose pose_of(const Homography& to_picture, const CameraView& camera, const ImagePoint& middle) {
  Rows lens;
  const double f = camera.focal_px;
  lens << 1 / f, 0, -camera.centre.x / f, 0, 1 / f, -camera.centre.y / f, 0, 0, 1;
  const Rows view = lens * rows_of(to_picture);
  const Eigen::Vector3d at(middle.x, middle.y, 1);
  const double sign = view.row(2).dot(at) < 0 ? -1 : 1; // the card lies before the camera
  const Rows seen = view * sign * 2 / (view.col(0).norm() + view.col(1).norm());
  Eigen::Matrix<double, 3, 2> axes = seen.leftCols<2>();
  // The nearest two square axes of length 1: noise and a wrong focal length leave them skew.
  const Eigen::JacobiSVD<Eigen::Matrix<double, 3, 2>, Eigen::FullPivHouseholderQRPreconditioner>
      svd(axes, Eigen::ComputeFullU | Eigen::ComputeFullV);
  axes = svd.matrixU().leftCols<2>() * svd.matrixV().transpose();
  const Eigen::Vector3d normal = axes.col(0).cross(axes.col(1));
  const Eigen::Vector3d origin = seen.col(2);
  const Eigen::Vector3d middle_seen = axes * at.head<2>() + origin;
  return {.tilt_deg = in_degrees(std::acos(std::min(1.0, std::abs(normal.z())))),
          .distance_mm = std::abs(normal.dot(origin)),
          .depth_mm = middle_seen.z(),
          .foot = {-axes.col(0).dot(origin), -axes.col(1).dot(origin)}};
}

Homography to_plane_behind(const CardPose& pose, double behind_mm) {
  const double grow = (pose.distance_mm + behind_mm) / pose.distance_mm;
  return {grow, 0, (1 - grow) * pose.foot.x, 0, grow, (1 - grow) * pose.foot.y, 0, 0, 1};
}

Homography
to_turned_plane(const CardPose& pose, const ImagePoint& middle, TurnAbout axis, double degrees) {
  const double c = std::cos(from_degrees(degrees)), s = std::sin(from_degrees(degrees));
  const double d = pose.distance_mm;
  // A point (u, v) of the turned plane lies at depth z behind the card; its ray meets the card at
  // foot + (point - foot) d / (d + z).
  Rows onto_card, about_middle;
  if (axis == TurnAbout::upright)
    onto_card << pose.foot.x * s + d * c, 0, d * middle.x, pose.foot.y * s, d, d * middle.y, s, 0,
        d;
  else
    onto_card << d, pose.foot.x * s, d * middle.x, 0, pose.foot.y * s + d * c, d * middle.y, 0, s,
        d;
  about_middle << 1, 0, -middle.x, 0, 1, -middle.y, 0, 0, 1;
  const auto back = inverse(plain(onto_card * about_middle));
  PRITCHEL_ASSERT(back.has_value());
  return *back;
}

} // namespace pritchel::imaging
