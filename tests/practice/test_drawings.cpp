#include "measure/definitions.h"
#include "measure/measure.h"
#include "practice/practice.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstddef>
#include <fstream>
#include <iterator>
#include <regex>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

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

std::string svg_of(const practice::Protocol& protocol) {
  std::ifstream stream(templates::shipped() / "protocols" / protocol.schematic);
  return {std::istreambuf_iterator<char>(stream), {}};
}

struct Size {
  double width = 0;
  double height = 0;
};

/// Of the drawing in its own units; {0, 0} when it doesn't begin at 0 0.
Size size_of(const std::string& svg) {
  std::smatch found;
  if (!std::regex_search(svg, found, std::regex(R"re(viewBox="0 0 (\d+) (\d+)")re")))
    return {};
  return {std::stod(found[1]), std::stod(found[2])};
}

Limb a_limb(measure::Legs legs) {
  return legs == measure::Legs::hind ? Limb::right_hind : Limb::right_fore;
}

/// The drawing read as a picture of its true size.
measure::Reading drawn(const practice::Protocol& protocol) {
  measure::Reading reading;
  reading.view = protocol.view;
  reading.limb = a_limb(protocol.legs);
  reading.toward = PictureSide::right;
  reading.loading = measure::Loading::weight_bearing;
  constexpr double pixel_mm = 0.2;
  reading.calibration.origin = ScaleOrigin::marker;
  reading.calibration.pixel_width_mm = pixel_mm;
  reading.calibration.pixel_height_mm = pixel_mm;
  const auto size = size_of(svg_of(protocol));
  const double columns = protocol.schematic_width_mm / pixel_mm;
  const double rows = columns * size.height / size.width;
  reading.columns = static_cast<int>(columns);
  reading.rows = static_cast<int>(rows);
  for (const auto& each : protocol.landmarks)
    reading.landmarks.push_back({each.id, {each.schematic_x * columns, each.schematic_y * rows}});
  return reading;
}

std::vector<measure::Measurement> measured(const practice::Protocol& protocol) {
  return measure::measure_reading(drawn(protocol), practice::spreads(protocol), {});
}

const practice::Protocol& protocol_of(const practice::Practice& all, std::string_view id) {
  for (const auto& each : all.protocols)
    if (each.id == id)
      return each;
  FAIL("no protocol " << id);
  throw 0;
}

double value_of(const std::vector<measure::Measurement>& all, std::string_view id) {
  const auto* found = measure::find(all, id);
  INFO(id);
  REQUIRE(found != nullptr);
  INFO(found->reason);
  REQUIRE(found->measurable());
  return found->value;
}

void check_drawn(const std::vector<measure::Measurement>& all,
                 std::string_view id,
                 double want,
                 double tolerance) {
  INFO(id);
  CHECK(std::abs(value_of(all, id) - want) <= tolerance);
}

/// Shares are rounded to 1e-5 of a side: 0.003 mm of a foot, over 12 mm 0.02 degrees. Old points
/// were rounded to 1e-4 of 200 mm: 0.02 mm, 0.1 degrees.
constexpr double drawing_deg = 0.3;
constexpr double drawing_mm = 0.3;

/// The names of the tags in order, an end tag with its slash; comments and text left out.
std::vector<std::string> tags_of(const std::string& svg) {
  std::vector<std::string> tags;
  const std::regex tag(R"(<(/?[A-Za-z:?!-]+)([^<>]*)>)");
  for (std::sregex_iterator at(svg.begin(), svg.end(), tag), end; at != end; ++at) {
    tags.push_back((*at)[1]);
    const std::string rest = (*at)[2];
    if (!rest.empty() && rest.back() == '/')
      tags.push_back("/" + std::string((*at)[1]));
  }
  return tags;
}

bool balanced(const std::vector<std::string>& tags) {
  std::vector<std::string> open;
  for (const auto& tag : tags)
    if (tag.front() != '/')
      open.push_back(tag);
    else if (open.empty() || open.back() != tag.substr(1))
      return false;
    else
      open.pop_back();
  return open.empty();
}

} // namespace

