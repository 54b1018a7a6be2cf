/// Laws that every measurement obeys, on random feet and limbs in every kind of picture. The seed
/// is printed when one is broken.
#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <map>

#include "animals.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr std::uint64_t first_seed = 20260100;
constexpr int feet_a_kind = 30;

/// Rounding of some dozens of operations on coordinates of a few thousand pixels.
constexpr double rounding = 1e-8;

using Values = std::map<std::string, Measurement, std::less<>>;

const Spreads* practice_spreads = nullptr; ///< of the kind at work

Values measured(const Reading& reading) {
  Values values;
  for (auto& each : measure_reading(reading, *practice_spreads, {}))
    values.emplace(each.definition->id, each);
  return values;
}

void check_same(const Values& a, const Values& b) {
  REQUIRE(a.size() == b.size());
  for (const auto& [id, first] : a) {
    const auto& second = b.at(id);
    INFO(id << ": " << first.reason << " / " << second.reason);
    CHECK(first.measurable() == second.measurable());
    CHECK(std::abs(first.value - second.value) < rounding);
    CHECK(std::abs(first.standard_uncertainty - second.standard_uncertainty) < rounding);
  }
}

template <class Body> void for_random_feet(Body body) {
  for (const auto& kind : animals::kinds()) {
    practice_spreads = &kind.spreads;
    for (std::uint64_t i = 0; i < feet_a_kind; ++i) {
      const std::uint64_t seed = first_seed + i;
      feet::Random random(seed);
      auto foot = animals::make(kind, random);
      if (i % 2 == 1)
        foot = animals::without_plumb(foot);
      INFO("seed " << seed << ", " << kind.name());
      body(foot, random);
    }
  }
}

} // namespace

// Truth: law, a whole foot has every landmark
TEST_CASE("every definition is measurable on a whole foot", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random&) {
    for (const auto& [id, each] : measured(feet::reading(foot))) {
      INFO(id << ": " << each.reason);
      CHECK(each.measurable());
      CHECK(each.standard_uncertainty > 0);
    }
  });
}

// Truth: law, shifted picture
TEST_CASE("no measurement changes when the picture is shifted", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random& random) {
    auto shifted = feet::reading(foot);
    const double dx = feet::between(random, -900, 900), dy = feet::between(random, -900, 900);
    for (auto& landmark : shifted.landmarks)
      landmark.at = {landmark.at.x + dx, landmark.at.y + dy};
    check_same(measured(feet::reading(foot)), measured(shifted));
  });
}

// Truth: law, foot and ground turned together
TEST_CASE("no measurement changes when foot and ground are turned together", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random& random) {
    const double turn = feet::between(random, -25, 25);
    INFO("turned by " << turn);
    check_same(measured(feet::reading(foot)), measured(feet::reading(foot, {.turned_deg = turn})));
  });
}

// Truth: law, mirrored picture
TEST_CASE("no measurement changes when the picture is mirrored and says so", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random&) {
    auto mirrored = feet::reading(foot);
    constexpr double width = 2000;
    for (auto& landmark : mirrored.landmarks)
      landmark.at.x = width - 1 - landmark.at.x;
    mirrored.toward = mirrored.toward == PictureSide::left ? PictureSide::right : PictureSide::left;
    check_same(measured(feet::reading(foot)), measured(mirrored));
  });
}

// Truth: law, the same foot on pixels of another shape
TEST_CASE("no measurement changes with the shape of the pixels", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random& random) {
    const feet::Picture odd{.pixel_width_mm = feet::between(random, 0.05, 0.3),
                            .pixel_height_mm = feet::between(random, 0.05, 0.3)};
    check_same(measured(feet::reading(foot)), measured(feet::reading(foot, odd)));
  });
}

