#include "practice/practice.h"

#include <catch2/catch.hpp>

#include <cstddef>
#include <string>
#include <vector>

#include "templates.h"

using namespace pritchel;
using nlohmann::json;

namespace {

struct Damage {
  std::string file;
  std::string words; ///< part of the sentence: the path, and what is wrong
  std::function<void(json&)> change;
};

const std::string side = "protocols/lateromedial.json";
const std::string horse = "references/horse.json";
const std::string rules_file = "rules/rules.json";
const std::string aims_file = "aims/aims.json";

void check_refused(const templates::Copy& copy, const Damage& damage) {
  const auto result = practice::load_practice(copy.folder());
  INFO(damage.file << ": " << damage.words);
  REQUIRE_FALSE(result.has_value());
  INFO(result.error().sentence());
  CHECK(result.error().sentence().find(damage.file) != std::string::npos);
  CHECK(result.error().sentence().find(damage.words) != std::string::npos);
}

void check_refused(const Damage& damage) {
  const templates::Copy copy;
  copy.change(damage.file, damage.change);
  check_refused(copy, damage);
}

json a_rule() {
  return {{"id", "low"},
          {"kind", "propose"},
          {"view", "lateromedial"},
          {"for_hind", false},
          {"when",
           {{{"measurement", "palmar-angle"}, {"comparison", "surely-below"}, {"limit", 3}},
            {{"measurement", "age-years"}, {"comparison", "surely-above"}, {"limit", 2}}}},
          {"variables", {"trim_toe_mm", "wedge_deg"}},
          {"aim_measurement", "palmar-angle"},
          {"aim_low", 3},
          {"what", "Take {toe} off the toe"},
          {"why", "the angle is low"},
          {"source", "common-practice"}};
}

json rules_with(const json& rule) {
  return {{"format", "pritchel-rules"}, {"version", 1}, {"rules", {rule}}};
}

} // namespace

TEST_CASE("a damaged protocol is refused by file and path", "[practice]") {
  const std::vector<Damage> damages{
      {side, "landmarks[4].title is empty", [](json& j) { j["landmarks"][4]["title"] = " "; }},
      {side, "landmarks[4] lacks \"finding\"", [](json& j) { j["landmarks"][4].erase("finding"); }},
      {side,
       "landmarks[2].spread.across_mm is not a number",
       [](json& j) { j["landmarks"][2]["spread"]["across_mm"] = "0.3"; }},
      {side,
       "landmarks[2].spread.across_mm is not a placement spread",
       [](json& j) { j["landmarks"][2]["spread"]["across_mm"] = 0; }},
      {side,
       "landmarks[2].spread has half a direction",
       [](json& j) { j["landmarks"][2]["spread"].erase("to"); }},
      {side, "along \"p3-tap\"", [](json& j) { j["landmarks"][5]["spread"]["to"] = "p3-tap"; }},
      {side,
       "landmarks[0].schematic_x lies outside",
       [](json& j) { j["landmarks"][0]["schematic_x"] = 1.2; }},
      {side,
       "landmarks[0].titel is not a field",
       [](json& j) { j["landmarks"][0]["titel"] = "x"; }},
      {side,
       "landmarks[1].required is neither",
       [](json& j) { j["landmarks"][1]["required"] = 1; }},
      {side,
       "landmarks[1] repeats the landmark \"marker-1\"",
       [](json& j) { j["landmarks"][1]["id"] = "marker-1"; }},
      {side,
       "landmarks[3] has the group \"later\"",
       [](json& j) { j["landmarks"][3]["group"] = "later"; }},
      {side,
       "landmarks[3] is required in the group \"more\"",
       [](json& j) { j["landmarks"][3]["group"] = "more"; }},
      {side,
       "landmarks[3].spread_with_dot.across_mm is not a placement spread",
       [](json& j) {
         j["landmarks"][3]["spread_with_dot"] = {{"across_mm", 31}, {"along_mm", 31}};
       }},
      {side,
       "landmarks[2].snap settles on \"wall\"",
       [](json& j) { j["landmarks"][2]["snap"]["to"] = "wall"; }},
      {side,
       "landmarks[2].snap has the bright side \"toeward\"",
       [](json& j) { j["landmarks"][2]["snap"]["bright"] = "toeward"; }},
      {side,
       "landmarks[2].snap lacks \"of\"",
       [](json& j) { j["landmarks"][2]["snap"]["to"] = "line"; }},
      {side, "an \"id\" that isn't one", [](json& j) { j["id"] = "From the side"; }},
      {side, "the legs \"both\"", [](json& j) { j["legs"] = "both"; }},
      {side, "lacks \"schematic_width_mm\"", [](json& j) { j.erase("schematic_width_mm"); }},
      {side, "schematic_width_mm is not the width", [](json& j) { j["schematic_width_mm"] = 0; }},
      {side, "the view \"lateral\"", [](json& j) { j["view"] = "lateral"; }},
      {side, "schematic names \"foot.svg\"", [](json& j) { j["schematic"] = "foot.svg"; }},
      {side,
       "schematic is not the plain name",
       [](json& j) { j["schematic"] = "../protocols/lateromedial.svg"; }},
      {side, "version", [](json& j) { j["version"] = 2; }},
      {side, "where a \"pritchel-protocol\" belongs", [](json& j) { j["format"] = "other"; }},
      {side, "landmarks is not a list", [](json& j) { j["landmarks"] = 3; }},
  };
  for (const auto& damage : damages)
    check_refused(damage);
}

