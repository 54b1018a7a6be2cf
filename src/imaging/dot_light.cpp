#include "imaging/dot_light.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::imaging {

namespace {

/// A colour this far off (tangent of 24 degrees) counts nothing. Warm lamps and blue shade turn a
/// colour by up to some 10 degrees; the nearest pair of offered colours is 22 apart. Own estimate.
constexpr float strictness = 2.2F;

const std::array<float, 256>& linear_table() {
  static const std::array<float, 256> table = [] {
    std::array<float, 256> t{};
    for (std::size_t i = 0; i < t.size(); ++i) { // IEC 61966-2-1
      const double v = static_cast<double>(i) / 255;
      t[i] = static_cast<float>(v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4));
    }
    return t;
  }();
  return table;
}

} // namespace

cv::Mat3f linear_light(const cv::Mat3b& rgb) {
  const auto& table = linear_table();
  cv::Mat3f light(rgb.size());
  for (int y = 0; y < rgb.rows; ++y)
    for (int x = 0; x < rgb.cols; ++x)
      for (int c = 0; c < 3; ++c)
        light(y, x)[c] = table[rgb(y, x)[c]];
  return light;
}

cv::Vec3f linear_light(const DotColour& colour) {
  const auto& table = linear_table();
  return {table[colour.red], table[colour.green], table[colour.blue]};
}

cv::Mat1f likeness(const cv::Mat3f& light, const cv::Vec3f& colour) {
  const auto length = static_cast<float>(cv::norm(colour));
  const cv::Vec3f u = colour * (1 / std::max(length, 1e-6F));
  cv::Mat1f like(light.size());
  for (int y = 0; y < light.rows; ++y)
    for (int x = 0; x < light.cols; ++x) {
      const cv::Vec3f& p = light(y, x);
      const float along = p.dot(u);
      const cv::Vec3f off = p - u * along;
      like(y, x) = std::max(0.0F, along - strictness * std::sqrt(off.dot(off)));
    }
  return like;
}

} // namespace pritchel::imaging
