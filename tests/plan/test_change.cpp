// The worked examples of the plan model, with the numbers it states; each case here computes them
// again from the closed formulas, by hand or by arithmetic that shares no code with src/plan.
#include "plan/change.h"

#include <catch2/catch.hpp>

#include <cmath>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::plan;
using namespace feet;

namespace {

/// Printed with two or three digits in the examples.
constexpr double as_printed = 0.01;
constexpr double exact = 1e-9;

const measure::Bands no_bands;

std::vector<Prediction> predicted(const measure::Reading& reading,
                                  const record::FootChange& change) {
  const auto result = predict(reading, stated_spreads(), change, no_bands);
  REQUIRE(result);
  return *result;
}

double after_of(const std::vector<Prediction>& all, const char* id) {
  const auto* found = find(all, id);
  INFO(id);
  REQUIRE(found != nullptr);
  return found->after;
}

/// The closed formulas of the side view, written out with nothing of src/plan.
struct Closed {
  double delta, turn, palmar, depth, cor_toe, cor_heel, breakover, tip_ground, wall_taken,
      dip_height;
};

Closed closed(const SideFoot& f, const record::FootChange& c) {
  const double theta = f.wall_deg * degree, eta = f.heel_deg * degree;
  const double a = c.trim_toe_mm, b = c.trim_heel_mm, w = c.wedge_deg * degree;
  const double k = (a - b) / f.span, delta = std::atan(k);
  const double p = a / (std::tan(theta) + k), q = b / (std::tan(eta) + k);
  const double tx = f.span - p, ty = a - k * p, hx = -q, hy = b - k * q;
  const double ux = std::cos(delta), uy = std::sin(delta);
  const auto along = [&](double x, double y) { return (x - hx) * ux + (y - hy) * uy; };
  const auto above = [&](double x, double y) { return -(x - hx) * uy + (y - hy) * ux; };
  const double toe = along(tx, ty) - c.dress_toe_mm / std::sin(theta + delta);
  const double joint = along(f.joint.x, f.joint.y), h = above(f.joint.x, f.joint.y);
  const double tip = along(f.tip.x, f.tip.y), tip_h = above(f.tip.x, f.tip.y);
  const double worn_back = f.span - f.breakover_x;
  Closed r{};
  r.delta = delta / degree;
  r.turn = r.delta + c.wedge_deg;
  r.palmar = std::atan2(f.process.y - f.tip.y, f.tip.x - f.process.x) / degree + r.turn;
  // The sole's line runs through its two points, each cut where the cut lies above it.
  const auto sole = [&](double x) { return std::max(f.sole_y, b + k * x); };
  const double ax = f.tip.x + 5, bx = f.tip.x - 13, rise = (sole(ax) - sole(bx)) / (ax - bx);
  r.depth = (f.tip.y - sole(bx) - rise * (f.tip.x - bx)) / std::hypot(1, rise);
  const double back = worn_back + c.breakover_back_mm;
  r.cor_toe = (toe - joint) * std::cos(w) - h * std::sin(w) - back;
  r.cor_heel = joint * std::cos(w) + h * std::sin(w) + c.branch_longer_mm;
  r.breakover = (toe - tip) * std::cos(w) - tip_h * std::sin(w) - back;
  r.tip_ground = (tip_h + c.shoe_thickness_mm + (toe - tip) * std::tan(w)) * std::cos(w);
  r.wall_taken = a / (std::sin(theta) + k * std::cos(theta));
  r.dip_height = (h + c.shoe_thickness_mm + (toe - joint) * std::tan(w)) * std::cos(w);
  return r;
}

double toe_length_change(const std::vector<Prediction>& all) {
  return find(all, "toe-length")->change;
}

SideFoot random_foot(Random& random) {
  const auto draw = [&](double low, double high) { return between(random, low, high); };
  SideFoot f;
  f.span = draw(110, 140);
  f.wall_deg = draw(42, 58);
  f.heel_deg = draw(32, 56);
  f.tip = {f.span - draw(34, 44), draw(16, 26)};
  f.process = {f.tip.x - draw(62, 70), f.tip.y + draw(-4, 8)};
  f.joint = {f.tip.x - draw(34, 42), f.tip.y + draw(18, 22)};
  f.dorsal_deg = f.wall_deg + draw(-2, 6);
  f.p2_deg = draw(44, 60);
  f.p1_deg = draw(44, 60);
  f.sole_y = draw(0.5, 8);
  f.breakover_x = f.span - draw(0, 8);
  f.displacement = draw(0, 10);
  f.shod = draw(0, 1) < 0.3;
  if (f.shod) {
    f.shoe_mm = draw(6, 14);
    f.worn_wedge_deg = draw(0, 3);
    f.branch_mm = draw(0, 8);
  }
  return f;
}

record::FootChange random_change(Random& random) {
  const auto draw = [&](double high) { return between(random, 0, high); };
  return {.trim_toe_mm = draw(8),
          .trim_heel_mm = draw(5),
          .shoe_thickness_mm = draw(12),
          .wedge_deg = draw(4),
          .breakover_back_mm = draw(15),
          .branch_longer_mm = draw(10)};
}

Film random_picture(Random& random) {
  return {.pixel_width_mm = between(random, 0.1, 0.2),
          .pixel_height_mm = between(random, 0.1, 0.2),
          .toward = between(random, 0, 1) < 0.5 ? PictureSide::left : PictureSide::right,
          .turned_deg = between(random, -6, 6)};
}

} // namespace

