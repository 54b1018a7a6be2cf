#include "record/json.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cmath>
#include <limits>

#include "samples.h"

using namespace pritchel;
using namespace pritchel::record;
using nlohmann::json;

namespace {

/// What the reader of a case says after one value was replaced.
std::string complaint(const std::string& pointer, const json& bad) {
  json document = to_json(test::sample_case());
  document[json::json_pointer(pointer)] = bad;
  const auto read = case_from(document);
  return read ? "accepted" : read.error().sentence();
}

} // namespace

TEST_CASE("a case comes back from JSON as it was", "[record][json]") {
  const auto value = test::sample_case();
  const json written = to_json(value);
  const auto read = case_from(written);
  REQUIRE(read);
  CHECK(to_json(*read) == written);
  CHECK(read->horse.name == value.horse.name);
  CHECK(read->horse.age_years == 14.5);
  CHECK_FALSE(read->horse.height_cm);
  CHECK(read->history.course == "two\nlines");
  CHECK(read->history.lameness.front().grade == 7);
  const auto& picture = read->visits.front().pictures.front();
  CHECK(picture.view == measure::View::dorsopalmar);
  CHECK(picture.limb == measure::Limb::right_hind);
  CHECK(picture.toward == PictureSide::right);
  CHECK(picture.hints.left_limb == false);
  CHECK(picture.hints.marker_is_left == false);
  CHECK(picture.hints.marker_side == PictureSide::right);
  CHECK(picture.sides_checked == measure::SidesChecked::by_person);
  CHECK(picture.scale.marker_mm == 25.4);
  CHECK(picture.scale.marker_out_of_plane_mm == 7);
}

TEST_CASE("a picture without hints comes back without hints", "[record][json]") {
  auto entry = test::sample_picture();
  entry.hints = {};
  const auto read = picture_entry_from(to_json(entry));
  REQUIRE(read);
  CHECK_FALSE(read->hints.left_limb);
  CHECK_FALSE(read->hints.toward);
  CHECK_FALSE(read->hints.marker_is_left);
  CHECK_FALSE(read->hints.marker_side);
}

TEST_CASE("a plan and a reading come back from JSON as they were", "[record][json]") {
  const json plan = to_json(test::sample_plan());
  const auto plan_read = plan_from(plan);
  REQUIRE(plan_read);
  CHECK(to_json(*plan_read) == plan);
  CHECK(plan_read->changes.front().wedge_deg == -1.5);
  CHECK(plan_read->lines.front().decision == Decision::amend);
  CHECK(plan_read->sign_off->registration == "V-0000");
  const json reading = to_json(test::sample_reading());
  const auto reading_read = reading_from(reading);
  REQUIRE(reading_read);
  CHECK(to_json(*reading_read) == reading);
  CHECK(reading_read->landmarks.at(1).how == measure::Placement::snapped);
  CHECK(reading_read->landmarks.at(1).at.x == 812.4);
}

