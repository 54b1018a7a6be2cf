#include "phantom/photo_looks.h"

#include "phantom/random.h"
#include "phantom/shapes.h"

#include <cmath>

namespace pritchel::phantom {

namespace {

double corner_value(std::int64_t x, std::int64_t y, std::int64_t z, std::uint64_t seed) {
  const auto word = static_cast<std::uint64_t>(x * 73856093 ^ y * 19349663 ^ z * 83492791);
  return static_cast<double>(mixed(seed, word) >> 40) * 0x1.0p-23 - 1;
}

Vec3 blend(const Vec3& a, const Vec3& b, double share) {
  return a * (1 - share) + b * share;
}

struct CoatPaint {
  Vec3 body;
  Vec3 points; ///< lower legs
  Vec3 mane;
};

CoatPaint coat_paint(Coat coat) {
  switch (coat) {
  case Coat::bay:
    return {{0.155, 0.066, 0.03}, {0.02, 0.016, 0.014}, {0.014, 0.012, 0.011}};
  case Coat::chestnut:
    return {{0.27, 0.105, 0.043}, {0.21, 0.082, 0.036}, {0.3, 0.14, 0.065}};
  case Coat::grey:
    return {{0.4, 0.4, 0.41}, {0.22, 0.22, 0.235}, {0.3, 0.3, 0.31}};
  case Coat::black:
    break;
  }
  return {{0.026, 0.023, 0.022}, {0.02, 0.018, 0.018}, {0.013, 0.012, 0.012}};
}

Vec3 hair_paint(const PhotoScene& scene, const Vec3& p) {
  const Coat coat = scene.parameters.coat;
  const CoatPaint paint = coat_paint(coat);
  const std::uint64_t seed = scene.parameters.seed;
  const double k = scene.horse.parameters.size_ratio;
  const double points_end = (scene.horse.parameters.limb == Limb::fore ? 520 : 600) * k;
  const double wander = 35 * lattice_noise(p * 0.012, seed);
  Vec3 colour =
      blend(paint.points, paint.body, rise(points_end - 90 * k, points_end + 90 * k, p.y + wander));
  // Hairs lie downwards: long in y, fine across; the coarser layer survives distance.
  const double hair = lattice_noise({p.x * 0.9, p.y * 0.13, p.z * 0.9}, seed + 1);
  const double tufts = lattice_noise({p.x * 0.16, p.y * 0.045, p.z * 0.16}, seed + 2);
  const double patches = lattice_noise(p * 0.008, seed + 3);
  double tone = 1 + 0.16 * hair + 0.1 * tufts + 0.08 * patches;
  if (coat == Coat::grey) {
    const double dapple =
        lattice_noise(p * 0.026, seed + 4) + 0.6 * lattice_noise(p * 0.051, seed + 5);
    tone *= 1 - 0.24 * rise(0.25, -0.6, dapple) * rise(250, 700, p.y);
  }
  return colour * tone;
}

Vec3 wall_horn(const PhotoScene& scene, const Vec3& p) {
  const HoofShape& hoof = scene.horse.hooves.front();
  const double height = p.y / hoof.scale;
  const double below_hairline = hoof.coronet_at(p.x / hoof.scale) - height;
  const double rings = std::sin(0.75 * below_hairline + 2 * lattice_noise(p * 0.02, 7));
  const double tubules = lattice_noise({p.x * 0.5, p.y * 0.05, p.z * 0.5}, 8);
  const Vec3 horn = Vec3{0.125, 0.105, 0.085} * (1 + 0.06 * rings + 0.14 * tubules);
  return blend({0.26, 0.23, 0.19}, horn, rise(1, 9, below_hairline)); // periople
}

double beyond(double value, double edge) {
  return rise(edge - 0.6, edge + 0.6, value);
}

Vec3 sole_paint(const PhotoScene& scene, const Vec3& at) {
  const HoofShape& hoof = scene.horse.hooves.front();
  const Vec3 p = (at - hoof.at) * (1 / hoof.scale);
  const double inwards = -superellipse(p.x - 0.5 * (hoof.toe_x + hoof.heel_x),
                                       p.z,
                                       0.5 * (hoof.toe_x - hoof.heel_x),
                                       hoof.half_width,
                                       2.3);
  const double apex = hoof.heel_x + 0.64 * (hoof.toe_x - hoof.heel_x);
  const double along = (apex - p.x) / (apex - hoof.heel_x - 14); // 0 at the apex, 1 where widest
  const double frog_half = 24 * std::clamp(along, 0.0, 1.0) + 2 * rise(0, 0.1, along);
  const double side = std::abs(p.z);
  const double rough = lattice_noise(p * 0.14, 11) + 0.5 * lattice_noise(p * 0.5, 12);
  Vec3 colour = Vec3{0.23, 0.2, 0.16} * (1 + 0.13 * rough);
  colour =
      blend(Vec3{0.4, 0.35, 0.26} * (1 + 0.05 * rough), colour, beyond(inwards, 11)); // white line
  colour = blend(Vec3{0.11, 0.095, 0.08} * (1 + 0.1 * rough), colour, beyond(inwards, 8)); // wall
  // Bars run from the buttresses towards the middle; the frog lies between, in its furrows.
  const double bar = std::abs(side - (38 - (p.x - hoof.heel_x) * 0.36));
  if (p.x < hoof.heel_x + 52)
    colour = blend(Vec3{0.13, 0.115, 0.095}, colour, beyond(bar, 3));
  if (along > 0) {
    colour = blend(Vec3{0.035, 0.03, 0.026}, colour, beyond(side, frog_half + 3));
    colour = blend(Vec3{0.085, 0.08, 0.078} * (1 + 0.15 * rough), colour, beyond(side, frog_half));
    const double cleft = p.x - hoof.heel_x < 40 ? 4.0 - std::abs(p.x - hoof.heel_x - 18) * 0.15 : 0;
    if (cleft > 0)
      colour = blend(Vec3{0.025, 0.022, 0.02}, colour, beyond(side, cleft));
  }
  return colour;
}

Painted brick(const Vec3& p) {
  const double row = std::floor(p.y / 75);
  const double along = p.x / 225 + (std::fmod(std::abs(row), 2) < 0.5 ? 0.0 : 0.5);
  const double in_x = along - std::floor(along);
  const double in_y = p.y / 75 - row;
  if (in_x < 0.05 || in_y < 0.14)
    return {Vec3{0.36, 0.34, 0.31}, 2};
  const double tone = corner_value(
      static_cast<std::int64_t>(std::floor(along)), static_cast<std::int64_t>(row), 0, 5);
  return {Vec3{0.3, 0.13, 0.085} * (1 + 0.25 * tone + 0.1 * lattice_noise(p * 0.1, 6)), 2};
}

} // namespace

double lattice_noise(const Vec3& p, std::uint64_t seed) {
  const double fx = std::floor(p.x);
  const double fy = std::floor(p.y);
  const double fz = std::floor(p.z);
  const auto soft = [](double t) { return t * t * (3 - 2 * t); };
  const double u = soft(p.x - fx);
  const double v = soft(p.y - fy);
  const double w = soft(p.z - fz);
  const auto x = static_cast<std::int64_t>(fx);
  const auto y = static_cast<std::int64_t>(fy);
  const auto z = static_cast<std::int64_t>(fz);
  const auto edge = [&](std::int64_t dy, std::int64_t dz) {
    const double a = corner_value(x, y + dy, z + dz, seed);
    return a + u * (corner_value(x + 1, y + dy, z + dz, seed) - a);
  };
  const double near_side = edge(0, 0) + v * (edge(1, 0) - edge(0, 0));
  const double far_side = edge(0, 1) + v * (edge(1, 1) - edge(0, 1));
  return near_side + w * (far_side - near_side);
}

Vec3 linear_of(const Rgb& colour) {
  const auto one = [](double s) {
    const double v = s / 255;
    return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4); // IEC 61966-2-1
  };
  return {one(colour.r), one(colour.g), one(colour.b)};
}

