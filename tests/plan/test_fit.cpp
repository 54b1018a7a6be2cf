// The best fit against a search of its own kind written out a second time, against a finer grid and
// against an optimiser; and what it says where an aim can't be reached.
#include "plan/fit.h"
#include "plan/fit_grid.h"
#include "plan/predict.h"
#include "plan/staging.h"
#include "plan/variables.h"

#include <catch2/catch.hpp>
#include <nlopt.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <optional>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::plan;
using namespace feet;
using record::Aim;
using record::FootChange;
using record::Means;

namespace {

/// How many feet: few in everyday runs, more when somebody asks.
int feet_asked(int usual) {
  const char* asked = std::getenv("PRITCHEL_FIT_FEET");
  return asked != nullptr ? std::atoi(asked) : usual;
}

struct World {
  record::Case case_ = sound_case();
  FootReadings readings;
  std::vector<Aim> aims;
};

const practice::Practice& unlocked() {
  static const auto practice = [] {
    auto shipped_one = shipped();
    shipped_one.rules.clear();
    return shipped_one;
  }();
  return practice;
}

PlanInput input_of(const World& world) {
  return {.case_ = world.case_,
          .visit = world.case_.visits.back(),
          .feet = {world.readings},
          .made = day + "T10:00:00Z",
          .made_by = "test"};
}

Fit fit_of(const World& world, const practice::Practice& practice = unlocked()) {
  return fit_foot(input_of(world), practice, {.limb = world.readings.limb, .aims = world.aims});
}

const Way& way_by(const Fit& fit, Means means) {
  const auto at = std::find_if(
      fit.ways.begin(), fit.ways.end(), [&](const Way& each) { return each.means == means; });
  REQUIRE(at != fit.ways.end());
  return *at;
}

bool chance(Random& random, double share) {
  return between(random, 0, 1) < share;
}

/// Feet on which something may be changed: soles of use, no stop, aims off to either side.
World any_world(Random& random) {
  const auto draw = [&](double low, double high) { return between(random, low, high); };
  SideFoot f;
  f.span = draw(112, 138);
  f.wall_deg = draw(42, 56);
  f.heel_deg = draw(34, 54);
  f.sole_y = draw(1, 8);
  f.tip = {f.span - draw(34, 46), f.sole_y + draw(15, 26)};
  f.process = {f.tip.x - 65, f.tip.y + 65 * std::tan(draw(-3, 9) * degree)};
  f.joint = {f.tip.x - 38, f.tip.y + draw(18, 22)};
  f.dorsal_deg = f.wall_deg + draw(-2, 2);
  f.p1_deg = f.dorsal_deg + draw(-8, 14);
  f.p2_deg = (f.p1_deg + f.dorsal_deg) / 2;
  f.palmar_sole_y = draw(2, 9);
  f.breakover_x = f.span - draw(0, 14);
  f.displacement = draw(2, 9);
  f.coronary_heel_y = draw(25, 55);
  if (chance(random, 0.4)) {
    f.shod = true;
    f.shoe_mm = draw(6, 12);
    f.worn_wedge_deg = draw(0, 2);
    f.branch_mm = draw(0, 6);
  }
  World world{.readings = side_only(reading(f))};
  if (chance(random, 0.5)) {
    world.case_.vet.name = "Vet, invented";
    world.case_.history.vet_has_seen = record::VetHasSeen::yes;
    world.case_.history.diagnosis = "as given";
  }
  const auto want = [&](const char* id, double low, double high, double one) {
    world.aims.push_back({.measurement = id, .low = low, .high = high, .counts_as_one = one});
  };
  if (chance(random, 0.8))
    want("palmar-angle", draw(1, 5), draw(6, 10), 2);
  if (chance(random, 0.6))
    want("hpa-deviation", -draw(0, 4), draw(0, 4), 3);
  if (chance(random, 0.6))
    want("breakover-distance", draw(5, 15), draw(20, 40), 6);
  if (world.aims.empty() || chance(random, 0.2))
    want("cor-toe", 20, draw(55, 80), 5);
  return world;
}

/// What a person would write down of the aims: nothing of src/plan/fit*.
double off(const Aim& aim, double value) {
  const double miss =
      std::max({0.0, aim.low ? *aim.low - value : 0.0, aim.high ? value - *aim.high : 0.0});
  return miss < 1e-9 ? 0 : miss / aim.counts_as_one;
}

struct Judged {
  double distance = 0;
  bool guards_kept = true;
};

/// The foot, and for each aim whether it is surely missed now.
struct Judge {
  const Foot& foot;
  std::vector<Aim> aims;
  std::vector<bool> sought;
  std::vector<double> now;