// Truth: geometry, worked example 1 of the plan model (trim 6 at the toe, 2 at the heels)
TEST_CASE("a trim of toe and heels gives the worked example's numbers", "[plan][change]") {
  const auto all = predicted(reading(SideFoot{}), {.trim_toe_mm = 6, .trim_heel_mm = 2});
  CHECK(after_of(all, "palmar-angle") == Approx(3.112).margin(as_printed));
  CHECK(after_of(all, "sole-depth-tip") == Approx(17.242).margin(as_printed));
  CHECK(after_of(all, "cor-toe") == Approx(71.612).margin(as_printed));
  CHECK(after_of(all, "cor-heel") == Approx(53.493).margin(as_printed));
  CHECK(after_of(all, "base-proportion") == Approx(0.5724).margin(0.0001));
  CHECK(after_of(all, "breakover-distance") == Approx(34.224).margin(as_printed));
  CHECK(after_of(all, "dip-height") == Approx(37.419).margin(as_printed));
  CHECK(toe_length_change(all) == Approx(-7.853).margin(as_printed));
}

// Truth: geometry, worked example 2 (heel wedge of 3 degrees, no trim); joints: Crevier-Denoix 2001
TEST_CASE("a wedge alone gives the worked example's numbers", "[plan][change]") {
  const auto all = predicted(reading(SideFoot{}), {.wedge_deg = 3});
  CHECK(after_of(all, "palmar-angle") == Approx(4.322).margin(as_printed));
  CHECK(after_of(all, "palmar-angle-foot") == Approx(1.322).margin(as_printed));
  CHECK(after_of(all, "sole-depth-tip") == Approx(18).margin(exact));
  CHECK(after_of(all, "cor-toe") == Approx(75.747).margin(as_printed));
  CHECK(after_of(all, "cor-heel") == Approx(52.077).margin(as_printed));
  CHECK(after_of(all, "base-proportion") == Approx(0.5926).margin(0.0001));
  CHECK(after_of(all, "tip-ground-height") == Approx(24.063).margin(as_printed));
  CHECK(after_of(all, "breakover-distance") == Approx(38.794).margin(as_printed));
  CHECK(find(all, "dip-deviation")->change == Approx(2.96).margin(as_printed));
  CHECK(find(all, "pip-deviation")->change == Approx(0.73).margin(as_printed));
  CHECK(find(all, "p1-angle")->change == Approx(-0.69).margin(as_printed));
  CHECK(find(all, "hpa-deviation")->change == Approx(3.69).margin(as_printed));
}

