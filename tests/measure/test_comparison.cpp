/// Two pictures held against each other: what disappears when the limb hangs, and what stays.
#include "measure/comparison.h"

#include <catch2/catch.hpp>

#include <cmath>

#include "animals.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr std::uint64_t seed = 3300;
constexpr int draws = 20'000;
/// A standard deviation from 20,000 draws is itself unsure by half a per cent.
constexpr double sampling = 0.02;

/// A standing and a hanging picture of one limb.
struct Pair {
  Reading standing;
  Reading hanging;
  std::string standing_kind;
  std::string hanging_kind;

  [[nodiscard]] std::vector<Compared> shares() const {
    return posture_shares(measure_reading(standing, animals::kind(standing_kind).spreads, {}),
                          measure_reading(hanging, animals::kind(hanging_kind).spreads, {}));
  }
};

Pair pair_of(const char* standing, const char* hanging) {
  feet::Random random(seed);
  return {feet::reading(animals::make(animals::kind(standing), random)),
          feet::reading(animals::make(animals::kind(hanging), random)),
          standing,
          hanging};
}

const std::vector<Pair>& pairs() {
  static const std::vector<Pair> all = {pair_of("fore-limb-front", "fore-limb-hanging"),
                                        pair_of("fore-limb-behind", "fore-limb-hanging"),
                                        pair_of("hind-limb-behind", "hind-limb-hanging")};
  return all;
}

/// The same picture read again, each landmark off by its own spread.
Reading read_again(const Reading& reading, const Spreads& spreads, feet::Random& random) {
  std::normal_distribution<double> normal;
  auto again = reading;
  const auto at = placed(reading);
  for (auto& landmark : again.landmarks) {
    const auto c = placement_covariance(reading, at, spreads, landmark.id);
    const double a = std::sqrt(c.xx), b = c.xy / a, d = std::sqrt(c.yy - b * b);
    const double first = normal(random), second = normal(random);
    const double to_the_right = reading.toward == PictureSide::right ? 1 : -1;
    landmark.at.x += to_the_right * a * first / reading.calibration.pixel_width_mm;
    landmark.at.y -= (b * first + d * second) / reading.calibration.pixel_height_mm;
  }
  return again;
}

} // namespace

// Truth: law, posture is standing less hanging; JCGM 100:2008, 5.1.2: independent variances add
TEST_CASE("posture is what stands less what hangs, with both uncertainties", "[measure]") {
  std::size_t found = 0;
  for (const auto& pair : pairs()) {
    const auto standing =
                   measure_reading(pair.standing, animals::kind(pair.standing_kind).spreads, {}),
               hanging =
                   measure_reading(pair.hanging, animals::kind(pair.hanging_kind).spreads, {});
    for (const auto& share : pair.shares()) {
      INFO(share.comparison->id);
      const auto* first = find(standing, share.comparison->first);
      const auto* second = find(hanging, share.comparison->second);
      REQUIRE(first);
      REQUIRE(second);
      CHECK(first->definition->unit == second->definition->unit);
      CHECK(share.difference == Approx(first->value - second->value));
      CHECK(share.difference + share.second.value == Approx(share.first.value));
      CHECK(share.standard_uncertainty * share.standard_uncertainty ==
            Approx(first->standard_uncertainty * first->standard_uncertainty +
                   second->standard_uncertainty * second->standard_uncertainty));
      ++found;
    }
  }
  CHECK(found >= comparisons().size());
}

// Truth: law, a limb that hangs as it stands has no posture share
TEST_CASE("equal angles standing and hanging leave nothing to posture", "[measure]") {
  Measurement standing{.definition = definition("fetlock-frontal"),
                       .status = Status::no_band,
                       .value = 2.5,
                       .standard_uncertainty = 0.3};
  Measurement hanging = standing;
  hanging.definition = definition("hanging-fetlock-frontal");
  hanging.standard_uncertainty = 0.4;
  const auto shares = posture_shares({standing}, {hanging});
  REQUIRE(shares.size() == 1);
  CHECK(shares[0].difference == 0);
  CHECK(shares[0].standard_uncertainty == Approx(0.5)); // 3-4-5
  CHECK(posture_shares({standing}, {}).empty());
  hanging.status = Status::not_measurable;
  CHECK(posture_shares({standing}, {hanging}).empty());
}

// Truth: JCGM 101:2008, both pictures read again 20,000 times, independently
TEST_CASE("a posture share's uncertainty agrees with reading both pictures again", "[measure]") {
  for (const auto& pair : pairs()) {
    const auto stated = pair.shares();
    feet::Random random(seed + 1);
    std::vector<double> sum(stated.size()), squares(stated.size());
    std::vector<int> count(stated.size());
    const auto value = [](std::string_view id, const Reading& reading) {
      return evaluate(*definition(id), placed(reading));
    };
    for (int k = 0; k < draws; ++k) {
      const auto standing =
          read_again(pair.standing, animals::kind(pair.standing_kind).spreads, random);
      const auto hanging =
          read_again(pair.hanging, animals::kind(pair.hanging_kind).spreads, random);
      for (std::size_t i = 0; i < stated.size(); ++i) {
        const auto first = value(stated[i].comparison->first, standing);
        const auto second = value(stated[i].comparison->second, hanging);
        if (!first || !second)
          continue;
        const double d = first->value - second->value;
        sum[i] += d;
        squares[i] += d * d;
        ++count[i];
      }
    }
    for (std::size_t i = 0; i < stated.size(); ++i) {
      const double mean = sum[i] / count[i];
      const double seen = std::sqrt(squares[i] / count[i] - mean * mean);
      INFO(stated[i].comparison->id << " stated " << stated[i].standard_uncertainty << " seen "
                                    << seen << ", " << count[i] << " of " << draws);
      CHECK(std::abs(stated[i].standard_uncertainty / seen - 1) < 0.05 + sampling);
    }
  }
}

// Truth: law, one joint on two blocks: the second less the first
TEST_CASE("flexion of the coffin joint is the second picture less the first", "[measure]") {
  Measurement flat{.definition = definition("dip-deviation"),
                   .status = Status::no_band,
                   .value = -3,
                   .standard_uncertainty = 0.6};
  Measurement on_block = flat;
  on_block.value = 9;
  on_block.standard_uncertainty = 0.8;
  const auto change = flexion_change({flat}, {on_block});
  REQUIRE(change);
  CHECK(change->difference == 12);
  CHECK(change->standard_uncertainty == Approx(1.0));
  CHECK_FALSE(flexion_change({flat}, {}));
}