  Judge(const Foot& a_foot, const std::vector<Aim>& all)
      : foot(a_foot) {
    for (const auto& aim : all) {
      const auto q = quantity(foot, aim.measurement);
      if (!q.known)
        continue;
      aims.push_back(aim);
      sought.push_back(q.value + 2 * q.uncertainty < aim.low.value_or(-1e9) ||
                       q.value - 2 * q.uncertainty > aim.high.value_or(1e9));
      now.push_back(*value_on(foot.side.placed, aim.measurement));
    }
  }

  [[nodiscard]] std::optional<Judged> judge(const FootChange& change) const {
    const auto moved = after(foot.side.placed, change);
    if (!moved)
      return std::nullopt;
    Judged judged;
    for (std::size_t i = 0; i < aims.size(); ++i) {
      const auto value = value_on(*moved, aims[i].measurement);
      if (!value)
        return std::nullopt;
      const double missed_by = off(aims[i], *value);
      if (sought[i])
        judged.distance = std::hypot(judged.distance, missed_by);
      else if (missed_by > off(aims[i], now[i]) + 1e-9)
        judged.guards_kept = false;
    }
    return judged;
  }
};

struct Steps {
  double trim, wedge, along;
};

struct Brute {
  double best = 1e9;
  std::vector<std::pair<double, FootChange>> kept;
};

/// Every change within the limits' own ends, nothing left out.
Brute brute(const Judge& judge, Means means, const Steps& step) {
  Brute found;
  const double toe = means == Means::shoe ? 0 : 8, heel = means == Means::shoe ? 0 : 3;
  const double wedge = means == Means::trim ? 0 : 4, back = means == Means::trim ? 0 : 12;
  for (double a = 0; a <= toe + 1e-9; a += step.trim)
    for (double b = 0; b <= heel + 1e-9; b += step.trim)
      for (double w = 0; w <= wedge + 1e-9; w += step.wedge)
        for (double s = 0; s <= back + 1e-9; s += step.along) {
          const FootChange change{.limb = judge.foot.limb,
                                  .trim_toe_mm = a,
                                  .trim_heel_mm = b,
                                  .wedge_deg = w,
                                  .breakover_back_mm = s};
          if (first_broken(judge.foot, change) != nullptr)
            continue;
          const auto judged = judge.judge(change);
          if (!judged || !judged->guards_kept)
            continue;
          found.best = std::min(found.best, judged->distance);
          found.kept.emplace_back(judged->distance, change);
        }
  return found;
}

double wedge_of(const FootChange& c) {
  return c.wedge_deg;
}
double steps_of(const FootChange& c) {
  return c.trim_toe_mm / 0.5 + c.trim_heel_mm / 0.5 + c.wedge_deg + c.breakover_back_mm +
         c.branch_longer_mm;
}

/// Foot with everything it points to.
struct Held {
  PlanInput input;
  CaseFacts facts;
  Foot foot;
  explicit Held(const World& world)
      : input(input_of(world)),
        facts(case_facts(input)),
        foot(foot_of(input.feet.front(), facts, unlocked())) {}
  Held(const Held&) = delete;
  Held& operator=(const Held&) = delete;
};

double more_by_a_step(const Judge& judge, const FootChange& change) {
  const double here = judge.judge(change)->distance;
  double sum = 0;
  const auto add = [&](double FootChange::*field, double step) {
    auto other = change;
    other.*field += step;
    if (const auto judged = judge.judge(other))
      sum += std::abs(judged->distance - here);
  };
  add(&FootChange::trim_toe_mm, 0.5);
  add(&FootChange::trim_heel_mm, 0.5);
  add(&FootChange::wedge_deg, 1);
  add(&FootChange::breakover_back_mm, 1);
  return sum;
}

Aim at_least(const char* id, double low, double one = 2) {
  return {.measurement = id, .low = low, .counts_as_one = one};
}
Aim at_most(const char* id, double high, double one = 2) {
  return {.measurement = id, .high = high, .counts_as_one = one};
}

const AimOutcome& outcome(const Way& way, std::string_view id) {
  const auto at = std::find_if(way.outcomes.begin(), way.outcomes.end(), [&](const auto& each) {
    return each.measurement == id;
  });
  REQUIRE(at != way.outcomes.end());
  return *at;
}

bool hindered_by(const Way& way, std::string_view id) {
  return std::any_of(way.in_the_way.begin(), way.in_the_way.end(), [&](const auto& each) {
    return each.id == id || each.with == id;
  });
}

} // namespace

