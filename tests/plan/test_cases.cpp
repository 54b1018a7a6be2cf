// The invented sample cases of the plan model, from readings to lines.
#include "plan/limits.h"

#include <catch2/catch.hpp>

#include <algorithm>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::plan;
using namespace feet;

namespace {

constexpr double as_printed = 0.01;

SideFoot case_a_foot() {
  SideFoot foot;
  foot.p1_deg = 56.5;
  foot.p2_deg = 52.5;
  return foot;
}

record::Case case_c() {
  auto pony = sound_case();
  pony.horse.species = record::Species::pony;
  pony.horse.age_years = 14;
  pony.horse.height_cm = 138;
  pony.history.laminitis = record::Laminitis::known;
  pony.history.red_flags = {"hot-foot"};
  pony.vet.name = "Vet, invented";
  pony.history.vet_has_seen = record::VetHasSeen::yes;
  return pony;
}

/// Sole 8.5, capsular rotation 9, coronary band 14 above the process, palmar angle 13.
SideFoot case_c_foot() {
  SideFoot foot;
  foot.tip.y = 12.5;
  foot.process.y = 12.5 + 65 * std::tan(13 * degree);
  foot.dorsal_deg = 57;
  foot.displacement = 14;
  return foot;
}

double expected_after(const record::ProposalLine& line, std::string_view id) {
  for (const auto& each : line.expected)
    if (each.measurement == id)
      return each.after;
  FAIL("the line says nothing of " << id);
  return 0;
}

} // namespace

// Truth: sample case A of the plan model: its stated uncertainties
TEST_CASE("the stated uncertainties of case A are those of its reading", "[plan][case]") {
  const auto reading = feet::reading(case_a_foot());
  const auto all = measure::measure_reading(reading, stated_spreads(), {});
  const auto u = [&](const char* id) { return measure::find(all, id)->standard_uncertainty; };
  CHECK(u("palmar-angle") == Approx(0.66).margin(0.02));
  CHECK(u("sole-depth-tip") == Approx(0.80).margin(0.005));
  CHECK(u("hpa-deviation") == Approx(1.4).margin(0.1));
  CHECK(u("breakover-distance") == Approx(2.5).margin(0.1));
  CHECK(u("base-proportion") == Approx(0.02).margin(0.002));
}

// Truth: sample case A of the plan model: rules that fire, amounts, numbers after, what binds
TEST_CASE("case A: toe down, breakover back, no wedge", "[plan][case]") {
  const auto planned = plan_of(sound_case(), {side_only(feet::reading(case_a_foot()))}, shipped());
  const auto& plan = planned.plan;
  CHECK(plan.stops.empty());
  REQUIRE(plan.changes.size() == 1);
  const auto& change = plan.changes[0];
  CHECK(change.trim_toe_mm == 4);
  CHECK(change.trim_heel_mm == 0);
  CHECK(change.wedge_deg == 0);
  CHECK(change.breakover_back_mm == 3);
  CHECK(change.dress_toe_mm == 0);

  const auto* low = line(plan, "low-palmar-angle");
  const auto* axis = line(plan, "broken-back-axis");
  const auto* breakover = line(plan, "long-breakover");
  REQUIRE(low != nullptr);
  REQUIRE(axis != nullptr);
  REQUIRE(breakover != nullptr);
  CHECK(line(plan, "long-toe") == nullptr);
  CHECK(line(plan, "leave-alone") == nullptr);
  CHECK(expected_after(*low, "palmar-angle") == Approx(3.11).margin(as_printed));
  CHECK(expected_after(*low, "sole-depth-tip") == Approx(18).margin(as_printed));

  CHECK(find(planned.predictions, "cor-toe")->after == Approx(70.3).margin(0.05));
  CHECK(find(planned.predictions, "cor-heel")->after == Approx(51.3).margin(0.05));
  CHECK(find(planned.predictions, "base-proportion")->after == Approx(0.578).margin(0.0005));
  CHECK(find(planned.predictions, "breakover-distance")->after == Approx(32.9).margin(0.05));
  CHECK(find(planned.predictions, "pip-deviation")->after == Approx(-3.56).margin(as_printed));
  CHECK(find(planned.predictions, "dip-deviation")->after == Approx(-2.23).margin(as_printed));
  CHECK(find(planned.predictions, "hpa-deviation")->after == Approx(-5.80).margin(as_printed));

  CHECK(mentions(plan.locks, "at most 2\u00b0 up"));
  CHECK(mentions(plan.locks, "at most 8 mm a visit"));
  CHECK(mentions(plan.locks, "No wedge unless"));
  CHECK(axis->what.find("nothing is proposed beyond the lines above") != std::string::npos);
  CHECK(low->why.find("set in this practice's rules") != std::string::npos);
  const auto* shoe = line(plan, "shoe");
  REQUIRE(shoe != nullptr);
  CHECK(shoe->what.find("Plain flat shoe") != std::string::npos);
}

