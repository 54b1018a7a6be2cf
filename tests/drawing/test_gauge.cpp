#include "drawing/gauge.h"
#include "drawing/ink.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <set>
#include <variant>

using namespace pritchel;
using namespace pritchel::drawing;

namespace {

const GaugeBox box{{10, 20}, 40, 3};

std::set<Ink> inks(const Sheet& sheet) {
  std::set<Ink> found;
  for (const auto& item : sheet)
    found.insert(item.ink);
  return found;
}

double relative_luminance(Rgb colour) {
  const auto linear = [](double c) {
    return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(((colour >> 16U) & 0xFFU) / 255.0) +
         0.7152 * linear(((colour >> 8U) & 0xFFU) / 255.0) +
         0.0722 * linear((colour & 0xFFU) / 255.0);
}

double contrast(Rgb a, Rgb b) {
  const double la = relative_luminance(a), lb = relative_luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

} // namespace

// Truth: law; random values with a fixed seed.
TEST_CASE("a gauge's scale holds everything it shows", "[drawing]") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> any(-50, 50);
  for (int i = 0; i < 500; ++i) {
    const double value = any(random), half = std::abs(any(random));
    const GaugeValues values{.value = value,
                             .low = value - half,
                             .high = value + half,
                             .band_low = any(random),
                             .band_high = std::nullopt,
                             .has_band = true,
                             .earlier = any(random),
                             .target_low = any(random)};
    const auto scale = gauge_scale(values);
    for (const double shown :
         {value, values.low, values.high, *values.band_low, *values.earlier, *values.target_low}) {
      CHECK(shown > scale.from);
      CHECK(shown < scale.to);
    }
  }
}

// Truth: geometry; value in the middle of a scale from 0 to 10 over 40 mm beginning at 10 mm.
TEST_CASE("the value's tick stands where the value is", "[drawing]") {
  const GaugeValues values{.value = 5, .low = 4, .high = 6};
  const auto sheet = gauge(values, {0, 10}, box, "x");
  bool found = false;
  for (const auto& item : sheet)
    if (const auto* area = std::get_if<AreaItem<PaperFrame>>(&item.shape)) {
      found = true;
      CHECK((area->points[0].x + area->points[1].x) / 2 == Approx(30));
    }
  CHECK(found);
}

TEST_CASE("sure, unsure and unknown look different", "[drawing]") {
  const GaugeValues sure{.value = 5, .low = 4, .high = 6};
  auto unsure = sure;
  unsure.sure = false;
  const GaugeValues unknown{};
  CHECK(inks(gauge(sure, {0, 10}, box, "")).count(Ink::text) == 1);
  CHECK(inks(gauge(unsure, {0, 10}, box, "")).count(Ink::text) == 0);
  CHECK(gauge(unknown, {0, 10}, box, "").size() == 1);
}

TEST_CASE("bone, hoof, ground and proposal differ without colour too", "[drawing]") {
  std::set<Dash> dashes;
  for (const Ink ink : {Ink::bone, Ink::hoof, Ink::ground, Ink::proposal})
    dashes.insert(look(ink).dash);
  CHECK(dashes.size() == 4);
  CHECK(look(Ink::proposal).dash[0] > 0);
}

// Truth: WCAG 2.1, 1.4.3 (text 4.5:1) and 1.4.11 (graphics 3:1).
TEST_CASE("inks keep the contrast that people need", "[drawing]") {
  for (const auto& row : ink_table()) {
    if (row.ink == Ink::band)
      continue;
    INFO(row.name);
    CHECK(contrast(row.over_picture, halo_colour) >= 3);
    CHECK(contrast(row.on_paper, 0xFFFFFF) >= 4.5);
    CHECK(contrast(row.on_paper, paper_white) >= 4.5);
  }
}