TEST_CASE("each landmark has its own place on its drawing", "[practice]") {
  for (const auto& protocol : loaded().protocols) {
    std::set<std::pair<double, double>> places;
    for (const auto& each : protocol.landmarks) {
      INFO(protocol.id << ": " << each.id);
      CHECK((each.schematic_x > 0 && each.schematic_x < 1));
      CHECK((each.schematic_y > 0 && each.schematic_y < 1));
      CHECK(places.emplace(each.schematic_x, each.schematic_y).second);
    }
  }
}

TEST_CASE("every drawing is well-formed, plain and our own", "[practice]") {
  const std::set<std::string> plain{"svg", "title", "style", "g", "path", "text"};
  for (const auto& protocol : loaded().protocols) {
    INFO(protocol.schematic);
    auto svg = svg_of(protocol);
    CHECK(size_of(svg).width > 0);
    CHECK(svg.find("currentColor") != std::string::npos);
    const auto tags = tags_of(svg);
    CHECK(balanced(tags));
    for (const auto& tag : tags)
      CHECK(plain.contains(tag.front() == '/' ? tag.substr(1) : tag));
    const std::string name_space = "http://www.w3.org/2000/svg";
    svg.erase(svg.find(name_space), name_space.size());
    for (const auto* foreign : {"http", "href", "xmlns:", "<!--", "metadata", "url(", "@import"})
      CHECK(svg.find(foreign) == std::string::npos);
  }
}

TEST_CASE("required landmarks come first, then the view check, then the rest", "[practice]") {
  // Derivatives go to this many landmarks at most: measure::propagation().
  constexpr std::size_t most_landmarks = 62;
  for (const auto& protocol : loaded().protocols) {
    INFO(protocol.id);
    CHECK(protocol.landmarks.size() <= most_landmarks);
    auto group = practice::Group::main;
    for (const auto& each : protocol.landmarks) {
      INFO(each.id);
      CHECK(each.group >= group);
      group = each.group;
      CHECK((each.group == practice::Group::main || !each.required));
    }
  }
}

TEST_CASE("a dot makes a landmark surer, and every spread is a sane one", "[practice]") {
  // From the sharpest joint line (0.15 mm) to a point of the pelvis under muscle (30 mm).
  constexpr double sharpest_mm = 0.1;
  constexpr double widest_mm = 30;
  for (const auto& protocol : loaded().protocols)
    for (const auto& each : protocol.landmarks) {
      INFO(protocol.id << ": " << each.id);
      CHECK(each.spread.across_mm >= sharpest_mm);
      CHECK(each.spread.along_mm >= each.spread.across_mm);
      CHECK(each.spread.along_mm <= widest_mm);
      CHECK((each.spread.on_dot_mm == 0 || measure::is_limb(protocol.view)));
      CHECK((each.spread.on_dot_mm == 0 || each.spread.on_dot_mm < each.spread.across_mm));
    }
}

TEST_CASE("joints carry a spread for dots, outlines don't", "[practice]") {
  const auto all = loaded();
  const auto spreads = practice::spreads(protocol_of(all, "hind-limb-side"));
  CHECK(spreads.at("greater-trochanter").across_mm == 30);
  CHECK(spreads.at("greater-trochanter").on_dot_mm == 12);
  CHECK(spreads.at("wall-dorsal-distal").on_dot_mm == 0);
}

TEST_CASE("every measurement can be made on the drawing of a leg that it is for", "[practice]") {
  const auto all = loaded();
  for (const auto& definition : measure::definitions())
    for (const auto limb : {Limb::right_fore, Limb::right_hind}) {
      if (!measure::are_for(definition.legs, limb))
        continue;
      const auto& protocol = practice::protocol(all, definition.view, limb);
      if (!measure::are_for(protocol.legs, limb))
        continue; // No drawing of a hind limb from the front: none is asked for.
      INFO(protocol.id << ": " << definition.id);
      const auto numbers = measured(protocol);
      const auto* found = measure::find(numbers, definition.id);
      REQUIRE(found != nullptr);
      INFO(found->reason);
      CHECK(found->measurable());
    }
}

