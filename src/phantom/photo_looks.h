/// Colours and patterns of a rendered photo: coats, horn, ground, walls; linear light. Knows no
/// camera and no light.
#pragma once

#include "phantom/photo_scene.h"

namespace pritchel::phantom {

/// Smooth noise in -1...1 whose features are about 1 unit across.
double lattice_noise(const Vec3& p, std::uint64_t seed);

Vec3 linear_of(const Rgb& colour);

/// `p` in the horse's frame; `n` its normal there.
Vec3 horse_paint(const PhotoScene& scene, const Nearest& nearest, const Vec3& p, const Vec3& n);
/// `p` in photo space. `mark` tells pieces of the background apart, for smoothing their edges.
struct Painted {
  Vec3 paint;
  int mark = 0;
};
Painted ground_paint(const PhotoScene& scene, const Vec3& p);
Painted wall_paint(const PhotoScene& scene, const Vec3& p);

} // namespace pritchel::phantom
