/// What each definition needs: exactly what its formula reads, no less and no more.
#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <set>

#include "animals.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr std::uint64_t seed = 77;

Measurement measured(const feet::PlaneFoot& foot, std::string_view id) {
  const auto all = measure_reading(feet::reading(foot), feet::spreads(), {});
  const auto* found = find(all, id);
  REQUIRE(found);
  return *found;
}

feet::PlaneFoot whole_foot(View view) {
  feet::Random random(seed);
  return feet::any(view, random);
}

/// The landmarks, and what the view's level rests on: without it many a photo has no number.
feet::PlaneFoot only(const feet::PlaneFoot& foot, const LandmarkList& needs, bool level) {
  feet::PlaneFoot kept = foot;
  std::erase_if(kept.points, [&](const auto& each) {
    const bool of_level = each.first.starts_with("plumb-");
    return !(level && of_level) && std::find(needs.begin(), needs.end(), each.first) == needs.end();
  });
  return kept;
}

bool needed(const Definition& definition, std::string_view id) {
  return std::find(definition.needs.begin(), definition.needs.end(), id) != definition.needs.end();
}

bool of_level(std::string_view id) {
  return id.starts_with("plumb-") || id.starts_with("ground-");
}

/// Each row with an animal of a kind that has it.
template <class Body> void for_every_row(Body body) {
  for (const auto& kind : animals::kinds()) {
    feet::Random random(seed);
    const auto foot = animals::make(kind, random);
    for (const auto* row : animals::rows(kind)) {
      INFO(kind.name() << ", " << row->id);
      body(foot, *row);
    }
  }
}

} // namespace

// Truth: law, every row belongs to a protocol that asks for its landmarks
TEST_CASE("every measurement has a protocol that has its landmarks", "[measure]") {
  std::set<std::string_view> seen;
  for (const auto& kind : animals::kinds())
    for (const auto* row : animals::rows(kind)) {
      bool whole = true;
      for (const auto id : row->needs)
        whole &= practice::guide(*kind.protocol, id) != nullptr;
      if (whole)
        seen.insert(row->id);
    }
  for (const auto& row : definitions()) {
    INFO(row.id);
    CHECK(seen.contains(row.id));
  }
}

// Truth: law, a number without its landmarks is refused
TEST_CASE("without any one of its landmarks a measurement isn't measurable", "[measure]") {
  for_every_row([](const feet::PlaneFoot& whole, const Definition& row) {
    for (const auto id : row.needs) {
      auto foot = whole;
      foot.remove(std::string(id));
      const auto result = measured(foot, row.id);
      INFO("without " << id);
      CHECK_FALSE(result.measurable());
      REQUIRE(result.missing.size() == 1);
      CHECK(result.missing[0] == id);
      CHECK_FALSE(result.reason.empty());
    }
  });
}

// Truth: law, nothing but its landmarks is read, and the plumb line where it says what is level
TEST_CASE("the landmarks it names are enough for every measurement", "[measure]") {
  int needs_level = 0;
  for_every_row([&](const feet::PlaneFoot& foot, const Definition& row) {
    const auto full = measured(foot, row.id);
    auto least = measured(only(foot, row.needs, false), row.id);
    if (!least.measurable()) {
      CHECK(least.reason == "neither a plumb line nor the ground is placed");
      CHECK_FALSE(is_radiograph(row.view));
      ++needs_level;
      least = measured(only(foot, row.needs, true), row.id);
    }
    INFO(least.reason);
    REQUIRE(least.measurable());
    CHECK(least.missing.empty());
    CHECK(std::abs(least.value - full.value) < 1e-9);
  });
  CHECK(needs_level > 0);
}

// Truth: law, a value has derivatives to the landmarks it is made from and to no other
TEST_CASE("a measurement moves with each of its landmarks and with no other", "[measure]") {
  for_every_row([](const feet::PlaneFoot& foot, const Definition& row) {
    const auto reading = feet::reading(foot);
    const auto propagated = propagation(reading, feet::spreads());
    const auto drawn = evaluate(row, propagated.placed);
    REQUIRE(drawn);
    const auto& points = propagated.placed.points();
    for (std::size_t i = 0; i < points.size(); ++i) {
      const double size =
          std::hypot(drawn->value.partial[1 + 2 * i], drawn->value.partial[2 + 2 * i]);
      INFO(points[i].first);
      if (of_level(points[i].first) && !needed(row, points[i].first))
        continue; // of a photo: the plumb line or the ground, whichever is there
      // Rounding of terms that cancel, such as the common height of both ground points.
      constexpr double nothing = 1e-9;
      CHECK((size > nothing) == needed(row, points[i].first));
    }
  });
}