TEST_CASE("a protocol is found by view and leg, or by its id", "[practice]") {
  const auto all = loaded();
  const auto id = [&](View view, Limb limb, std::string_view wish = {}) {
    return practice::protocol(all, view, limb, wish).id;
  };
  CHECK(id(View::lateromedial, Limb::left_hind) == "lateromedial");
  CHECK(id(View::limb_side, Limb::left_fore) == "fore-limb-side");
  CHECK(id(View::limb_side, Limb::right_hind) == "hind-limb-side");
  CHECK(id(View::limb_behind, Limb::right_fore) == "fore-limb-behind");
  CHECK(id(View::limb_behind, Limb::left_hind) == "hind-limb-behind");
  CHECK(id(View::limb_hanging, Limb::left_fore) == "fore-limb-hanging");
  CHECK(id(View::foot_side, Limb::left_hind) == "foot-side");
  CHECK(id(View::limb_side, Limb::left_fore, "hind-limb-side") == "hind-limb-side");
  CHECK(id(View::limb_side, Limb::left_fore, "no-such-protocol") == "fore-limb-side");
}

// Truth: geometry, the angles at which the side drawing was laid out (palmar angle 4.5, bone 47,
// wall 51.5, long pastern 52, short pastern 51, heel 47 degrees; sole 16.7 mm under the tip)
TEST_CASE("the landmarks on the side drawing measure as the foot that was drawn", "[practice]") {
  const auto all = loaded();
  const auto numbers = measured(protocol_of(all, "lateromedial"));
  check_drawn(numbers, "palmar-angle", 4.5, drawing_deg);
  check_drawn(numbers, "hoof-angle", 51.5, drawing_deg);
  check_drawn(numbers, "hoof-angle-proximal", 51.5, drawing_deg);
  check_drawn(numbers, "p1-angle", 52, drawing_deg);
  check_drawn(numbers, "p2-angle", 51, drawing_deg);
  check_drawn(numbers, "heel-angle", 47, drawing_deg);
  check_drawn(numbers, "capsular-rotation", 0, 1.0);
  check_drawn(numbers, "sole-depth-tip", 16.7, drawing_mm);
}

// Truth: law, the front drawing is the same on both sides but for the walls (82 and 79 degrees)
TEST_CASE("the landmarks on the front drawing measure as a level foot", "[practice]") {
  const auto all = loaded();
  const auto numbers = measured(protocol_of(all, "dorsopalmar"));
  for (const auto* id : {"p3-ml-tilt",
                         "p3-ml-tilt-articular",
                         "p3-ml-tilt-foramina",
                         "dip-line-angle",
                         "coronet-ml-tilt",
                         "p2-axis-ml-angle",
                         "p1-axis-ml-angle",
                         "mc3-axis-ml-angle",
                         "dip-ml-deviation"})
    check_drawn(numbers, id, 0, drawing_deg);
  check_drawn(numbers, "dip-space-ratio", 1, 0.02);
  check_drawn(numbers, "wall-angle-medial", 82, drawing_deg);
  check_drawn(numbers, "wall-angle-lateral", 79, drawing_deg);
}

// Truth: geometry, the millimetres at which the limbs were laid out, computed by hand
TEST_CASE("the landmarks on the limb drawings measure as the limbs that were drawn", "[practice]") {
  const auto all = loaded();
  const auto fore = measured(protocol_of(all, "fore-limb-side"));
  check_drawn(fore, "shoulder-slope", 51.34, drawing_deg);     // atan(385 / 308)
  check_drawn(fore, "limb-pastern-slope", 51.78, drawing_deg); // atan(96.5 / 76)
  check_drawn(fore, "fore-load-heel", 13, drawing_mm);         // 25 - 12
  check_drawn(fore, "fore-load-fetlock", -13, drawing_mm);     // -1 - 12
  const auto hind = measured(protocol_of(all, "hind-limb-side"));
  check_drawn(hind, "hock-angle", 157.9, drawing_deg);
  check_drawn(hind, "hind-plumb-hock", 3, drawing_mm);     // 0 - -3
  check_drawn(hind, "mt3-to-vertical", 1.14, drawing_deg); // atan(5 / 251)
  const auto above = measured(protocol_of(all, "foot-above"));
  check_drawn(above, "toe-direction", 5, drawing_deg);
  const auto sole = measured(protocol_of(all, "sole"));
  check_drawn(sole, "solar-base-proportion", 74.0 / 143.4, 0.005);
  check_drawn(sole, "solar-length-width", 143.4 / 129.0, 0.005);
  check_drawn(sole, "horn-thickness-toe", 10, drawing_mm);
}