// Truth: law, scaled picture: lengths are of degree one in the coordinates, angles of degree
// nought. Placement spreads stay in mm, so lengths keep their uncertainty and angles' shrinks as
// lengths grow
TEST_CASE("another scale leaves angles and ratios alone and scales lengths", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random& random) {
    const double scale = feet::between(random, 0.95, 1.2);
    const auto before = measured(feet::reading(foot));
    auto enlarged = feet::reading(foot);
    enlarged.calibration.pixel_width_mm *= scale;
    enlarged.calibration.pixel_height_mm *= scale;
    for (const auto& [id, after] : measured(enlarged)) {
      INFO(id << " scaled by " << scale << ": " << after.reason);
      REQUIRE(after.measurable());
      const auto& was = before.at(id);
      const bool length = after.definition->unit == Unit::millimetres;
      const double value = length ? was.value * scale : was.value;
      const double spread = length ? was.standard_uncertainty : was.standard_uncertainty / scale;
      CHECK(std::abs(after.value - value) < rounding);
      CHECK(std::abs(after.standard_uncertainty - spread) < rounding);
      CHECK(length == (after.definition->scale == Scale::needed));
    }
  });
}

// Truth: law, the scale's share of a length's uncertainty is the length times the scale's own;
// JCGM 100:2008, 5.1.6: relative variances of a product add
TEST_CASE("an unsure scale widens lengths by its share and leaves angles alone", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random&) {
    constexpr double share = 0.02;
    const auto sure = measured(feet::reading(foot));
    const auto unsure = measured(feet::reading(foot, {.relative_uncertainty = share}));
    for (const auto& [id, each] : unsure) {
      INFO(id);
      const double own = sure.at(id).standard_uncertainty;
      const bool length = each.definition->unit == Unit::millimetres;
      const double expected = length ? std::hypot(own, share * each.value) : own;
      CHECK(std::abs(each.standard_uncertainty - expected) < rounding);
    }
  });
}

// Truth: law, without a scale a picture has angles and ratios only
TEST_CASE("without a scale no millimetre is given and angles stay as they were", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random&) {
    const auto scaled = measured(feet::reading(foot, {.pixel_height_mm = 0.21}));
    auto bare = feet::reading(foot, {.pixel_height_mm = 0.21});
    bare.calibration = {};
    bare.calibration.pixel_height_mm = 0.21 / 0.15;
    for (const auto& [id, each] : measured(bare)) {
      INFO(id << ": " << each.reason);
      const bool length = each.definition->unit == Unit::millimetres;
      CHECK(each.measurable() == !length);
      if (length)
        CHECK(each.reason.find("no scale") != std::string::npos);
      else
        CHECK(std::abs(each.value - scaled.at(id).value) < rounding);
      if (!length) // the nominal pixel is the true one here, so spreads agree too
        CHECK(std::abs(each.standard_uncertainty - scaled.at(id).standard_uncertainty) < rounding);
    }
  });
}

// Truth: law, p3 - p1 = (p2 - p1) + (p3 - p2)
TEST_CASE("the two joints' deviations add up to the hoof-pastern axis", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random&) {
    if (foot.view != View::lateromedial)
      return;
    const auto m = measured(feet::reading(foot));
    CHECK(std::abs(m.at("hpa-deviation").value -
                   (m.at("pip-deviation").value + m.at("dip-deviation").value)) < rounding);
    CHECK(std::abs(m.at("p3-bone-angle").value -
                   (m.at("p3-dorsal-angle").value - m.at("palmar-angle").value)) < rounding);
    CHECK(std::abs(m.at("capsular-rotation").value -
                   (m.at("p3-dorsal-angle").value - m.at("hoof-angle").value)) < rounding);
    CHECK(std::abs(m.at("support-length").value -
                   (m.at("cor-toe").value + m.at("cor-heel").value)) < rounding);
    CHECK(std::abs(m.at("base-proportion").value -
                   m.at("cor-toe").value / m.at("support-length").value) < rounding);
    CHECK(std::abs(2 * m.at("wall-thickness-mid").value - m.at("wall-thickness-proximal").value -
                   m.at("wall-thickness-distal").value) < rounding);
  });
}