// Truth: every change on the same steps tried one after another, by a second search written here
TEST_CASE("over random feet no change within the limits is nearer, and none as near asks for less",
          "[plan][fit]") {
  Random random(20260501);
  int fitted = 0, not_reached = 0;
  for (int i = 0, asked = feet_asked(500); i < asked; ++i) {
    const auto world = any_world(random);
    const auto fit = fit_of(world);
    const Held held(world);
    const auto again = i % 10 == 0 ? std::optional(fit_of(world)) : std::nullopt;
    for (const auto& way : fit.ways) {
      CAPTURE(i, static_cast<int>(way.means));
      REQUIRE(first_broken(held.foot, way.change) == nullptr);
      if (again)
        CHECK(amounts_for_people(way_by(*again, way.means).change) ==
              amounts_for_people(way.change));
      const Judge judge(held.foot, world.aims);
      const auto mine = judge.judge(way.change);
      REQUIRE(mine);
      CHECK(mine->guards_kept);
      CHECK(mine->distance == Approx(way.distance).margin(1e-9));
      ++fitted;
      not_reached += way.reached ? 0 : 1;
      // Trim and shoe together is the larger search by far: each sixth foot shows it.
      if (way.means == Means::both && i % 6 != 0)
        continue;
      const auto all = brute(judge, way.means, {0.5, 1, 1});
      const double reach = all.best == 0 ? 0 : all.best + equally_near;
      CHECK(way.distance <= reach + 1e-9);
      for (const auto& [distance, change] : all.kept)
        if (distance <= reach) {
          const auto less = std::pair(wedge_of(change), steps_of(change)) <
                            std::pair(wedge_of(way.change), steps_of(way.change) - 1e-9);
          if (less)
            FAIL_CHECK(amounts_for_people(change) + " is less than " +
                       amounts_for_people(way.change));
        }
    }
  }
  // Both kinds are there, so that neither half of the check is empty.
  CHECK(fitted > feet_asked(500) / 2);
  CHECK(not_reached > feet_asked(500) / 10);
}

namespace {

/// The first feet whose last way is by knife and shoe.
template <class Compare> void compare_on_feet(std::uint64_t seed, int many, Compare compare) {
  Random random(seed);
  int compared = 0;
  for (int i = 0; compared < many && i < 2000; ++i) {
    const auto world = any_world(random);
    const auto fit = fit_of(world);
    if (fit.ways.empty() || fit.ways.back().means != Means::both)
      continue;
    CAPTURE(i);
    const Held held(world);
    compare(Judge(held.foot, world.aims), fit.ways.back());
    ++compared;
  }
  CHECK(compared > 0);
}

} // namespace

// Truth: a grid twice as fine. What it is nearer by is at most what one hand-sized step each does:
// a limit that lies between two steps costs up to that.
TEST_CASE("hand-sized steps cost no more than a step against a finer grid", "[plan][fit]") {
  compare_on_feet(7, feet_asked(3), [](const Judge& judge, const Way& way) {
    const auto fine = brute(judge, way.means, {0.25, 0.5, 0.5});
    CAPTURE(amounts_for_people(way.change), fine.best);
    CHECK(way.distance <= fine.best + equally_near + more_by_a_step(judge, way.change) + 1e-9);
  });
}

namespace {

struct Continuous {
  const Judge* judge = nullptr;
};

/// The distance, and far more than any where a limit or a guard is broken.
double cost(unsigned count, const double* x, double* gradient, void* data) {
  (void)count;
  (void)gradient;
  constexpr double broken = 100;
  const auto& judge = *static_cast<const Continuous*>(data)->judge;
  const FootChange change{.limb = judge.foot.limb,
                          .trim_toe_mm = x[0],
                          .trim_heel_mm = x[1],
                          .wedge_deg = x[2],
                          .breakover_back_mm = x[3]};
  if (first_broken(judge.foot, change) != nullptr)
    return broken;
  const auto judged = judge.judge(change);
  return judged && judged->guards_kept ? judged->distance : broken;
}

} // namespace

