#include "phantom/exposure.h"
#include "phantom/projector.h"
#include "phantom/shapes.h"
#include "phantom/truth.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace pritchel::phantom;

namespace {

Shot small_shot(const Foot& foot, View view, Facing facing = Facing::left) {
  Shot shot = framed_shot(foot, view, facing, 0.8);
  shot.collimation = Collimation::open;
  return shot;
}

/// A slab square to the beam of the lateromedial view, 80 x 80 mm, centred on the central ray.
Solid slab(Material material, double thickness_mm) {
  const Vec3 half{40, 40, 0.5 * thickness_mm};
  const Vec3 margin{2, 2, 2};
  return {.name = "slab",
          .bounds = {Vec3{} - half - margin, half + margin},
          .resolution_mm = 0.5,
          .surface = [half](const Vec3& p) { return box(p, Vec3{} - half, half); },
          .inside = Mixture::of(material),
          .replaced = {},
          .spongy = {},
          .grain = 0};
}

Shot slab_shot() {
  Shot shot;
  shot.beam_height_mm = 0;
  shot.spacing_x_mm = shot.spacing_y_mm = 1;
  shot.columns = shot.rows = 101;
  shot.centre_column = shot.centre_row = 50;
  shot.ball.clear();
  return shot;
}

double path_at(const Paths& paths, Material m, int column, int row) {
  return static_cast<double>(paths.mm[static_cast<std::size_t>(m)]
                                     [static_cast<std::size_t>(row) * paths.columns + column]);
}

double passed_at(const Paths& paths, const Pixel& p) {
  std::array<double, material_count> mm{};
  for (std::size_t m = 0; m < material_count; ++m)
    mm[m] = path_at(paths,
                    static_cast<Material>(m),
                    static_cast<int>(std::lround(p.x)),
                    static_cast<int>(std::lround(p.y)));
  return transmission(mm);
}

} // namespace

// Truth: geometry. M = SID / SOD; worked case: SID 700, object to detector 70, spacing 0.148:
// 0.13320 mm a pixel in the object's plane.
TEST_CASE("the plane of interest is magnified by source-detector over source-object distance") {
  Shot shot;
  const Camera camera{shot};
  CHECK(camera.magnification() == Approx(700.0 / 630.0));
  const Pixel a = camera.project({10, 40, 0});
  const Pixel b = camera.project({60, 40, 0});
  CHECK(std::abs(a.x - b.x) * 0.13320 == Approx(50).margin(0.001));
  CHECK(a.y == Approx(b.y));
}

// Truth: geometry. A pair of features w apart in depth and r from the central ray shows a gap of
// about r * w / SOD: 40 * 28 / 630 = 1.78 mm.
TEST_CASE("the beam's divergence parts medial and lateral features of a perfect view") {
  Shot shot;
  const Camera camera{shot};
  const double mm_per_pixel = shot.spacing_y_mm / camera.magnification();
  const Vec3 base{0, shot.beam_height_mm + 40, 0};
  const Pixel near_tube = camera.project(base + Vec3{0, 0, 14});
  const Pixel near_plate = camera.project(base - Vec3{0, 0, 14});
  CHECK((near_plate.y - near_tube.y) * mm_per_pixel == Approx(1.778).margin(0.005));
}

// Truth: geometry. Height of beam from the block's edges: 3.6 mm apart, 150 wide, SOD 630: 15.12
// mm.
TEST_CASE("the block's two edges lie as far apart as the beam's height asks") {
  Shot shot;
  shot.beam_height_mm = 15.12;
  const Camera camera{shot};
  const Pixel near_tube = camera.project({0, 0, 75});
  const Pixel near_plate = camera.project({0, 0, -75});
  const double gap = (near_tube.y - near_plate.y) * shot.spacing_y_mm / camera.magnification();
  // gap = h * SOD * (1/(SOD-75) - 1/(SOD+75)), of which h * w / SOD is the first term.
  CHECK(gap == Approx(15.12 * 630 * (1.0 / 555 - 1.0 / 705)).margin(1e-6));
  CHECK(gap == Approx(3.6).epsilon(0.02));
}

TEST_CASE("a pixel's place on the detector projects back to that pixel") {
  Shot shot;
  shot.yaw_deg = 7;
  shot.roll_deg = -4;
  shot.spacing_y_mm = 0.2;
  const Camera camera{shot};
  const Vec3 on_plate = camera.on_detector(321.5, 777.25);
  const Pixel back = camera.project(on_plate);
  CHECK(back.x == Approx(321.5));
  CHECK(back.y == Approx(777.25));
}

