#include "phantom/foot.h"
#include "phantom/solids.h"
#include "phantom/truth.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <map>

using namespace pritchel::phantom;

namespace {

constexpr int many_feet = 200;

double value_of(const std::vector<TrueMeasurement>& all, const std::string& id) {
  for (const TrueMeasurement& m : all)
    if (m.id == id)
      return m.value;
  FAIL("no measurement " << id);
  return 0;
}

Vec3 point_of(const std::vector<Landmark>& all, const std::string& id) {
  for (const Landmark& l : all)
    if (l.id == id)
      return l.point;
  FAIL("no landmark " << id);
  return {};
}

/// Some feet of each kind: both limbs, both sides, bare and shod.
Foot foot_number(int i) {
  return make_foot(random_foot(static_cast<std::uint64_t>(i) + 1,
                               i % 3 == 0 ? Limb::hind : Limb::fore,
                               i % 2 == 0 ? Side::left : Side::right));
}

void check_witnesses(const Foot& foot, const std::vector<Landmark>& landmarks) {
  // Corners are rounded over a few mm by design; where two surfaces meet in a landmark the field
  // stays within this of zero.
  constexpr double surface_tolerance_mm = 0.05;
  std::map<std::string, Field> surfaces;
  for (const Landmark& l : landmarks) {
    if (l.part.empty())
      continue;
    if (surfaces.count(l.part) == 0)
      surfaces[l.part] = surface_of(foot, l.part);
    REQUIRE(surfaces[l.part]);
    for (const Vec3& w : l.witnesses) {
      INFO(l.id << " on " << l.part << " at " << w.x << ' ' << w.y << ' ' << w.z);
      CHECK(std::abs(surfaces[l.part](w)) < surface_tolerance_mm);
    }
  }
}

} // namespace

TEST_CASE("every landmark lies on the surface of the solid that it belongs to") {
  for (int i = 0; i < 40; ++i) {
    const Foot foot = foot_number(i);
    INFO("foot " << i);
    check_witnesses(foot, lateromedial_landmarks(foot));
    check_witnesses(foot, dorsopalmar_landmarks(foot));
  }
}

TEST_CASE("a landmark for two structures is the middle of its witnesses, seen in the plane") {
  const Foot foot = foot_number(4);
  for (const Landmark& l : lateromedial_landmarks(foot)) {
    if (l.witnesses.size() != 2)
      continue;
    const Vec3 middle = mean(l.witnesses[0], l.witnesses[1]);
    INFO(l.id);
    CHECK(l.point.x == Approx(middle.x).margin(1e-9));
    CHECK(l.point.y == Approx(middle.y).margin(1e-9));
    CHECK(l.point.z == 0);
  }
}

// Truth: the parameters themselves; the angles of a foot are what it was asked to have.
TEST_CASE("a foot has the angles and depths that were asked for") {
  for (int i = 0; i < many_feet; ++i) {
    const Foot foot = foot_number(i);
    const FootParameters& p = foot.parameters;
    const auto m = lateromedial_measurements(lateromedial_landmarks(foot));
    INFO("foot " << i);
    CHECK(value_of(m, "palmar-angle") == Approx(p.palmar_angle_deg).margin(1e-9));
    CHECK(value_of(m, "hoof-angle") == Approx(p.hoof_angle_deg).margin(1e-9));
    CHECK(value_of(m, "capsular-rotation") == Approx(p.capsular_divergence_deg).margin(1e-9));
    CHECK(value_of(m, "p1-angle") == Approx(p.p1_slope_deg).margin(1e-9));
    CHECK(value_of(m, "p2-angle") == Approx(p.p2_slope_deg).margin(1e-9));
    CHECK(value_of(m, "heel-angle") == Approx(p.heel_angle_deg).margin(1e-9));
    CHECK(value_of(m, "sole-depth-tip") == Approx(p.sole_depth_mm).margin(1e-9));
    CHECK(value_of(m, "wall-thickness-proximal") == Approx(p.wall_thickness_mm).margin(1e-9));
    CHECK(value_of(m, "coronary-extensor-distance") == Approx(p.coronary_extensor_mm).margin(1e-9));
    CHECK(value_of(m, "palmar-angle-foot") ==
          Approx(p.palmar_angle_deg - p.wedge_deg).margin(1e-6));
  }
}

TEST_CASE("the parts of the hoof-pastern axis add up") {
  for (int i = 0; i < many_feet; ++i) {
    const auto m = lateromedial_measurements(lateromedial_landmarks(foot_number(i)));
    CHECK(value_of(m, "hpa-deviation") ==
          Approx(value_of(m, "pip-deviation") + value_of(m, "dip-deviation")).margin(1e-9));
    CHECK(value_of(m, "cor-toe") + value_of(m, "cor-heel") ==
          Approx(value_of(m, "support-length")).margin(1e-9));
  }
}