// Truth: NLopt's DIRECT-L, which knows nothing of steps, and its Sbplx from the answer itself
TEST_CASE("an optimiser finds nothing nearer by more than a step", "[plan][fit]") {
  compare_on_feet(99, feet_asked(6), [](const Judge& judge, const Way& way) {
    Continuous data{&judge};
    const double low[] = {0, 0, 0, 0}, high[] = {8, 3, 4, 12};
    double nearest = cost(0, low, nullptr, &data);
    for (const auto algorithm : {NLOPT_GN_DIRECT_L, NLOPT_LN_SBPLX}) {
      double x[] = {way.change.trim_toe_mm,
                    way.change.trim_heel_mm,
                    way.change.wedge_deg,
                    way.change.breakover_back_mm};
      auto* optimiser = nlopt_create(algorithm, 4);
      nlopt_set_lower_bounds(optimiser, low);
      nlopt_set_upper_bounds(optimiser, high);
      nlopt_set_min_objective(optimiser, &cost, &data);
      nlopt_set_maxeval(optimiser, 4000);
      double reached = 0;
      if (nlopt_optimize(optimiser, x, &reached) > 0)
        nearest = std::min(nearest, reached);
      nlopt_destroy(optimiser);
    }
    CAPTURE(amounts_for_people(way.change), nearest);
    CHECK(way.distance <= nearest + equally_near + more_by_a_step(judge, way.change) + 1e-9);
  });
}

// Truth: worked case A: toe 4 off, heels locked, palmar angle 1.32 to 3.11
TEST_CASE("the worked long toe gets its four millimetres and no more", "[plan][fit]") {
  World world{.readings = side_only(reading(SideFoot{})), .aims = {at_least("palmar-angle", 3)}};
  const auto fit = fit_of(world);
  REQUIRE(fit.refused.empty());
  const auto& trim = way_by(fit, Means::trim);
  CHECK(trim.reached);
  CHECK(trim.change.trim_toe_mm == 4);
  CHECK(trim.change.trim_heel_mm == 0);
  CHECK(outcome(trim, "palmar-angle").after == Approx(3.11).margin(0.01));
  CHECK(trim.in_the_way.empty());
  // A shoe that changes no angle can't help, and the wedge waits for the vet.
  const auto& shoe = way_by(fit, Means::shoe);
  CHECK_FALSE(shoe.reached);
  CHECK(hindered_by(shoe, "wedge-gate"));
  // Both give the trim again: no third way.
  CHECK(fit.ways.size() == 2);
}

// Truth: worked example 5: with the sole at 17 mm at most 2.5 mm come off the toe (sole-floor)
TEST_CASE("the sole stands in the way, is named, and isn't for sale", "[plan][fit]") {
  SideFoot thin;
  thin.tip.y = 21;
  thin.process.y = 22.5;
  World world{.readings = side_only(reading(thin)), .aims = {at_least("palmar-angle", 3)}};
  const auto fit = fit_of(world);
  const auto& trim = way_by(fit, Means::trim);
  CHECK_FALSE(trim.reached);
  CHECK(trim.change.trim_toe_mm == 2.5);
  REQUIRE_FALSE(trim.in_the_way.empty());
  CHECK(trim.in_the_way.front().id == "sole-floor");
  CHECK(trim.in_the_way.front().gain.empty());
  CHECK(trim.in_the_way.front().sentence.find("15 mm of sole") != std::string::npos);
  CHECK(trim.in_the_way.front().sentence.find("it stands") != std::string::npos);
}

TEST_CASE("a limit that a vet may pass says what would come out without it", "[plan][fit]") {
  World world{.readings = side_only(reading(SideFoot{})), .aims = {at_least("palmar-angle", 4)}};
  const auto fit = fit_of(world);
  const auto& trim = way_by(fit, Means::trim);
  CHECK_FALSE(trim.reached);
  const auto at = std::find_if(trim.in_the_way.begin(),
                               trim.in_the_way.end(),
                               [](const Hindrance& each) { return each.id == "turn-trim"; });
  REQUIRE(at != trim.in_the_way.end());
  REQUIRE_FALSE(at->gain.empty());
  CHECK(at->gain.front().after > outcome(trim, "palmar-angle").after + 0.1);
  CHECK(at->sentence.find("named vet") != std::string::npos);
}