// Truth: geometry, worked example 3 (breakover set back by 12)
TEST_CASE("a set-back shoe moves breakover alone", "[plan][change]") {
  const auto all = predicted(reading(SideFoot{}), {.breakover_back_mm = 12});
  CHECK(after_of(all, "cor-toe") == Approx(66).margin(exact));
  CHECK(after_of(all, "cor-heel") == Approx(50).margin(exact));
  CHECK(after_of(all, "base-proportion") == Approx(0.5690).margin(0.0001));
  CHECK(after_of(all, "breakover-distance") == Approx(28).margin(exact));
  CHECK(after_of(all, "cor-toe") / find(all, "cor-toe")->before == Approx(0.846).margin(0.001));
  CHECK(find(all, "palmar-angle")->change == Approx(0).margin(exact));
  CHECK(find(all, "sole-depth-tip")->change == Approx(0).margin(exact));
}

// Truth: geometry, worked example 7 (trim 4, dressing 1, shoe 8 with 1 degree, 2 back, 5 longer)
TEST_CASE("trim, dressing and shoe together give the worked example's numbers", "[plan][change]") {
  const auto all = predicted(reading(SideFoot{}),
                             {.trim_toe_mm = 4,
                              .dress_toe_mm = 1,
                              .shoe_thickness_mm = 8,
                              .wedge_deg = 1,
                              .breakover_back_mm = 2,
                              .branch_longer_mm = 5});
  CHECK(after_of(all, "sole-depth-tip") == Approx(18).margin(exact));
  CHECK(after_of(all, "palmar-angle") == Approx(4.112).margin(as_printed));
  CHECK(after_of(all, "palmar-angle-foot") == Approx(3.112).margin(as_printed));
  CHECK(after_of(all, "cor-toe") == Approx(69.293).margin(as_printed));
  CHECK(after_of(all, "cor-heel") == Approx(56.936).margin(as_printed));
  CHECK(after_of(all, "base-proportion") == Approx(0.5489).margin(0.0001));
  CHECK(after_of(all, "breakover-distance") == Approx(32.263).margin(as_printed));
  CHECK(after_of(all, "tip-ground-height") == Approx(27.840).margin(as_printed));
  CHECK(after_of(all, "p1-angle") == Approx(51.356).margin(as_printed));
  CHECK(after_of(all, "pip-deviation") == Approx(-1.319).margin(as_printed));
  CHECK(after_of(all, "dip-deviation") == Approx(1.254).margin(as_printed));
  CHECK(after_of(all, "hpa-deviation") == Approx(-0.066).margin(as_printed));
}

// Truth: geometry, the closed formulas written out in this file; feet, changes and films at random
TEST_CASE("moved landmarks agree with the closed formulas on any bare foot", "[plan][change]") {
  Random random(20260316);
  for (int i = 0; i < 500; ++i) {
    auto foot = random_foot(random);
    foot.shod = false;
    const auto change = random_change(random);
    const auto all = predicted(reading(foot, random_picture(random)), change);
    const auto truth = closed(foot, change);
    INFO("foot " << i);
    CHECK(after_of(all, "palmar-angle") == Approx(truth.palmar).margin(1e-7));
    CHECK(after_of(all, "sole-depth-tip") == Approx(truth.depth).margin(1e-7));
    CHECK(after_of(all, "cor-toe") == Approx(truth.cor_toe).margin(1e-7));
    CHECK(after_of(all, "cor-heel") == Approx(truth.cor_heel).margin(1e-7));
    CHECK(after_of(all, "breakover-distance") == Approx(truth.breakover).margin(1e-7));
    CHECK(after_of(all, "tip-ground-height") == Approx(truth.tip_ground).margin(1e-7));
    CHECK(after_of(all, "dip-height") == Approx(truth.dip_height).margin(1e-7));
    CHECK(-toe_length_change(all) == Approx(truth.wall_taken).margin(1e-7));
  }
}