// Truth: sample case A, option B: with a diagnosis by a named vet a wedge may join the trim, up to
// 3 degrees of turn in all
TEST_CASE("a named vet's diagnosis opens the gate for a wedge", "[plan][case]") {
  auto seen = sound_case();
  seen.vet.name = "Vet, invented";
  seen.history.vet_has_seen = record::VetHasSeen::yes;
  seen.history.diagnosis = "as the vet gave it";
  const auto planned = plan_of(seen, {side_only(feet::reading(case_a_foot()))}, shipped());
  REQUIRE(planned.plan.changes.size() == 1);
  CHECK(planned.plan.changes[0].trim_toe_mm == 4);
  CHECK(planned.plan.changes[0].wedge_deg == 1);
  CHECK(mentions(planned.plan.locks, "at most 3\u00b0 up"));
}

// Truth: sample case C of the plan model: it fires red-flag, distal-displacement (by value and by
// rise), rotation-new, sole-stop and the lock for laminitis, and gives no plan
TEST_CASE("case C: a foundered pony gets no plan", "[plan][case]") {
  auto readings = side_only(feet::reading(case_c_foot()));
  auto before = case_c_foot();
  before.displacement = 9;
  readings.lateromedial_before = DatedReading{.reading = feet::reading(before), .taken = last_trim};
  const auto planned = plan_of(case_c(), {readings}, shipped());
  const auto& plan = planned.plan;
  CHECK(plan.lines.empty());
  CHECK(plan.changes.empty());
  CHECK(planned.predictions.empty());
  CHECK(mentions(plan.stops, "red flag"));
  CHECK(mentions(plan.stops, "stands far above the bone"));
  CHECK(mentions(plan.stops, "has risen over the bone"));
  CHECK(mentions(plan.stops, "steeper than the wall"));
  CHECK(mentions(plan.stops, "thinner than 10 mm"));
  CHECK(mentions(plan.stops, "Laminitis"));
  CHECK(plan.stops.front().find("red flag") != std::string::npos);
}

// Truth: docs/reviews.md, what a farrier and a vet would want of a thin sole: nothing off the toe,
// the sole's cover as a line to be decided, and what the vet must see before any amount
TEST_CASE("a thin sole without laminitis: spared, shown, and only then the breakover",
          "[plan][case]") {
  SideFoot thin;
  thin.tip.y = 16.5; // 12.5 mm of sole
  thin.process.y = 16.5 + 65 * std::tan(6 * degree);
  thin.dorsal_deg = 52;
  const auto plan = plan_of(sound_case(), {side_only(feet::reading(thin))}, shipped()).plan;
  REQUIRE(plan.changes.size() == 1);
  CHECK(plan.changes[0].trim_toe_mm == 0);
  CHECK(plan.changes[0].breakover_back_mm <= 8);
  const auto place = [&](std::string_view rule) {
    const auto at = std::find_if(
        plan.lines.begin(), plan.lines.end(), [&](const auto& each) { return each.rule == rule; });
    REQUIRE(at != plan.lines.end());
    return at - plan.lines.begin();
  };
  CHECK(place("thin-sole-cover") < place("long-breakover"));
  CHECK(place("rotation-note") < place("long-breakover"));
}