TEST_CASE("what can't be reached is named as such", "[plan][fit]") {
  World world{.readings = side_only(reading(SideFoot{}))};
  world.aims = {at_least("palmar-angle", 40), at_least("capsular-rotation", 20)};
  const auto fit = fit_of(world);
  REQUIRE(fit.left_out.size() == 1);
  CHECK(fit.left_out.front().measurement == "capsular-rotation");
  CHECK(fit.left_out.front().impossible);
  CHECK(fit.left_out.front().reason.find("no trim and no shoe moves it") != std::string::npos);
  for (const auto& way : fit.ways) {
    CHECK_FALSE(way.reached);
    CHECK(outcome(way, "palmar-angle").beyond_reach);
  }
  world.aims = {at_least("dip-space-medial", 3)};
  const auto unforeseen = fit_of(world);
  REQUIRE(unforeseen.left_out.size() == 1);
  CHECK(unforeseen.left_out.front().impossible);
  CHECK(unforeseen.ways.empty());
}

// Truth: geometry: a turn raises palmar and hoof angle alike, so one up and the other down can't be
TEST_CASE("aims that pull against one another are named", "[plan][fit]") {
  SideFoot even;
  even.process.y = even.tip.y + 65 * std::tan(6 * degree);
  even.p1_deg = even.p2_deg = even.dorsal_deg - 0.3;
  World world{.readings = side_only(reading(even))};
  // All sure but the axis, whose doubt leaves room to turn the foot either way.
  auto practice = shipped(Doubt::hardly_any);
  practice.rules.clear();
  for (auto& protocol : practice.protocols)
    for (auto& landmark : protocol.landmarks)
      if (landmark.id == "p1-axis-distal" || landmark.id == "p1-axis-proximal")
        landmark.spread.across_mm = landmark.spread.along_mm = 0.49;
  const auto up = at_least("palmar-angle", 6.5), down = at_most("hoof-angle", 47.5);
  world.aims = {up, down};
  const auto fit = fit_of(world, practice);
  REQUIRE(fit.conflicts.size() == 1);
  CHECK(fit.conflicts.front().find("Palmar angle") != std::string::npos);
  for (const auto& alone : {up, down}) {
    world.aims = {alone};
    const auto one = fit_of(world, practice);
    CHECK(one.conflicts.empty());
    CHECK(way_by(one, Means::trim).reached);
  }
}

TEST_CASE("what isn't surely outside its band is kept and never sought", "[plan][fit]") {
  World world{.readings = side_only(reading(SideFoot{}))};
  // 1.3 +- 1.3 isn't surely below 2.2.
  world.aims = {at_least("palmar-angle", 2.2)};
  const auto unsure = fit_of(world);
  CHECK(unsure.ways.empty());
  REQUIRE(unsure.left_out.size() == 1);
  CHECK(unsure.left_out.front().reason.find("doesn't surely lie outside") != std::string::npos);
  // In its band, it may not leave it for another's sake.
  world.aims = {at_least("palmar-angle", 3), at_most("hoof-angle", 48.5)};
  const auto guarded = fit_of(world);
  const auto& trim = way_by(guarded, Means::trim);
  CHECK_FALSE(trim.reached);
  CHECK(outcome(trim, "hoof-angle").state == AimState::kept);
  CHECK(outcome(trim, "hoof-angle").after <= 48.5);
  CHECK(hindered_by(trim, "kept:hoof-angle"));
}

