/// The checks one by one, on landmarks laid out in millimetres.
#include "measure/beam.h"
#include "measure/checks.h"
#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using namespace pritchel;
using measure::Fitness;

namespace {

constexpr double pixel_mm = 0.2;
constexpr double origin_column = 500, origin_row = 900;

/// Millimetres in the plane frame, toe to the right in the picture.
struct Mm {
  std::string id;
  double x = 0;
  double y = 0;
};

measure::Reading reading(measure::View view, const std::vector<Mm>& points) {
  measure::Reading made;
  made.view = view;
  made.toward = PictureSide::right;
  made.loading = measure::Loading::weight_bearing;
  made.calibration = {.origin = ScaleOrigin::marker,
                      .pixel_width_mm = pixel_mm,
                      .pixel_height_mm = pixel_mm,
                      .relative_uncertainty = 0.005};
  made.columns = 1100;
  made.rows = 1000;
  for (const auto& p : points)
    made.landmarks.push_back({p.id, {origin_column + p.x / pixel_mm, origin_row - p.y / pixel_mm}});
  return made;
}

void move(measure::Reading& made, const std::string& id, double x, double y) {
  for (auto& each : made.landmarks)
    if (each.id == id)
      each.at = {origin_column + x / pixel_mm, origin_row - y / pixel_mm};
}

/// A foot square on its block, the beam 12 mm above it and 10 mm in front of the joint, seen from
/// 630 mm: each pair parts by divergence alone (source place (10, 12), width w, part w/630).
std::vector<Mm> square_side() {
  std::vector<Mm> all{{"ground-heel", -80, 0},
                      {"ground-toe", 110, 0},
                      {"p3-tip", 48, 17},
                      {"p3-palmar-process", -18, 22},
                      {"p3-dorsal-distal", 42, 26},
                      {"p3-dorsal-proximal", 19, 52},
                      {"wall-dorsal-distal", 75, 20},
                      {"wall-dorsal-proximal", 37, 66},
                      {"sole-a", 53, 2},
                      {"sole-b", 36, 2},
                      {"breakover", 70, 1},
                      {"heel-ground", -54, 0},
                      {"p1-axis-distal", -30, 95},
                      {"p1-axis-proximal", -66, 145}};
  const auto pair = [&](const std::string& stem, double x, double y, double w) {
    const double gx = w / 630 * (x - 10), gy = w / 630 * (y - 12);
    all.push_back({stem + "-1", x + gx / 2, y + gy / 2});
    all.push_back({stem + "-2", x - gx / 2, y - gy / 2});
  };
  pair("p2-condyle-palmar", -16, 50, 26);
  pair("p2-condyle-distal", 0, 38, 26);
  pair("p3-palmar-process", -18, 22, 56);
  pair("p3-solar-border", 6, 21, 76);
  all.push_back({"block-edge-near", 90, -12 * 150.0 / 630 / 2});
  all.push_back({"block-edge-far", 90, 12 * 150.0 / 630 / 2});
  return all;
}

std::vector<Mm> square_front() {
  return {{"ground-medial", -80, 0},
          {"ground-lateral", 80, 0},
          {"dip-p2-medial", -20, 42},
          {"dip-p3-medial", -20, 40},
          {"dip-p2-lateral", 20, 42},
          {"dip-p3-lateral", 20, 40},
          {"p3-distal-border-medial", -38, 18},
          {"p3-distal-border-lateral", 38, 18},
          {"dorsal-mid-marker", 0.5, 35},
          {"frog-mid-marker", 0, 8},
          {"block-edge-near", -70, -5},
          {"block-edge-far", -70, 5}};
}

measure::Reading side() {
  return reading(measure::View::lateromedial, square_side());
}

measure::Check the(const measure::Reading& made, const std::string& id) {
  const auto checks = measure::check_reading(made, {});
  const auto* found = measure::find(checks, id);
  INFO(id);
  REQUIRE(found != nullptr);
  return *found;
}

bool touches(const measure::Check& check, const std::string& id) {
  return std::find(check.touches.begin(), check.touches.end(), id) != check.touches.end();
}

} // namespace

// Truth: arithmetic. 3.6 mm * 630 / 150 = 15.12 mm
TEST_CASE("the gap of the block's edges gives the height of the beam", "[checks]") {
  CHECK(measure::beam_height_mm(3.6, 150, 630) == Approx(15.12).margin(1e-9));
}

// Truth: arithmetic. 40 * 28 / 630 = 1.778 mm; asin(1.778 / 28) = 3.64 degrees
TEST_CASE("divergence alone parts condyles far above the beam", "[checks]") {
  const double gap = measure::divergence_gap_mm(40, 28, 630);
  CHECK(gap == Approx(1.778).margin(0.0005));
  CHECK(*measure::obliquity_deg(gap, 28) == Approx(3.64).margin(0.005));
}

// Truth: asin(2.5 / 28) = 5.123 degrees
TEST_CASE("a gap over the distance of the twins is an angle, a wider one is none", "[checks]") {
  CHECK(*measure::obliquity_deg(2.5, 28) == Approx(5.123).margin(0.0005));
  CHECK_FALSE(measure::obliquity_deg(29, 28));
}

