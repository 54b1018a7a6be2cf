/// What is foreseen of a foot, asked for over HTTP, held to the closed formulas of docs/plan.md.
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <vector>

#include "running.h"

using namespace pritchel::serve::test;

namespace {

constexpr double degree = std::numbers::pi / 180;

/// docs/plan.md, "Week six": both ends of the bearing line move down their walls. How far that
/// turns the foot back, degrees; walls' slopes to the bearing line in degrees, lengths in mm.
double fall(double span, double wall_deg, double heel_deg, double toe_mm, double heel_mm) {
  const double wall = wall_deg * degree, heel = heel_deg * degree;
  return std::atan2(toe_mm * std::sin(wall) - heel_mm * std::sin(heel),
                    span + toe_mm * std::cos(wall) - heel_mm * std::cos(heel)) /
         degree;
}

/// The prediction of one measurement of one foot.
json row(const json& predictions, const std::string& limb, const std::string& id) {
  for (const auto& each : predictions)
    if (each.at("limb") == limb && each.at("measurement") == id)
      return each;
  FAIL("nothing is predicted of " << id << ", " << limb);
  return {};
}

double number(const json& row, const char* field) {
  return row.at(field).get<double>();
}

// ---- a history ----

/// The lateromedial film of docs/formats/examples/reading.json, on a flat shoe 80 pixels thick.
constexpr double detector_mm = 0.15, magnification = 1.2;
constexpr double pixel_mm = detector_mm / magnification;
constexpr double bearing_y = 1150, shoe_px = 80;

struct Seen {
  std::string date;
  std::string last_trim;
  double longer_mm = 0; ///< toe, than in the example
  double angle_deg = 0; ///< hoof's, above the example's
  std::string limb = "left-fore";
  std::string shoeing = "shod";
  json scale = {{"kind", "magnification"}, {"magnification", magnification}};
};

/// The toe's end goes on along its own line, and the ground is turned under the foot.
json landmarks_of(const Seen& seen) {
  auto points = side_landmarks();
  const auto move = [&](const char* id, double right, double down) {
    points[id]["x"] = number(points[id], "x") + right;
    points[id]["y"] = number(points[id], "y") + down;
  };
  const double dx = number(points["wall-toe-ground"], "x") - number(points["coronary-band"], "x");
  const double dy = number(points["wall-toe-ground"], "y") - number(points["coronary-band"], "y");
  const double longer = seen.longer_mm / pixel_mm / std::hypot(dx, dy);
  move("wall-toe-ground", dx * longer, dy * longer);
  const bool shod = seen.shoeing == "shod";
  for (const char* id : {"ground-heel", "ground-toe", "breakover"})
    move(id, 0, shod ? shoe_px : 0);
  constexpr double thicker_sole_px = 32;
  for (const char* id : {"sole-a", "sole-b"})
    move(id, 0, thicker_sole_px);
  const double base = number(points["ground-heel"], "x") - number(points["ground-toe"], "x");
  move("ground-toe", 0, -base * std::tan(seen.angle_deg * degree));
  if (!shod)
    return points;
  points["foot-plane-heel"] = {{"x", 1220}, {"y", bearing_y}, {"how", "by-hand"}};
  points["foot-plane-toe"] = {{"x", 430}, {"y", bearing_y}, {"how", "by-hand"}};
  return points;
}

std::string without_hyphens(const std::string& date) {
  std::string plain;
  for (const char c : date)
    if (c != '-')
      plain += c;
  return plain;
}

/// A foot seen 28, 35, 21 and 28 days apart without a trim between.
std::vector<Seen> five_visits() {
  const std::string trim = "2025-12-01";
  return {{"2025-12-08", trim, -12, 3},
          {"2026-01-05", trim, -4.6, 1.7},
          {"2026-02-09", trim, 4.4, -0.5},
          {"2026-03-02", trim, 9.5, -1.9},
          {"2026-03-30", trim, 16.9, -3.5}};
}

/// What the last visit's `try` says of an unchanged left fore foot.
json outlook_after(const std::vector<Seen>& history) {
  Running running;
  const auto value =
      running.post("/api/cases", {{"horse", {{"name", "Old Tom"}}}}).at("id").get<std::string>();
  const auto path = "/api/cases/" + value;
  running.put(path,
              {{"horse", {{"height_cm", 162}, {"age_years", 9}, {"species", "horse"}}},
               {"history", {{"laminitis", "no"}, {"vet_has_seen", "yes"}}}});
  std::string visit_path;
  int seed = 0;
  for (const auto& seen : history) {
    const auto with_visit =
        running.post(path + "/visits", {{"date", seen.date}, {"last_trim", seen.last_trim}});
    visit_path = path + "/visits/" + with_visit.at("visits").back().at("id").get<std::string>();
    const auto picture =
        running
            .upload(visit_path + "/pictures?name=side.dcm",
                    Film::bytes({.date = without_hyphens(seen.date), .seed = ++seed}))
            .at("picture");
    const auto digest = picture.at("digest").get<std::string>();
    CHECK(picture.at("taken") == seen.date);
    running.put(visit_path + "/pictures/" + digest,
                {{"view", "lateromedial"},
                 {"limb", seen.limb},
                 {"toward", "left"},
                 {"shoeing", seen.shoeing},
                 {"loading", "weight-bearing"},
                 {"sides_checked", "by-person"},
                 {"scale", seen.scale}});
    running.put(path + "/readings/" + digest + "?reader=Ada",
                {{"revision", 0}, {"landmarks", landmarks_of(seen)}});
  }
  const auto tried =
      running.post(visit_path + "/try", {{"change", {{"limb", "left-fore"}}}, {"weeks", true}})
          .at("try");
  INFO(tried.at("refused").dump());
  REQUIRE(tried.at("outlook").is_object());
  return tried.at("outlook");
}

/// Straight line through zero by the formulas of the textbooks: slope and its standard error.
struct ThroughZero {
  double slope = 0;
  double error = 0;
};
ThroughZero through_zero(const std::vector<double>& x, const std::vector<double>& y) {
  double xx = 0, xy = 0, left = 0;
  for (std::size_t i = 0; i < x.size(); ++i) {
    xx += x[i] * x[i];
    xy += x[i] * y[i];
  }
  for (std::size_t i = 0; i < x.size(); ++i)
    left += std::pow(y[i] - xy / xx * x[i], 2);
  return {xy / xx, std::sqrt(left / static_cast<double>(x.size() - 1) / xx)};
}

void check_usual(const json& outlook) {
  const auto& growth = outlook.at("growth");
  CHECK(growth.at("own_intervals") == 0);
  CHECK(number(growth, "toe_mm_per_week") == 1.75);
  CHECK(number(growth, "heel_mm_per_week") == 0.5);
}

/// The last three of the five visits' intervals.
void check_last_three(const json& outlook) {
  const auto& growth = outlook.at("growth");
  CHECK(growth.at("own_intervals") == 3);
  CHECK(number(growth, "toe_mm_per_week") == Approx(1.798).margin(1e-6));
  CHECK(number(growth, "toe_uncertainty") == Approx(0.036028).margin(1e-5));
}

} // namespace