TEST_CASE(
    "true landmarks and the true scale give the truth back, whichever way the picture faces") {
  constexpr double tolerance = 1e-6; // arithmetic only
  for (int i = 0; i < 200; ++i) {
    const Foot foot = make_foot(random_foot(static_cast<std::uint64_t>(i) + 1));
    const View view = i % 2 == 0 ? View::lateromedial : View::dorsopalmar;
    Shot shot = framed_shot(foot, view, i % 4 < 2 ? Facing::left : Facing::right);
    shot.spacing_y_mm = 0.2; // not square
    const Truth truth = truth_of(foot, shot);
    const double sign = shot.facing == Facing::right ? 1 : -1;
    std::vector<Landmark> read;
    double ground_y = 0;
    for (const TrueLandmark& l : truth.landmarks) {
      const double across = sign * l.pixel.x * truth.mm_per_pixel_x;
      const double up = -l.pixel.y * truth.mm_per_pixel_y;
      if (l.landmark.id.rfind("ground-", 0) == 0)
        ground_y = up;
      const Vec3 p = view == View::lateromedial ? Vec3{across, up, 0} : Vec3{0, up, across};
      read.push_back({l.landmark.id, p, {}, {}});
    }
    for (Landmark& l : read)
      l.point.y -= ground_y;
    const auto measured = view == View::lateromedial ? lateromedial_measurements(read)
                                                     : dorsopalmar_measurements(read);
    for (std::size_t m = 0; m < measured.size(); ++m) {
      INFO("foot " << i << ' ' << measured[m].id);
      CHECK(measured[m].value == Approx(truth.measurements[m].value).margin(tolerance));
    }
  }
}

TEST_CASE("a picture facing the other way is the same picture mirrored") {
  FootParameters p;
  p.p3_tilt_deg = 2;
  p.joint_space_ratio = 1.4;
  const Foot foot = make_foot(p);
  for (const View view : {View::lateromedial, View::dorsopalmar}) {
    const Shot left = small_shot(foot, view, Facing::left);
    const Shot right = small_shot(foot, view, Facing::right);
    const Truth a = truth_of(foot, left);
    const Truth b = truth_of(foot, right);
    REQUIRE(a.landmarks.size() == b.landmarks.size());
    for (std::size_t i = 0; i < a.landmarks.size(); ++i) {
      INFO(a.landmarks[i].landmark.id);
      if (a.landmarks[i].landmark.id.rfind("marker", 0) == 0)
        continue; // ends may swap
      CHECK(a.landmarks[i].pixel.x - left.centre_column ==
            Approx(right.centre_column - b.landmarks[i].pixel.x).margin(1e-9));
      CHECK(a.landmarks[i].pixel.y == Approx(b.landmarks[i].pixel.y).margin(1e-9));
    }
  }
}

TEST_CASE(
    "left and right limbs of the same parameters are mirror images, lateral staying lateral") {
  FootParameters p;
  p.coronet_tilt_deg = 3;
  p.side = Side::left;
  const Foot left = make_foot(p);
  p.side = Side::right;
  const Foot right = make_foot(p);
  const Truth a = truth_of(left, framed_shot(left, View::dorsopalmar, Facing::right));
  const Truth b = truth_of(right, framed_shot(right, View::dorsopalmar, Facing::left));
  REQUIRE(a.measurements.size() == b.measurements.size());
  for (std::size_t i = 0; i < a.measurements.size(); ++i)
    CHECK(a.measurements[i].value == Approx(b.measurements[i].value));
}

// Truth: Beer and Lambert with the mass attenuation of cortical bone (ICRU-44, 1.92 g/cm3) from
// NIST's X-Ray Mass Attenuation Coefficients, table 4: 1.331, 0.6655, 0.4242, 0.3148 cm2/g at 30,
// 40, 50, 60 keV (read in a public copy of the table).
TEST_CASE("a slab of bone lets through what Beer and Lambert say") {
  constexpr double nist_cm2_per_g[] = {1.331, 0.6655, 0.4242, 0.3148};
  constexpr double centimetres = 2.0;
  const Shot shot = slab_shot();
  const Paths paths =
      trace({slab(Material::cortical_bone, 10 * centimetres)}, shot, Quality::full, 1);
  const double path_mm = path_at(paths, Material::cortical_bone, 50, 50);
  CHECK(path_mm == Approx(20).margin(0.02));
  double expected = 0;
  for (std::size_t e = 0; e < energy_count; ++e)
    expected += spectrum_weights[e] * std::exp(-nist_cm2_per_g[e] * 1.92 * centimetres);
  CHECK(passed_at(paths, {50, 50}) == Approx(expected).epsilon(0.005));
}

