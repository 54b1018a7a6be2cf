/// Derivatives of every measurement by automatic differentiation against central differences of
/// the same formula with plain numbers.
#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "animals.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr std::uint64_t first_seed = 880;
constexpr int feet_a_kind = 6;
/// mm. The differences' own error is a third derivative times h^2, and rounding over h: both below
/// 1e-6 of the largest derivative where lengths are some dozens of mm.
constexpr double h = 1e-4;
constexpr double allowed = 2e-6;

double moved(const Definition& row, Placed<double> placed, std::size_t i, PlaneVector by) {
  placed.points()[i].second = placed.points()[i].second + by;
  const auto drawn = evaluate(row, placed);
  REQUIRE(drawn);
  return drawn->value;
}

} // namespace

// Truth: central differences, (f(x + h) - f(x - h)) / 2h
TEST_CASE("every derivative is the slope that central differences see", "[measure]") {
  double worst = 0;
  int compared = 0;
  for (const auto& kind : animals::kinds())
    for (std::uint64_t seed = first_seed; seed < first_seed + feet_a_kind; ++seed) {
      feet::Random random(seed);
      auto foot = animals::make(kind, random);
      if (seed % 2 == 0)
        foot = animals::without_plumb(foot);
      const auto reading = feet::reading(foot);
      const auto at = placed(reading);
      const auto propagated = propagation(reading, kind.spreads);
      for (const auto* row : animals::rows(kind)) {
        INFO(kind.name() << ", seed " << seed << ", " << row->id);
        const auto drawn = evaluate(*row, propagated.placed);
        REQUIRE(drawn);
        double largest = 0, off = 0;
        for (std::size_t i = 0; i < at.points().size(); ++i) {
          const double x = (moved(*row, at, i, {h, 0}) - moved(*row, at, i, {-h, 0})) / (2 * h);
          const double y = (moved(*row, at, i, {0, h}) - moved(*row, at, i, {0, -h})) / (2 * h);
          largest = std::max({largest, std::abs(x), std::abs(y)});
          off = std::max({off,
                          std::abs(x - drawn->value.partial[1 + 2 * i]),
                          std::abs(y - drawn->value.partial[2 + 2 * i])});
          compared += 2;
        }
        CHECK(largest > 0);
        CHECK(off < allowed * largest);
        worst = std::max(worst, off / largest);
      }
    }
  std::printf("%d derivatives, worst %.1e of a row's largest\n", compared, worst);
}
