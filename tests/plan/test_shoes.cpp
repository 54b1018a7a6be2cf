// The practice's list of shoes: what a kind gives is what its entry says, nothing gets round a
// limit by its name, and the plan says it in one line.
#include "plan/change.h"
#include "plan/limits.h"
#include "plan/shoes.h"
#include "plan/variables.h"
#include "plan/what_if.h"
#include "record/words.h"

#include <catch2/catch.hpp>

#include <algorithm>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::plan;
using namespace feet;
using practice::ShoeKind;
using record::FootChange;

namespace {

/// A list of the test's own, so that the shipped sizes may change.
std::vector<ShoeKind> three_shoes() {
  return {{.id = "flat",
           .title = "Flat",
           .words = "Flat bar.",
           .gives = {{"breakover_back_mm", {0, 3}}, {"branch_longer_mm", {0, 10}}},
           .bar = "none",
           .frog_support = "none",
           .caution = "None of note."},
          {.id = "rolled",
           .title = "Rolled",
           .words = "Rolled bar.",
           .gives = {{"breakover_back_mm", {3, 10}}},
           .bar = "none",
           .frog_support = "none",
           .not_over_thin_sole = true,
           .caution = "Grip."},
          {.id = "heart",
           .title = "Heart bar",
           .words = "Plate on the frog.",
           .gives = {{"breakover_back_mm", {0, 5}}},
           .bar = "heart",
           .frog_support = "plate",
           .only_with_vet = true,
           .caution = "Pressure."}};
}

struct World {
  record::Case case_ = sound_case();
  practice::Practice practice = shipped();
  std::vector<FootReadings> readings;
  CaseFacts facts;

  explicit World(const SideFoot& foot = {})
      : readings{side_only(reading(foot))} {
    practice.rules.clear();
    practice.shoes = three_shoes();
  }
  [[nodiscard]] PlanInput input() const { return input_of(case_, readings); }
  [[nodiscard]] std::vector<Foot> feet() {
    facts = case_facts(input());
    return feet_of(input(), facts, practice);
  }
  [[nodiscard]] std::vector<std::string> fitting(const FootChange& change) {
    const auto all = feet();
    std::vector<std::string> ids;
    for (const auto* each : shoes_for(all.front(), practice, change))
      ids.push_back(each->id);
    return ids;
  }
};

using Ids = std::vector<std::string>;

} // namespace

// Truth: the list's own spans.
TEST_CASE("a shoe fits when each amount lies within what it gives", "[plan][shoes]") {
  World world;
  CHECK(world.fitting({.breakover_back_mm = 2}) == Ids{"flat"});
  CHECK(world.fitting({.breakover_back_mm = 3}) == Ids{"flat", "rolled"});
  CHECK(world.fitting({.breakover_back_mm = 8}) == Ids{"rolled"});
  CHECK(world.fitting({.branch_longer_mm = 4}) == Ids{"flat"});
  CHECK(world.fitting({.breakover_back_mm = 8, .branch_longer_mm = 4}).empty());
  CHECK(world.fitting({.wedge_deg = 1}).empty());
  CHECK(world.fitting({.shoe_thickness_mm = 8}) == Ids{"flat"});
  CHECK(world.fitting({.trim_toe_mm = 3}).empty());
}

TEST_CASE("what a shoe doesn't give is said with what it gives", "[plan][shoes]") {
  World world;
  const auto feet = world.feet();
  const auto said =
      not_given(feet.front(), world.practice.shoes[1], {.wedge_deg = 2, .breakover_back_mm = 1});
  REQUIRE(said.size() == 2);
  CHECK(mentions(said, "2\u00b0 of heel wedge (it gives none)"));
  CHECK(mentions(said, "breakover 1 mm back by the shoe (it gives 3 to 10 mm)"));
}

TEST_CASE("amounts of a shod foot are differences, so no shoe is named", "[plan][shoes]") {
  World world({.shod = true, .shoe_mm = 8});
  CHECK(world.fitting({.breakover_back_mm = 2}).empty());
  const auto feet = world.feet();
  CHECK(not_given(feet.front(), world.practice.shoes[1], {.breakover_back_mm = 1}).empty());
  CHECK_FALSE(shoe_line(feet.front(), world.practice, {.breakover_back_mm = 2}).has_value());
}