// Truth: the centre of the circle through three points, from the two perpendicular bisectors.
TEST_CASE("the condyle's landmarks lie on one circle about the centre of rotation") {
  for (int i = 0; i < many_feet; ++i) {
    const Foot foot = foot_number(i);
    const auto all = lateromedial_landmarks(foot);
    const Vec3 a = point_of(all, "p2-distal-condyle-1");
    const Vec3 b = point_of(all, "p2-distal-condyle-2");
    const Vec3 c = point_of(all, "p2-distal-condyle-3");
    const double d = 2 * (a.x * (b.y - c.y) + b.x * (c.y - a.y) + c.x * (a.y - b.y));
    const double aa = dot(a, a);
    const double bb = dot(b, b);
    const double cc = dot(c, c);
    const double x = (aa * (b.y - c.y) + bb * (c.y - a.y) + cc * (a.y - b.y)) / d;
    const double y = (aa * (c.x - b.x) + bb * (a.x - c.x) + cc * (b.x - a.x)) / d;
    const Vec3 centre = point_of(all, "dip-centre-of-rotation");
    CHECK(x == Approx(centre.x).margin(1e-8));
    CHECK(y == Approx(centre.y).margin(1e-8));
    // 120 degrees of arc and more, or the fit would be loose.
    CHECK(length(a - c) > 2 * length(a - centre) * std::sin(60 * radians_per_degree));
  }
}

TEST_CASE("joint space, tilt and lean are what was asked for") {
  FootParameters p;
  p.joint_space_mm = 2.4;
  p.joint_space_ratio = 1.5;
  p.p3_tilt_deg = 2;
  p.p2_lean_deg = -3;
  const auto m = dorsopalmar_measurements(dorsopalmar_landmarks(make_foot(p)));
  CHECK(value_of(m, "p2-axis-ml-angle") == Approx(-3).margin(1e-9));
  // The distal border's points are a mirror pair of the bone, so the bone's tilt is theirs.
  CHECK(value_of(m, "p3-ml-tilt") == Approx(2).margin(1e-9));
  CHECK(value_of(m, "dip-space-ratio") == Approx(1.5).epsilon(0.002));
  CHECK(value_of(m, "dip-symmetry-index") > 0);
  CHECK(value_of(m, "dip-ml-deviation") > 0);
  // Truth: spaces 2.88 and 1.92 mm (mean 2.4, ratio 1.5), 40 mm apart, open by atan(0.96 / 40).
  CHECK(value_of(m, "dip-ml-deviation") ==
        Approx(std::atan2(0.96, 40) / radians_per_degree).margin(0.01));
}

TEST_CASE("tilting the bones in the frontal plane leaves the sagittal truth alone") {
  FootParameters straight;
  FootParameters tilted = straight;
  tilted.p3_tilt_deg = 5;
  tilted.p2_lean_deg = -4;
  const auto a = lateromedial_measurements(lateromedial_landmarks(make_foot(straight)));
  const auto b = lateromedial_measurements(lateromedial_landmarks(make_foot(tilted)));
  REQUIRE(a.size() == b.size());
  for (std::size_t i = 0; i < a.size(); ++i) {
    INFO(a[i].id);
    CHECK(b[i].value == Approx(a[i].value).margin(1e-9));
  }
}

TEST_CASE("random feet stay within the ranges they are drawn from, and the seed decides") {
  int shod = 0;
  int broken_back = 0;
  for (int i = 0; i < many_feet; ++i) {
    const FootParameters p = random_foot(static_cast<std::uint64_t>(i));
    CHECK(p.hoof_angle_deg >= 42);
    CHECK(p.hoof_angle_deg <= 60);
    CHECK(p.palmar_angle_deg >= -4);
    CHECK(p.palmar_angle_deg <= 12);
    CHECK(p.sole_depth_mm >= 5);
    CHECK(p.joint_space_ratio >= 0.5);
    CHECK(p.joint_space_ratio <= 2);
    shod += p.shoeing == Shoeing::shod ? 1 : 0;
    const double axis = p.hoof_angle_deg + p.capsular_divergence_deg - p.p1_slope_deg;
    broken_back += axis < -3 ? 1 : 0;
  }
  CHECK(shod > many_feet / 4);
  CHECK(broken_back > many_feet / 20);
  CHECK(random_foot(7).hoof_angle_deg == random_foot(7).hoof_angle_deg);
  CHECK(random_foot(7).hoof_angle_deg != random_foot(8).hoof_angle_deg);
}