Vec3 horse_paint(const PhotoScene& scene, const Nearest& nearest, const Vec3& p, const Vec3& n) {
  switch (nearest.skin) {
  case Skin::thing:
    return nearest.part->paint;
  case Skin::mane:
    return coat_paint(scene.parameters.coat).mane *
           (1 + 0.35 * lattice_noise({p.x * 0.2, p.y * 0.02, p.z * 0.2}, scene.parameters.seed));
  case Skin::horn:
    return n.y < -0.9 ? sole_paint(scene, p) : wall_horn(scene, p);
  case Skin::hair:
    break;
  }
  return hair_paint(scene, p);
}

Painted ground_paint(const PhotoScene& scene, const Vec3& p) {
  const Vec3 flat =
      scene.parameters.subject == PhotoSubject::sole ? Vec3{p.x, 0, p.y} : Vec3{p.x, 0, p.z};
  const double coarse = lattice_noise(flat * 0.006, 21);
  const double fine = lattice_noise(flat * 0.12, 22);
  const double grit = lattice_noise(flat * 0.6, 23);
  switch (scene.parameters.footing) {
  case Footing::sand:
    return {Vec3{0.4, 0.3, 0.19} * (1 + 0.1 * coarse + 0.14 * fine + 0.12 * grit), 3};
  case Footing::grass: {
    const double blades = lattice_noise({flat.x * 0.25, 0, flat.z * 0.05}, 24);
    return {Vec3{0.085, 0.165, 0.04} * (1 + 0.2 * coarse + 0.45 * blades + 0.2 * grit), 4};
  }
  case Footing::concrete:
    break;
  }
  return {Vec3{0.33, 0.325, 0.31} * (1 + 0.07 * coarse + 0.05 * fine + 0.06 * grit), 5};
}

Painted wall_paint(const PhotoScene& scene, const Vec3& p) {
  if (scene.parameters.subject == PhotoSubject::sole)
    return ground_paint(scene, p);
  if (scene.parameters.backdrop == Backdrop::plain)
    return {Vec3{0.43, 0.42, 0.4} *
                (1 + 0.05 * lattice_noise(p * 0.004, 31) + 0.03 * lattice_noise(p * 0.08, 32)),
            6};
  Draws draw{scene.parameters.seed ^ 0xB0A7ULL};
  struct Sign {
    double x, y, w, h;
    Vec3 paint;
  };
  const Vec3 paints[] = {{0.6, 0.2, 0.03}, {0.04, 0.2, 0.07}, {0.05, 0.1, 0.4}, {0.7, 0.68, 0.62}};
  int mark = 10;
  for (const Vec3& paint : paints) {
    const Sign s{draw.between(-1500, 1300),
                 draw.between(500, 1700),
                 draw.between(120, 500),
                 draw.between(120, 400),
                 paint};
    if (p.x > s.x && p.x < s.x + s.w && p.y > s.y && p.y < s.y + s.h)
      return {s.paint * (1 + 0.05 * lattice_noise(p * 0.03, 33)), mark};
    ++mark;
  }
  return brick(p);
}

} // namespace pritchel::phantom