// Truth: law, what is rigid stays; the axis closes; equal trim turns nothing
TEST_CASE("angles between bone and hoof never change, and the axis still closes",
          "[plan][change]") {
  Random random(7);
  for (int i = 0; i < 500; ++i) {
    const auto foot = random_foot(random);
    const auto film = random_picture(random);
    const auto change = random_change(random);
    const auto all = predicted(reading(foot, film), change);
    INFO("foot " << i);
    for (const char* id : {"p3-bone-angle",
                           "capsular-rotation",
                           "wall-thickness-proximal",
                           "wall-thickness-mid",
                           "wall-thickness-distal"})
      CHECK(find(all, id)->change == Approx(0).margin(exact));
    CHECK(after_of(all, "p3-dorsal-angle") ==
          Approx(after_of(all, "p1-angle") + after_of(all, "pip-deviation") +
                 after_of(all, "dip-deviation"))
              .margin(exact));
    const double turn = find(all, "palmar-angle")->change;
    for (const char* id : {"p3-dorsal-angle", "hoof-angle", "heel-angle"})
      CHECK(find(all, id)->change == Approx(turn).margin(1e-8));
    const double trim_only =
        std::atan((change.trim_toe_mm - change.trim_heel_mm) / foot.span) / degree;
    CHECK(turn == Approx(trim_only + change.wedge_deg).margin(1e-8));
    CHECK(find(all, "palmar-angle-foot")->change == Approx(trim_only).margin(1e-8));

    const auto level = predicted(reading(foot, film), {.trim_toe_mm = 3, .trim_heel_mm = 3});
    for (const char* id :
         {"palmar-angle", "hoof-angle", "p1-angle", "pip-deviation", "dip-deviation"})
      CHECK(find(level, id)->change == Approx(0).margin(exact));
  }
}

// Truth: law, doing nothing changes nothing, to the last bit
TEST_CASE("a change of zero gives back the reading's own landmarks", "[plan][change]") {
  Random random(11);
  for (int i = 0; i < 50; ++i) {
    const auto film = random_picture(random);
    for (const auto& each : {reading(random_foot(random), film), reading(FrontFoot{}, film)}) {
      const auto placed = measure::placed(each);
      const auto same = ghost(each, {});
      REQUIRE(same);
      CHECK(same->shoeing == placed.shoeing);
      REQUIRE(same->points().size() == placed.points().size());
      for (const auto& [id, p] : placed.points()) {
        CHECK((*same)[id].x == p.x);
        CHECK((*same)[id].y == p.y);
      }
    }
  }
}

// Truth: law, continuity: a change of almost nothing moves almost nothing, shod or bare
TEST_CASE("a tiny change moves the landmarks of a shod foot by a tiny way", "[plan][change]") {
  Random random(12);
  for (int i = 0; i < 50; ++i) {
    auto foot = random_foot(random);
    foot.shod = true;
    foot.shoe_mm = 10;
    foot.worn_wedge_deg = 2;
    foot.branch_mm = 4;
    const auto film = reading(foot, random_picture(random));
    const auto placed = measure::placed(film);
    const auto moved = ghost(film, {.wedge_deg = 1e-9});
    REQUIRE(moved);
    for (const auto& [id, p] : placed.points()) {
      INFO(id);
      CHECK(distance((*moved)[id], p) < 1e-7);
    }
  }
}

// Truth: geometry, taking a shoe off and putting it on again: a bare foot given the shoe in one
// step and a foot filmed in that shoe have the same numbers
TEST_CASE("a foot filmed in its shoe is the bare foot with that shoe put on", "[plan][change]") {
  SideFoot bare, worn;
  worn.shod = true;
  worn.shoe_mm = 9;
  worn.worn_wedge_deg = 2;
  worn.branch_mm = 5;
  const auto put_on = predicted(reading(bare),
                                {.trim_toe_mm = 3,
                                 .trim_heel_mm = 1,
                                 .shoe_thickness_mm = 12,
                                 .wedge_deg = 3,
                                 .breakover_back_mm = 4,
                                 .branch_longer_mm = 7});
  const auto changed = predicted(reading(worn),
                                 {.trim_toe_mm = 3,
                                  .trim_heel_mm = 1,
                                  .shoe_thickness_mm = 3,
                                  .wedge_deg = 1,
                                  .breakover_back_mm = 4,
                                  .branch_longer_mm = 2});
  for (const char* id : {"palmar-angle",
                         "palmar-angle-foot",
                         "sole-depth-tip",
                         "tip-ground-height",
                         "cor-toe",
                         "cor-heel",
                         "breakover-distance",
                         "base-proportion",
                         "dip-height"}) {
    INFO(id);
    CHECK(after_of(changed, id) == Approx(after_of(put_on, id)).margin(1e-7));
  }
}