// Truth: law, front view: sums and differences of the definitions' texts
TEST_CASE("front view measurements agree with each other", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random&) {
    if (foot.view != View::dorsopalmar)
      return;
    const auto m = measured(feet::reading(foot));
    const double l = m.at("dip-space-lateral").value, med = m.at("dip-space-medial").value;
    CHECK(std::abs(m.at("dip-space-ratio").value - l / med) < rounding);
    CHECK(std::abs(m.at("dip-symmetry-index").value - 200 * (l - med) / (l + med)) < rounding);
    CHECK(std::abs(m.at("dip-ml-deviation").value + m.at("p2-axis-ml-angle").value +
                   m.at("p3-ml-tilt-articular").value) < rounding);
    CHECK(std::abs(m.at("wall-length-difference").value - m.at("wall-length-lateral").value +
                   m.at("wall-length-medial").value) < rounding);
    // The axis lies half the difference of its distances to the walls off their middle.
    CHECK(std::abs(m.at("foot-axis-offset").value -
                   (m.at("axis-to-wall-medial").value - m.at("axis-to-wall-lateral").value) / 2) <
          rounding);
  });
}

// Truth: law, a bone's own angle knows no ground
TEST_CASE("the coffin bone's own angle doesn't change when the ground moves", "[measure]") {
  for_random_feet([](feet::PlaneFoot foot, feet::Random& random) {
    if (foot.view != View::lateromedial)
      return;
    const auto before = measured(feet::reading(foot));
    for (auto& [id, at] : foot.points)
      if (id.starts_with("ground-"))
        at.y -= feet::between(random, 0, 8);
    const auto after = measured(feet::reading(foot));
    for (const char* id : {"p3-bone-angle",
                           "capsular-rotation",
                           "hpa-deviation",
                           "pip-deviation",
                           "dip-deviation",
                           "sole-depth-tip",
                           "wall-thickness-mid"})
      CHECK(std::abs(before.at(id).value - after.at(id).value) < rounding);
    CHECK(std::abs(before.at("palmar-angle").value - after.at("palmar-angle").value) > 1e-3);
  });
}

// Truth: geometry, a rigid wedge of w degrees under the heel turns ground angles by +w. The bare
// formulas: a reading whose foot doesn't stand on its ground is refused by its checks
TEST_CASE("a heel wedge turns ground angles by its own angle and no bone angle", "[measure]") {
  for_random_feet([](feet::PlaneFoot foot, feet::Random& random) {
    if (foot.view != View::lateromedial)
      return;
    const auto value = [&](std::string_view id) {
      const auto drawn = evaluate(*definition(id), feet::placed(foot));
      REQUIRE(drawn);
      return drawn->value;
    };
    constexpr std::array turned = {
        "palmar-angle", "hoof-angle", "p3-dorsal-angle", "p2-angle", "p1-angle"};
    constexpr std::array kept = {"capsular-rotation", "wall-thickness-mid", "sole-depth-tip"};
    std::map<std::string_view, double> before;
    for (const auto* id : turned)
      before[id] = value(id);
    for (const auto* id : kept)
      before[id] = value(id);
    const double wedge = feet::between(random, 1, 6);
    const double slope = std::tan(wedge * 3.14159265358979323846 / 180);
    // Seen from the foot, a wedge under the heel is ground that falls towards the heel.
    for (auto& [id, at] : foot.points)
      if (id.starts_with("ground-"))
        at.y = slope * (at.x - 160);
    for (const auto* id : turned)
      CHECK(std::abs(value(id) - before[id] - wedge) < rounding);
    for (const auto* id : kept)
      CHECK(std::abs(value(id) - before[id]) < rounding);
  });
}