// Truth: line through zero by hand. Toe 9, 5.1, 7.4 mm in 5, 3, 4 weeks: slope (45 + 15.3 + 29.6) /
// 50, residuals 0.01, -0.294, 0.208; standard error the root of 0.1298 / 2 / 50. With the four
// weeks and 7.4 mm before them: (89.9 + 29.6) / 66. The heels' rate from the fall of the angle by
// the closed formula of docs/plan.md on the film's own pixels.
TEST_CASE("a foot seen often without a trim between grows at its own rates", "[serve][growth]") {
  const auto outlook = outlook_after(five_visits());
  const auto& growth = outlook.at("growth");
  const std::vector<double> weeks{4, 5, 3, 4};
  const auto toe = through_zero(weeks, {7.4, 9, 5.1, 7.4});
  const auto angle = through_zero(weeks, {-1.3, -2.2, -1.4, -1.6});
  CHECK(toe.slope == Approx(119.5 / 66));
  CHECK(growth.at("own_intervals") == 4);
  CHECK(number(growth, "toe_mm_per_week") == Approx(toe.slope).margin(1e-6));
  CHECK(number(growth, "toe_uncertainty") == Approx(toe.error).margin(1e-6));

  const auto points = landmarks_of(five_visits().back());
  const auto slope = [&](const char* low, const char* high) {
    return std::atan2(number(points[low], "y") - number(points[high], "y"),
                      number(points[high], "x") - number(points[low], "x"));
  };
  const double wall = slope("wall-dorsal-distal", "wall-dorsal-proximal");
  const double heel = slope("heel-wall-distal", "heel-wall-proximal");
  const double span =
      (number(points["heel-ground"], "x") - number(points["wall-toe-ground"], "x")) * pixel_mm;
  const double heel_rate =
      (toe.slope * std::sin(wall) - std::tan(-angle.slope * degree) * span) / std::sin(heel);
  CHECK(number(growth, "heel_mm_per_week") == Approx(heel_rate).margin(1e-4));
  const double doubt = std::sqrt(std::pow(angle.error * degree * span, 2) -
                                 std::pow(toe.error * std::sin(wall), 2)) /
                       std::sin(heel);
  CHECK(number(growth, "heel_uncertainty") == Approx(doubt).margin(1e-4));

  const auto later = row(outlook.at("predictions"), "left-fore", "hoof-angle");
  CHECK(
      number(later, "change") ==
      Approx(-fall(span, wall / degree, heel / degree, 6 * toe.slope, 6 * heel_rate)).margin(1e-3));
  // Taken as shorter by the turn, a week's fall is the line's.
  CHECK(number(later, "change") == Approx(6 * angle.slope).epsilon(0.05));
}