TEST_CASE("each protocol has its own id, and both radiographs have one", "[practice]") {
  const templates::Copy copy;
  copy.write("protocols/second.json", templates::json_of(copy.folder() / side).dump());
  check_refused(copy, {"protocols/second.json", "repeats the protocol id \"lateromedial\"", {}});
  std::filesystem::remove(copy.folder() / "protocols/second.json");
  std::filesystem::remove(copy.folder() / side);
  check_refused(copy, {"protocols", "no protocol for the lateromedial view", {}});
}

TEST_CASE("a radiograph can't lose a landmark that a measurement needs", "[practice]") {
  const templates::Copy copy;
  copy.change(side, [](json& j) { j["landmarks"][8]["id"] = "beak"; });
  check_refused(copy, {"protocols", "\"coronary-extensor-distance\" needs", {}});
}

TEST_CASE("a damaged reference band is refused by file and path", "[practice]") {
  const std::vector<Damage> damages{
      {horse, "bands[0].low is not a number", [](json& j) { j["bands"][0]["low"] = "2"; }},
      {horse,
       "bands[0] has a \"low\" that isn't below",
       [](json& j) { j["bands"][0]["low"] = 12; }},
      {horse,
       "bands[0] speaks of \"palmer-angle\"",
       [](json& j) { j["bands"][0]["measurement"] = "palmer-angle"; }},
      {horse,
       "bands[0] gives a range for \"breakover-distance\"",
       [](json& j) { j["bands"][0]["measurement"] = "breakover-distance"; }},
      {horse,
       "bands[0] has the source \"hearsay\"",
       [](json& j) { j["bands"][0]["source"] = "hearsay"; }},
      {horse, "bands[0] lacks \"seen\"", [](json& j) { j["bands"][0].erase("seen"); }},
      {horse,
       "bands[0] has the standing \"sure\"",
       [](json& j) { j["bands"][0]["standing"] = "sure"; }},
      {horse,
       "a second range for \"palmar-angle\"",
       [](json& j) { j["bands"][1]["measurement"] = "palmar-angle"; }},
      {horse, "bands[6] has neither", [](json& j) { j["bands"][6].erase("low"); }},
      {horse, "bands[0] is for neither", [](json& j) { j["bands"][0]["for_fore"] = false; }},
      {"sources.json",
       "lacks the source \"stashak-2020\"",
       [](json& j) { j["sources"].erase("stashak-2020"); }},
      {"sources.json",
       "sources.gum.citation is not a text",
       [](json& j) { j["sources"]["gum"]["citation"] = 1; }},
      {"words/report.json",
       "words.caution.page is empty",
       [](json& j) { j["words"]["caution.page"] = ""; }},
      {"rules/red-flags.json",
       "red_flags[1] repeats",
       [](json& j) { j["red_flags"][1]["id"] = j["red_flags"][0]["id"]; }},
  };
  for (const auto& damage : damages)
    check_refused(damage);
}