TEST_CASE("nothing is fitted to an unfit reading or in a case that stops", "[plan][fit]") {
  World world{.readings = side_only(reading(SideFoot{})), .aims = {at_least("palmar-angle", 3)}};
  auto lifted = world;
  lifted.readings.lateromedial->reading.loading = measure::Loading::not_loaded;
  CHECK_FALSE(fit_of(lifted).refused.empty());
  auto unscaled = world;
  unscaled.readings.lateromedial->reading.calibration.origin = ScaleOrigin::none;
  CHECK_FALSE(fit_of(unscaled).refused.empty());
  auto foundered = world;
  foundered.case_.history.laminitis = record::Laminitis::known;
  CHECK(mentions(fit_of(foundered, shipped()).refused, "aminitis"));
  auto flagged = world;
  flagged.case_.history.red_flags = {"hot-foot"};
  CHECK(mentions(fit_of(flagged).refused, "red flag"));
  auto stale = world;
  stale.readings.lateromedial->taken = "2025-12-01";
  const auto old = fit_of(stale);
  CHECK(way_by(old, Means::trim).change.trim_toe_mm == 0);
  CHECK(hindered_by(way_by(old, Means::trim), "film-age"));
  World none{.readings = world.readings, .aims = world.aims};
  none.readings.limb = measure::Limb::left_fore;
  const auto other =
      fit_foot(input_of(none), unlocked(), {.limb = measure::Limb::right_hind, .aims = none.aims});
  CHECK(mentions(other.refused, "no picture"));
}

TEST_CASE("a practice's lock holds in a fit too, and is named", "[plan][fit]") {
  auto practice = unlocked();
  practice.rules.push_back({.id = "toe-stays",
                            .kind = practice::RuleKind::lock,
                            .view = "lateromedial",
                            .when = {{"palmar-angle", practice::Comparison::maybe_above, -90}},
                            .locks = {"trim_toe_mm"},
                            .what = "The toe stays.",
                            .why = "Because this practice says so.",
                            .source = "common-practice"});
  World world{.readings = side_only(reading(SideFoot{})), .aims = {at_least("palmar-angle", 3)}};
  const auto fit = fit_of(world, practice);
  CHECK(way_by(fit, Means::trim).change.trim_toe_mm == 0);
  CHECK(hindered_by(way_by(fit, Means::trim), "practice-lock"));
}

// Truth: law; a front view's tilt is shared out at 2 mm and 1 degree a visit (limit ml-visit)
TEST_CASE("a tilt is levelled as far as one visit allows", "[plan][fit]") {
  FrontFoot tilted;
  tilted.articular_tilt_deg = tilted.border_tilt_deg = 4;
  tilted.coronet_tilt_deg = 4;
  tilted.sole_seen = true;
  tilted.border_height = 26;
  World world{.readings = side_only(reading(SideFoot{}))};
  world.readings.dorsopalmar = DatedReading{.reading = reading(tilted), .taken = day};
  world.readings.dorsopalmar_repeat = world.readings.dorsopalmar;
  world.aims = {{.measurement = "p3-ml-tilt-articular", .low = -1, .high = 1}};
  const auto fit = fit_of(world);
  const auto& trim = way_by(fit, Means::trim);
  CHECK(trim.change.trim_lateral_mm == 2);
  CHECK(trim.change.trim_medial_mm == 0);
  CHECK_FALSE(trim.reached);
  CHECK(hindered_by(trim, "ml-visit"));
}

// ---- several visits ----

namespace {

SideFoot shod_and_low() {
  SideFoot foot;
  foot.shod = true;
  foot.shoe_mm = 9;
  foot.process.y = foot.tip.y + 65 * std::tan(-0.5 * degree);
  return foot;
}

Stages staged(const World& world, Means means, int weeks, const Growth& growth = usual_growth) {
  return stages_at(input_of(world),
                   unlocked(),
                   {.limb = world.readings.limb, .aims = world.aims},
                   means,
                   growth,
                   weeks);
}

} // namespace

// Truth: the hard limits of docs/plan.md, written out again for each visit
TEST_CASE("every visit of a staged plan keeps the limits of a visit", "[plan][fit][staging]") {
  Random random(4);
  int visits = 0;
  for (int i = 0, asked = feet_asked(30); i < asked; ++i) {
    const auto world = any_world(random);
    if (world.readings.lateromedial->reading.shoeing != measure::Shoeing::shod)
      continue;
    const double span = bearing_of(measure::placed(world.readings.lateromedial->reading))->span;
    const auto stages = staged(world, Means::both, 4);
    double before = 1e9;
    for (const auto& stage : stages.stages) {
      CAPTURE(i, stage.visit, amounts_for_people(stage.change));
      const auto& c = stage.change;
      // The bearing length changes by some millimetres between visits.
      const double cut = std::atan((c.trim_toe_mm - c.trim_heel_mm) / span) / degree;
      CHECK(c.trim_toe_mm <= 8);
      CHECK(c.trim_heel_mm <= 3);
      CHECK(cut <= 2.1);
      CHECK(cut + c.wedge_deg <= 3.1);
      CHECK(c.breakover_back_mm <= 8);
      REQUIRE(stage.sole_after);
      if (*stage.sole_after < *stage.sole_before - 1e-6)
        CHECK(*stage.sole_after >= 15);
      CHECK(stage.distance < before);
      before = stage.distance;
      ++visits;
    }
    CHECK(stages.stages.size() <= most_stages);
  }
  CHECK(visits > 0);
}

