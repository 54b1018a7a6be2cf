#include "phantom/grid.h"

#include "phantom/random.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::phantom {

namespace {

int nodes(double low, double high, double spacing) {
  return static_cast<int>(std::ceil((high - low) / spacing)) + 2;
}

/// Box blur along one axis of a repeating cube; two passes come near a Gaussian.
void blur_axis(std::vector<float>& v, std::size_t side, std::size_t stride, std::size_t radius) {
  std::vector<float> line(side);
  const float weight = 1.0F / static_cast<float>(2 * radius + 1);
  for (std::size_t start = 0; start < v.size(); ++start) {
    if ((start / stride) % side != 0)
      continue;
    for (std::size_t j = 0; j < side; ++j) {
      float sum = 0;
      for (std::size_t r = 0; r <= 2 * radius; ++r)
        sum += v[start + ((j + r + side - radius) % side) * stride];
      line[j] = sum * weight;
    }
    for (std::size_t j = 0; j < side; ++j)
      v[start + j * stride] = line[j];
  }
}

void to_unit_deviation(std::vector<float>& v) {
  double sum = 0;
  double squares = 0;
  for (const float x : v) {
    const auto value = static_cast<double>(x);
    sum += value;
    squares += value * value;
  }
  const auto n = static_cast<double>(v.size());
  const double mean_value = sum / n;
  const double deviation = std::sqrt(squares / n - mean_value * mean_value);
  for (float& x : v)
    x = static_cast<float>((static_cast<double>(x) - mean_value) / deviation);
}

std::vector<float>
blurred_noise(std::uint64_t seed, std::size_t side, const std::array<std::size_t, 3>& radii) {
  std::vector<float> v(side * side * side);
  for (std::size_t i = 0; i < v.size(); ++i)
    v[i] = static_cast<float>(even(seed, i) - 0.5);
  for (int pass = 0; pass < 2; ++pass) {
    std::size_t stride = 1;
    for (const std::size_t radius : radii) {
      blur_axis(v, side, stride, radius);
      stride *= side;
    }
  }
  to_unit_deviation(v);
  return v;
}

} // namespace

Grid::Grid(const Bounds& bounds, double spacing_mm, const Field& field)
    : low_(bounds.low),
      spacing_(spacing_mm),
      inverse_(1.0 / spacing_mm),
      nx_(nodes(bounds.low.x, bounds.high.x, spacing_mm)),
      ny_(nodes(bounds.low.y, bounds.high.y, spacing_mm)),
      nz_(nodes(bounds.low.z, bounds.high.z, spacing_mm)) {
  values_.resize(index(0, 0, nz_));
  constexpr int block = 4;
  for (int z = 0; z < nz_; z += block)
    for (int y = 0; y < ny_; y += block)
      for (int x = 0; x < nx_; x += block)
        fill_block({x, y, z}, block, field);
}

void Grid::fill_block(const std::array<int, 3>& at, int block, const Field& field) {
  const int end_x = std::min(at[0] + block, nx_);
  const int end_y = std::min(at[1] + block, ny_);
  const int end_z = std::min(at[2] + block, nz_);
  // Far from the surface only the sign and a rough depth matter.
  const double middle = field(node(at[0] + block / 2, at[1] + block / 2, at[2] + block / 2));
  const bool far = std::abs(middle) > 2.2 * block * spacing_ && std::abs(middle) > 13.0;
  for (int z = at[2]; z < end_z; ++z)
    for (int y = at[1]; y < end_y; ++y)
      for (int x = at[0]; x < end_x; ++x)
        values_[index(x, y, z)] = static_cast<float>(far ? middle : field(node(x, y, z)));
}

Vec3 Grid::node(int x, int y, int z) const {
  return low_ + Vec3{x * spacing_, y * spacing_, z * spacing_};
}

Bounds Grid::bounds() const {
  return {low_, node(nx_ - 2, ny_ - 2, nz_ - 2)};
}

void Grid::make_distances() {
  const std::vector<float> v = values_;
  const int row = nx_;
  const int layer = nx_ * ny_;
  const auto slope = [&](std::size_t i, int position, int count, int stride) {
    const int back = position > 0 ? stride : 0;
    const int ahead = position + 1 < count ? stride : 0;
    const int steps = (back + ahead) / stride;
    const float span = static_cast<float>(spacing_) * static_cast<float>(steps);
    return (v[i + static_cast<std::size_t>(ahead)] - v[i - static_cast<std::size_t>(back)]) / span;
  };
  std::size_t i = 0;
  for (int z = 0; z < nz_; ++z)
    for (int y = 0; y < ny_; ++y)
      for (int x = 0; x < nx_; ++x, ++i) {
        if (std::abs(v[i]) > 9.5F)
          continue; // too deep for its gradient to matter
        const float gx = slope(i, x, nx_, 1);
        const float gy = slope(i, y, ny_, row);
        const float gz = slope(i, z, nz_, layer);
        values_[i] = v[i] / std::clamp(std::sqrt(gx * gx + gy * gy + gz * gz), 0.4F, 4.0F);
      }
}

Grid Grid::plus(const Field& extra) const {
  Grid sum = *this;
  std::size_t i = 0;
  for (int z = 0; z < nz_; ++z)
    for (int y = 0; y < ny_; ++y)
      for (int x = 0; x < nx_; ++x, ++i)
        if (sum.values_[i] < 1 && sum.values_[i] > -13) // elsewhere the sign is settled
          sum.values_[i] += static_cast<float>(extra(node(x, y, z)));
  return sum;
}

Mottle::Mottle(std::uint64_t seed)
    : values_(blurred_noise(seed, side_, {1, 2, 1})) {
  const std::vector<float> coarse = blurred_noise(seed + 1, side_, {2, 3, 2});
  for (std::size_t i = 0; i < values_.size(); ++i)
    values_[i] = 0.85F * values_[i] + 0.5F * coarse[i];
}

float Mottle::at(double x, double y, double z) const {
  constexpr double nodes_per_mm = 1 / 0.32;
  const auto index = [](double v) {
    return static_cast<std::size_t>(static_cast<long>(std::floor(v * nodes_per_mm)) & (side_ - 1));
  };
  return values_[(index(z) * side_ + index(y)) * side_ + index(x)];
}

} // namespace pritchel::phantom
