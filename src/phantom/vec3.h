/// Points and directions of the digital foot, in millimetres.
/// Foot frame: x towards the toe, y up (ground at 0), z towards lateral, whatever the limb; x = 0
/// lies at the centre of the coffin joint. Knows nothing of pictures.
#pragma once

#include <cmath>

namespace pritchel::phantom {

struct Vec3 {
  double x = 0;
  double y = 0;
  double z = 0;

  friend Vec3 operator+(const Vec3& a, const Vec3& b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
  friend Vec3 operator-(const Vec3& a, const Vec3& b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
  friend Vec3 operator*(const Vec3& a, double s) { return {a.x * s, a.y * s, a.z * s}; }
  friend Vec3 operator*(double s, const Vec3& a) { return a * s; }
};

inline double dot(const Vec3& a, const Vec3& b) {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}
inline double length(const Vec3& a) {
  return std::sqrt(dot(a, a));
}
inline Vec3 unit(const Vec3& a) {
  return a * (1.0 / length(a));
}
inline Vec3 mean(const Vec3& a, const Vec3& b) {
  return (a + b) * 0.5;
}

inline constexpr double radians_per_degree = 3.14159265358979323846 / 180.0;

} // namespace pritchel::phantom
