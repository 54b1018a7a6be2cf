/// A field sampled on a regular grid, so that a ray can ask for it millions of times.
#pragma once

#include "phantom/solids.h"

#include <array>
#include <cstddef>
#include <vector>

namespace pritchel::phantom {

class Grid {
public:
  /// Samples `field` over `bounds` every `spacing_mm`.
  Grid(const Bounds& bounds, double spacing_mm, const Field& field);

  /// Turns values into distances near the zero surface: value / |gradient|.
  void make_distances();
  /// A grid of the same shape: this grid's value plus `extra` (under 13) at each node within 13 mm
  /// of the surface on its inner side; farther off, where `extra` can't turn the sign, the same
  /// value.
  [[nodiscard]] Grid plus(const Field& extra) const;

  /// Linear interpolation; the position must lie inside bounds().
  [[nodiscard]] float at(double x, double y, double z) const {
    const auto fx = static_cast<float>((x - low_.x) * inverse_);
    const auto fy = static_cast<float>((y - low_.y) * inverse_);
    const auto fz = static_cast<float>((z - low_.z) * inverse_);
    const auto ix = static_cast<int>(fx);
    const auto iy = static_cast<int>(fy);
    const auto iz = static_cast<int>(fz);
    const float tx = fx - static_cast<float>(ix);
    const float ty = fy - static_cast<float>(iy);
    const float tz = fz - static_cast<float>(iz);
    const float* v = &values_[index(ix, iy, iz)];
    const float* w = v + static_cast<std::ptrdiff_t>(nx_) * ny_;
    const auto edge = [tx](const float* p) { return p[0] + tx * (p[1] - p[0]); };
    const float near_face = edge(v) + ty * (edge(v + nx_) - edge(v));
    const float far_face = edge(w) + ty * (edge(w + nx_) - edge(w));
    return near_face + tz * (far_face - near_face);
  }

  [[nodiscard]] Bounds bounds() const;

private:
  void fill_block(const std::array<int, 3>& at, int block, const Field& field);
  [[nodiscard]] std::size_t index(int x, int y, int z) const {
    return static_cast<std::size_t>((static_cast<std::ptrdiff_t>(z) * ny_ + y) * nx_ + x);
  }
  [[nodiscard]] Vec3 node(int x, int y, int z) const;
  Vec3 low_;
  double spacing_;
  double inverse_;
  int nx_;
  int ny_;
  int nz_;
  std::vector<float> values_;
};

/// A repeating block of mottle with mean 0 and deviation 1, finer along one axis than another, as
/// trabeculae are. 0.32 mm a node.
class Mottle {
public:
  explicit Mottle(std::uint64_t seed);
  [[nodiscard]] float at(double x, double y, double z) const;

private:
  static constexpr int side_ = 128;
  std::vector<float> values_;
};

} // namespace pritchel::phantom
