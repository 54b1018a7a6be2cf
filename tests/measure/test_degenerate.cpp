/// Landmarks that make no foot: never a number, never a crash, always a reason.
#include "base/limits.h"
#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <limits>

#include "animals.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr std::uint64_t seed = 99;

Reading whole(const animals::Kind& kind) {
  feet::Random random(seed);
  return feet::reading(animals::make(kind, random));
}
Reading whole(View view) {
  feet::Random random(seed);
  return feet::reading(feet::any(view, random));
}

/// Measurable numbers are finite; the rest say why they aren't.
void check_sound(const Reading& reading) {
  for (const auto& each : measure_reading(reading, feet::spreads(), {})) {
    INFO(each.definition->id << ": " << each.reason);
    if (each.measurable()) {
      CHECK(std::isfinite(each.value));
      CHECK(std::isfinite(each.standard_uncertainty));
      CHECK(each.standard_uncertainty > 0);
    } else {
      CHECK_FALSE(each.reason.empty());
      CHECK(each.construction.strokes.empty());
    }
  }
}

Measurement measured(const Reading& reading, std::string_view id) {
  return *find(measure_reading(reading, feet::spreads(), {}), id);
}

ImagePoint& at(Reading& reading, std::string_view id) {
  for (auto& landmark : reading.landmarks)
    if (landmark.id == id)
      return landmark.at;
  FAIL("no landmark " << id);
  std::abort();
}

} // namespace

// Truth: law, two points on one spot carry no direction
TEST_CASE("any two landmarks on one spot give a reason or a sound number", "[measure]") {
  for (const auto& kind : animals::kinds()) {
    const auto reading = whole(kind);
    for (std::size_t i = 0; i < reading.landmarks.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        auto same = reading;
        same.landmarks[i].at = same.landmarks[j].at;
        INFO(same.landmarks[i].id << " on " << same.landmarks[j].id);
        check_sound(same);
        auto unscaled = same;
        unscaled.calibration = {};
        check_sound(unscaled);
      }
  }
}

// Truth: law, what isn't a number makes none
TEST_CASE("a landmark that isn't finite makes no number", "[measure]") {
  for (const double bad : {std::nan(""), std::numeric_limits<double>::infinity(), 1e9})
    for (const auto& kind : animals::kinds()) {
      const auto reading = whole(kind);
      for (std::size_t i = 0; i < reading.landmarks.size(); ++i)
        for (const bool x : {true, false}) {
          auto broken = reading;
          (x ? broken.landmarks[i].at.x : broken.landmarks[i].at.y) = bad;
          INFO(broken.landmarks[i].id);
          if (!std::isfinite(bad)) {
            for (const auto& each : measure_reading(broken, feet::spreads(), {}))
              for (const auto id : each.definition->needs)
                if (id == broken.landmarks[i].id) {
                  INFO(each.definition->id);
                  CHECK_FALSE(each.measurable());
                }
          }
          check_sound(broken);
        }
    }
}

// Truth: law, landmarks thrown anywhere
TEST_CASE("random points never give an unsound number", "[measure]") {
  feet::Random random(seed);
  for (int trial = 0; trial < 100; ++trial)
    for (const auto& kind : animals::kinds()) {
      auto reading = whole(kind);
      for (auto& landmark : reading.landmarks)
        landmark.at = {feet::between(random, 0, 2000), feet::between(random, 0, 2000)};
      check_sound(reading);
      // The same in an order that passes the checks of sides.
      auto nearly = whole(kind);
      for (auto& landmark : nearly.landmarks)
        landmark.at = {landmark.at.x + feet::between(random, -60, 60),
                       landmark.at.y + feet::between(random, -60, 60)};
      check_sound(nearly);
    }
}

// Truth: law, an empty reading and one with names nobody knows
TEST_CASE("an empty reading has reasons only", "[measure]") {
  Reading reading;
  reading.calibration.origin = ScaleOrigin::marker;
  for (const auto& each : measure_reading(reading, feet::spreads(), {})) {
    CHECK_FALSE(each.measurable());
    CHECK(each.missing.size() == each.definition->needs.count);
  }
  reading.landmarks = {{"no-such-landmark", {1, 2}}, {"", {3, 4}}};
  check_sound(reading);
}

// Truth: the limits' own numbers: 60 mm of ground, 30 mm of long pastern, 3 mm of any other line
TEST_CASE("lines too short to carry a direction are refused by their length", "[measure]") {
  const auto with_span = [](const char* from, const char* to, double mm, std::string_view id) {
    auto reading = whole(View::lateromedial);
    const auto a = at(reading, from), b = at(reading, to);
    const double apart = std::hypot(b.x - a.x, b.y - a.y) * 0.15;
    at(reading, to) = {a.x + (b.x - a.x) * mm / apart, a.y + (b.y - a.y) * mm / apart};
    return measured(reading, id);
  };
  const auto refused = [](const Measurement& m) {
    return !m.measurable() && m.reason.find("apart") != std::string::npos;
  };
  CHECK(refused(with_span("ground-heel", "ground-toe", 59.9, "palmar-angle")));
  CHECK_FALSE(refused(with_span("ground-heel", "ground-toe", 60.1, "palmar-angle")));
  CHECK_FALSE(refused(with_span("ground-heel", "ground-toe", 59.9, "p3-bone-angle")));
  CHECK(refused(with_span("p1-axis-distal", "p1-axis-proximal", 29.9, "hpa-deviation")));
  CHECK_FALSE(refused(with_span("p1-axis-distal", "p1-axis-proximal", 30.1, "hpa-deviation")));
  CHECK(refused(with_span("sole-b", "sole-a", 2.9, "sole-depth-tip")));
  CHECK_FALSE(refused(with_span("sole-b", "sole-a", 3.1, "sole-depth-tip")));
}

// Truth: law, a landmark that nothing is measured from changes nothing. More than the limit can't
// come in: a reading's file is refused for it
TEST_CASE("as many landmarks as there is room for don't get confused", "[measure]") {
  for (const auto& kind : animals::kinds()) {
    const auto plain = whole(kind);
    auto crowded = plain;
    for (int i = 0; crowded.landmarks.size() < limits::landmarks_in_reading; ++i)
      crowded.landmarks.insert(crowded.landmarks.begin(),
                               {"extra-" + std::to_string(i), {1.0 * i, 2.0 * i}});
    const auto a = measure_reading(plain, kind.spreads, {});
    const auto b = measure_reading(crowded, kind.spreads, {});
    for (std::size_t i = 0; i < a.size(); ++i) {
      INFO(a[i].definition->id);
      CHECK(a[i].value == b[i].value);
      CHECK(std::abs(a[i].standard_uncertainty - b[i].standard_uncertainty) < 1e-12);
    }
  }
}