// Truth: Crevier-Denoix et al. 2001: over 30 degrees of foot turn the coffin joint takes 29.5, the
// pastern joint 7.3, and the long pastern flattens by 6.9; to a tenth a degree
TEST_CASE("joints share a turn as published", "[plan][change]") {
  const auto all = predicted(reading(SideFoot{}), {.wedge_deg = 30});
  CHECK(find(all, "dip-deviation")->change == Approx(29.5).margin(0.15));
  CHECK(find(all, "pip-deviation")->change == Approx(7.3).margin(0.05));
  CHECK(find(all, "p1-angle")->change == Approx(-6.9).margin(0.05));
  const auto& s = standing_shares;
  CHECK(s.coffin + s.pastern + s.long_pastern == Approx(1).margin(1e-15));
}

// Truth: geometry, rise over length (worked case 13 of the measurements): 3 degrees of wedge raise
// the heel by 6.29 mm over 120 mm
TEST_CASE("a wedge raises the heel by its rise over its length", "[plan][change]") {
  SideFoot foot;
  foot.span = 120;
  foot.breakover_x = 120;
  const auto moved = ghost(reading(foot), {.wedge_deg = 3});
  REQUIRE(moved);
  const auto ground = measure::ground_of(*moved);
  CHECK(ground.height((*moved)["heel-ground"]) / std::cos(3 * degree) ==
        Approx(6.29).margin(0.005));
  CHECK(ground.height((*moved)["wall-toe-ground"]) == Approx(0).margin(exact));
}

// Truth: published sign and size: coronary band over extensor process falls by about 14 sin(turn)
// (geometry, worked case 18 of the measurements: 4.00 to 2.765 at 5 degrees)
TEST_CASE("a turned foot alone lowers the number for distal displacement", "[plan][change]") {
  SideFoot foot;
  foot.displacement = 4;
  const auto all = predicted(reading(foot), {.wedge_deg = 5});
  CHECK(after_of(all, "coronary-extensor-distance") == Approx(2.765).margin(0.001));
}

// Truth: geometry, worked example 6 (2 off the lateral side); the axis offset follows from P2
// keeping its lean about the joint's centre, computed below by hand
TEST_CASE("a trim of one side gives the worked example's numbers", "[plan][change]") {
  FrontFoot foot;
  const auto all = predicted(reading(foot), {.trim_lateral_mm = 2});
  const double turn = -std::atan(2.0 / 124) / degree;
  CHECK(turn == Approx(-0.924).margin(0.0005));
  CHECK(after_of(all, "p3-ml-tilt") == Approx(1.367).margin(as_printed));
  for (const char* id : {"p3-ml-tilt", "p3-ml-tilt-articular", "coronet-ml-tilt"})
    CHECK(find(all, id)->change == Approx(turn).margin(1e-8));
  CHECK(find(all, "wall-angle-lateral")->change == Approx(-turn).margin(1e-8));
  CHECK(find(all, "wall-angle-medial")->change == Approx(turn).margin(1e-8));
  CHECK(find(all, "wall-length-lateral")->change == Approx(-2.038).margin(as_printed));
  CHECK(find(all, "wall-length-medial")->change == Approx(0).margin(exact));
  const auto moved = ghost(reading(foot), {.trim_lateral_mm = 2});
  REQUIRE(moved);
  const auto before = measure::placed(reading(foot));
  CHECK(before["wall-ground-lateral"].x - (*moved)["wall-ground-lateral"].x ==
        Approx(0.424).margin(as_printed));
  // Joint (1.6667, 40); new bearing points (-60, 0), (63.5764, 1.9932), their middle (1.7882,
  // 0.9966). Along the new ground the joint lies at 0.5076 from the middle, 39.0002 above it; P2's
  // lean of 2 in 30 carries its axis by another 2.6000.
  CHECK(find(all, "foot-axis-offset")->before == Approx(2.333).margin(as_printed));
  CHECK(after_of(all, "foot-axis-offset") == Approx(3.108).margin(as_printed));
  CHECK(after_of(all, "foot-centre-offset") == Approx(0.508).margin(as_printed));
  CHECK(find(all, "dip-space-ratio") == nullptr);
  CHECK(find(all, "p2-axis-ml-angle") == nullptr);
  CHECK(find(all, "dip-line-angle") == nullptr); // half of it is P2's edge
}

