// Amounts set by hand: held by every limit, no shorter than they must be, and dragged along the
// ways that geometry gives them.
#include "plan/limits.h"
#include "plan/variables.h"
#include "plan/what_if.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::plan;
using namespace feet;
using record::FootChange;

namespace {

struct World {
  record::Case case_ = sound_case();
  std::vector<FootReadings> readings;

  explicit World(const SideFoot& foot)
      : readings{side_only(reading(foot))} {}
  [[nodiscard]] PlanInput input() const { return input_of(case_, readings); }
};

practice::Practice without_rules() {
  auto practice = shipped();
  practice.rules.clear();
  return practice;
}

bool keeps_all(const World& world, const practice::Practice& practice, const FootChange& change) {
  const auto input = world.input();
  const auto facts = case_facts(input);
  const auto feet = feet_of(input, facts, practice);
  return first_broken(feet.front(), change) == nullptr;
}

FootChange any_wish(Random& random) {
  FootChange wish;
  for (const auto& each : variables())
    if (between(random, 0, 1) < 0.4)
      wish.*each.field = between(random, 0, each.most);
  return wish;
}

} // namespace

// Truth: the limits themselves, asked one by one through plan/limits.h.
TEST_CASE("what is held keeps every limit, and one step more of what was held back would break one",
          "[plan][what-if]") {
  Random random{41};
  const auto practice = without_rules();
  const World world{SideFoot{}};
  int held = 0, whole = 0;
  for (int i = 0; i < 300; ++i) {
    const auto wish = any_wish(random);
    const auto& moved = variables()[static_cast<std::size_t>(i) % variables().size()];
    const auto tried = what_if(world.input(), practice, wish, moved.name);
    REQUIRE(tried.refused.empty());
    CHECK(keeps_all(world, practice, tried.change));
    tried.held_back.empty() ? ++whole : ++held;
    for (const auto& each : variables()) {
      const double step = std::round(wish.*each.field / each.step) * each.step;
      const auto back = std::find_if(tried.held_back.begin(),
                                     tried.held_back.end(),
                                     [&](const HeldBack& h) { return h.variable == each.name; });
      if (back == tried.held_back.end()) {
        CHECK(tried.change.*each.field == Approx(step));
        continue;
      }
      CHECK_FALSE(back->sentence.empty());
      CHECK(tried.change.*each.field == back->held);
    }
    // The one under the hand alone: no step nearer to the wish would do.
    if (tried.held_back.size() == 1 && tried.held_back.front().variable == moved.name) {
      const auto& back = tried.held_back.front();
      auto nearer = tried.change;
      const double towards = back.wished > back.held ? moved.step : -moved.step;
      nearer.*moved.field += towards;
      CHECK_FALSE(keeps_all(world, practice, nearer));
    }
  }
  CHECK(held > 50);
  CHECK(whole > 0);
}

// Truth: what was wished.
TEST_CASE("what keeps every limit comes back as it is", "[plan][what-if]") {
  const World world{SideFoot{}};
  FootChange wish;
  wish.trim_toe_mm = 1.5;
  wish.breakover_back_mm = 3;
  const auto tried = what_if(world.input(), without_rules(), wish, "trim_toe_mm");
  CHECK(tried.held_back.empty());
  CHECK(tried.change.trim_toe_mm == 1.5);
  CHECK(tried.change.breakover_back_mm == 3);
  CHECK_FALSE(tried.predictions.empty());
}

TEST_CASE("a stop of the case lets nothing be tried, and nothing be planned by hand",
          "[plan][what-if]") {
  World world{SideFoot{}};
  world.case_.history.red_flags = {"hot-foot"};
  FootChange wish;
  wish.trim_toe_mm = 1;
  const auto tried = what_if(world.input(), shipped(), wish, "trim_toe_mm");
  CHECK_FALSE(tried.refused.empty());
  CHECK(tried.predictions.empty());
  auto input = world.input();
  input.by_hand = {{wish, "Fay"}};
  CHECK(make_plan(input, shipped()).plan.changes.empty());
}

// Truth: docs/plan.md, breakover goes back by at most 8 mm in a visit.
TEST_CASE("amounts set by hand are the plan's for that foot, held, and say whose they are",
          "[plan][what-if]") {
  const World world{SideFoot{}};
  FootChange wish;
  wish.breakover_back_mm = 20; // 8 mm are the most at a visit (docs/plan.md)
  auto input = world.input();
  input.by_hand = {{wish, "Fay"}};
  const auto plan = make_plan(input, without_rules()).plan;
  REQUIRE(plan.changes.size() == 1);
  CHECK(plan.changes.front().breakover_back_mm == 8);
  REQUIRE(plan.by_hand.size() == 1);
  CHECK(plan.by_hand.front().by == "Fay");
  const auto* shoe = line(plan, "hand-shoe");
  REQUIRE(shoe != nullptr);
  CHECK(shoe->why.find("by Fay") != std::string::npos);
  CHECK(mentions(plan.locks, "8 mm a visit"));
}

// Truth: geometry. A millimetre off the toe lifts the bearing point by a millimetre, square to the
// ground, and back along the wall; breakover goes along the ground; a degree of wedge lowers the
// ground, 22 mm behind the heel, by the tangent of a degree of its distance to the toe.
TEST_CASE("a grip goes where its amount moves the foot", "[plan][what-if]") {
  const SideFoot foot;
  const auto read = reading(foot);
  std::map<std::string, Grip, std::less<>> grips;
  for (const auto& each : grips_of(read, {}))
    grips.emplace(each.variable, each);
  const auto placed = measure::placed(read);
  const auto ground = measure::ground_of(placed);
  REQUIRE(grips.contains("trim_toe_mm"));
  const auto& toe = grips.at("trim_toe_mm");
  CHECK(distance(toe.at, placed["wall-toe-ground"]) == Approx(0).margin(1e-9));
  // The cut is tilted by atan(1/S): a thousandth of a millimetre less than one at the toe's new
  // end.
  CHECK(dot(toe.per_unit, ground.n) == Approx(1).margin(0.02));
  CHECK(dot(toe.per_unit, ground.u) ==
        Approx(-1 / std::tan(from_degrees(foot.wall_deg))).margin(0.02));
  REQUIRE(grips.contains("breakover_back_mm"));
  const auto& breakover = grips.at("breakover_back_mm");
  CHECK(dot(breakover.per_unit, ground.u) == Approx(-1).margin(1e-6));
  CHECK(dot(breakover.per_unit, ground.n) == Approx(0).margin(1e-6));
  REQUIRE(grips.contains("wedge_deg"));
  const auto& wedge = grips.at("wedge_deg");
  const double reach = ground.along(placed["wall-toe-ground"]) - ground.along(wedge.at);
  CHECK(dot(wedge.per_unit, ground.n) == Approx(-std::tan(from_degrees(1.0)) * reach).margin(0.05));
}
