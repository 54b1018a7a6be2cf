/// The worked cases of the project's notes on measurements, each done again by hand arithmetic.
/// Cases 1-11, 16, 17 and 19; the others concern calibration, the plan or a view check.
#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <cmath>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

/// The cases are printed with three decimals.
constexpr double last_printed_digit = 0.0006;

struct Case {
  View view = View::lateromedial;
  std::vector<std::pair<std::string, PlanePoint>> points;
};

/// The value straight in the plane.
double in_plane(const Case& c, std::string_view id) {
  Placed<double> placed;
  placed.view = c.view;
  placed.has_scale = true;
  for (const auto& [name, at] : c.points)
    placed.put(name, at);
  const auto* row = definition(id);
  REQUIRE(row);
  const auto drawn = evaluate(*row, placed);
  INFO(id);
  REQUIRE(drawn);
  return drawn->value;
}

/// The same case as four readings in pixels: toe left and right, square and non-square pixels.
std::vector<Measurement> as_readings(const Case& c, std::string_view id) {
  std::vector<Measurement> results;
  const feet::PlaneFoot foot{c.view, Shoeing::bare, c.points};
  for (const auto toward : {PictureSide::left, PictureSide::right})
    for (const double height : {0.15, 0.21}) {
      const auto reading =
          feet::reading(foot, {.pixel_height_mm = height, .toward = toward, .column = 1234.5});
      const auto all = measure_reading(reading, feet::spreads(), {});
      const auto* found = find(all, id);
      REQUIRE(found);
      results.push_back(*found);
    }
  return results;
}

void check_everywhere(const Case& c, std::string_view id, double expected) {
  INFO(id);
  CHECK(std::abs(in_plane(c, id) - expected) < last_printed_digit);
  for (const auto& each : as_readings(c, id)) {
    INFO(each.reason);
    REQUIRE(each.measurable());
    CHECK(std::abs(each.value - expected) < last_printed_digit);
  }
}

Case level(std::vector<std::pair<std::string, PlanePoint>> points) {
  points.push_back({"ground-heel", {0, 0}});
  points.push_back({"ground-toe", {100, 0}});
  return {View::lateromedial, std::move(points)};
}
Case tilted(std::vector<std::pair<std::string, PlanePoint>> points) {
  points.push_back({"ground-heel", {0, 0}});
  points.push_back({"ground-toe", {100, 2}});
  return {View::lateromedial, std::move(points)};
}
Case level_front(std::vector<std::pair<std::string, PlanePoint>> points) {
  points.push_back({"ground-medial", {-80, 0}});
  points.push_back({"ground-lateral", {80, 0}});
  return {View::dorsopalmar, std::move(points)};
}

const std::vector<std::pair<std::string, PlanePoint>> solar = {{"p3-tip", {112, 17}},
                                                               {"p3-palmar-process", {47, 22}}};
const std::vector<std::pair<std::string, PlanePoint>> dorsal = {{"p3-dorsal-distal", {104, 25}},
                                                                {"p3-dorsal-proximal", {74, 63}},
                                                                {"wall-dorsal-distal", {122, 20}},
                                                                {"wall-dorsal-proximal", {82, 68}}};
/// COR (75, 62), radius 13.
const std::vector<std::pair<std::string, PlanePoint>> condyle = {{"p2-distal-condyle-1", {62, 62}},
                                                                 {"p2-distal-condyle-2", {75, 49}},
                                                                 {"p2-distal-condyle-3", {87, 57}}};

std::vector<std::pair<std::string, PlanePoint>>
operator+(std::vector<std::pair<std::string, PlanePoint>> a,
          const std::vector<std::pair<std::string, PlanePoint>>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

/// Three points of a circle of radius 13 by two 5-12-13 triangles.
std::vector<std::pair<std::string, PlanePoint>>
circle_about(const std::string& bone, double x, double y) {
  return {{bone + "-distal-condyle-1", {x - 12, y - 5}},
          {bone + "-distal-condyle-2", {x, y - 13}},
          {bone + "-distal-condyle-3", {x + 12, y - 5}}};
}

} // namespace

// Truth: geometry, case 1: atan2(5, 65) = 4.399
TEST_CASE("the palmar angle on level ground is the solar line's slope", "[measure]") {
  check_everywhere(level(solar), "palmar-angle", 4.399);
  check_everywhere(level(solar), "palmar-angle-foot", 4.399);
}

// Truth: geometry, case 2: 4.3987 + atan(0.02) = 4.3987 + 1.1458
TEST_CASE("tilted ground is taken off the palmar angle", "[measure]") {
  check_everywhere(tilted(solar), "palmar-angle", 5.544);
}

// Truth: geometry, case 3: atan2(-3, 65) = -2.643; 51.710 + 2.643 = 54.352
TEST_CASE("a palmar end lower than the tip is a negative palmar angle", "[measure]") {
  const std::vector<std::pair<std::string, PlanePoint>> low = {{"p3-tip", {112, 17}},
                                                               {"p3-palmar-process", {47, 14}}};
  check_everywhere(level(low), "palmar-angle", -2.643);
  check_everywhere(level(low + dorsal), "p3-bone-angle", 54.352);
}