// Truth: geometry: dressing f square to a wall of slope a takes f / sin(a) off the base on that
// side; the middle of the base moves by half of it
TEST_CASE("a dressed flare narrows the base on its side", "[plan][change]") {
  const auto all = predicted(reading(FrontFoot{}), {.dress_lateral_mm = 1.5});
  const double in = 1.5 / std::sin(78 * degree);
  CHECK(find(all, "axis-to-wall-lateral")->change == Approx(-in).margin(exact));
  CHECK(find(all, "axis-to-wall-medial")->change == Approx(0).margin(exact));
  CHECK(find(all, "foot-axis-offset")->change == Approx(in / 2).margin(exact));
  CHECK(find(all, "p3-ml-tilt")->change == Approx(0).margin(exact));
  CHECK(find(all, "wall-angle-lateral")->change > 0.5); // less flared
  // The bone's edge at a third of the wall's height (18 of 53.8 mm) loses two thirds of it.
  auto some = points(FrontFoot{});
  some.emplace_back("p3-abaxial-lateral", PlanePoint{40, 18});
  some.emplace_back("p3-abaxial-medial", PlanePoint{-40, 18});
  const auto with_edges =
      predicted(reading(some, measure::View::dorsopalmar), {.dress_lateral_mm = 1.5});
  const double share = 1 - 18 / (55 * std::sin(78 * degree));
  CHECK(find(with_edges, "p3-wall-lateral")->change == Approx(-in * share).margin(1e-6));
  CHECK(find(with_edges, "p3-wall-medial")->change == Approx(0).margin(exact));
}

// Truth: geometry: a wedge of 1 degree turns what is rigid by 1 degree, and is 1.9 mm over 110 mm
TEST_CASE("a wedge under the lateral side raises it", "[plan][change]") {
  const auto all = predicted(reading(FrontFoot{}), {.ml_wedge_deg = 1});
  for (const char* id : {"p3-ml-tilt", "p3-ml-tilt-articular", "coronet-ml-tilt"})
    CHECK(find(all, id)->change == Approx(1).margin(1e-9));
  CHECK(find(all, "wall-length-lateral")->change == Approx(0).margin(exact));
  const auto moved = ghost(reading(FrontFoot{}), {.ml_wedge_deg = 1});
  REQUIRE(moved);
  const auto ground = measure::ground_of(*moved);
  const double rise = ground.height((*moved)["wall-ground-lateral"]) -
                      ground.height((*moved)["wall-ground-medial"]);
  CHECK(rise * 110 / 124 == Approx(1.92).margin(0.005));
}

// Truth: geometry: a pad raises the whole foot and turns nothing
TEST_CASE("a pad lifts the foot by its thickness", "[plan][change]") {
  const auto all = predicted(reading(SideFoot{}), {.pad_mm = 3});
  CHECK(find(all, "tip-ground-height")->change == Approx(3).margin(exact));
  CHECK(find(all, "dip-height")->change == Approx(3).margin(exact));
  CHECK(find(all, "palmar-angle")->change == Approx(0).margin(exact));
  CHECK(find(all, "sole-depth-tip")->change == Approx(0).margin(exact));
}

