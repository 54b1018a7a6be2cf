#include "phantom/shapes.h"
#include "phantom/solids.h"

#include <algorithm>
#include <cmath>
#include <memory>

namespace pritchel::phantom {

namespace {

/// What lies round the bones: horn box, sole with frog, pastern and bulbs.
class Capsule {
public:
  explicit Capsule(const Foot& f)
      : foot_(f),
        sole_height_(sole_knots(f)),
        front_(front_knots(f)),
        back_(back_knots(f)),
        half_width_(width_knots(f)) {}

  /// Underside of the horn.
  [[nodiscard]] double underside(double x, double z) const {
    const double base = foot_.bearing(x);
    const double inward = -capsule_outline(foot_, {x, base, z});
    // The bearing border is widest at the toe.
    const double rim = shape::wall_rim + 8 * rise(foot_.tip.x + 5, foot_.tip.x + 14, x);
    const double vault = rise(rim - 3, rim + 5, inward);
    double height = sole_height_.at(x) * vault;
    height = with_frog(x, z, height);
    const double over = std::clamp(x - foot_.hoof_roll_start, 0.0, 0.9 * shape::roll_radius);
    const double roll =
        shape::roll_radius - std::sqrt(shape::roll_radius * shape::roll_radius - over * over);
    return base + std::max(height, roll);
  }

  [[nodiscard]] double hoof(const Vec3& p) const {
    const double under = underside(p.x, p.z) - p.y;
    const double coronet = p.y - foot_.coronet_y(p.x, p.z);
    return std::max({bulged_outline(p), under, coronet});
  }

  /// Everything inside the horn, open at the coronet and between the heels.
  [[nodiscard]] double inside(const Vec3& p) const {
    const double toe = rise(0, 40, p.x);
    // The wall starts as a thin edge at the coronet and has its thickness two fingers lower.
    const double below = foot_.coronet_y(p.x, p.z) - p.y;
    const double grown = 0.12 + 0.88 * rise(-4, 22, below);
    const double wall = (7.5 + 2.3 * toe - 2.0 * rise(10, 50, -p.x)) * grown;
    const double sole = 8.5 + 1.5 * toe;
    const double lined =
        std::max(capsule_outline(foot_, p) + wall, underside(p.x, p.z) + sole - p.y);
    const double between_heels = std::max({std::abs(p.z) - 22 * foot_.k,
                                           p.x - foot_.heel_ground.x - 14,
                                           underside(p.x, p.z) + 5 - p.y});
    return joined(lined, between_heels, 4);
  }

  [[nodiscard]] double limb(const Vec3& p) const {
    const double hoof_part = hoof(p);
    const Vec3& band = foot_.coronary_band_heel;
    const double bulb =
        ellipsoid({p.x, p.y, std::abs(p.z)}, {band.x + 10, band.y - 1, 19 * foot_.k}, {15, 15, 19});
    const double clear_of_ground = foot_.bearing(p.x) + 6 - p.y;
    const double skin = cut_to(joined(pastern(p), bulb, 12), clear_of_ground, 4);
    return joined(hoof_part, skin, 8.0);
  }

  [[nodiscard]] double pastern(const Vec3& p) const {
    const double front = front_.at(p.y);
    const double back = back_.at(p.y);
    const double middle = 0.5 * (front + back);
    const double lean = foot_.tangent.lean * std::max(p.y - foot_.cor.y, 0.0);
    const double slice =
        superellipse(p.x - middle, p.z - lean, 0.5 * (front - back), half_width_.at(p.y), 2.1);
    return std::max(slice, foot_.cor.y - 30 - p.y);
  }

private:
  [[nodiscard]] double bulged_outline(const Vec3& p) const {
    const double below = foot_.coronet_y(p.x, p.z) - p.y;
    const double s = std::clamp(below / 5.0, 0.0, 1.0);
    const double bulge = std::sin(3.14159265358979323846 * s);
    return capsule_outline(foot_, p) - 0.7 * bulge * bulge;
  }

  [[nodiscard]] double with_frog(double x, double z, double sole) const {
    const double k = foot_.k;
    const double apex = foot_.sole_b.x - 15 * k;
    const double back = foot_.heel_ground.x - 6;
    if (x > apex)
      return sole;
    const double s = std::clamp((apex - x) / (apex - back), 0.0, 1.0);
    const double half = (3 + 19 * s) * k;
    const double from_edge = std::abs(z) - half;
    const double frog = 2.5 + 3 * (1 - rise(0, 0.25, s));
    const double cleft = 9 * rise(0.5, 0.9, s) * bell(z, 2.6);
    const double groove = (3 + 9 * s) * bell(from_edge - 2.0, 2.4) * rise(0.02, 0.2, s);
    const double surface = frog + (sole - frog) * rise(-1.5, 1.5, from_edge);
    return surface + groove + cleft;
  }

