#include "measure/definitions.h"
#include "measure/measure.h"
#include "practice/practice.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <set>

#include "templates.h"

using namespace pritchel;
using measure::Limb;
using measure::View;

namespace {

practice::Practice loaded() {
  auto result = practice::load_practice(templates::shipped());
  if (!result)
    FAIL(result.error().sentence());
  return *result;
}

const measure::Band* fore_band(const practice::Practice& all, std::string_view id) {
  return measure::band_for(all.bands, id, Limb::left_fore);
}

} // namespace

TEST_CASE("the shipped templates load", "[practice]") {
  const auto all = loaded();
  CHECK(all.protocols.size() == 14);
  CHECK(all.red_flags.size() >= 10);
  CHECK(all.words.contains("caution.page"));
}

TEST_CASE("every landmark that a measurement needs is asked for in its view", "[practice]") {
  const auto all = loaded();
  for (const auto& definition : measure::definitions())
    for (const auto limb : {Limb::left_fore, Limb::left_hind}) {
      const auto& protocol = practice::protocol(all, definition.view, limb);
      if (!measure::are_for(definition.legs, limb) || !measure::are_for(protocol.legs, limb))
        continue;
      for (const auto id : definition.needs) {
        INFO(protocol.id << ": " << definition.id << " needs " << id);
        CHECK(practice::guide(protocol, id) != nullptr);
      }
    }
}

TEST_CASE("the optional landmarks that formulas look for are offered", "[practice]") {
  const auto all = loaded();
  const auto& side = practice::protocol(all, View::lateromedial);
  for (const auto* id : {"p2-distal-condyle-4",
                         "p2-distal-condyle-5",
                         "p1-distal-condyle-4",
                         "p1-distal-condyle-5",
                         "foot-plane-toe",
                         "foot-plane-heel",
                         "shoe-heel-end",
                         "marker-1",
                         "marker-2"}) {
    INFO(id);
    REQUIRE(practice::guide(side, id) != nullptr);
    CHECK_FALSE(practice::guide(side, id)->required);
  }
  CHECK(practice::guide(side, "shoe-heel-end")->only_shod);
}

TEST_CASE("required landmarks come in the order in which they unlock measurements", "[practice]") {
  const auto all = loaded();
  const auto& side = practice::protocol(all, View::lateromedial).landmarks;
  const auto place = [&](std::string_view id) {
    return std::find_if(side.begin(), side.end(), [&](const auto& l) { return l.id == id; });
  };
  CHECK(place("ground-toe") < place("p3-tip"));
  CHECK(place("p3-tip") < place("p3-dorsal-distal"));
  CHECK(place("p3-dorsal-proximal") < place("p2-distal-condyle-1"));
  CHECK(place("p1-axis-proximal") < place("coronary-band"));
  CHECK(place("breakover") < place("heel-ground"));
}

TEST_CASE("titles are worded for the limb and fall back to the id", "[practice]") {
  const auto all = loaded();
  const auto& side = practice::protocol(all, View::lateromedial);
  CHECK(practice::landmark_title(side, "p3-palmar-process", Limb::left_fore) ==
        "Palmar process of the coffin bone");
  CHECK(practice::landmark_title(side, "p3-palmar-process", Limb::left_hind) ==
        "Plantar process of the coffin bone");
  CHECK(practice::landmark_title(side, "no-such-point", Limb::left_fore) == "no-such-point");
}

TEST_CASE("a spread is an ellipse along what the point slides on", "[practice]") {
  const auto all = loaded();
  const auto spreads = practice::spreads(practice::protocol(all, View::lateromedial));
  CHECK(spreads.at("p3-tip").across_mm == spreads.at("p3-tip").along_mm);
  CHECK(spreads.at("p3-palmar-process").along_mm > spreads.at("p3-palmar-process").across_mm);
  CHECK(spreads.at("p3-palmar-process").to == "p3-tip");
}

// Truth: equine-clinical-medicine, p. 88: solar margin 2-10 degrees on the lateromedial radiograph
TEST_CASE("the palmar angle's band is the textbook's and for fore feet only", "[practice]") {
  const auto all = loaded();
  const auto* band = fore_band(all, "palmar-angle");
  REQUIRE(band != nullptr);
  CHECK(band->low == 2.0);
  CHECK(band->high == 10.0);
  CHECK(measure::band_for(all.bands, "palmar-angle", Limb::left_hind) == nullptr);
}