TEST_CASE("every bad value of a case is named by its path", "[record][json]") {
  const std::vector<std::pair<std::string, json>> bad_values{
      {"/format", "something-else"},
      {"/version", 99},
      {"/id", "Old Tom"},
      {"/id", "../escape"},
      {"/horse/name", 7},
      {"/horse/name", std::string(20'001, 'x')},
      {"/horse/name", std::string("a\0b", 3)},
      {"/horse/species", "unicorn"},
      {"/horse/age_years", -1},
      {"/horse/age_years", std::nan("")},
      {"/horse/height_cm", std::numeric_limits<double>::infinity()},
      {"/horse/weight_kg", "heavy"},
      {"/owner", "Bea"},
      {"/history/laminitis", "maybe"},
      {"/history/sudden_onset", 1},
      {"/history/lameness", "2/5"},
      {"/history/lameness/0/grade", 11},
      {"/history/lameness/0/scale", "own"},
      {"/history/red_flags/0", "Not An Id"},
      {"/visits", json::object()},
      {"/visits/0/date", "2026-02-30"},
      {"/visits/0/last_trim", "2026-03-03"},
      {"/visits/0/pictures/0/digest", "abc"},
      {"/visits/0/pictures/0/columns", 0},
      {"/visits/0/pictures/0/rows", 1.5},
      {"/visits/0/pictures/0/view", "skyline"},
      {"/visits/0/pictures/0/limb", "left"},
      {"/visits/0/pictures/0/toward", "up"},
      {"/visits/0/pictures/0/shoeing", true},
      {"/visits/0/pictures/0/hints/marker/letter", "X"},
      {"/visits/0/pictures/0/scale/kind", "guess"},
      {"/visits/0/pictures/0/scale/length_mm", 0},
      {"/visits/0/pictures/0/scale/tolerance_mm", -1}};
  for (const auto& [pointer, bad] : bad_values) {
    std::string path = pointer.substr(1);
    for (std::size_t at = 0; (at = path.find('/', at)) != std::string::npos;) {
      const bool is_index = std::isdigit(static_cast<unsigned char>(path[at + 1])) != 0;
      path.replace(at, is_index ? 2 : 1, is_index ? "[" + path.substr(at + 1, 1) + "]" : ".");
    }
    INFO(pointer << ": " << complaint(pointer, bad));
    CHECK(complaint(pointer, bad).rfind(path + " ", 0) == 0);
  }
}

TEST_CASE("a scale statement must say what its kind needs", "[record][json]") {
  for (const auto& [kind, field] : {std::pair{"marker", "length_mm"},
                                    {"magnification", "magnification"},
                                    {"distances", "object_to_detector_mm"}}) {
    const auto read = entry_with_settings(test::sample_picture(), {{"scale", {{"kind", kind}}}});
    REQUIRE_FALSE(read);
    CHECK(read.error().thing == std::string("scale.") + field);
  }
}

TEST_CASE("landmarks must be two finite, sane numbers", "[record][json]") {
  const auto said = [](const json& landmark) {
    const auto read = placed_landmarks_from({{"landmarks", {{"p3-tip", landmark}}}});
    return read ? std::string("accepted") : read.error().thing;
  };
  CHECK(said({1, 2}) == "accepted");
  CHECK(said({{"x", 1}, {"y", 2}, {"how", "snapped"}}) == "accepted");
  CHECK(said({{"x", std::nan("")}, {"y", 2}}) == "landmarks.p3-tip.x");
  CHECK(said({{"x", nullptr}, {"y", 2}}) == "landmarks.p3-tip.x");
  CHECK(said({{"x", 1}}) == "landmarks.p3-tip.y");
  CHECK(said({1, "2"}) == "landmarks.p3-tip[1]");
  CHECK(said({1}) == "landmarks.p3-tip");
  CHECK(said({1, 2, 3}) == "landmarks.p3-tip");
  CHECK(said({1e9, 2}) == "landmarks.p3-tip[0]");
  CHECK(said({{"x", 1}, {"y", 2}, {"how", "magic"}}) == "landmarks.p3-tip.how");
  CHECK_FALSE(placed_landmarks_from({{"landmarks", {{"P3 Tip", {1, 2}}}}}));
  CHECK_FALSE(placed_landmarks_from(json::object()));
  json many = json::object();
  for (int i = 0; i < 401; ++i)
    many["p" + std::to_string(i)] = {1, 2};
  CHECK_FALSE(placed_landmarks_from({{"landmarks", many}}));
}

TEST_CASE("text that is not JSON is refused with its line", "[record][json]") {
  const auto said = [](const std::string& text) {
    const auto read = parse_json(text, "tom.json");
    return read ? std::string("accepted") : read.error().sentence();
  };
  CHECK(said("{\"a\": 1}") == "accepted");
  CHECK(said("{\n\"a\": NaN}") == "tom.json is not valid JSON; look at line 2.");
  CHECK(said("") == "tom.json is not valid JSON; look at line 1.");
  CHECK(said("{\"a\": 1e999}") == "tom.json holds a number that is too large.");
  CHECK(said("{\"a\": 1, \"a\": 2}") == "tom.json says \"a\" twice.");
  CHECK(said("{\"a\": {\"b\": 1}, \"b\": {\"a\": 2}}") == "accepted");
  CHECK(said(std::string(100'000, '[')) == "tom.json is not valid JSON; look at line 1.");
  CHECK(said("\"\xff\"") == "tom.json is not valid JSON; look at line 1.");
}

TEST_CASE("what a person changes leaves the rest alone", "[record][json]") {
  const auto known = test::sample_case();
  const auto changed = case_with_details(known, {{"yard", "Upper Example Farm"}, {"visits", 7}});
  REQUIRE(changed);
  CHECK(changed->yard == "Upper Example Farm");
  CHECK(changed->horse.name == known.horse.name);
  CHECK(changed->visits.size() == 1);
  CHECK(case_with_details(*changed, {{"yard", nullptr}})->yard.empty());
  CHECK(case_with_details(known, nullptr)->yard == known.yard);
  CHECK_FALSE(case_with_details(known, nlohmann::json::array()));

  const auto entry = test::sample_picture();
  const auto moved =
      entry_with_settings(entry, {{"toward", "left"}, {"hints", {{"marker", nullptr}}}});
  REQUIRE(moved);
  CHECK(moved->toward == PictureSide::left);
  CHECK_FALSE(moved->hints.marker_is_left);
  CHECK(moved->hints.left_limb == false);
  CHECK(moved->scale.marker_mm == entry.scale.marker_mm);
}

TEST_CASE("decisions must be as many as the plan has lines", "[record][json]") {
  auto plan = test::sample_plan();
  CHECK_FALSE(plan_with_decisions(plan, {{"lines", json::array()}}));
  const auto decided =
      plan_with_decisions(plan, {{"lines", {{{"decision", "decline"}, {"note", "no"}}}}});
  REQUIRE(decided);
  CHECK(decided->lines.front().decision == Decision::decline);
  CHECK(decided->lines.front().what == plan.lines.front().what);
}