// Truth: rule s11 of the limits: rules can't be edited past them; the limits alone hold case C
TEST_CASE("without any stop rule the limits still hold every amount of case C", "[plan][case]") {
  auto bare_rules = shipped();
  std::erase_if(bare_rules.rules, [](const auto& rule) {
    return rule.kind == practice::RuleKind::stop || rule.kind == practice::RuleKind::lock;
  });
  const auto planned = plan_of(case_c(), {side_only(feet::reading(case_c_foot()))}, bare_rules);
  CHECK(planned.plan.changes.empty());
  CHECK(mentions(planned.plan.locks, "A red flag is ticked"));
  CHECK(mentions(planned.plan.locks, "No amounts from the program for ponies"));
}

// Truth: sample case B of the plan model: two front pictures, q 2 off the lateral side, tilt 3.25
// to 2.33 at walls 124 mm apart
TEST_CASE("case B: two pictures that agree take 2 mm off the high side", "[plan][case]") {
  FrontFoot foot;
  foot.articular_tilt_deg = 3.25;
  foot.border_tilt_deg = 3.25;
  foot.coronet_tilt_deg = 3.0;
  foot.sole_seen = true;
  foot.border_height = 22 - 25 * std::tan(3.25 * degree); // 18 mm over the sole on the lateral side
  auto once =
      side_only(feet::reading(SideFoot{.tip = {88, 22}, .process = {23, 26}, .breakover_x = 112}));
  once.dorsopalmar = DatedReading{.reading = feet::reading(foot), .taken = day};
  auto twice = once;
  foot.articular_tilt_deg = 3.1;
  twice.dorsopalmar_repeat = DatedReading{.reading = feet::reading(foot), .taken = day};

  const auto on_one = plan_of(sound_case(), {once}, shipped());
  for (const auto& change : on_one.plan.changes)
    CHECK(change.trim_lateral_mm == 0);
  CHECK(mentions(on_one.plan.remeasure, "second dorsopalmar picture"));
  CHECK(line(on_one.plan, "ml-tilt-once") != nullptr);
  CHECK(line(on_one.plan, "leave-alone") == nullptr);

  const auto on_two = plan_of(sound_case(), {twice}, shipped());
  REQUIRE(on_two.plan.changes.size() == 1);
  CHECK(on_two.plan.changes[0].trim_lateral_mm == 2);
  CHECK(on_two.plan.changes[0].trim_medial_mm == 0);
  const auto* tilt = line(on_two.plan, "ml-tilt-lateral");
  REQUIRE(tilt != nullptr);
  CHECK(expected_after(*tilt, "p3-ml-tilt-articular") == Approx(2.33).margin(as_printed));
  CHECK(mentions(on_two.plan.locks, "At most 2 mm off one side"));
  CHECK(on_two.plan.lines.size() == 1);

  // The same foot with the sole of that side unseen, or a horse too young: nothing.
  auto unseen = twice;
  for (auto* each : {&unseen.dorsopalmar, &unseen.dorsopalmar_repeat})
    std::erase_if((*each)->reading.landmarks,
                  [](const auto& landmark) { return landmark.id.substr(0, 5) == "sole-"; });
  CHECK(plan_of(sound_case(), {unseen}, shipped()).plan.changes.empty());
  auto young = sound_case();
  young.horse.age_years = 1.5;
  CHECK(plan_of(young, {twice}, shipped()).plan.changes.empty());
}

// Truth: geometry, worked example 5 of the plan model: at a tip of 21 the cut must surely stay in
// the wall, which allows 2.5 mm; at 20.5 the sole is locked
TEST_CASE("the sole's limit binds where the worked example says", "[plan][limit]") {
  const auto& all = shipped();
  const auto thing = sound_case();
  const PlanInput input{.case_ = thing, .visit = thing.visits.back(), .made = day + "T10:00:00Z"};
  const auto facts = case_facts(input);
  const auto broken = [&](double tip_y, double toe) -> std::string {
    SideFoot foot;
    foot.tip.y = tip_y;
    const auto readings = side_only(feet::reading(foot));
    const auto* limit = first_broken(foot_of(readings, facts, all), {.trim_toe_mm = toe});
    return limit == nullptr ? "" : std::string(limit->id);
  };
  CHECK(broken(21, 2.5).empty());
  CHECK(broken(21, 3) == "sole-floor");
  CHECK(broken(20.5, 0.5) == "sole-lock");
  CHECK(broken(22, 4).empty());
}