// Truth: as above, for the three intervals that are left
TEST_CASE("an interval with a trim, another scale, another limb or a bare foot in it doesn't count",
          "[serve][growth]") {
  const std::vector<std::pair<const char*, std::function<void(std::vector<Seen>&)>>> odd{
      {"trimmed between",
       [](auto& all) {
         for (std::size_t i = 1; i < all.size(); ++i)
           all[i].last_trim = "2025-12-20";
       }},
      {"scale from the detector alone",
       [](auto& all) {
         all[0].scale = {{"kind", "detector-only"}};
       }},
      {"no scale",
       [](auto& all) {
         all[0].scale = {{"kind", "none"}};
       }},
      {"another limb", [](auto& all) { all[0].limb = "left-hind"; }},
      {"bare, flat on the ground",
       [](auto& all) {
         all[0].shoeing = "bare";
         all[0].longer_mm = all[0].angle_deg = 0;
       }},
      {"day of the last trim not known", [](auto& all) { all[0].last_trim = ""; }}};
  for (const auto& [what, change] : odd) {
    INFO(what);
    auto history = five_visits();
    change(history);
    check_last_three(outlook_after(history));
  }
}

// Truth: docs/plan.md: three intervals at least, else 1.75 and 0.50 mm a week
TEST_CASE("with fewer than three intervals of its own a foot grows at the usual rates",
          "[serve][growth]") {
  const auto all = five_visits();
  check_usual(outlook_after({all.begin() + 2, all.end()}));
  auto trimmed = std::vector<Seen>{all.begin() + 1, all.end()};
  trimmed.back().last_trim = "2026-03-03";
  check_usual(outlook_after(trimmed));
}

// Truth: the closed formulas of docs/plan.md ("How the numbers after are found", "Week six",
// "Levers"), from the served numbers before and after alone: cut d = atan(a / S) gives S; the toe's
// end goes back by a / (tan theta + k); then 10.5 and 3 mm of growth on the cut foot. Lever at
// breakover: joint to breakover after over before. Mid-stance: 1 - sin D / 0.43, range 0.30 to
// 0.56.
TEST_CASE("the sample plan's week six and levers are the formulas' on its own predictions",
          "[serve][growth]") {
  Running running;
  running.post("/api/sample", json::object());
  const std::string path = "/api/cases/larkspur/visits/1/plan";
  const auto made = running.post(path, {{"made_by", "Fred"}});
  const auto given = running.get(path);
  CHECK(given == made);
  const auto& changes = given.at("plan").at("changes");
  const auto& outlooks = given.at("outlooks");
  REQUIRE(changes.size() == 1);
  REQUIRE(outlooks.size() == 1);
  const auto& change = changes.at(0);
  const auto& outlook = outlooks.at(0);
  const std::string limb = change.at("limb");
  CHECK(outlook.at("limb") == limb);
  CHECK(outlook.at("week") == 6);
  check_usual(outlook);

  const auto at_once = [&](const char* id) { return row(given.at("predictions"), limb, id); };
  const auto in_week_6 = [&](const char* id) { return row(outlook.at("predictions"), limb, id); };
  // Only the toe is cut, on a foot that stands flat.
  const double off = number(change, "trim_toe_mm"), wedge = number(change, "wedge_deg");
  REQUIRE(off > 0);
  REQUIRE(number(change, "trim_heel_mm") == 0);
  REQUIRE(number(change, "dress_toe_mm") == 0);
  const double cut = number(at_once("palmar-angle-foot"), "change");
  CHECK(number(at_once("palmar-angle"), "change") == Approx(cut + wedge));
  const double k = std::tan(cut * degree), span = off / k;
  const double wall_before = number(at_once("hoof-angle"), "before");
  const double span_after =
      (span - off / (std::tan(wall_before * degree) + k)) / std::cos(cut * degree);
  const double psi = fall(span_after,
                          number(at_once("hoof-angle"), "after") - wedge,
                          number(at_once("heel-angle"), "after") - wedge,
                          6 * 1.75,
                          6 * 0.5);
  for (const char* id : {"palmar-angle", "palmar-angle-foot", "hoof-angle", "p3-dorsal-angle"}) {
    INFO(id);
    CHECK(number(in_week_6(id), "before") == number(at_once(id), "before"));
    CHECK(number(in_week_6(id), "after") ==
          Approx(number(at_once(id), "after") - psi).margin(0.02));
  }
  CHECK(number(in_week_6("toe-length"), "after") ==
        Approx(number(at_once("toe-length"), "after") + 6 * 1.75).margin(0.02));
  CHECK(number(in_week_6("sole-depth-tip"), "change") == Approx(0).margin(1e-9));

  const auto joint = at_once("cor-toe");
  CHECK(number(outlook.at("breakover"), "ratio") ==
        Approx(number(joint, "after") / number(joint, "before")));
  const double sine = std::sin(number(at_once("hoof-angle"), "change") * degree);
  CHECK(number(outlook.at("mid_stance"), "ratio") == Approx(1 - sine / 0.43).margin(0.003));
  CHECK(number(outlook.at("mid_stance"), "low") == Approx(1 - sine / 0.30).margin(0.003));
  CHECK(number(outlook.at("mid_stance"), "high") == Approx(1 - sine / 0.56).margin(0.003));
}