// Truth: law; which measurements need no ground is stated in the project's notes on measurements:
// bone angle, rotation, the three deviations, wall thickness, sole depth at the tip, joint spaces
TEST_CASE("without a ground line only what needs no ground is measurable", "[measure]") {
  const std::vector<std::string_view> groundless = {"sole-depth-tip",
                                                    "p3-bone-angle",
                                                    "capsular-rotation",
                                                    "wall-thickness-proximal",
                                                    "wall-thickness-mid",
                                                    "wall-thickness-distal",
                                                    "toe-length",
                                                    "hpa-deviation",
                                                    "pip-deviation",
                                                    "dip-deviation",
                                                    "capsular-rotation-proximal",
                                                    "dip-joint-angle",
                                                    "hpa-deviation-external",
                                                    "toe-heel-difference",
                                                    "wall-p3-ratio",
                                                    "toe-heel-length-ratio",
                                                    "ddft-moment-arm",
                                                    "navicular-p3-distance",
                                                    "pip-space-medial",
                                                    "pip-space-lateral",
                                                    "pip-symmetry-index",
                                                    "dip-space-medial",
                                                    "dip-space-lateral",
                                                    "dip-space-ratio",
                                                    "dip-symmetry-index",
                                                    "dip-ml-deviation",
                                                    "wall-length-medial",
                                                    "wall-length-lateral",
                                                    "wall-length-difference"};
  for (const auto view : {View::lateromedial, View::dorsopalmar}) {
    auto foot = whole_foot(view);
    std::erase_if(foot.points, [](const auto& each) {
      return each.first == "ground-heel" || each.first == "ground-toe" ||
             each.first == "ground-medial" || each.first == "ground-lateral";
    });
    for (const auto& each : measure_reading(feet::reading(foot), feet::spreads(), {})) {
      INFO(each.definition->id << ": " << each.reason);
      const bool expected =
          std::find(groundless.begin(), groundless.end(), each.definition->id) != groundless.end();
      CHECK(each.measurable() == expected);
    }
  }
}

// Truth: geometry, circle of radius 16 about (70, 60); a fourth and fifth point on the same circle
// change nothing, a fifth point 0.8 mm off it moves the centre
TEST_CASE("a fourth and a fifth point on the condyle are used when they are placed", "[measure]") {
  auto foot = whole_foot(View::lateromedial);
  const auto arc = [](double degrees, double radius = 16) {
    const double a = degrees * 3.14159265358979323846 / 180;
    return PlanePoint{70 + radius * std::cos(a), 60 + radius * std::sin(a)};
  };
  for (const auto& [i, degrees] : {std::pair{"1", -20.0}, {"2", -90.0}, {"3", -160.0}}) {
    const std::string id = std::string("p2-distal-condyle-") + i;
    foot.remove(id);
    foot.points.emplace_back(id, arc(degrees));
  }
  const auto three = measured(foot, "dip-height");
  REQUIRE(three.measurable());
  CHECK(std::abs(three.value - 60) < 1e-9);
  foot.points.emplace_back("p2-distal-condyle-4", arc(-55));
  foot.points.emplace_back("p2-distal-condyle-5", arc(-125));
  const auto five = measured(foot, "dip-height");
  REQUIRE(five.measurable());
  CHECK(std::abs(five.value - 60) < 1e-9);
  CHECK(five.standard_uncertainty < three.standard_uncertainty);
  foot.remove("p2-distal-condyle-5");
  foot.points.emplace_back("p2-distal-condyle-5", arc(-125, 16.8));
  CHECK(std::abs(measured(foot, "dip-height").value - 60) > 0.05);
}

