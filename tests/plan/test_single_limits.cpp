// Each limit on amounts, just kept and just broken, on a foot that leaves the others room.
#include "plan/limits.h"

#include <catch2/catch.hpp>

#include <cmath>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::plan;
using namespace feet;

namespace {

/// Deep sole, high heels, breakover well in front; palmar angle and axis as asked for.
SideFoot roomy(double palmar_deg, double axis_deg) {
  SideFoot foot;
  foot.tip = {88, 34};
  foot.process = {23, 34 + 65 * std::tan(palmar_deg * degree)};
  foot.joint = {50, 53};
  foot.sole_y = 8;
  foot.palmar_sole_y = 10;
  foot.p1_deg = foot.dorsal_deg - axis_deg;
  foot.p2_deg = foot.dorsal_deg - axis_deg / 2;
  foot.coronary_heel_y = 55;
  return foot;
}

struct Stable {
  record::Case case_ = sound_case();
  practice::Practice practice = shipped(Doubt::hardly_any);
  Stable() {
    case_.vet.name = "Vet, invented";
    case_.history.vet_has_seen = record::VetHasSeen::yes;
    case_.history.diagnosis = "as given";
  }

  /// Id of the first limit that breaks; empty when all are kept.
  [[nodiscard]] std::string held(const SideFoot& foot, const record::FootChange& change) const {
    return held(points(foot), change);
  }
  /// With a photo of the sole, on which the wall's horn at the toe is that thick.
  [[nodiscard]] std::string held_by_horn(double horn_mm,
                                         const record::FootChange& change,
                                         const std::string& photographed = day) const {
    const Points sole{{"toe-centre", {0, 150}}, {"white-line-toe", {0, 150 - horn_mm}}};
    auto photo = reading(sole, measure::View::sole);
    photo.loading = measure::Loading::not_loaded; // it is lifted
    return held(points(roomy(5, 0)), change, {{.reading = photo, .taken = photographed}});
  }
  [[nodiscard]] std::string held(const Points& side,
                                 const record::FootChange& change,
                                 std::vector<DatedReading> photos = {}) const {
    const PlanInput input{.case_ = case_, .visit = case_.visits.back(), .made = day + "T10:00:00Z"};
    const auto facts = case_facts(input);
    auto readings = side_only(reading(side, measure::View::lateromedial));
    readings.dorsopalmar = DatedReading{.reading = reading(FrontFoot{}), .taken = day};
    readings.photos = std::move(photos);
    const auto* limit = first_broken(foot_of(readings, facts, practice), change);
    return limit == nullptr ? "" : std::string(limit->id);
  }
};

} // namespace

// Truth: the table of limits in docs/plan.md; angles by atan of the trim over 128 mm: 4 mm are
// 1.79 degrees, 5 mm 2.24, 2 mm 0.90, 3 mm 1.34
TEST_CASE("a foot turns by no more than the limits say", "[plan][limit]") {
  const Stable stable;
  const auto low = roomy(2, -6), high = roomy(6, 3);
  CHECK(stable.held(low, {.trim_toe_mm = 4}).empty());
  CHECK(stable.held(low, {.trim_toe_mm = 5}) == "turn-trim");
  CHECK(stable.held(high, {.trim_heel_mm = 2}).empty());
  CHECK(stable.held(high, {.trim_heel_mm = 3}) == "turn-trim");
  CHECK(stable.held(high, {.trim_heel_mm = 3, .wedge_deg = 1}) == "turn-trim");
  CHECK(stable.held(low, {.trim_toe_mm = 4, .wedge_deg = 1}).empty());
  CHECK(stable.held(low, {.trim_toe_mm = 4, .wedge_deg = 2}) == "turn-total");
  CHECK(stable.held(low, {.wedge_deg = 3}).empty());
  CHECK(stable.held(low, {.wedge_deg = 4}) == "turn-total");
}