namespace {

json own_band(double high) {
  return {{"measurement", "palmar-angle"},
          {"low", 3},
          {"high", high},
          {"population", "31 horses of this practice, fore"},
          {"source", "own-estimate"},
          {"standing", "own-practice"},
          {"seen", "own measurements"}};
}

json references_with(const std::vector<json>& bands) {
  return {{"format", "pritchel-references"}, {"version", 1}, {"about", "ours"}, {"bands", bands}};
}

} // namespace

TEST_CASE("a practice's own band in a file of its own stands before the shipped one",
          "[practice]") {
  const templates::Copy copy;
  copy.write("references/zz-ours.json", references_with(std::vector{own_band(8)}).dump());
  const auto result = practice::load_practice(copy.folder());
  REQUIRE(result.has_value());
  const auto* band = measure::band_for(result->bands, "palmar-angle", measure::Limb::left_fore);
  REQUIRE(band != nullptr);
  CHECK(band->standing == measure::Standing::own_practice);
  CHECK(band->high == 8.0);
  CHECK(measure::band_for(result->bands, "hpa-deviation", measure::Limb::left_fore)->standing ==
        measure::Standing::trade_rule);
}

TEST_CASE("a practice has one band of its own a measurement, and none where nobody has one",
          "[practice]") {
  const templates::Copy copy;
  copy.write("references/zz-ours.json",
             references_with(std::vector{own_band(8), own_band(9)}).dump());
  check_refused(copy, {"references/zz-ours.json", "a second range for \"palmar-angle\"", {}});
  auto lever = own_band(8);
  lever["measurement"] = "ddft-moment-arm";
  copy.write("references/zz-ours.json", references_with(std::vector{lever}).dump());
  check_refused(copy, {"references/zz-ours.json", "gives a range for \"ddft-moment-arm\"", {}});
}

TEST_CASE("a rule is read as it is written", "[practice]") {
  const templates::Copy copy;
  copy.write(rules_file, rules_with(a_rule()).dump());
  const auto result = practice::load_practice(copy.folder());
  REQUIRE(result.has_value());
  REQUIRE(result->rules.size() == 1);
  const auto& rule = result->rules.front();
  CHECK(rule.kind == practice::RuleKind::propose);
  CHECK(rule.for_fore);
  CHECK_FALSE(rule.for_hind);
  REQUIRE(rule.when.size() == 2);
  CHECK(rule.when[0].comparison == practice::Comparison::surely_below);
  CHECK(rule.when[0].limit == 3);
  CHECK(rule.variables == std::vector<std::string>{"trim_toe_mm", "wedge_deg"});
  CHECK(rule.aim_low == 3.0);
  CHECK_FALSE(rule.aim_high.has_value());
}

TEST_CASE("without a rules file there are no rules", "[practice]") {
  const templates::Copy copy;
  std::filesystem::remove(copy.folder() / rules_file);
  const auto result = practice::load_practice(copy.folder());
  REQUIRE(result.has_value());
  CHECK(result->rules.empty());
}