// Truth: the definition's refusals: arc under 60 degrees, radius outside 9-25 mm, 1 mm off the
// circle
TEST_CASE("condyle points that make no condyle are refused with a reason", "[measure]") {
  const auto with_arc = [](double radius, std::vector<double> degrees, double off) {
    auto foot = whole_foot(View::lateromedial);
    for (std::size_t i = 0; i < degrees.size(); ++i) {
      const std::string id = "p2-distal-condyle-" + std::to_string(i + 1);
      foot.remove(id);
      const double a = degrees[i] * 3.14159265358979323846 / 180;
      const double r = radius + (i % 2 == 1 ? off : 0);
      foot.points.emplace_back(id, PlanePoint{70 + r * std::cos(a), 60 + r * std::sin(a)});
    }
    return measured(foot, "dip-height");
  };
  CHECK(with_arc(17, {-20, -90, -160}, 0).measurable());
  CHECK(with_arc(17, {-65, -90, -115}, 0).reason.find("too close together") != std::string::npos);
  CHECK(with_arc(8.9, {-20, -90, -160}, 0).reason.find("no size") != std::string::npos);
  CHECK(with_arc(9.1, {-20, -90, -160}, 0).measurable());
  CHECK(with_arc(24.9, {-20, -90, -160}, 0).measurable());
  CHECK(with_arc(25.1, {-20, -90, -160}, 0).reason.find("no size") != std::string::npos);
  CHECK(with_arc(17, {-20, -55, -90, -125, -160}, 3.5).reason.find("one circle") !=
        std::string::npos);
  CHECK(with_arc(17, {-90, -90, -160}, 0).reason.find("make a circle") != std::string::npos);
}

// Truth: the definition: against the hoof-shoe interface when shod, against the ground when bare
TEST_CASE("the palmar angle to the hoof's own plane takes that plane on a shod foot", "[measure]") {
  auto foot = whole_foot(View::lateromedial);
  foot.shoeing = Shoeing::shod;
  CHECK_FALSE(measured(foot, "palmar-angle-foot").measurable());
  // A plane that falls by 3 in 100 towards the toe: the solar line is flatter against it.
  foot.points.emplace_back("foot-plane-heel", PlanePoint{20, 13});
  foot.points.emplace_back("foot-plane-toe", PlanePoint{120, 10});
  const double wedge = std::atan(0.03) * 180 / 3.14159265358979323846;
  const auto to_ground = measured(foot, "palmar-angle");
  const auto to_foot = measured(foot, "palmar-angle-foot");
  REQUIRE(to_foot.measurable());
  CHECK(std::abs(to_ground.value - to_foot.value - wedge) < 1e-9);
}

// Truth: the definition: heel end is the shoe's on a shod foot, the hoof's own on a bare one
TEST_CASE("the base of a shod foot ends where its shoe ends", "[measure]") {
  auto foot = whole_foot(View::lateromedial);
  const auto bare = measured(foot, "support-length");
  const auto heel = foot.at("heel-ground");
  foot.points.emplace_back("shoe-heel-end", PlanePoint{heel.x - 6, 0});
  CHECK(std::abs(measured(foot, "support-length").value - bare.value) < 1e-9);
  foot.shoeing = Shoeing::shod;
  CHECK(std::abs(measured(foot, "support-length").value - bare.value - 6) < 1e-9);
}

TEST_CASE("a foot nobody stands on has no pastern axis and no joint spaces", "[measure]") {
  for (const auto view : {View::lateromedial, View::dorsopalmar}) {
    auto reading = feet::reading(whole_foot(view));
    const auto standing = measure_reading(reading, feet::spreads(), {});
    reading.loading = Loading::not_loaded;
    const auto lifted = measure_reading(reading, feet::spreads(), {});
    for (const auto* id : {"hpa-deviation", "dip-deviation", "dip-space-ratio", "dip-line-angle"})
      if (const auto* stood = find(standing, id)) {
        INFO(id);
        CHECK(stood->measurable());
        CHECK_FALSE(find(lifted, id)->measurable());
      }
    for (const auto* id : {"p3-bone-angle", "wall-angle-medial"})
      if (const auto* bone = find(lifted, id))
        CHECK(bone->measurable());
  }
}

TEST_CASE("a shod foot without the shoe's heel point has no base, not the hoof's", "[measure]") {
  auto foot = whole_foot(View::lateromedial);
  foot.shoeing = Shoeing::shod;
  for (const auto* id : {"cor-heel", "support-length", "base-proportion"}) {
    INFO(id);
    CHECK_FALSE(measured(foot, id).measurable());
    CHECK(measured(foot, id).reason.find("shoe") != std::string::npos);
  }
  CHECK(measured(foot, "cor-toe").measurable());
}