// Truth: NIST as above, soft tissue (ICRU-44): 0.2688 and 0.2048 cm2/g at 40 and 60 keV, 1.06 g/cm3
// (read in a public copy); iron 3.629, 1.205 cm2/g, 7.874 g/cm3; lead 14.36, 5.021, 11.35 g/cm3
// (from memory).
TEST_CASE("attenuation of tissue and metals agrees with the tables") {
  const auto mu = [](Material m, std::size_t e) { return linear_attenuation_per_mm(m, e); };
  CHECK(mu(Material::soft_tissue, 1) == Approx(0.02688 * 1.06).epsilon(0.005));
  CHECK(mu(Material::soft_tissue, 3) == Approx(0.02048 * 1.06).epsilon(0.005));
  CHECK(mu(Material::iron, 1) == Approx(0.3629 * 7.874).epsilon(0.005));
  CHECK(mu(Material::iron, 3) == Approx(0.1205 * 7.874).epsilon(0.005));
  CHECK(mu(Material::lead, 1) == Approx(1.436 * 11.35).epsilon(0.005));
  CHECK(mu(Material::lead, 3) == Approx(0.5021 * 11.35).epsilon(0.005));
}

// Truth: geometry. A ray that meets a slab under an angle runs through it 1 / cos of that angle
// longer.
TEST_CASE("a slanting ray's path is longer by the cosine") {
  const Shot shot = slab_shot();
  const Paths paths = trace({slab(Material::horn, 20)}, shot, Quality::full, 1);
  const double slant = std::hypot(30.0, 700.0) / 700.0;
  CHECK(path_at(paths, Material::horn, 80, 50) == Approx(20 * slant).margin(0.03));
}

// Truth: geometry. The longest chord of a ball is its diameter.
TEST_CASE("the marker ball's shadow has its diameter in depth") {
  const Foot foot = make_foot({});
  Shot shot = small_shot(foot, View::lateromedial);
  const Paths paths = trace(scene(foot, shot), shot, Quality::full, 1);
  const Pixel centre = Camera(shot).project(ball_centre(foot, shot, shot.ball.front()));
  CHECK(path_at(paths,
                Material::iron,
                static_cast<int>(std::lround(centre.x)),
                static_cast<int>(std::lround(centre.y))) == Approx(25).margin(0.1));
}

TEST_CASE("equal thicknesses darken in the order air, soft tissue, horn, bone, steel, lead") {
  std::array<double, material_count> mm{};
  double before = transmission(mm);
  CHECK(before == Approx(1));
  for (const Material m : {Material::marrow,
                           Material::soft_tissue,
                           Material::horn,
                           Material::cortical_bone,
                           Material::iron,
                           Material::lead}) {
    mm = {};
    mm[static_cast<std::size_t>(m)] = 10;
    const double now = transmission(mm);
    CHECK(now < before);
    before = now;
  }
}

TEST_CASE("the picture grows brighter from air over skin and hoof to bone and steel") {
  FootParameters p;
  p.shoeing = Shoeing::shod;
  const Foot foot = make_foot(p);
  const Shot shot = small_shot(foot, View::lateromedial);
  const Paths paths = trace(scene(foot, shot), shot, Quality::draft, 1);
  const Camera camera{shot};
  const auto passed = [&](const Vec3& v) { return passed_at(paths, camera.project(v)); };
  const Vec3 above = foot.from_p1(20, 0, 0);
  const double air = passed({foot.wall_toe_ground.x + 20, above.y, 0});
  const double skin = passed(foot.from_p1(30, 19, 0));
  const double hoof = passed({foot.tip.x + 4, foot.tip.y + 2, 0});
  const double bone = passed({6, foot.cor.y - foot.k * 14, 0});
  const double steel = passed({0, 5, 0});
  CHECK(air > 0.98);
  CHECK(air > skin);
  CHECK(skin > hoof);
  CHECK(hoof > bone);
  CHECK(bone > steel);
}

TEST_CASE("the same seed gives the same film, another seed other noise") {
  const Foot foot = make_foot(random_foot(5));
  Shot shot = framed_shot(foot, View::dorsopalmar, Facing::left, 1.2);
  const Film a = make_film(foot, shot, Quality::draft);
  const Film b = make_film(foot, shot, Quality::draft);
  CHECK(a.values == b.values);
  CHECK(a.window_centre == b.window_centre);
  shot.seed = 99;
  CHECK(make_film(foot, shot, Quality::draft).values != a.values);
}