TEST_CASE("a square picture of a foot on its block is fit", "[checks]") {
  for (const auto& check : measure::check_reading(side(), {})) {
    INFO(check.id << ": " << check.sentence);
    CHECK(check.fitness == Fitness::fit);
    CHECK(check.touches.empty());
  }
}

// Truth: the layout's own source, (10, 12) mm at 630 mm; edges 150 mm apart
TEST_CASE("beam height and turn are read back from the outlines", "[checks]") {
  CHECK(*the(side(), "beam-centre").value == Approx(12).margin(0.01));
  CHECK(*the(side(), "lm-yaw-gap").value < 3);
}

TEST_CASE("without the twins the view isn't checked, and every number says so", "[checks]") {
  auto made = side();
  std::erase_if(made.landmarks, [](const auto& each) {
    return each.id.ends_with("-1") || each.id.ends_with("-2");
  });
  const auto check = the(made, "obliquity");
  CHECK(check.fitness == Fitness::not_checked);
  const auto all = measure::measure_reading(made, {}, {});
  const auto* angle = measure::find(all, "palmar-angle");
  REQUIRE(angle != nullptr);
  CHECK(angle->measurable());
  CHECK(angle->cautions == std::vector<std::string>{"obliquity"});
}

// Truth: block edges 19 mm apart mean a beam 80 mm high (19 * 630 / 150); 80 - 17 mm over the sole
// at 630 mm is 5.7 degrees of slant, which parts a sole 60 mm wide by 6 mm
TEST_CASE("a beam far too high is unfit for sole and palmar angle, with the reason", "[checks]") {
  auto made = side();
  move(made, "block-edge-near", 90, -9.5);
  move(made, "block-edge-far", 90, 9.5);
  CHECK(the(made, "obliquity").fitness == Fitness::unfit);
  CHECK(the(made, "beam-centre").fitness == Fitness::caution);
  const auto all = measure::measure_reading(made, {}, {});
  const auto* depth = measure::find(all, "sole-depth-tip");
  REQUIRE(depth != nullptr);
  CHECK_FALSE(depth->measurable());
  CHECK(depth->reason == the(made, "obliquity").clause);
  CHECK(measure::find(all, "hoof-angle")->measurable());
}

TEST_CASE("without the block's edges a slanted view asks for caution only", "[checks]") {
  auto made = side();
  std::erase_if(made.landmarks, [](const auto& each) { return each.id.starts_with("block-edge"); });
  CHECK(the(made, "obliquity").fitness == Fitness::caution);
  CHECK(measure::find(measure::measure_reading(made, {}, {}), "palmar-angle")->measurable());
}

// Truth: 3.5 mm over 66 mm of solar border is 3 degrees
TEST_CASE("a palmar process placed on one outline is found out", "[checks]") {
  auto made = side();
  move(made, "p3-palmar-process", -18, 25.5);
  const auto check = the(made, "one-outline");
  CHECK(check.fitness != Fitness::fit);
  CHECK(touches(check, "palmar-angle"));
}

TEST_CASE("without a scale the view is still checked, by the bone's own length", "[checks]") {
  auto made = side();
  made.calibration = {.pixel_width_mm = 1, .pixel_height_mm = 1, .nominal_pixel_mm = 0.31};
  CHECK(the(made, "obliquity").fitness != Fitness::not_checked);
  CHECK(the(made, "scale").fitness == Fitness::unfit);
}

// Truth: limits of the trade table: 1 mm accepted, beyond 2 mm refused
TEST_CASE("a heel off the ground line is unfit for what is taken from the ground", "[checks]") {
  auto made = side();
  move(made, "heel-ground", -54, 5);
  const auto check = the(made, "foot-flat");
  CHECK(check.fitness == Fitness::unfit);
  CHECK(*check.value == Approx(5).margin(1e-6));
  CHECK(touches(check, "palmar-angle"));
  CHECK_FALSE(touches(check, "capsular-rotation"));
}

// Truth: plane geometry, atan(10 / 190) = 3.013 degrees.
TEST_CASE("a tilted ground line asks for caution and is reckoned with", "[checks]") {
  auto made = side();
  move(made, "ground-heel", -80, -10);
  const auto check = the(made, "ground-tilt");
  CHECK(check.fitness == Fitness::caution);
  CHECK(*check.value == Approx(3.013).margin(0.01)); // atan(10 / 190)
}

TEST_CASE("one end of the ground is no ground", "[checks]") {
  auto made = side();
  std::erase_if(made.landmarks, [](const auto& each) { return each.id == "ground-toe"; });
  const auto check = the(made, "ground-visible");
  CHECK(check.fitness == Fitness::unfit);
  CHECK(touches(check, "palmar-angle"));
}

