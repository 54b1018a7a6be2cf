#include "phantom/reshape.h"

#include "phantom/solids.h"

#include <cmath>

namespace pritchel::phantom {

namespace {

constexpr Vec3 lateral_axis{0, 0, 1};

Vec3 cross(const Vec3& a, const Vec3& b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}

/// About the lateral axis; + lifts what is in front.
Vec3 pitched(const Vec3& p, const Vec3& about, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  const Vec3 d = p - about;
  return about + Vec3{d.x * c - d.y * s, d.x * s + d.y * c, d.z};
}

/// About the line towards the toe; + lifts what is lateral.
Vec3 rolled(const Vec3& p, const Vec3& about, double angle) {
  const double c = std::cos(angle), s = std::sin(angle);
  const Vec3 d = p - about;
  return about + Vec3{d.x, d.z * s + d.y * c, d.z * c - d.y * s};
}

Vec3 up_slope(double degrees) {
  const double a = degrees * radians_per_degree;
  return {-std::cos(a), std::sin(a), 0};
}

/// Where the line from `p` along `d` meets the plane through `on` square to `normal`.
Vec3 meet(const Vec3& p, const Vec3& d, const Vec3& on, const Vec3& normal) {
  return p + dot(on - p, normal) / dot(d, normal) * d;
}

/// Height at which `above` turns positive, going up.
template <class Above> double crossing(double low, double high, Above above) {
  for (int i = 0; i < 60; ++i) {
    const double y = 0.5 * (low + high);
    (above(y) > 0 ? high : low) = y;
  }
  return high;
}

} // namespace

Reshaped::Reshaped(const Foot& foot, const Reshaping& change)
    : foot_(foot),
      change_(change),
      hoof_(surface_of(foot, "hoof")) {
  const bool was_shod = foot.parameters.shoeing == Shoeing::shod;
  const double worn = was_shod ? foot.parameters.wedge_deg * radians_per_degree : 0;
  along_ = {std::cos(worn), -std::sin(worn), 0};
  square_ = {std::sin(worn), std::cos(worn), 0};
  span_ = dot(foot.wall_toe_ground - foot.heel_ground, along_);
  const double k = (change.trim_toe_mm - change.trim_heel_mm) / span_;
  along_cut_ = unit(along_ + k * square_);
  square_to_cut_ = unit(square_ - k * along_ - change.trim_slope * lateral_axis);
  turn_ = std::atan(k) + change.wedge_deg * radians_per_degree;
  tilt_ = change.side_wedge_deg * radians_per_degree - std::atan(change.trim_slope);
  find_toe();
  lay_ground();
}

bool Reshaped::shod() const {
  return foot_.parameters.shoeing == Shoeing::shod || change_.thicker_mm != 0 ||
         change_.wedge_deg != 0 || change_.breakover_back_mm != 0 || change_.branch_longer_mm != 0;
}

double Reshaped::height(const Vec3& p) const {
  return dot(p - foot_.heel_ground, square_);
}

double Reshaped::cut(const Vec3& p) const {
  const double share = dot(p - foot_.heel_ground, along_) / span_;
  return change_.trim_heel_mm + (change_.trim_toe_mm - change_.trim_heel_mm) * share +
         change_.trim_slope * p.z;
}

Vec3 Reshaped::wall_end(double inset, const Vec3& on, const Vec3& square) const {
  const Vec3 up = up_slope(foot_.parameters.hoof_angle_deg);
  const Vec3 outward{up.y, -up.x, 0};
  return meet(foot_.wall_point - inset * outward, up, on, square);
}

/// The toe is rolled again as it was: from as far behind its sharp end, with the same radius.
void Reshaped::find_toe() {
  old_sharp_toe_ = wall_end(0, foot_.heel_ground, square_);
  const Vec3 cut_at_heel = foot_.heel_ground + change_.trim_heel_mm * square_;
  const Vec3 flat = unit({square_to_cut_.x, square_to_cut_.y, 0}); // the cut in the mid-plane
  sharp_toe_ = wall_end(change_.dress_toe_mm, cut_at_heel, flat);
  const Vec3 old_start{foot_.hoof_roll_start, foot_.bearing(foot_.hoof_roll_start), 0};
  const Vec3 start = on_cut(dot(old_sharp_toe_ - old_start, along_));
  const Vec3 up = up_slope(foot_.parameters.hoof_angle_deg);
  const double radius = shape::roll_radius;
  const double above = crossing(0, 30, [&](double mm) {
    const Vec3 p = sharp_toe_ + mm * up;
    const double over = std::clamp(dot(p - start, along_cut_), 0.0, 0.9 * radius);
    return dot(p - start, flat) - (radius - std::sqrt(radius * radius - over * over));
  });
  rolled_toe_ = sharp_toe_ + above * up;
}

void Reshaped::lay_ground() {
  const bool was_shod = foot_.parameters.shoeing == Shoeing::shod;
  const double worn = was_shod ? foot_.parameters.wedge_deg * radians_per_degree : 0;
  const Vec3 old_toe = foot_.heel_ground + span_ * along_;
  const double thickness = old_toe.y / square_.y + change_.thicker_mm;
  const Vec3 flat = unit({square_to_cut_.x, square_to_cut_.y, 0});
  const Vec3 toe = meet(rolled_toe_, flat, sharp_toe_, flat);
  origin_ = toe - thickness * square_to_cut_;
  const double wedge = worn + change_.wedge_deg * radians_per_degree;
  forward_ = std::cos(wedge) * along_cut_ + std::sin(wedge) * square_to_cut_;
  normal_ = std::cos(wedge) * square_to_cut_ - std::sin(wedge) * along_cut_;
  const double side = change_.side_wedge_deg * radians_per_degree;
  lateral_ = cross(forward_, normal_);
  normal_ = std::cos(side) * normal_ + std::sin(side) * lateral_;
  lateral_ = cross(forward_, normal_);
}

Vec3 Reshaped::standing(const Vec3& p) const {
  const Vec3 from_joint = p - foot_.cor;
  return {dot(from_joint, forward_), dot(p - origin_, normal_), dot(from_joint, lateral_)};
}

Vec3 Reshaped::p2_standing(const Vec3& p) const {
  // The limb above keeps its place sideways: P2 turns back by what the foot is tilted.
  return standing(rolled(pitched(p, foot_.cor, change_.p2_share * turn_), foot_.cor, -tilt_));
}

Vec3 Reshaped::p1_standing(const Vec3& p) const {
  const Vec3 joint = pitched(foot_.pip, foot_.cor, change_.p2_share * turn_);
  const Vec3 turned = joint + (pitched(p, foot_.pip, change_.p1_share * turn_) - foot_.pip);
  return standing(rolled(turned, foot_.cor, -tilt_));
}

Vec3 Reshaped::heel(double sign) const {
  const auto at = [&](double y) {
    return Vec3{foot_.heel_x(y), y, sign * 0.8 * foot_.heel_half_width(y, sign)};
  };
  const double y = foot_.heel_ground.y;
  return at(
      crossing(y - 20, y + 20, [&](double each) { return height(at(each)) - cut(at(each)); }));
}

Vec3 Reshaped::quarter(double sign) const {
  const bool lateral = sign > 0;
  const double slope =
      lateral ? foot_.parameters.lateral_wall_deg : foot_.parameters.medial_wall_deg;
  const double dressed = lateral ? change_.dress_lateral_mm : change_.dress_medial_mm;
  const double inset = dressed / std::sin(slope * radians_per_degree); // level
  // In the plane of interest as the foot stands afterwards: straight under the joint.
  const auto at = [&](double y) {
    const double x = foot_.cor.x - (y - foot_.cor.y) * forward_.y / forward_.x;
    return Vec3{x, y, sign * (foot_.half_width(y, sign) - inset)};
  };
  const double y = foot_.bearing(0);
  return at(
      crossing(y - 20, y + 20, [&](double each) { return height(at(each)) - cut(at(each)); }));
}

Vec3 Reshaped::underside(const Vec3& from, const Vec3& direction) const {
  const auto inside = [&](double mm) {
    const Vec3 p = from + mm * direction;
    return std::max(hoof_(p), cut(p) - height(p)) < 0;
  };
  constexpr double step = 0.25, farthest = 60;
  const bool started = inside(0);
  double mm = 0;
  while (mm < farthest && inside(mm) == started)
    mm += step;
  return from + crossing(mm - step, mm, [&](double at) { return inside(at) == started ? -1 : 1; }) *
                    direction;
}

} // namespace pritchel::phantom
