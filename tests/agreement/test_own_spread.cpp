#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

#include "../measure/feet.h"
#include "agreement/repeats.h"

using namespace pritchel;
using namespace pritchel::agreement;
using measure::Placed;
using measure::Spread;
using measure::Spreads;

namespace {

Placed<double> ground_and_tip(PlanePoint heel, PlanePoint toe, PlanePoint tip) {
  Placed<double> placed;
  placed.put("ground-heel", heel);
  placed.put("ground-toe", toe);
  placed.put("p3-tip", tip);
  return placed;
}

double normal(feet::Random& random) {
  return std::normal_distribution<double>()(random);
}

/// The foot as somebody with these spreads places it.
feet::PlaneFoot read(const feet::PlaneFoot& foot, const Spreads& truth, feet::Random& random) {
  const auto placed = feet::placed(foot);
  auto moved = foot;
  for (auto& [id, at] : moved.points) {
    const auto spread = truth.find(id);
    if (spread == truth.end())
      continue;
    const auto along = direction_of(spread->second, placed);
    REQUIRE(along);
    at = at + *along * (spread->second.along_mm * normal(random)) +
         left_normal(*along) * (spread->second.across_mm * normal(random));
  }
  return moved;
}

/// A practice whose hand isn't the usual one: some landmarks steadier, some less.
Spreads unusual_hand(feet::Random& random) {
  Spreads spreads = feet::spreads();
  for (auto& [id, spread] : spreads) {
    spread.across_mm *= feet::between(random, 0.5, 3);
    spread.along_mm *= spread.from.empty() ? 1 : feet::between(random, 0.5, 3);
    if (spread.from.empty())
      spread.along_mm = spread.across_mm;
  }
  return spreads;
}

Spreads learnt(const Spreads& truth, int pictures, feet::Random& random) {
  std::map<std::string, Scatter, std::less<>> scatters;
  for (int i = 0; i < pictures; ++i) {
    const auto foot = feet::lateromedial(random);
    const std::array turns = {feet::placed(read(foot, truth, random)),
                              feet::placed(read(foot, truth, random))};
    for (const auto& [id, spread] : feet::spreads())
      scatters[id].add(turns, spread, id);
  }
  Spreads own = feet::spreads();
  for (const auto& [id, scatter] : scatters)
    if (const auto spread = own_spread(scatter, feet::spreads().at(id)))
      own[id] = spread->spread;
  return own;
}

struct Held {
  int inside = 0;
  int all = 0;
  void count(const measure::Measurement& said, double truth) {
    ++all;
    inside += truth >= said.low() && truth <= said.high() ? 1 : 0;
  }
  [[nodiscard]] double share() const { return static_cast<double>(inside) / all; }
};

} // namespace

// Truth: by hand. The ground rises by 3 over 4, so along is (0.8, 0.6) and across (-0.6, 0.8); the
// tip moves by (1, 2): along 0.8 + 1.2 = 2, across -0.6 + 1.6 = 1.
TEST_CASE("a landmark's difference is split along and across its spread's direction",
          "[agreement][landmark]") {
  const Spread spread{.from = "ground-heel", .to = "ground-toe"};
  const auto a = ground_and_tip({0, 0}, {40, 30}, {10, 10});
  const auto b = ground_and_tip({0, 0}, {40, 30}, {11, 12});
  const auto split = offset(a, b, spread, "p3-tip");
  REQUIRE(split);
  CHECK(split->along_mm == Approx(2));
  CHECK(split->across_mm == Approx(1));
  const auto plain = offset(a, b, Spread{}, "p3-tip");
  REQUIRE(plain);
  CHECK(plain->along_mm == Approx(1));
  CHECK(plain->across_mm == Approx(2));
}

TEST_CASE("a landmark that one of them lacks has no difference", "[agreement][landmark]") {
  auto a = ground_and_tip({0, 0}, {40, 30}, {10, 10});
  const auto b = a;
  a.remove("p3-tip");
  CHECK_FALSE(offset(a, b, Spread{}, "p3-tip"));
  a = b;
  a.remove("ground-toe");
  CHECK_FALSE(offset(a, b, Spread{.from = "ground-heel", .to = "ground-toe"}, "p3-tip"));
}

