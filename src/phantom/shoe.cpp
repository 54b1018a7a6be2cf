#include "phantom/shapes.h"
#include "phantom/solids.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::phantom {

namespace {

/// The shoe follows the capsule's outline at the bearing plane, fitted a little full at the heels.
double shoe_outline(const Foot& f, double x, double z) {
  const double heels = 3.0 * rise(0, 50, -x);
  return capsule_outline(f, {std::max(x, f.heel_ground.x + 8), f.bearing(x), z}) - heels;
}

double breakover_x(const Foot& f) {
  return f.roll_start + std::sqrt(2 * shape::roll_radius - 1);
}

double shoe_surface(const Foot& f, const Vec3& p) {
  // The toe may be set back under the horn, and its inner edge with it.
  const double set_back = p.x - breakover_x(f) - 9.0;
  const double outline = cut_to(shoe_outline(f, p.x, p.z), set_back, 10);
  const double web = std::max(outline, -outline - f.parameters.shoe_web_mm);
  // Rolled toe: the ground side rises in front.
  const double over = std::clamp(p.x - f.roll_start, 0.0, 0.9 * shape::roll_radius);
  const double roll =
      shape::roll_radius - std::sqrt(shape::roll_radius * shape::roll_radius - over * over);
  const double heel = f.shoe_heel_x() - p.x;
  const double fuller =
      std::max({std::abs(outline + 8.5) - 2.2, p.y - 4.5, -p.x - 25, p.x - f.tip.x + 6});
  const double body = std::max({web, roll - p.y, p.y - f.bearing(p.x), heel});
  return std::max(body, -fuller);
}

struct Nail {
  Vec3 head;
  Vec3 clench;
};

/// Three or so a side, from the fuller up through the wall to about a third of its height.
std::vector<Nail> nails(const Foot& f) {
  std::vector<Nail> all;
  for (const double side : {-1.0, 1.0})
    for (const double share : {0.62, 0.38, 0.12}) {
      const double x = share * f.wall_x(f.bearing(0));
      double z = f.half_width(f.bearing(x), side);
      while (shoe_outline(f, x, side * z) > -8.5 && z > 5)
        z -= 0.25;
      const double top = f.bearing(x) + 21;
      const double out_x = x - 5 - 9 * share;
      double out_z = f.half_width(top, side);
      while (capsule_outline(f, {out_x, top, side * out_z}) > -0.5 && out_z > 5)
        out_z -= 0.25;
      all.push_back({{x, 1.5, side * z}, {out_x, top, side * out_z}});
    }
  return all;
}

double nail_surface(const Nail& n, const Vec3& p) {
  const double shank = rod(p, n.head, n.clench, 1.25);
  const Vec3 neck = n.head + 5.0 * unit(n.clench - n.head);
  return std::min(shank, rod(p, n.head, neck, 2.2));
}

Bounds of_nail(const Nail& n) {
  return {{n.clench.x - 4, n.head.y - 4, std::min(n.head.z, n.clench.z) - 4},
          {n.head.x + 4, n.clench.y + 4, std::max(n.head.z, n.clench.z) + 4}};
}

} // namespace

void add_shoe(const Foot& f, std::vector<Solid>& solids) {
  if (f.parameters.shoeing == Shoeing::bare)
    return;
  const double wide =
      f.k * std::max(f.parameters.lateral_half_width_mm, f.parameters.medial_half_width_mm) + 6;
  const double top = std::max(f.bearing(f.shoe_heel_x()), f.bearing(f.tip.x + 45)) + 1;
  solids.push_back(
      {.name = "shoe",
       .bounds = {{f.shoe_heel_x() - 2, -1, -wide}, {f.wall_toe_ground.x + 20, top, wide}},
       .resolution_mm = 0.5,
       .surface = [f](const Vec3& p) { return shoe_surface(f, p); },
       .inside = Mixture::of(Material::iron)});
  for (const Nail& n : nails(f))
    solids.push_back(
        {.name = "nail",
         .bounds = of_nail(n),
         .resolution_mm = 0.4,
         .surface =
             [n, f](const Vec3& p) { return std::max(nail_surface(n, p), -shoe_surface(f, p)); },
         .inside = Mixture::of(Material::iron),
         .replaced = Mixture::of(Material::horn)});
}

std::vector<Solid> foot_solids(const Foot& foot) {
  std::vector<Solid> solids;
  add_capsule(foot, solids);
  add_bones(foot, solids);
  add_shoe(foot, solids);
  return solids;
}

Field surface_of(const Foot& foot, const std::string& part) {
  for (Solid& s : foot_solids(foot))
    if (s.name == part)
      return std::move(s.surface);
  return {};
}

} // namespace pritchel::phantom