TEST_CASE("a steep long pastern bone makes the weight doubtful", "[checks]") {
  auto made = side();
  move(made, "p1-axis-proximal", -45, 145); // 73 degrees
  CHECK(the(made, "weight-bearing").fitness == Fitness::caution);
  made.loading = measure::Loading::not_loaded;
  CHECK(the(made, "weight-bearing").fitness == Fitness::unfit);
}

// Truth: atan(6 / 60) = 5.7, atan(15 / 60) = 14 degrees against limits of 5 and 10
TEST_CASE("a leaning cannon bone makes the axis posture", "[checks]") {
  auto made = side();
  const auto with = [&](double lean) {
    auto changed = made;
    changed.landmarks.push_back({"mc3-axis-distal", {300, 200}});
    changed.landmarks.push_back(
        {"mc3-axis-proximal", {300 + lean / pixel_mm, 200 - 60 / pixel_mm}});
    return the(changed, "cannon-vertical");
  };
  CHECK(with(2).fitness == Fitness::fit);
  CHECK(with(8).fitness == Fitness::caution);
  CHECK(with(15).fitness == Fitness::unfit);
  CHECK(touches(with(15), "hpa-deviation"));
}

TEST_CASE("a weak scale is named with what it does to lengths", "[checks]") {
  auto made = side();
  made.calibration.origin = ScaleOrigin::detector_only;
  CHECK(the(made, "scale").fitness == Fitness::caution);
  CHECK(touches(the(made, "scale"), "sole-depth-tip"));
  CHECK_FALSE(touches(the(made, "scale"), "palmar-angle"));
  made = side();
  made.calibration.relative_uncertainty = 0.03; // marker perhaps 19 mm out of plane at 630
  CHECK(the(made, "scale").fitness == Fitness::caution);
  made = side();
  made.calibration.cautions = {"The card lies oblique."};
  CHECK(the(made, "scale").fitness == Fitness::caution);
}

TEST_CASE("a landmark beyond the picture's edge refuses what hangs on it", "[checks]") {
  auto made = side();
  made.columns = 700; // the wall's distal point lies at column 875
  const auto check = the(made, "cut-off");
  CHECK(check.fitness == Fitness::unfit);
  CHECK(touches(check, "hoof-angle"));
  CHECK_FALSE(touches(check, "p1-angle"));
}

// Truth: asin(0.5 / 100) = 0.29; asin(8 / 100) = 4.6; asin(20 / 100) = 11.5 degrees against 3 and 7
TEST_CASE("a front view turned aside is told by the two mid markers", "[checks]") {
  auto made = reading(measure::View::dorsopalmar, square_front());
  CHECK(the(made, "dp-rotation").fitness == Fitness::fit);
  CHECK(*the(made, "dp-rotation").value == Approx(0.286).margin(0.001));
  move(made, "dorsal-mid-marker", 8, 35);
  CHECK(the(made, "dp-rotation").fitness == Fitness::caution);
  move(made, "dorsal-mid-marker", 20, 35);
  CHECK(the(made, "dp-rotation").fitness == Fitness::unfit);
  CHECK(touches(the(made, "dp-rotation"), "dip-symmetry-index"));
}

// Truth: 10 mm * 630 / 190 = 33.2 mm: joint height, too high for the borders
TEST_CASE("one height of the beam serves joint or sole, not both", "[checks]") {
  const auto made = reading(measure::View::dorsopalmar, square_front());
  const auto check = the(made, "dp-beam");
  CHECK(*check.value == Approx(33.16).margin(0.01));
  CHECK(touches(check, "p3-ml-tilt"));
  CHECK_FALSE(touches(check, "dip-space-ratio"));
}

// Truth: common practice, no source: what is upright comes from a plumb line or the ground.
TEST_CASE("a photo without plumb line or ground has no upright", "[checks]") {
  auto made = reading(measure::View::limb_side, {{"carpus", 0, 50}});
  CHECK(the(made, "upright").fitness == Fitness::caution);
  made.landmarks.push_back({"plumb-bottom", {500, 900}});
  made.landmarks.push_back({"plumb-top", {535, 100}});
  CHECK(*the(made, "camera-roll").value == Approx(-2.505).margin(0.01)); // atan(35 / 800)
  CHECK(the(made, "camera-roll").fitness == Fitness::fit);
}

TEST_CASE("what the pixels said stands among the checks", "[checks]") {
  auto made = side();
  made.picture_checks.push_back({.id = "exposure-dorsal",
                                 .title = "Exposure",
                                 .fitness = Fitness::unfit,
                                 .sentence = "burnt",
                                 .clause = "the dorsal wall is burnt out",
                                 .touches = {"hoof-angle"}});
  const auto all = measure::measure_reading(made, {}, {});
  CHECK_FALSE(measure::find(all, "hoof-angle")->measurable());
  CHECK(measure::find(all, "hoof-angle")->reason == "the dorsal wall is burnt out");
}

TEST_CASE("every limit names where it comes from", "[checks]") {
  for (const auto& limit : measure::check_limits()) {
    INFO(limit.check);
    CHECK_FALSE(limit.source.empty());
    CHECK_FALSE(limit.reason.empty());
  }
}