TEST_CASE("a damaged rule is refused by file and path", "[practice]") {
  const std::vector<Damage> damages{
      {rules_file, "rules[0] has the kind \"suggest\"", [](json& r) { r["kind"] = "suggest"; }},
      {rules_file,
       "rules[0].when[0] has the comparison \"below\"",
       [](json& r) { r["when"][0]["comparison"] = "below"; }},
      {rules_file,
       "rules[0].when[0] speaks of \"p3-ml-tilt\"",
       [](json& r) { r["when"][0]["measurement"] = "p3-ml-tilt"; }},
      {rules_file,
       "rules[0].when[0] has \".gone-hanging\" behind \"palmar-angle\"",
       [](json& r) { r["when"][0]["measurement"] = "palmar-angle.gone-hanging"; }},
      {rules_file,
       "rules[0].when[0] has \".against-base\" behind \"palmar-angle\"",
       [](json& r) { r["when"][0]["measurement"] = "palmar-angle.against-base"; }},
      {rules_file,
       "rules[0].when[1] speaks of \"mood\"",
       [](json& r) { r["when"][1]["measurement"] = "mood"; }},
      {rules_file, "rules[0] names \"trim\"", [](json& r) { r["variables"][0] = "trim"; }},
      {rules_file, "rules[0] must have \"variables\"", [](json& r) { r.erase("aim_low"); }},
      {rules_file, "rules[0] must have \"locks\"", [](json& r) { r["kind"] = "lock"; }},
      {rules_file, "rules[0] has an empty \"when\"", [](json& r) { r["when"] = json::array(); }},
      {rules_file, "rules[0] lacks \"source\"", [](json& r) { r.erase("source"); }},
  };
  for (const auto& damage : damages) {
    const templates::Copy copy;
    auto rule = a_rule();
    damage.change(rule);
    copy.write(rules_file, rules_with(rule).dump());
    check_refused(copy, damage);
  }
}

TEST_CASE("a damaged aim is refused by file and path", "[practice]") {
  const std::vector<Damage> damages{
      {aims_file,
       "aims[0] lacks \"measurement\"",
       [](json& j) { j["aims"][0].erase("measurement"); }},
      {aims_file,
       "aims[2] lacks \"counts_as_one\"",
       [](json& j) { j["aims"][2].erase("counts_as_one"); }},
      {aims_file, "aims[3] lacks \"why\"", [](json& j) { j["aims"][3].erase("why"); }},
      {aims_file, "aims[5] lacks \"source\"", [](json& j) { j["aims"][5].erase("source"); }},
      {aims_file, "aims[0].low is not a number", [](json& j) { j["aims"][0]["low"] = "3"; }},
      {aims_file, "aims[0].high is not a number", [](json& j) { j["aims"][0]["high"] = nullptr; }},
      {aims_file,
       "aims[1].counts_as_one is not a number",
       [](json& j) { j["aims"][1]["counts_as_one"] = true; }},
      {aims_file, "aims[1].for_fore is neither", [](json& j) { j["aims"][1]["for_fore"] = 0; }},
      {aims_file, "aims[4].why is empty", [](json& j) { j["aims"][4]["why"] = "  "; }},
      {aims_file, "aims[2] is not an object", [](json& j) { j["aims"][2] = "palmar-angle"; }},
      {aims_file, "aims[0].hihg is not a field", [](json& j) { j["aims"][0]["hihg"] = 8; }},
      {aims_file,
       "aims[0] speaks of \"palmer-angle\"",
       [](json& j) { j["aims"][0]["measurement"] = "palmer-angle"; }},
      {aims_file,
       "aims[0] speaks of \"photo-toe-length\"",
       [](json& j) { j["aims"][0]["measurement"] = "photo-toe-length"; }},
      {aims_file,
       "aims[3] has a \"low\" above its \"high\"",
       [](json& j) { j["aims"][3]["low"] = 31; }},
      {aims_file, "aims[0] is for neither", [](json& j) { j["aims"][0]["for_fore"] = false; }},
      {aims_file,
       "aims[2] has neither \"low\" nor \"high\"",
       [](json& j) {
         j["aims"][2].erase("low");
         j["aims"][2].erase("high");
       }},
      {aims_file,
       "aims[2] has a \"counts_as_one\" that isn't above 0",
       [](json& j) { j["aims"][2]["counts_as_one"] = 0; }},
      {aims_file,
       "aims[1] is a second aim of \"palmar-angle\" for the same legs",
       [](json& j) { j["aims"][1]["for_fore"] = true; }},
      {aims_file,
       "aims[4] has the source \"hearsay\"",
       [](json& j) { j["aims"][4]["source"] = "hearsay"; }},
      {aims_file, "lacks \"aims\"", [](json& j) { j.erase("aims"); }},
      {aims_file, "aims is not a list", [](json& j) { j["aims"] = json::object(); }},
      {aims_file, "version", [](json& j) { j["version"] = 2; }},
      {aims_file, "where a \"pritchel-aims\" belongs", [](json& j) { j["format"] = "aims"; }},
  };
  for (const auto& damage : damages)
    check_refused(damage);
}