// Truth: as above; 8.3 and 8.5 degrees with 1 of wedge and twice the hand's 0.3 lie about 10; the
// axis gains 36.8/29.9 degrees for each
TEST_CASE("angle and axis stop at their ceilings", "[plan][limit]") {
  const Stable stable;
  CHECK(stable.held(roomy(8.3, -6), {.wedge_deg = 1}).empty());
  CHECK(stable.held(roomy(8.5, -6), {.wedge_deg = 1}) == "angle-ceiling");
  CHECK(stable.held(roomy(2, -1.3), {.wedge_deg = 1}).empty());
  CHECK(stable.held(roomy(2, -1.1), {.wedge_deg = 1}) == "axis-ceiling");
  // 2 mm off the heels turn the axis by -1.10: only a foot broken forward has that to give.
  CHECK(stable.held(roomy(6, 1.2), {.trim_heel_mm = 2}).empty());
  CHECK(stable.held(roomy(6, 1.0), {.trim_heel_mm = 2}) == "axis-ceiling");
}

// Truth: as above; a worn wedge counts with twice 0.57 degrees of doubt
TEST_CASE("wedges are few, and only where a vet has spoken", "[plan][limit]") {
  Stable stable;
  auto shod = roomy(2, -6);
  shod.shod = true;
  shod.shoe_mm = 10;
  shod.worn_wedge_deg = 1.8;
  CHECK(stable.held(shod, {.wedge_deg = 1}).empty());
  shod.worn_wedge_deg = 1.9;
  CHECK(stable.held(shod, {.wedge_deg = 1}) == "wedge-total");
  stable.case_.history.diagnosis.clear();
  CHECK(stable.held(roomy(2, -6), {.wedge_deg = 1}) == "wedge-gate");
  CHECK(stable.held(roomy(-0.5, -6), {.wedge_deg = 1}).empty());
}

// Truth: as above; 16 days grow 4 mm: 3 mm square to the ground are 3.95 along the wall at 48
// degrees, 3.5 are 4.60
TEST_CASE("no more horn goes than grew, and no more than 3 mm at the heels", "[plan][limit]") {
  Stable stable;
  const auto foot = roomy(6, 3);
  CHECK(stable.held(foot, {.trim_toe_mm = 3, .trim_heel_mm = 3}).empty());
  CHECK(stable.held(foot, {.trim_toe_mm = 3.5, .trim_heel_mm = 3.5}) == "heel-visit");
  stable.case_.visits.back().last_trim = "2026-02-28";
  CHECK(stable.held(roomy(2, -6), {.trim_toe_mm = 3}).empty());
  CHECK(stable.held(roomy(2, -6), {.trim_toe_mm = 3.5}) == "toe-visit");
  CHECK(stable.held(foot, {.dress_toe_mm = 0.5}) == "wall-left");
  CHECK(stable.held(foot, {.trim_toe_mm = -1}) == "amount-negative");
}

// Truth: as above
TEST_CASE("breakover, branches and extensions end where the limits say", "[plan][limit]") {
  Stable stable;
  auto foot = roomy(5, 0);
  CHECK(stable.held(foot, {.breakover_back_mm = 8}).empty());
  CHECK(stable.held(foot, {.breakover_back_mm = 9}) == "breakover-visit");
  foot.breakover_x = 88 + 6.01;
  CHECK(stable.held(foot, {.breakover_back_mm = 6}).empty());
  CHECK(stable.held(foot, {.breakover_back_mm = 7}) == "breakover-visit");
  CHECK(stable.held(foot, {.branch_longer_mm = 10}).empty());
  CHECK(stable.held(foot, {.branch_longer_mm = 11}) == "branch-reach");
  CHECK(stable.held(foot, {.extend_lateral_mm = 5}).empty());
  CHECK(stable.held(foot, {.extend_lateral_mm = 6}) == "extension");
  stable.case_.horse.age_years.reset();
  CHECK(stable.held(foot, {.extend_lateral_mm = 1}) == "young-horse");
}

// Truth: as above
// Truth: the table of limits in docs/plan.md: 2 mm, and a quarter of the measured horn: of 6 mm 1.5
TEST_CASE("the toe's wall is dressed by what its measured horn allows", "[plan][limit]") {
  const Stable stable;
  CHECK(stable.held_by_horn(9, {.dress_toe_mm = 2}).empty());
  CHECK(stable.held_by_horn(20, {.dress_toe_mm = 2.5}) == "wall-left");
  CHECK(stable.held_by_horn(6.2, {.dress_toe_mm = 1.5}).empty());
  CHECK(stable.held_by_horn(6.2, {.dress_toe_mm = 2}) == "wall-left");
  CHECK(stable.held_by_horn(9, {.dress_toe_mm = 1}, "2026-01-05") == "film-age");
  CHECK(stable.held_by_horn(9, {.dress_lateral_mm = 0.5}) == "wall-left");
}

