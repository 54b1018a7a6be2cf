#include "phantom/projector.h"
#include "phantom/shapes.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace pritchel::phantom {

namespace {

Bounds grown(const Vec3& low, const Vec3& high, double by) {
  return {low - Vec3{by, by, by}, high + Vec3{by, by, by}};
}

/// A wooden block under the foot, its top the ground, and a lead wire let into the top in the plane
/// of interest.
void add_block(const Foot& foot, const Shot& shot, std::vector<Solid>& solids) {
  const bool from_side = shot.view == View::lateromedial;
  const double toe = foot.wall_toe_ground.x + 20;
  const double heel = foot.coronary_band_heel.x - 14;
  const double middle = 0.5 * (toe + heel);
  const Vec3 low{from_side ? heel : middle - 95, -60, from_side ? -75.0 : -foot.k * 66 - 16};
  const Vec3 high{from_side ? toe : middle + 95, 0, from_side ? 75.0 : foot.k * 66 + 16};
  // Only its top shows; the rest would cost rays for nothing.
  const Vec3 shown{low.x, -32, low.z};
  solids.push_back({.name = "block",
                    .bounds = grown(shown, high, 1),
                    .resolution_mm = 1.0,
                    .surface = [low, high](const Vec3& p) { return box(p, low, high); },
                    .inside = Mixture::of(Material::wood),
                    .grain = 0.10});
  const Vec3 from = from_side ? Vec3{heel + 2, -0.6, 0} : Vec3{0, -0.6, low.z + 2};
  const Vec3 to = from_side ? Vec3{toe - 2, -0.6, 0} : Vec3{0, -0.6, high.z - 2};
  solids.push_back({.name = "wire",
                    .bounds = grown(from, to, 1.2),
                    .resolution_mm = 0.25,
                    .surface = [from, to](const Vec3& p) { return rod(p, from, to, 0.6); },
                    .inside = Mixture::of(Material::lead, 0.5),
                    .replaced = Mixture::of(Material::wood)});
}

void add_ball(const Foot& foot, const Shot& shot, std::vector<Solid>& solids) {
  for (const Ball& ball : shot.ball) {
    const Vec3 centre = ball_centre(foot, shot, ball);
    const double radius = 0.5 * ball.diameter_mm;
    const Vec3 extent{radius, radius, radius};
    solids.push_back(
        {.name = "ball",
         .bounds = grown(centre - extent, centre + extent, 1),
         .resolution_mm = 0.5,
         .surface = [centre, radius](const Vec3& p) { return length(p - centre) - radius; },
         .inside = Mixture::of(Material::iron)});
  }
}

/// Distance to a stroke of a letter, in the letter's own plane (u right as read, v up, height 13).
double stroke(double u, double v, double u0, double v0, double u1, double v1) {
  const Vec3 a{u0, v0, 0};
  const Vec3 b{u1, v1, 0};
  const Vec3 p{u, v, 0};
  const Vec3 ab = b - a;
  const double t = std::clamp(dot(p - a, ab) / dot(ab, ab), 0.0, 1.0);
  const Vec3 d = p - (a + t * ab);
  return std::max(std::abs(d.x), std::abs(d.y)) - 1.1;
}

double letter_shape(Side side, double u, double v) {
  if (side == Side::left)
    return std::min(stroke(u, v, -3.5, -6, -3.5, 6), stroke(u, v, -3.5, -6, 4, -6));
  const double bowl = std::max(std::abs(std::hypot(u, v - 2.8) - 3.2) - 1.1, -u);
  return std::min({stroke(u, v, -3.5, -6, -3.5, 6),
                   stroke(u, v, -3.5, 6, 0, 6),
                   stroke(u, v, -3.5, -0.4, 0, -0.4),
                   bowl,
                   stroke(u, v, 0, -0.4, 4, -6)});
}

/// The lead letter lies on the detector's face: dorsally in the lateromedial view, laterally in the
/// dorsopalmar one. It is laid so that it reads right in the stored picture.
void add_letter(const Foot& foot, const Shot& shot, std::vector<Solid>& solids) {
  const Camera camera{shot};
  const double edge_column = shot.facing == Facing::right ? shot.columns - 1 : 0;
  const double inward = shot.facing == Facing::right ? -1 : 1;
  const double column = edge_column + inward * 21 / shot.spacing_x_mm;
  const double row = (shot.view == View::lateromedial ? 30 : 22) / shot.spacing_y_mm;
  const Vec3 centre = camera.on_detector(column, row) + 2.0 * camera.towards_source();
  const Vec3 right = camera.right();
  const Vec3 up = camera.up();
  const Vec3 out = camera.towards_source();
  const Side side = foot.parameters.side;
  const double tilt = 0.07; // nobody lays it down quite straight
  solids.push_back({.name = "letter",
                    .bounds = grown(centre, centre, 10),
                    .resolution_mm = 0.4,
                    .surface =
                        [=](const Vec3& p) {
                          const Vec3 d = p - centre;
                          const double u = dot(d, right) + tilt * dot(d, up);
                          const double v = dot(d, up) - tilt * dot(d, right);
                          return std::max(letter_shape(side, u, v), std::abs(dot(d, out)) - 0.9);
                        },
                    .inside = Mixture::of(Material::lead)});
}

} // namespace

std::vector<Solid> scene(const Foot& foot, const Shot& shot) {
  std::vector<Solid> solids = foot_solids(foot);
  add_block(foot, shot, solids);
  add_ball(foot, shot, solids);
  add_letter(foot, shot, solids);
  return solids;
}

} // namespace pritchel::phantom