TEST_CASE("an aim is read as it is written, with one end where one is given", "[practice]") {
  const templates::Copy copy;
  copy.change(aims_file, [](json& j) {
    j["aims"] = {{{"measurement", "palmar-angle"},
                  {"for_hind", false},
                  {"low", 3},
                  {"counts_as_one", 2},
                  {"why", "not level"},
                  {"source", "common-practice"}}};
  });
  const auto result = practice::load_practice(copy.folder());
  REQUIRE(result.has_value());
  REQUIRE(result->aims.size() == 1);
  const auto& aim = result->aims.front();
  CHECK(aim.measurement == "palmar-angle");
  CHECK(aim.for_fore);
  CHECK_FALSE(aim.for_hind);
  CHECK(aim.low == 3.0);
  CHECK_FALSE(aim.high.has_value());
  CHECK(aim.counts_as_one == 2);
}

TEST_CASE("without an aims file nothing is offered, and broken text in it is named by line",
          "[practice]") {
  const templates::Copy copy;
  copy.write(aims_file, "{\n  \"format\": \"pritchel-aims\",\n  oops\n}");
  check_refused(copy, {aims_file, "at line 3", {}});
  std::filesystem::remove(copy.folder() / aims_file);
  const auto result = practice::load_practice(copy.folder());
  REQUIRE(result.has_value());
  CHECK(result->aims.empty());
}

TEST_CASE("a file that isn't there or isn't JSON is named", "[practice]") {
  const templates::Copy copy;
  copy.write(horse, "{\n  \"format\": \"pritchel-references\",\n  oops\n}");
  check_refused(copy, {horse, "at line 3", {}});
  std::filesystem::remove(copy.folder() / "sources.json");
  check_refused(copy, {"sources.json", "can't be read", {}});
  const auto nowhere = practice::load_practice(copy.folder() / "no-such-folder");
  REQUIRE_FALSE(nowhere.has_value());
  CHECK(nowhere.error().trouble == Trouble::not_found);
}

TEST_CASE("a damaged list of shoes is refused by file and path", "[practice]") {
  const std::string shoes = "shoes/shoes.json";
  const std::vector<Damage> damages{
      {shoes, "shoes[0] lacks \"title\"", [](json& j) { j["shoes"][0].erase("title"); }},
      {shoes,
       "shoes[1] is a second shoe",
       [](json& j) { j["shoes"][1]["id"] = j["shoes"][0]["id"]; }},
      {shoes, "which isn't lower-case", [](json& j) { j["shoes"][0]["id"] = "Egg Bar"; }},
      {shoes,
       "shoes[0].gives.trim_toe_mm is no amount that a shoe gives",
       [](json& j) {
         j["shoes"][0]["gives"]["trim_toe_mm"] = {0, 3};
       }},
      {shoes,
       "\"wedge_deg\" that isn't two numbers",
       [](json& j) { j["shoes"][0]["gives"]["wedge_deg"] = {1}; }},
      {shoes,
       "\"wedge_deg\" that isn't the least and the most",
       [](json& j) {
         j["shoes"][0]["gives"]["wedge_deg"] = {3, 1};
       }},
      {shoes,
       "web_mm[1] is not a number",
       [](json& j) {
         j["shoes"][0]["web_mm"] = {20, "25"};
       }},
      {shoes, "has the bar \"oval\"", [](json& j) { j["shoes"][0]["bar"] = "oval"; }},
      {shoes,
       "has the frog_support \"cork\"",
       [](json& j) { j["shoes"][0]["frog_support"] = "cork"; }},
      {shoes,
       "shoes[0].only_with_vet is neither",
       [](json& j) { j["shoes"][0]["only_with_vet"] = 1; }},
      {shoes,
       "which sources.json doesn't know",
       [](json& j) { j["shoes"][0]["source"] = "hearsay"; }},
      {shoes, "shoes[0].weight is not a field", [](json& j) { j["shoes"][0]["weight"] = 300; }}};
  for (const auto& damage : damages)
    check_refused(damage);
}
