// The hard limits, written out a second time from the table in docs/plan.md, and held against
// plans for random feet and random cases. Nothing here calls src/plan's limits.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <sstream>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::plan;
using namespace feet;

namespace {

constexpr double rounding = 1e-6;

struct World {
  record::Case case_;
  SideFoot foot;
  FrontFoot front;
  FootReadings readings;
  practice::Practice practice;
};

bool chance(Random& random, double share) {
  return between(random, 0, 1) < share;
}

SideFoot any_foot(Random& random) {
  const auto draw = [&](double low, double high) { return between(random, low, high); };
  SideFoot f;
  f.span = draw(112, 138);
  f.wall_deg = draw(42, 56);
  f.heel_deg = draw(34, 54);
  f.sole_y = draw(1, 7);
  f.tip = {f.span - draw(34, 46), f.sole_y + draw(11, 26)};
  f.process = {f.tip.x - 65, f.tip.y + 65 * std::tan(draw(-4, 14) * degree)};
  f.joint = {f.tip.x - 38, f.tip.y + draw(18, 22)};
  f.dorsal_deg = f.wall_deg + draw(-2, 4.5);
  f.p1_deg = f.dorsal_deg + draw(-12, 12);
  f.p2_deg = (f.p1_deg + f.dorsal_deg) / 2 + draw(-4, 4);
  f.palmar_sole_y = draw(2, 8);
  f.breakover_x = f.span - draw(0, 14);
  f.displacement = draw(2, 12.5);
  f.coronary_heel_y = draw(15, 55);
  if (chance(random, 0.3)) {
    f.shod = true;
    f.shoe_mm = draw(6, 12);
    f.worn_wedge_deg = draw(0, 3);
    f.branch_mm = draw(0, 6);
  }
  return f;
}

FrontFoot any_front(Random& random) {
  const auto draw = [&](double low, double high) { return between(random, low, high); };
  FrontFoot f;
  f.articular_tilt_deg = draw(-5, 5);
  f.border_tilt_deg = f.articular_tilt_deg;
  f.coronet_tilt_deg = f.articular_tilt_deg + draw(-1, 1);
  f.sole_seen = chance(random, 0.8);
  f.border_height = draw(15, 26);
  f.lateral_space = draw(1.8, 2.6);
  return f;
}

record::Case any_case(Random& random) {
  auto c = sound_case();
  if (chance(random, 0.03))
    c.horse.species = record::Species::pony;
  if (chance(random, 0.03))
    c.horse.height_cm.reset();
  if (chance(random, 0.05))
    c.horse.height_cm = 140;
  if (chance(random, 0.05))
    c.horse.age_years.reset();
  if (chance(random, 0.05))
    c.horse.age_years = 1.5;
  if (chance(random, 0.03))
    c.history.laminitis = record::Laminitis::suspected;
  if (chance(random, 0.03))
    c.history.red_flags = {"hot-foot"};
  if (chance(random, 0.2))
    c.history.lameness.push_back({.scale = "AAEP 0-5", .grade = between(random, 0, 4)});
  if (chance(random, 0.4)) {
    c.vet.name = "Vet, invented";
    c.history.vet_has_seen = record::VetHasSeen::yes;
    if (chance(random, 0.7))
      c.history.diagnosis = "as given";
  }
  auto& visit = c.visits.back();
  if (chance(random, 0.15))
    visit.last_trim.clear();
  else if (chance(random, 0.3))
    visit.last_trim = "2026-03-0" + std::to_string(1 + static_cast<int>(between(random, 0, 8.99)));
  return c;
}

/// Hungrier rules than any practice would write: every aim is far away, so that only the limits
/// stop a search.
std::vector<practice::Rule> hungry_rules() {
  using practice::Comparison;
  const auto rule = [](const char* id,
                       const char* view,
                       const char* aim,
                       std::vector<std::string> variables,
                       std::optional<double> low,
                       std::optional<double> high) {
    return practice::Rule{.id = id,
                          .kind = practice::RuleKind::propose,
                          .view = view,
                          .when = {{aim, Comparison::maybe_above, -1000}},
                          .variables = std::move(variables),
                          .aim_measurement = aim,
                          .aim_low = low,
                          .aim_high = high,
                          .what = "x",
                          .why = "x",
                          .source = "common-practice"};
  };
  const std::string side = "lateromedial", front = "dorsopalmar";
  return {
      rule("up", "lateromedial", "palmar-angle", {"trim_toe_mm", "wedge_deg"}, 60, {}),
      rule("down", "lateromedial", "palmar-angle", {"trim_heel_mm"}, {}, -60),
      rule("back",
           "lateromedial",
           "breakover-distance",
           {"breakover_back_mm", "dress_toe_mm", "trim_toe_mm"},
           {},
           -100),
      rule("long", "lateromedial", "cor-heel", {"branch_longer_mm"}, 300, {}),
      rule("lateral", "dorsopalmar", "p3-ml-tilt-articular", {"trim_lateral_mm"}, {}, -60),
      rule("medial", "dorsopalmar", "p3-ml-tilt-articular", {"trim_medial_mm"}, 60, {}),
  };
}

World any_world(Random& random) {
  World w{.case_ = any_case(random), .foot = any_foot(random), .front = any_front(random)};
  w.practice = shipped();
  if (chance(random, 0.6)) {
    w.practice.rules = hungry_rules();
    if (chance(random, 0.5))
      std::reverse(w.practice.rules.begin(), w.practice.rules.end());
  }
  const ScaleOrigin scales[] = {ScaleOrigin::marker,
                                ScaleOrigin::marker,
                                ScaleOrigin::header_distances,
                                ScaleOrigin::detector_only};
  const Film film{.toward = chance(random, 0.5) ? PictureSide::left : PictureSide::right,
                  .origin = scales[static_cast<int>(between(random, 0, 3.99))]};
  auto side = reading(w.foot, film);
  if (chance(random, 0.05))
    side.loading = measure::Loading::not_stated;
  w.readings = side_only(side);
  if (chance(random, 0.1))
    w.readings.lateromedial->taken = chance(random, 0.5) ? "2025-12-01" : "";
  if (chance(random, 0.1))
    w.readings.lateromedial->scale_conflict = 1.1;
  w.readings.dorsopalmar = DatedReading{.reading = reading(w.front, film), .taken = day};
  if (chance(random, 0.6)) {
    auto again = w.front;
    again.articular_tilt_deg += between(random, -1.5, 1.5);
    w.readings.dorsopalmar_repeat = DatedReading{.reading = reading(again, film), .taken = day};
  }
  return w;
}

double divisor(const DatedReading& dated) {
  const auto origin = dated.reading.calibration.origin;
  const double weak = origin == ScaleOrigin::header_distances ? 1.05
                      : origin == ScaleOrigin::detector_only  ? 1.15
                                                              : 1.0;
  return weak * dated.scale_conflict;
}

/// A breach in words, or nothing.
using Breach = std::string;

struct Measured {
  std::vector<measure::Measurement> all;
  double value(const char* id) const { return measure::find(all, id)->value; }
  double u(const char* id) const { return measure::find(all, id)->standard_uncertainty; }
  double low(const char* id) const { return value(id) - 2 * u(id); }
  double high(const char* id) const { return value(id) + 2 * u(id); }
};

Breach case_breach(const World& w, const record::FootChange& c) {
  const auto& horse = w.case_.horse;
  const auto& history = w.case_.history;
  if (horse.species != record::Species::horse || !horse.height_cm || *horse.height_cm < 148)
    return "no-default";
  if (history.laminitis != record::Laminitis::no || !history.red_flags.empty())
    return "laminitis or red flag";
  for (const auto& lame : history.lameness)
    if (lame.grade >= 3 &&
        (w.case_.vet.name.empty() || history.vet_has_seen != record::VetHasSeen::yes))
      return "lame, no vet";
  const bool sideways = c.trim_lateral_mm + c.trim_medial_mm > 0;
  if (sideways && (!horse.age_years || *horse.age_years < 2))
    return "young";
  if (c.wedge_deg > 0 && (w.case_.vet.name.empty() || history.diagnosis.empty())) {
    const Measured m{
        measure::measure_reading(w.readings.lateromedial->reading, stated_spreads(), {})};
    if (m.high("palmar-angle") >= 0)
      return "wedge gate";
  }
  return {};
}

Breach date_breach(const World& w, const record::FootChange& c) {
  if (c.trim_toe_mm + c.trim_heel_mm + c.dress_toe_mm == 0)
    return {};
  const auto& taken = w.readings.lateromedial->taken;
  if (taken != day)
    return "old or undated film";
  return w.case_.visits.back().last_trim >= taken ? "trimmed since" : "";
}

Breach sole_breach(const World& w, const record::FootChange& c, const Measured& m) {
  const auto& f = w.foot;
  const double by = divisor(*w.readings.lateromedial);
  const double depth = m.value("sole-depth-tip") / by, u = m.u("sole-depth-tip") / by;
  if (depth - 2 * u < 10)
    return "sole-stop";
  const double k = (c.trim_toe_mm - c.trim_heel_mm) / f.span;
  const double share = f.tip.x / f.span;
  const double cut = c.trim_heel_mm + k * f.tip.x, cup = f.sole_y / by;
  const double doubt = 2 * std::sqrt(u * u + share * share + (1 - share) * (1 - share));
  const bool only_wall = cut + doubt <= cup + rounding;
  if (depth - 2 * u < 15 && (c.trim_toe_mm > 0 || c.dress_toe_mm > 0 || c.breakover_back_mm >= 10))
    return "sole-lock";
  if (depth - 2 * u < 15 && c.trim_heel_mm > 0 && !only_wall)
    return "sole-lock, heel";
  if (c.trim_toe_mm + c.trim_heel_mm > 0 && !only_wall) {
    const double square = ((f.tip.y - cut) / std::sqrt(1 + k * k)) / by;
    const double left = std::min({depth, square, depth - std::max(0.0, cut - cup)});
    if (left - doubt < 15 - rounding)
      return "sole-floor";
  }
  const double at_process = c.trim_heel_mm + k * f.process.x;
  if (at_process > 1 || c.trim_heel_mm > 0) {
    const double s = f.process.x / f.span;
    const double up = m.u("sole-depth-palmar") / by;
    const double pdoubt = 2 * std::sqrt(up * up + s * s + (1 - s) * (1 - s));
    const double pcup = f.palmar_sole_y / by;
    const double pdepth = m.value("sole-depth-palmar") / by;
    if (at_process + pdoubt > pcup + rounding &&
        pdepth - std::max(0.0, at_process - pcup) - pdoubt < 10 - rounding)
      return "sole-palmar";
  }
  return {};
}

Breach horn_breach(const World& w, const record::FootChange& c, const Measured& m) {
  const auto& f = w.foot;
  const double theta = f.wall_deg * degree;
  const double k = (c.trim_toe_mm - c.trim_heel_mm) / f.span;
  const auto& last = w.case_.visits.back().last_trim;
  double allowed = 5;
  if (last == last_trim)
    allowed = 8; // 42 days grow 10.5 mm
  else if (!last.empty())
    allowed = (16 - std::stoi(last.substr(8))) * 0.25;
  if (c.trim_toe_mm / (std::sin(theta) + k * std::cos(theta)) > allowed + rounding)
    return "toe-visit";
  if (c.dress_toe_mm > 0)
    return "wall-left";
  if (c.trim_heel_mm == 0)
    return {};
  if (c.trim_heel_mm > 3 || m.low("palmar-angle-foot") < 3 || m.low("hpa-deviation") < -2)
    return "heel-visit";
  const double cosine = 1 / std::sqrt(1 + k * k);
  const double band_x = f.span - 88 * std::cos(theta), band_y = 88 * std::sin(theta);
  const double heel = (f.coronary_heel_y - c.trim_heel_mm + k * 35) * cosine;
  const double toe = (band_y - c.trim_heel_mm - k * band_x) * cosine;
  return heel - 4 < toe / 3 - rounding ? "heel-left" : "";
}

Breach turn_breach(const World& w, const record::FootChange& c, const Measured& m) {
  const double delta = std::atan((c.trim_toe_mm - c.trim_heel_mm) / w.foot.span) / degree;
  const double turn = delta + c.wedge_deg;
  if (delta > 2 + rounding || delta < -1 - rounding)
    return "turn-trim";
  if (turn > 3 + rounding || turn < -1 - rounding)
    return "turn-total";
  const double worn = w.foot.shod ? w.foot.worn_wedge_deg + 2 * 0.57 : 0;
  if (c.wedge_deg > 0 && worn + c.wedge_deg > 4 + rounding)
    return "wedge-total";
  if (turn > rounding && m.high("palmar-angle") + turn > 10 + rounding)
    return "angle-ceiling";
  if (std::abs(turn) > rounding &&
      w.readings.lateromedial->reading.loading != measure::Loading::weight_bearing)
    return "axis unknown";
  const double axis = m.value("hpa-deviation") + (36.8 / 29.9) * turn;
  const double doubt = 2 * m.u("hpa-deviation");
  if (turn > rounding && axis > doubt + rounding)
    return "axis-ceiling up";
  return turn < -rounding && axis < -doubt - rounding ? "axis-ceiling down" : "";
}

/// The distance after is the plan's own prediction: test_change.cpp holds it to the closed formula.
Breach breakover_breach(const Planned& planned, const Measured& m) {
  const auto* after = find(planned.predictions, "breakover-distance");
  if (after == nullptr)
    return "breakover unknown";
  const double fall = m.value("breakover-distance") - after->after;
  if (fall > 8 + rounding)
    return "breakover-visit";
  if (fall > rounding && after->after - 2 * m.u("breakover-distance") < -rounding)
    return "breakover behind the tip";
  return planned.plan.changes[0].branch_longer_mm > 10 ? "branch" : "";
}

Breach stop_breach(const Measured& m) {
  if (m.value("coronary-extensor-distance") > 12 || m.value("capsular-rotation") > 5)
    return "displacement or rotation";
  const double bone = m.value("p3-bone-angle");
  return m.value("palmar-angle") > 15 || bone < 38 || bone > 60 ? "angle or bone" : "";
}

Breach side_to_side_breach(const World& w, const record::FootChange& c) {
  const double q_lateral = c.trim_lateral_mm, q_medial = c.trim_medial_mm;
  if (q_lateral + q_medial == 0)
    return {};
  if (q_lateral > 0 && q_medial > 0)
    return "both sides";
  const double q = std::max(q_lateral, q_medial);
  if (q > 2 || std::atan(q / (w.front.lateral_x - w.front.medial_x)) / degree > 1)
    return "ml-visit";
  if (!w.readings.dorsopalmar_repeat)
    return "one picture";
  const double sign = q_lateral > 0 ? 1 : -1;
  const Measured one{
      measure::measure_reading(w.readings.dorsopalmar->reading, stated_spreads(), {})};
  const Measured two{
      measure::measure_reading(w.readings.dorsopalmar_repeat->reading, stated_spreads(), {})};
  const auto surely = [&](const Measured& m, const char* id, double least) {
    return sign * m.value(id) - 2 * m.u(id) > least;
  };
  if (!surely(one, "p3-ml-tilt-articular", 2) || !surely(two, "p3-ml-tilt-articular", 2) ||
      !surely(one, "wall-length-difference", 0) || !surely(one, "coronet-ml-tilt", 0))
    return "pictures disagree";
  if (!w.front.sole_seen)
    return "sole unseen";
  const double by = divisor(*w.readings.dorsopalmar);
  const double border =
      w.front.border_height + sign * 25 * std::tan(w.front.border_tilt_deg * degree);
  const double depth = (border - w.front.sole_y) / by, cup = w.front.sole_y / by;
  const double doubt = 2 * std::sqrt(5.0); // reading 2.0 mm, hand 1.0 mm
  const bool kept =
      q + doubt <= cup + rounding || depth - std::max(0.0, q - cup) - doubt >= 10 - rounding;
  return kept ? "" : "ml-sole";
}

Breach breach(const World& w, const Planned& planned) {
  const auto& c = planned.plan.changes.front();
  const Measured m{
      measure::measure_reading(w.readings.lateromedial->reading, stated_spreads(), {})};
  for (const auto& found : {case_breach(w, c),
                            date_breach(w, c),
                            stop_breach(m),
                            sole_breach(w, c, m),
                            horn_breach(w, c, m),
                            turn_breach(w, c, m),
                            side_to_side_breach(w, c)})
    if (!found.empty())
      return found;
  const bool side =
      c.trim_toe_mm + c.trim_heel_mm + c.wedge_deg + c.breakover_back_mm + c.branch_longer_mm > 0;
  return side ? breakover_breach(planned, m) : "";
}

std::string shown(const record::FootChange& c) {
  std::ostringstream text;
  text << "toe " << c.trim_toe_mm << " heel " << c.trim_heel_mm << " wedge " << c.wedge_deg
       << " breakover " << c.breakover_back_mm << " branch " << c.branch_longer_mm << " lateral "
       << c.trim_lateral_mm << " medial " << c.trim_medial_mm;
  return text.str();
}

} // namespace

// Truth: law, the limits' own sentences computed again; 2,000 feet, cases, films and rules at
// random
TEST_CASE("no plan ever breaks a hard limit, whatever the rules ask for", "[plan][limit]") {
  Random random(2026);
  int changed = 0, wedged = 0, heels = 0, sides = 0;
  for (int i = 0; i < 2000; ++i) {
    const auto world = any_world(random);
    const auto planned = plan_of(world.case_, {world.readings}, world.practice);
    if (planned.plan.changes.empty())
      continue;
    const auto& c = planned.plan.changes.front();
    ++changed;
    wedged += c.wedge_deg > 0;
    heels += c.trim_heel_mm > 0;
    sides += c.trim_lateral_mm + c.trim_medial_mm > 0;
    const auto found = breach(world, planned);
    INFO("world " << i << ": " << shown(c));
    CHECK(found == "");
  }
  CAPTURE(changed, wedged, heels, sides);
  // The test is worth something only when plans of each kind came out of it.
  CHECK(changed > 300);
  CHECK(wedged > 20);
  CHECK(heels > 10);
  CHECK(sides > 10);
}