// Truth: akhal-teke-2014, abstract: mean 18.3, SD 1.22, n = 10; 0.975 quantile of Student's t with
// 9 degrees of freedom 2.262 (tables); prediction interval mean +- t s sqrt(1 + 1/n)
TEST_CASE("the wall's band is where the next horse of the group would lie", "[practice]") {
  const auto all = loaded();
  const auto* band = fore_band(all, "wall-thickness-mid");
  REQUIRE(band != nullptr);
  const double half = 2.262 * 1.22 * std::sqrt(1.1);
  constexpr double last_digit = 0.05;
  CHECK(std::abs(*band->low - (18.3 - half)) <= last_digit);
  CHECK(std::abs(*band->high - (18.3 + half)) <= last_digit);
}

// Truth: stashak-2020, p. 88, page read: "approximately 155-165 degrees", hind limbs
TEST_CASE("the hock angle's band is the textbook's and for hind limbs only", "[practice]") {
  const auto all = loaded();
  const auto* band = measure::band_for(all.bands, "hock-angle", Limb::right_hind);
  REQUIRE(band != nullptr);
  CHECK(band->standing == measure::Standing::published);
  CHECK(band->low == 155.0);
  CHECK(band->high == 165.0);
  CHECK(fore_band(all, "hock-angle") == nullptr);
}

TEST_CASE("a band is for legs that its measurement is for, and says what it is", "[practice]") {
  for (const auto& band : loaded().bands) {
    INFO(band.measurement);
    const auto* definition = measure::definition(band.measurement);
    REQUIRE(definition != nullptr);
    if (band.for_fore)
      CHECK(measure::are_for(definition->legs, Limb::left_fore));
    if (band.for_hind)
      CHECK(measure::are_for(definition->legs, Limb::left_hind));
    // What stands without a source is never called published.
    if (band.source == "common-practice")
      CHECK(band.standing == measure::Standing::trade_rule);
  }
}

TEST_CASE("no band rests on a source that was only remembered", "[practice]") {
  const auto json = templates::json_of(templates::shipped() / "sources.json");
  for (const auto& band : loaded().bands) {
    INFO(band.measurement << ": " << band.source);
    const auto seen = json["sources"][band.source]["seen"].get<std::string>();
    CHECK(seen.find("memory") == std::string::npos);
    CHECK(seen.find("another page") == std::string::npos);
  }
}

TEST_CASE("what has no agreed range has no band", "[practice]") {
  const auto all = loaded();
  for (const auto* id : {"breakover-distance",
                         "base-proportion",
                         "cor-toe",
                         "cor-heel",
                         "dip-space-medial",
                         "dip-symmetry-index",
                         "hoof-angle",
                         "coronary-extensor-distance",
                         "foot-centre-offset",
                         "ddft-moment-arm",
                         "navicular-height",
                         "shoulder-slope",
                         "coronet-line-carpus",
                         "solar-base-proportion"}) {
    INFO(id);
    CHECK(fore_band(all, id) == nullptr);
  }
}

TEST_CASE("docs/sources.md says what sources.json says", "[practice]") {
  std::ifstream stream(std::filesystem::path(PRITCHEL_SOURCE_DIR) / "docs" / "sources.md");
  const std::string page(std::istreambuf_iterator<char>(stream), {});
  const auto json = templates::json_of(templates::shipped() / "sources.json");
  for (const auto& [key, entry] : json["sources"].items()) {
    const auto row = "| `" + key + "` | " + entry["citation"].get<std::string>() + " | " +
                     entry["seen"].get<std::string>() + " | " +
                     entry["used_for"].get<std::string>() + " |";
    INFO(row);
    CHECK(page.find(row) != std::string::npos);
  }
  std::size_t rows = 0;
  for (auto at = page.find("\n| `"); at != std::string::npos; at = page.find("\n| `", at + 1))
    ++rows;
  CHECK(rows == json["sources"].size());
}

TEST_CASE("every status, standing and decision has its words", "[practice]") {
  const auto words = loaded().words;
  for (const auto status : {measure::Status::within,
                            measure::Status::below,
                            measure::Status::above,
                            measure::Status::cannot_tell,
                            measure::Status::no_band,
                            measure::Status::not_measurable}) {
    INFO(key(status));
    CHECK(words.contains("status." + std::string(key(status))));
    CHECK(words.contains("status-note." + std::string(key(status))));
  }
  for (const auto* standing : {"published", "trade-rule", "own-practice"})
    CHECK(words.contains(std::string("standing-note.") + standing));
  for (const auto* decision : {"open", "accept", "amend", "decline"})
    CHECK(words.contains(std::string("decision.") + decision));
}