// Truth: law, mirrored foot: medial and lateral change places and every sign of a difference turns
TEST_CASE("exchanging medial and lateral turns the front view's signs", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random&) {
    if (foot.view != View::dorsopalmar)
      return;
    const auto before = measured(feet::reading(foot));
    auto other = foot;
    for (auto& [id, at] : other.points) {
      at.x = -at.x;
      if (const auto m = id.find("medial"); m != std::string::npos)
        id.replace(m, 6, "lateral");
      else if (const auto l = id.find("lateral"); l != std::string::npos)
        id.replace(l, 7, "medial");
    }
    const auto after = measured(feet::reading(other));
    for (const char* id : {"dip-symmetry-index",
                           "dip-line-angle",
                           "p3-ml-tilt",
                           "p3-ml-tilt-articular",
                           "p2-axis-ml-angle",
                           "dip-ml-deviation",
                           "coronet-ml-tilt",
                           "wall-length-difference",
                           "foot-axis-offset",
                           "foot-centre-offset"}) {
      INFO(id);
      CHECK(std::abs(before.at(id).value + after.at(id).value) < rounding);
    }
    for (const auto& [a, b] : {std::pair{"dip-space-medial", "dip-space-lateral"},
                               std::pair{"wall-length-medial", "wall-length-lateral"},
                               std::pair{"wall-angle-medial", "wall-angle-lateral"},
                               std::pair{"axis-to-wall-medial", "axis-to-wall-lateral"}})
      CHECK(std::abs(before.at(a).value - after.at(b).value) < rounding);
  });
}

// Truth: law, a card whose map only multiplies by the pixel's size is a plain scale
TEST_CASE("a rectification that only scales gives the numbers of the plain scale", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random&) {
    for (const auto toward : {PictureSide::left, PictureSide::right}) {
      const auto plain = feet::reading(foot, {.pixel_height_mm = 0.21, .toward = toward});
      auto carded = plain;
      carded.calibration.rectification = Rectification{.map = {0.15, 0, 0, 0, 0.21, 0, 0, 0, 1}};
      check_same(measured(plain), measured(carded));
    }
  });
}

// Truth: law, where the plumb line hangs and how long it is doesn't matter, nor which two points of
// the ground are placed, as long as the directions stay
TEST_CASE("a photo's level is a direction, not a place", "[measure]") {
  for_random_feet([](const feet::PlaneFoot& foot, feet::Random& random) {
    if (is_radiograph(foot.view))
      return;
    auto other = foot;
    const double aside = feet::between(random, -300, 300), lower = feet::between(random, 0, 0.3);
    for (auto& [id, at] : other.points)
      if (id.starts_with("plumb-")) {
        const auto down = foot.at("plumb-bottom") - foot.at("plumb-top");
        at = (id == "plumb-top" ? foot.at("plumb-top") + down * lower : at) + PlaneVector{aside, 0};
      } else if (id == "ground-toe" || id == "ground-lateral") {
        const auto from = foot.at(id == "ground-toe" ? "ground-heel" : "ground-medial");
        at = from + (at - from) * 0.7;
      }
    const auto before = measured(feet::reading(foot)), after = measured(feet::reading(other));
    for (const auto& [id, each] : before) {
      INFO(id);
      CHECK(std::abs(each.value - after.at(id).value) < rounding);
    }
  });
}

// Truth: the trade's words: behind the hock it is plantar and metatarsal
TEST_CASE("a hind limb's measurements say plantar, and never a word of the fore limb",
          "[measure]") {
  for (const auto& row : definitions()) {
    if (row.legs == Legs::fore)
      continue;
    for (const auto text : {row.title, row.what, row.sign}) {
      const auto hind = worded_for(Limb::left_hind, text);
      INFO(row.id << ": " << hind);
      CHECK(hind.find("almar") == std::string::npos);
      CHECK(hind.find("MC3") == std::string::npos);
      // The fore limb of a picture of the hind limb has no plantar side.
      CHECK(hind.find("plantar edge of the fore") == std::string::npos);
      CHECK(hind.find("elbow") == std::string::npos);
      CHECK(worded_for(Limb::left_fore, text) == text);
    }
  }
}