TEST_CASE("an own spread is used from ten repeats on five pictures, not before",
          "[agreement][repeats]") {
  const auto after = [](int pairs, int turns) {
    Scatter scatter;
    for (int i = 0; i < pairs; ++i) {
      std::vector<Placed<double>> readings;
      for (int turn = 0; turn < turns; ++turn)
        readings.push_back(ground_and_tip({0, 0}, {100, 0}, {10, 10.0 + turn}));
      scatter.add(readings, Spread{}, "p3-tip");
    }
    return own_spread(scatter, Spread{});
  };
  CHECK_FALSE(after(9, 2));
  CHECK(after(10, 2));
  CHECK_FALSE(after(4, 5)); // 16 repeats, but of four pictures
  CHECK(after(5, 3));
}

// Truth: by hand. Ten pairs 2 mm apart across: sqrt(10 * 4 / 20) = sqrt(2), widened by
// sqrt(10 / 8); along they lie on each other, which is believed down to a tenth of a millimetre.
TEST_CASE("an own spread is the pooled SD, widened for being estimated", "[agreement][repeats]") {
  Scatter scatter;
  const Spread usual{.across_mm = 9, .along_mm = 9, .from = "ground-heel", .to = "ground-toe"};
  for (int i = 0; i < 10; ++i)
    scatter.add(std::array{ground_and_tip({0, 0}, {100, 0}, {10, 10}),
                           ground_and_tip({0, 0}, {100, 0}, {10, 12})},
                usual,
                "p3-tip");
  const auto own = own_spread(scatter, usual);
  REQUIRE(own);
  CHECK(own->repeats == 10);
  CHECK(own->pictures == 10);
  CHECK(own->spread.across_mm == Approx(std::sqrt(2.0 * 10 / 8)));
  CHECK(own->spread.along_mm == Approx(smallest_own_spread_mm));
  CHECK(own->spread.from == "ground-heel");
}

// Truth: nominal coverage. Practices whose true spreads are drawn at random; each learns its own
// from as few pairs as are accepted, then reads a new foot. 3,000 practices: by chance alone a
// share of 0.95 strays 0.942 to 0.958 (95 % of runs); plus and minus two standard deviations of a
// normal error hold 0.954. The asked band is 0.93 to 0.97. With the usual spreads, which aren't
// these practices', it must fail: else the test couldn't.
TEST_CASE("intervals from own spreads hold the truth in 93 to 97 % of readings",
          "[agreement][coverage]") {
  constexpr int practices = 3000;
  feet::Random random(7301);
  std::map<std::string_view, Held> own, usual;
  for (int i = 0; i < practices; ++i) {
    const auto hand = unusual_hand(random);
    const auto spreads = learnt(hand, fewest_repeats, random);
    const auto foot = feet::lateromedial(random);
    const auto truth = measure::measure_reading(feet::reading(foot), spreads, {});
    const auto reading = feet::reading(read(foot, hand, random));
    const auto with_own = measure::measure_reading(reading, spreads, {});
    const auto with_usual = measure::measure_reading(reading, feet::spreads(), {});
    for (const auto id : {"palmar-angle", "hoof-angle", "sole-depth-tip", "tip-ground-height"}) {
      const auto* real = measure::find(truth, id);
      const auto* said = measure::find(with_own, id);
      REQUIRE(real->measurable());
      if (!said->measurable())
        continue;
      own[id].count(*said, real->value);
      usual[id].count(*measure::find(with_usual, id), real->value);
    }
  }
  for (const auto& [id, held] : own) {
    INFO(id << ": own " << held.share() << ", usual " << usual[id].share());
    CHECK(held.all > practices * 95 / 100);
    CHECK(held.share() >= 0.93);
    CHECK(held.share() <= 0.97);
    CHECK(usual[id].share() < 0.93);
  }
}