  using Knots = std::vector<std::pair<double, double>>;

  static Vec3 beside(const Vec3& at, const Vec3& axis, double dorsal) {
    return {at.x + axis.y * dorsal, at.y - axis.x * dorsal, 0};
  }

  /// Sorted by height, at least 4 mm apart: steep or flat pasterns may bring two levels together.
  static Knots in_order(const std::vector<Vec3>& points) {
    Knots knots;
    for (const Vec3& p : points)
      if (knots.empty() || p.y > knots.back().first + 4)
        knots.emplace_back(p.y, p.x);
    return knots;
  }

  /// Height of the sole over the bearing plane in the mid-line: exact at the skeleton's points.
  static Knots sole_knots(const Foot& f) {
    const auto over = [&](const Vec3& p) { return p.y - f.bearing(p.x); };
    const double palmar_x = f.from_p3(shape::solar_length, 0, 0).x;
    const double palmar = f.sole_under_palmar_y - f.bearing(palmar_x);
    const double step = (over(f.sole_b) - over(f.sole_a)) / (f.sole_a.x - f.sole_b.x);
    const double cup_x = std::max(f.sole_b.x - 20, palmar_x + 9);
    return {{f.heel_ground.x, 2.5},
            {palmar_x - 8, palmar},
            {palmar_x, palmar},
            {palmar_x + 7, palmar + 0.3},
            {cup_x, over(f.sole_b) + 2.6},
            {f.sole_b.x, over(f.sole_b)},
            {0.5 * (f.sole_a.x + f.sole_b.x), 0.5 * (over(f.sole_a) + over(f.sole_b))},
            {f.sole_a.x, over(f.sole_a)},
            {f.sole_a.x + 9, over(f.sole_a) - 9 * step}};
  }

  static Knots front_knots(const Foot& f) {
    const double k = f.k;
    const Vec3 p1_low = f.from_p1(22, 0, 0);
    const Vec3 p1_high = f.from_p1(64, 0, 0);
    const Vec3 band = f.coronary_band;
    return in_order({{f.wall_x(band.y - 30) - 16, band.y - 30, 0},
                     {f.wall_x(band.y - 9) - 12, band.y - 9, 0},
                     {band.x - 0.6, band.y, 0},
                     beside(f.from_p2(33, 0, 0), f.p2_axis, 26 * k),
                     beside(p1_low, f.p1_axis, 21.5 * k),
                     beside(p1_high, f.p1_axis, 26.5 * k),
                     f.from_p1(100, 25, 0)});
  }

  static Knots back_knots(const Foot& f) {
    const double k = f.k;
    const double heel = f.coronary_band_heel.y;
    return in_order({{f.heel_x(f.heel_ground.y + 12) + 2, f.heel_ground.y + 12, 0},
                     {f.heel_x(heel) - 4, heel, 0},
                     beside(f.from_p2(30, 0, 0), f.p2_axis, -44 * k),
                     beside(f.from_p1(14, 0, 0), f.p1_axis, -40 * k),
                     beside(f.from_p1(42, 0, 0), f.p1_axis, -41 * k),
                     beside(f.from_p1(74, 0, 0), f.p1_axis, -56 * k),
                     f.from_p1(108, -60, 0)});
  }

  static Knots width_knots(const Foot& f) {
    const double k = f.k;
    const double band = f.coronet_y(0, 0);
    const double wall = 0.5 * (f.half_width(band, 1) + f.half_width(band, -1));
    return {{band - 30, wall - 10},
            {band - 9, wall - 3.5},
            {band + 1, wall - 1},
            {band + 16, wall - 8},
            {f.pip.y + 8, 34 * k},
            {f.pip.y + 36, 31 * k},
            {f.pip.y + 66, 37 * k},
            {f.pip.y + 90, 38 * k}};
  }