// Truth: predict_week() of the same change, the same weeks later
TEST_CASE("a second visit begins with the foot that growth left", "[plan][fit][staging]") {
  World world{.readings = side_only(reading(shod_and_low())),
              .aims = {at_least("palmar-angle", 4)}};
  // With the usual growth a trim only makes up for it; heels that keep pace leave something won.
  const Growth even{.toe_mm = 1.6, .heel_mm = 1.4};
  const auto stages = staged(world, Means::trim, 4, even);
  REQUIRE(stages.stages.size() > 1);
  CHECK(stages.stages[1].day == "2026-04-13");
  const auto& practice = unlocked();
  const auto grown_foot =
      predict_week(world.readings.lateromedial->reading,
                   practice::spreads(practice::protocol(practice, measure::View::lateromedial)),
                   stages.stages[0].change,
                   practice.bands,
                   4,
                   even);
  REQUIRE(grown_foot);
  CHECK(stages.stages[1].outcomes.front().before ==
        Approx(find(*grown_foot, "palmar-angle")->after).margin(1e-6));
}

TEST_CASE("staging stops where it no longer improves, and says so", "[plan][fit][staging]") {
  World world{.readings = side_only(reading(shod_and_low())),
              .aims = {at_least("palmar-angle", 20)}};
  const auto stages = staged(world, Means::trim, 6);
  CHECK(stages.end == StagesEnd::no_nearer);
  const auto words = stage_words(stages, measure::Limb::left_fore);
  REQUIRE_FALSE(words.empty());
  CHECK(words.back().find("not reachable") != std::string::npos);
  // A bare foot wears as it grows: nothing is foreseen.
  World bare{.readings = side_only(reading(SideFoot{})), .aims = {at_least("palmar-angle", 6)}};
  const auto unknown = staged(bare, Means::trim, 6);
  CHECK(unknown.end == StagesEnd::not_foreseen);
  CHECK(mentions(stage_words(unknown, measure::Limb::left_fore), "aren't foreseen"));
  // One visit that reaches it needs no words on more.
  World easy{.readings = side_only(reading(SideFoot{})), .aims = {at_least("palmar-angle", 3)}};
  CHECK(stage_words(staged(easy, Means::trim, 6), measure::Limb::left_fore).empty());
}

// ---- taken into a plan ----

TEST_CASE("a way that was taken gives the plan its lines for that foot", "[plan][fit]") {
  World world{.readings = side_only(reading(SideFoot{}))};
  auto input = input_of(world);
  input.taken = {{.limb = measure::Limb::left_fore,
                  .means = Means::both,
                  .aims = {at_least("palmar-angle", 3), at_most("breakover-distance", 33)}}};
  const auto planned = make_plan(input, shipped());
  const auto& plan = planned.plan;
  REQUIRE(plan.changes.size() == 1);
  REQUIRE(plan.taken.size() == 1);
  const auto* trim = line(plan, "fit-trim");
  REQUIRE(trim != nullptr);
  CHECK(trim->what.find("off the toe") != std::string::npos);
  CHECK(trim->why.find("wanted at least 3.0\u00b0") != std::string::npos);
  CHECK_FALSE(trim->expected.empty());
  // The rules' own amounts don't stand beside it.
  for (const auto& each : plan.lines)
    CHECK((each.rule.starts_with("fit-") || each.rule == "shoe" || each.amount == "none"));
  CHECK(find(planned.predictions, "palmar-angle")->after >= 3);
  // In a case that stops nothing is taken.
  auto stopped = world;
  stopped.case_.history.red_flags = {"hot-foot"};
  auto none = input_of(stopped);
  none.taken = input.taken;
  CHECK(make_plan(none, shipped()).plan.changes.empty());
}