// Truth: worked example 6: 4 mm of lateral extension bring the base's middle 2 mm towards it; what
// is taken from the walls stays
TEST_CASE("a wider branch shifts the base and no measurement", "[plan][change]") {
  CHECK(base_shift({.extend_lateral_mm = 4}) == 2);
  CHECK(base_shift({.extend_medial_mm = 3}) == -1.5);
  for (const auto& each : predicted(reading(FrontFoot{}), {.extend_lateral_mm = 4}))
    CHECK(each.change == 0);
}

// Truth: law, the lateral side of a left foot filmed from either side is the same side
TEST_CASE("how the film lies doesn't change what a change does", "[plan][change]") {
  Random random(5);
  const record::FootChange change{
      .trim_toe_mm = 4, .trim_medial_mm = 1.5, .wedge_deg = 1, .breakover_back_mm = 3};
  const auto side = predicted(reading(SideFoot{}), change);
  const auto front = predicted(reading(FrontFoot{}), change);
  for (int i = 0; i < 20; ++i) {
    const auto film = random_picture(random);
    for (const auto& each : predicted(reading(SideFoot{}, film), change))
      CHECK(each.after == Approx(after_of(side, each.definition->id.data())).margin(1e-7));
    for (const auto& each : predicted(reading(FrontFoot{}, film), change))
      CHECK(each.after == Approx(after_of(front, each.definition->id.data())).margin(1e-7));
  }
}

TEST_CASE("what can't be known about a change is refused with its reason", "[plan][change]") {
  const record::FootChange trim{.trim_toe_mm = 3};
  auto no_scale = reading(SideFoot{}, {.origin = ScaleOrigin::none});
  REQUIRE(!ghost(no_scale, trim));
  CHECK(ghost(no_scale, trim).error().find("scale") != std::string::npos);

  SideFoot worn;
  worn.shod = true;
  worn.shoe_mm = 9;
  auto points_of_worn = points(worn);
  std::erase_if(points_of_worn, [](const auto& each) { return each.first == "foot-plane-heel"; });
  const auto unclear = reading(points_of_worn, measure::View::lateromedial);
  REQUIRE(!ghost(unclear, trim));
  CHECK(ghost(unclear, trim).error().find("hoof meets shoe") != std::string::npos);

  auto no_heel = points(SideFoot{});
  std::erase_if(no_heel, [](const auto& each) { return each.first == "heel-ground"; });
  REQUIRE(!ghost(reading(no_heel, measure::View::lateromedial), trim));

  auto no_walls = points(FrontFoot{});
  std::erase_if(no_walls, [](const auto& each) { return each.first == "wall-ground-medial"; });
  REQUIRE(!ghost(reading(no_walls, measure::View::dorsopalmar), {.trim_medial_mm = 1}));
}

// Truth: geometry, the wall's own line: without the toe's end point the same T is found where the
// line of the dorsal wall meets the ground
TEST_CASE("the toe's bearing point is found on the wall's line when it wasn't placed",
          "[plan][change]") {
  auto some = points(SideFoot{});
  std::erase_if(some, [](const auto& each) { return each.first == "wall-toe-ground"; });
  const auto all =
      predicted(reading(some, measure::View::lateromedial), {.trim_toe_mm = 6, .trim_heel_mm = 2});
  CHECK(after_of(all, "cor-toe") == Approx(71.612).margin(as_printed));
  CHECK(after_of(all, "breakover-distance") == Approx(34.224).margin(as_printed));
}

// Truth: geometry, lowering the heel by b carries its bearing point back by b / tan(heel angle);
// without its own slope the heel counts as 5 degrees flatter than the toe
TEST_CASE("an unmeasured heel slope is taken five degrees flatter than the toe", "[plan][change]") {
  auto some = points(SideFoot{});
  std::erase_if(some, [](const auto& each) { return each.first.substr(0, 9) == "heel-wall"; });
  const auto moved =
      ghost(reading(some, measure::View::lateromedial), {.trim_toe_mm = 2, .trim_heel_mm = 2});
  REQUIRE(moved);
  const auto before = measure::placed(reading(some, measure::View::lateromedial));
  CHECK(before["heel-ground"].x - (*moved)["heel-ground"].x ==
        Approx(2 / std::tan(43 * degree)).margin(1e-7));
}