TEST_CASE("flares aren't dressed without a measure of their horn", "[plan][limit]") {
  const Stable stable;
  CHECK(stable.held(roomy(5, 0), {.dress_lateral_mm = 0.5}) == "wall-left");
  CHECK(stable.held(roomy(5, 0), {.dress_medial_mm = 0.5}) == "wall-left");
  CHECK(stable.held(roomy(5, 0), {.pad_mm = 3}).empty());
}

// Truth: as above; the wedge stands behind the two pictures, the vet and the degree of tilt
TEST_CASE("a wedge under one side is held like a trim of the other", "[plan][limit]") {
  Stable stable;
  CHECK(stable.held(roomy(5, 0), {.ml_wedge_deg = 0.5}) == "ml-two-pictures");
  const record::FootChange wedge{.ml_wedge_deg = 1}, steep{.ml_wedge_deg = 1.5};
  const record::FootChange both{.trim_medial_mm = 1, .ml_wedge_deg = 0.5};
  const record::FootChange too_much{.trim_medial_mm = 1, .ml_wedge_deg = 1};
  const auto limit = [](std::string_view id) {
    for (const auto& each : plan::limits())
      if (each.id == id)
        return each;
    return Limit{};
  };
  Foot foot;
  foot.front.placed = measure::placed(reading(FrontFoot{}));
  CaseFacts facts;
  foot.facts = &facts;
  const auto tilt = limit("ml-visit"), vet = limit("ml-wedge");
  REQUIRE(tilt.kept != nullptr);
  REQUIRE(vet.kept != nullptr);
  // 1 mm over 124 is 0.46 degrees.
  CHECK(tilt.kept({.foot = foot, .change = wedge}));
  CHECK(!tilt.kept({.foot = foot, .change = steep}));
  CHECK(tilt.kept({.foot = foot, .change = both}));
  CHECK(!tilt.kept({.foot = foot, .change = too_much}));
  CHECK(!vet.kept({.foot = foot, .change = wedge}));
  facts.diagnosed = true;
  CHECK(vet.kept({.foot = foot, .change = wedge}));
}

// Truth: as above; 4 mm at the toe, none at the heels, cut 4 x / 128 above the bearing line: 0.94
// mm at 30 mm from the heel, 1.25 mm at 40
TEST_CASE("where the palmar sole isn't measured a cut may only hinge there", "[plan][limit]") {
  const Stable stable;
  const auto held = [&](double process_x) {
    auto foot = roomy(2, -6);
    foot.process = {process_x, 34 + (88 - process_x) * std::tan(2 * degree)};
    auto side = points(foot);
    std::erase_if(side, [](const auto& each) { return each.first == "sole-under-palmar"; });
    return stable.held(side, {.trim_toe_mm = 4});
  };
  CHECK(held(30).empty());
  CHECK(held(40) == "sole-palmar");
}

// Truth: as above; pictures count from day to day
TEST_CASE("a picture is too old after six weeks and after any trim", "[plan][limit]") {
  const Stable stable;
  const auto facts_for = [&](const std::string& work) {
    return case_facts(
        {.case_ = stable.case_, .visit = stable.case_.visits.back(), .made = "", .day = work});
  };
  const auto readings = side_only(reading(roomy(2, -6)));
  const record::FootChange trim{.trim_toe_mm = 1}, shoe{.breakover_back_mm = 2};
  const auto held = [&](const std::string& work, const record::FootChange& change) -> std::string {
    const auto facts = facts_for(work);
    const auto* limit = first_broken(foot_of(readings, facts, stable.practice), change);
    return limit == nullptr ? "" : std::string(limit->id);
  };
  CHECK(held("2026-04-27", trim).empty()); // 42 days
  CHECK(held("2026-04-28", trim) == "film-age");
  CHECK(held("2026-04-28", shoe).empty());
}
