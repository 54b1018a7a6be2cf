#include "phantom/check_landmarks.h"

#include "phantom/shapes.h"
#include "phantom/solids.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace pritchel::phantom {

namespace {

/// Half the block's width across a lateromedial beam and its length along a dorsopalmar one.
constexpr double block_half_width = 75;
constexpr double block_half_length = 95;
/// Beyond this the wall's shadow covers the sole's outline. Own estimate.
constexpr double seen_half_width = 25;

void add_twins(std::vector<Landmark>& all,
               const std::string& stem,
               const Vec3& lateral,
               const Vec3& medial,
               const std::string& part) {
  all.push_back({stem + "-1", lateral, {lateral}, part});
  all.push_back({stem + "-2", medial, {medial}, part});
}

void add_condyles(const Foot& f, std::vector<Landmark>& all) {
  const double r = f.parameters.condyle_radius_mm;
  const double z = shape::condyle_plateau;
  const double palmar = -72 * radians_per_degree; // from the distal end of the bone's axis
  const auto at = [&](double t, double d, double side) { return f.from_p2(t, d, side * z); };
  const double t = -r * std::cos(palmar);
  const double d = r * std::sin(palmar);
  add_twins(all, "p2-condyle-palmar", at(t, d, 1), at(t, d, -1), "p2");
  const double low_t = -r * f.p2_axis.y;
  const double low_d = r * f.p2_axis.x;
  add_twins(all, "p2-condyle-distal", at(low_t, low_d, 1), at(low_t, low_d, -1), "p2");
}

void add_p3(const Foot& f, std::vector<Landmark>& all) {
  const auto process = [&](double side) {
    return f.from_p3(shape::solar_length, 0, side * shape::process_z);
  };
  add_twins(all, "p3-palmar-process", process(1), process(-1), "p3");
  const double a = shape::p3_widest_a;
  const auto margin = [&](double side) {
    return f.from_p3(a, solar_arch(a), side * p3_half_width(a, solar_arch(a)));
  };
  add_twins(all, "p3-solar-border", margin(1), margin(-1), "p3");
}

} // namespace

std::vector<Landmark> lateromedial_check_landmarks(const Foot& foot) {
  std::vector<Landmark> all;
  add_condyles(foot, all);
  add_p3(foot, all);
  const double x = foot.wall_toe_ground.x + 8;
  const Vec3 near{x, 0, block_half_width};
  const Vec3 far{x, 0, -block_half_width};
  all.push_back({"block-edge-near", near, {near}, {}});
  all.push_back({"block-edge-far", far, {far}, {}});
  return all;
}

std::vector<Landmark> dorsopalmar_check_landmarks(const Foot& foot) {
  std::vector<Landmark> all;
  const double middle = 0.5 * (foot.wall_toe_ground.x + foot.coronary_band_heel.x + 6);
  const double z = -foot.k * 66;
  const Vec3 near{middle + block_half_length, 0, z};
  const Vec3 far{middle - block_half_length, 0, z};
  all.push_back({"block-edge-near", near, {near}, {}});
  all.push_back({"block-edge-far", far, {far}, {}});
  const double half_way = 0.5 * foot.coronary_band.y;
  const Vec3 dorsal{foot.wall_x(half_way), half_way, 0};
  const Vec3 frog{foot.heel_ground.x + 8, 9, 0};
  all.push_back({"dorsal-mid-marker", dorsal, {dorsal}, {}});
  all.push_back({"frog-mid-marker", frog, {frog}, {}});
  return all;
}

Pixel shown(const Landmark& landmark, const Camera& camera, Follows follows) {
  if (landmark.witnesses.size() != 2)
    return camera.project(landmark.point);
  const Pixel medial = camera.project(landmark.witnesses[0]);
  const Pixel lateral = camera.project(landmark.witnesses[1]);
  switch (follows) {
  case Follows::medial:
    return medial;
  case Follows::lateral:
    return lateral;
  case Follows::mean:
    break;
  }
  return {0.5 * (medial.x + lateral.x), 0.5 * (medial.y + lateral.y)};
}

double sole_half_width(const Foot& foot, double x) {
  const double y = foot.bearing(x);
  const double border = shape::wall_rim + 8 * rise(foot.tip.x + 5, foot.tip.x + 14, x);
  // Beyond the border the sole rises to its flat part within five millimetres.
  const auto flat = [&](double z) {
    return -std::max(capsule_outline(foot, {x, y, z}), capsule_outline(foot, {x, y, -z})) >
           border + 5;
  };
  double low = 0;
  double high = seen_half_width * foot.k;
  for (int i = 0; i < 30; ++i) {
    const double z = 0.5 * (low + high);
    (flat(z) ? low : high) = z;
  }
  return low;
}

} // namespace pritchel::phantom