// Truth: the hard limits of plan/limits.h (15 mm of sole), reached by another way in.
TEST_CASE("no rocker over a thin sole and no heart bar without the vet, however it is asked",
          "[plan][shoes]") {
  World thin({.tip = {88, 19}});
  CHECK(thin.fitting({.breakover_back_mm = 5}).empty());
  World world;
  for (auto* each : {&thin, &world}) {
    const auto id = each == &thin ? "rolled" : "heart";
    const auto tried =
        what_if(each->input(), each->practice, {.shoe = {.kind = id, .web_mm = 24}}, {});
    REQUIRE(tried.refused.empty());
    CHECK_FALSE(tried.shoe.refused.empty());
    CHECK(tried.change.shoe == record::ShoeFacts{});
    auto input = each->input();
    input.by_hand = {{{.breakover_back_mm = 2, .shoe = {.kind = id}}, "a person"}};
    const auto planned = make_plan(input, each->practice);
    CHECK(mentions(planned.plan.locks, tried.shoe.refused));
    REQUIRE(planned.plan.changes.size() == 1);
    CHECK(planned.plan.changes.front().shoe.kind.empty());
  }
  world.case_.history.diagnosis = "Seen.";
  world.case_.vet.name = "Dr Example";
  CHECK(
      what_if(world.input(), world.practice, {.shoe = {.kind = "heart"}}, {}).shoe.refused.empty());
}

TEST_CASE("a chosen shoe is one line of the plan, with what it doesn't give", "[plan][shoes]") {
  World world;
  auto input = world.input();
  input.by_hand = {
      {{.breakover_back_mm = 5,
        .shoe = {.kind = "flat", .bar = record::Bar::egg, .web_mm = 24, .roll_rise_mm = 2}},
       "a person"}};
  const auto planned = make_plan(input, world.practice);
  const auto* line = feet::line(planned.plan, "shoe");
  REQUIRE(line != nullptr);
  CHECK(line->what ==
        "Shoe: Flat, egg bar, web 24 mm at the toe, toe rolled up by 2 mm. Flat bar.");
  CHECK(line->caution.find("breakover 5 mm back by the shoe (it gives 0 to 3 mm)") !=
        std::string::npos);
  CHECK(line->decision == record::Decision::open);
}

TEST_CASE("a shoe alone is kept and moves nothing", "[plan][shoes]") {
  World world;
  auto input = world.input();
  input.by_hand = {{{.shoe = {.kind = "flat"}}, "a person"}};
  const auto planned = make_plan(input, world.practice);
  REQUIRE(planned.plan.changes.size() == 1);
  CHECK(planned.plan.changes.front().shoe.kind == "flat");
  CHECK(planned.predictions.empty());
  CHECK(feet::line(planned.plan, "shoe") != nullptr);
  CHECK(feet::line(planned.plan, "nothing-proposed") == nullptr);
}

TEST_CASE("amounts without a chosen shoe name the plainest two that do it, or none",
          "[plan][shoes]") {
  World world;
  auto input = world.input();
  const auto said = [&](double back_mm) {
    input.by_hand = {{{.breakover_back_mm = back_mm}, "a person"}};
    const auto planned = make_plan(input, world.practice);
    const auto* line = feet::line(planned.plan, "shoe");
    REQUIRE(line != nullptr);
    return line->what;
  };
  CHECK(said(3) == "Shoe that does this: Flat; or Rolled.");
  CHECK(said(6) == "Shoe that does this: Rolled.");
  world.practice.shoes.resize(1);
  CHECK(said(6) == "Shoe: none of this practice's list does all of this; made to order.");
}

TEST_CASE("the shipped list is one a plan can use", "[plan][shoes]") {
  const auto practice = shipped();
  CHECK(practice.shoes.size() >= 10);
  for (const auto& each : practice.shoes) {
    INFO(each.id);
    CHECK(record::bar_from(each.bar).has_value());
    CHECK(record::frog_support_from(each.frog_support).has_value());
    for (const auto& [name, span] : each.gives) {
      REQUIRE(variable(name) != nullptr);
      CHECK(changes_shoe([&] {
        FootChange change;
        change.*variable(name)->field = 1;
        return change;
      }()));
    }
  }
}