// Truth: geometry, case 4: atan2(38, 30), atan2(48, 40), their difference, and less case 1
TEST_CASE("dorsal angle, hoof angle, rotation and the bone's own angle", "[measure]") {
  check_everywhere(level(solar + dorsal), "p3-dorsal-angle", 51.710);
  check_everywhere(level(solar + dorsal), "hoof-angle", 50.194);
  check_everywhere(level(solar + dorsal), "capsular-rotation", 1.515);
  check_everywhere(level(solar + dorsal), "p3-bone-angle", 47.311);
}

// Truth: geometry, case 5: atan2(50, 40) = 51.340, atan2(28, 20) = 54.462, P3 of case 4
TEST_CASE("a straight hoof-pastern axis can hide two bent joints", "[measure]") {
  const auto c = level(dorsal + circle_about("p2", 80, 62) + circle_about("p1", 60, 90) +
                       std::vector<std::pair<std::string, PlanePoint>>{
                           {"p1-axis-distal", {60, 95}}, {"p1-axis-proximal", {20, 145}}});
  check_everywhere(c, "p1-angle", 51.340);
  check_everywhere(c, "p2-angle", 54.462);
  check_everywhere(c, "pip-deviation", 3.122);
  check_everywhere(c, "dip-deviation", -2.752);
  check_everywhere(c, "hpa-deviation", 0.370);
}

// Truth: geometry, case 6: 13^2 = 12^2 + 5^2, the centre lies 62 over the ground
TEST_CASE("the coffin joint's centre is the centre of its condyle's circle", "[measure]") {
  check_everywhere(level(condyle), "dip-height", 62.000);
  const auto* row = definition("dip-height");
  Placed<double> placed;
  for (const auto& [id, at] : level(condyle).points)
    placed.put(id, at);
  const auto drawn = evaluate(*row, placed);
  REQUIRE(drawn);
  REQUIRE(drawn->construction.rounds.size() == 1);
  CHECK(std::abs(drawn->construction.rounds[0].centre.x - 75) < 1e-9);
  CHECK(std::abs(drawn->construction.rounds[0].centre.y - 62) < 1e-9);
  CHECK(std::abs(drawn->construction.rounds[0].radius - 13) < 1e-9);
}

// Truth: geometry, case 7: 300 / sqrt(404) = 14.926
TEST_CASE("sole depth is square to the sole's own line", "[measure]") {
  const Case c{View::lateromedial,
               {{"p3-tip", {112, 17}}, {"sole-a", {122, 3}}, {"sole-b", {102, 1}}}};
  check_everywhere(c, "sole-depth-tip", 14.926);
}

// Truth: geometry, case 7: a tip one millimetre below the sole gives -20 / sqrt(404) = -0.995
TEST_CASE("a sole depth below zero is refused, never printed", "[measure]") {
  const Case c{View::lateromedial,
               {{"p3-tip", {112, 1}}, {"sole-a", {122, 3}}, {"sole-b", {102, 1}}}};
  for (const auto& each : as_readings(c, "sole-depth-tip")) {
    CHECK_FALSE(each.measurable());
    CHECK(each.reason.find("check the landmarks") != std::string::npos);
  }
}

// Truth: geometry, case 8: 584 / 62.4601 = 9.350, 664 / 62.4601 = 10.631, half-way the mean
TEST_CASE("wall thickness is taken along the coffin bone's normal", "[measure]") {
  const Case c{View::lateromedial, dorsal};
  check_everywhere(c, "wall-thickness-proximal", 9.350);
  check_everywhere(c, "wall-thickness-distal", 10.631);
  check_everywhere(c, "wall-thickness-mid", (9.350 + 10.631) / 2);
}

// Truth: geometry, case 9: 132 - 75, 75 - 22, 110, 57/110, 132 - 112
TEST_CASE("base of support and breakover on level ground", "[measure]") {
  const auto c = level(
      condyle + std::vector<std::pair<std::string, PlanePoint>>{
                    {"p3-tip", {112, 17}}, {"breakover", {132, 0}}, {"heel-ground", {22, 0}}});
  check_everywhere(c, "cor-toe", 57.000);
  check_everywhere(c, "cor-heel", 53.000);
  check_everywhere(c, "support-length", 110.000);
  check_everywhere(c, "base-proportion", 0.518);
  check_everywhere(c, "breakover-distance", 20.000);
}

// Truth: geometry, case 10: 72 - 68; on the tilted ground (14, 4).n = 3.719
TEST_CASE("distal displacement is a height over the ground it stands on", "[measure]") {
  const std::vector<std::pair<std::string, PlanePoint>> pair = {{"coronary-band", {84, 72}},
                                                                {"extensor-process", {70, 68}}};
  check_everywhere(level(pair), "coronary-extensor-distance", 4.000);
  check_everywhere(tilted(pair), "coronary-extensor-distance", 3.719);
}