  Foot foot_;
  Curve sole_height_;
  Curve front_;
  Curve back_;
  Curve half_width_;
};

/// Flat band between two points, for tendons.
double strap(const Vec3& p, const Vec3& a, const Vec3& b, double half_width, double half_depth) {
  const Vec3 flat{p.x, p.y, 0};
  const Vec3 axis = b - a;
  const double t = std::clamp(dot(flat - a, axis) / dot(axis, axis), 0.0, 1.0);
  return superellipse(length(flat - (a + t * axis)), p.z, half_depth, half_width, 2);
}

double deep_flexor(const Foot& f, const Vec3& p) {
  const Vec3 top = f.from_p1(95, -36, 0);
  const Vec3 middle = f.from_p1(10, -24, 0);
  const Vec3 bone = f.from_p3(f.cor_a + 16, 13, 0);
  const Vec3 insertion = f.from_p3(f.cor_a, 5, 0);
  const double k = f.k;
  const auto flat = [](const Vec3& v) { return Vec3{v.x, v.y, 0}; };
  return std::min({strap(p, flat(top), flat(middle), 13 * k, 4.5 * k),
                   strap(p, flat(middle), flat(bone), 15 * k, 4 * k),
                   strap(p, flat(bone), flat(insertion), 17 * k, 3 * k)});
}

double extensor(const Foot& f, const Vec3& p) {
  const auto flat = [](const Vec3& v) { return Vec3{v.x, v.y, 0}; };
  const Vec3 insertion = f.from_p3(f.apex_a - 2, f.apex_b, 0);
  const Vec3 middle = f.from_p2(36, 20, 0);
  const Vec3 top = f.from_p1(64, 21.5, 0);
  return std::min(strap(p, flat(insertion), flat(middle), 12 * f.k, 2.6 * f.k),
                  strap(p, flat(middle), flat(top), 12 * f.k, 2.4 * f.k));
}

double cushion(const Foot& f, const Vec3& p) {
  const Vec3 centre{f.heel_ground.x + 12, f.coronary_band_heel.y - 8, 0};
  return ellipsoid(p, centre, {26, 13, 22 * f.k});
}

} // namespace

double capsule_outline(const Foot& f, const Vec3& p) {
  const double front = std::max(f.wall_x(p.y), 6.0);
  const double width = std::max(f.half_width(p.y, p.z), 8.0);
  if (p.x >= 0)
    return superellipse(p.x, p.z, front, width, 2.15);
  const double back = f.heel_x(p.y);
  const double u = std::min(p.x / back, 1.15);
  const double heel = std::min(f.heel_half_width(p.y, p.z), width - 4);
  const double side = std::abs(p.z) - (width - (width - heel) * u * u);
  return cut_to(side, back - p.x, 6.0);
}

void add_capsule(const Foot& f, std::vector<Solid>& solids) {
  const auto capsule = std::make_shared<Capsule>(f);
  const double bottom = std::min({f.heel_ground.y, f.wall_toe_ground.y, 0.0}) - 2;
  const double back = std::min(f.coronary_band_heel.x - 24, f.from_p1(100, -62, 0).x);
  const double wide =
      f.k * std::max(f.parameters.lateral_half_width_mm, f.parameters.medial_half_width_mm) + 4;
  const double top = f.from_p1(105, 0, 0).y;
  const Bounds whole{{back, bottom, -wide}, {f.wall_toe_ground.x + 6, top, wide}};
  const Bounds horn{{f.coronary_band_heel.x - 8, bottom, -wide},
                    {f.wall_toe_ground.x + 6, f.coronary_band.y + 9, wide}};
  const Mixture soft = Mixture::of(Material::soft_tissue);
  solids.push_back({.name = "limb",
                    .bounds = whole,
                    .resolution_mm = 1.0,
                    .surface = [capsule](const Vec3& p) { return capsule->limb(p); },
                    .inside = soft});
  solids.push_back({.name = "hoof",
                    .bounds = horn,
                    .resolution_mm = 0.8,
                    .surface = [capsule](const Vec3& p) { return capsule->hoof(p); },
                    .inside = Mixture::of(Material::horn),
                    .replaced = soft});
  solids.push_back(
      {.name = "inside of the horn",
       .bounds = horn,
       .resolution_mm = 0.8,
       .surface =
           [capsule](const Vec3& p) { return std::max(capsule->inside(p), capsule->hoof(p)); },
       .inside = soft,
       .replaced = Mixture::of(Material::horn)});
  solids.push_back({.name = "deep flexor tendon",
                    .bounds = {{back, f.tip.y, -22}, {6, top, 22}},
                    .resolution_mm = 1.0,
                    .surface = [f](const Vec3& p) { return deep_flexor(f, p); },
                    .inside = Mixture::of(Material::soft_tissue, 1.10),
                    .replaced = soft});
  solids.push_back({.name = "extensor tendon",
                    .bounds = {{back, f.cor.y, -16}, {f.coronary_band.x, top, 16}},
                    .resolution_mm = 1.0,
                    .surface = [f](const Vec3& p) { return extensor(f, p); },
                    .inside = Mixture::of(Material::soft_tissue, 1.08),
                    .replaced = soft});
  solids.push_back(
      {.name = "digital cushion",
       .bounds = {{back, f.heel_ground.y + 4, -30}, {-10, f.cor.y, 30}},
       .resolution_mm = 1.0,
       .surface = [f](const Vec3& p) { return cushion(f, p); },
       .inside = Mixture::of(Material::soft_tissue, 0.45) + Mixture::of(Material::marrow, 0.5),
       .replaced = soft});
}

} // namespace pritchel::phantom