// Truth: geometry, case 11: 200 (2.4 - 1.8) / 4.2, atan2(2, 50), atan2(-2, 30), 4.3333 - 2
TEST_CASE("the front view's worked foot", "[measure]") {
  const auto c = level_front({{"dip-p3-medial", {-20, 40}},
                              {"dip-p2-medial", {-20, 41.8}},
                              {"dip-p3-lateral", {20, 40}},
                              {"dip-p2-lateral", {20, 42.4}},
                              {"p3-distal-border-medial", {-25, 14}},
                              {"p3-distal-border-lateral", {25, 16}},
                              {"p3-articular-medial", {-25, 34}},
                              {"p3-articular-lateral", {25, 36}},
                              {"p2-axis-distal", {1, 50}},
                              {"p2-axis-proximal", {-1, 80}},
                              {"wall-ground-medial", {-60, 0}},
                              {"wall-ground-lateral", {64, 0}},
                              {"p2-condyle-mid", {1, 52}}});
  check_everywhere(c, "dip-space-medial", 1.800);
  check_everywhere(c, "dip-space-lateral", 2.400);
  check_everywhere(c, "dip-space-ratio", 1.3333);
  check_everywhere(c, "dip-symmetry-index", 28.571);
  check_everywhere(c, "dip-line-angle", 0.4297); // atan(0.3 / 40)
  check_everywhere(c, "p3-ml-tilt", 2.291);
  check_everywhere(c, "p3-ml-tilt-articular", 2.291);
  check_everywhere(c, "p2-axis-ml-angle", -3.814);
  check_everywhere(c, "dip-ml-deviation", 1.523);
  check_everywhere(c, "foot-axis-offset", 2.333);
  check_everywhere(c, "axis-to-wall-medial", 64.333);
  check_everywhere(c, "axis-to-wall-lateral", 59.667);
  check_everywhere(c, "foot-centre-offset", -1.000);
}

// Truth: geometry, case 16: dx 650 * 0.1 = 65, dy 50 * 0.2 = 10, atan2(10, 65) = 8.746
TEST_CASE("a palmar angle in pixels that aren't square, toe to the left", "[measure]") {
  Reading reading;
  reading.toward = PictureSide::left;
  reading.calibration.origin = ScaleOrigin::fiducial_spacing;
  reading.calibration.pixel_width_mm = 0.1;
  reading.calibration.pixel_height_mm = 0.2;
  reading.landmarks = {{"p3-tip", {300, 800}},
                       {"p3-palmar-process", {950, 750}},
                       {"ground-toe", {100, 900}},
                       {"ground-heel", {1100, 900}}};
  const auto all = measure_reading(reading, feet::spreads(), {});
  const auto* angle = find(all, "palmar-angle");
  REQUIRE(angle);
  REQUIRE(angle->measurable());
  CHECK(std::abs(angle->value - 8.746) < last_printed_digit);
}

// Truth: geometry, case 17: P3 of case 4 flexed by 150 degrees; -158.290 - 54.462 wraps to 147.248
TEST_CASE("a difference of slopes is wrapped, as in a flexed foot", "[measure]") {
  constexpr double turn = 150 * 3.14159265358979323846 / 180;
  // The dorsal line runs (-30, 38); flexion raises its slope at the palmar side, which is
  // clockwise.
  const double x = -30 * std::cos(turn) + 38 * std::sin(turn);
  const double y = 30 * std::sin(turn) + 38 * std::cos(turn);
  const Case c{View::lateromedial,
               std::vector<std::pair<std::string, PlanePoint>>{
                   {"p3-dorsal-distal", {104, 25}}, {"p3-dorsal-proximal", {104 + x, 25 + y}}} +
                   circle_about("p2", 80, 62) + circle_about("p1", 60, 90)};
  check_everywhere(c, "dip-deviation", 147.248);
}

// Truth: geometry, case 19: atan2(52, 9) = 80.181, atan2(52, 7) = 82.333
TEST_CASE("wall angles are taken inside the foot on both sides", "[measure]") {
  const auto c = level_front({{"wall-ground-lateral", {64, 0}},
                              {"wall-proximal-lateral", {55, 52}},
                              {"wall-ground-medial", {-60, 0}},
                              {"wall-proximal-medial", {-53, 52}},
                              {"coronet-lateral", {54, 58}},
                              {"coronet-medial", {-52, 55}}});
  check_everywhere(c, "wall-angle-lateral", 80.181);
  check_everywhere(c, "wall-angle-medial", 82.333);
  // 10^2 + 58^2 = 3464, 8^2 + 55^2 = 3089
  check_everywhere(c, "wall-length-lateral", 58.856);
  check_everywhere(c, "wall-length-medial", 55.579);
  check_everywhere(c, "wall-length-difference", 3.277);
  check_everywhere(c, "coronet-ml-tilt", 1.621); // atan2(3, 106)
}
