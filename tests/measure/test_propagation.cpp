/// Stated uncertainties against formulas in closed form for lines and angles from points.
#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>

#include "animals.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr double radians_per_degree = 3.14159265358979323846 / 180;
/// The closed forms were printed with five decimals.
constexpr double last_printed_digit = 6e-6;

using Points = std::vector<std::pair<std::string, PlanePoint>>;

/// Every landmark a round spread of 0.5 mm, the ground exact.
Spreads half_a_millimetre(const Points& points) {
  Spreads spreads;
  for (const auto& [id, at] : points)
    spreads[id] = {0.5, 0.5, "", ""};
  spreads["ground-heel"] = spreads["ground-toe"] = {0, 0, "", ""};
  return spreads;
}

double stated(Points points, std::string_view id, const Spreads* given = nullptr) {
  points.push_back({"ground-heel", {-100, 0}});
  points.push_back({"ground-toe", {100, 0}});
  const Spreads own = half_a_millimetre(points);
  const auto all = measure_reading(
      feet::reading({View::lateromedial, Shoeing::bare, points}), given ? *given : own, {});
  const auto* found = find(all, id);
  REQUIRE(found);
  INFO(id << ": " << found->reason);
  REQUIRE(found->measurable());
  return found->standard_uncertainty;
}

/// Rising towards the heel.
PlanePoint from(const PlanePoint& p, double slope_deg, double mm) {
  const double a = slope_deg * radians_per_degree;
  return {p.x - mm * std::cos(a), p.y + mm * std::sin(a)};
}

} // namespace

// Truth: first order, u = sqrt(2) s / L; L 65, s 0.5: 0.62330 degrees
TEST_CASE("the direction of a line through two points", "[measure]") {
  const PlanePoint p{20, 30};
  for (const double slope : {10.0, 50.0, 90.0})
    CHECK(std::abs(stated({{"p1-axis-distal", p}, {"p1-axis-proximal", from(p, slope, 65)}},
                          "p1-angle") -
                   0.62330) < last_printed_digit);
}

// Truth: first order, u^2 = s^2 (2/L1^2 + 2/L2^2): 0.88147, 1.48737, 1.09088 degrees
TEST_CASE("the angle between two lines from four points", "[measure]") {
  for (const auto& [first, second, expected] :
       {std::tuple{65.0, 65.0, 0.88147}, {65.0, 30.0, 1.48737}, {100.0, 40.0, 1.09088}}) {
    const PlanePoint p{60, 20}, q{90, 10};
    CHECK(std::abs(stated({{"p3-dorsal-distal", p},
                           {"p3-dorsal-proximal", from(p, 55, second)},
                           {"p1-axis-distal", q},
                           {"p1-axis-proximal", from(q, 40, first)}},
                          "hpa-deviation") -
                   expected) < last_printed_digit);
  }
}

// Truth: first order, u^2 = s^2 (2/a^2 + 2/b^2 - 2 cos t/(ab)): 0.72614, 1.21730, 1.44018 degrees;
// a formula that took the corner for two points would give 0.88147, 1.21730, 1.21730
TEST_CASE("a corner shared by two lines is one landmark, not two", "[measure]") {
  for (const auto& [a, b, t, expected] : {std::tuple{65.0, 65.0, 50.0, 0.72614},
                                          {40.0, 60.0, 90.0, 1.21730},
                                          {40.0, 60.0, 150.0, 1.44018}}) {
    const PlanePoint corner{100, 20};
    const Points points = {{"p3-tip", corner},
                           {"p3-palmar-process", from(corner, 5, a)},
                           {"p3-dorsal-proximal", from(corner, 5 + t, b)}};
    auto propagated = propagation(feet::reading({View::lateromedial, Shoeing::bare, points}),
                                  half_a_millimetre(points));
    propagated.placed.put("p3-dorsal-distal", propagated.placed["p3-tip"]);
    const auto drawn = evaluate(*definition("p3-bone-angle"), propagated.placed);
    REQUIRE(drawn);
    CHECK(std::abs(drawn->value.value - t) < 1e-9);
    CHECK(std::abs(standard_uncertainty(drawn->value, propagated) - expected) < last_printed_digit);
  }
}

// Truth: first order, u = sqrt(2) s = 0.70711 mm
TEST_CASE("the distance of two points", "[measure]") {
  CHECK(
      std::abs(stated({{"coronary-band", {70, 70}}, {"wall-toe-ground", {120, 0}}}, "toe-length") -
               0.70711) < last_printed_digit);
}

// Truth: worked case 14: base 65.19, 0.8 and 0.7 mm across: 0.934 degrees; dorsal pair 48.41 apart,
// 0.4 mm across: 0.670; together 1.149
TEST_CASE("the palmar angle's and the bone angle's stated uncertainty", "[measure]") {
  const Points points = {{"p3-tip", {112, 17}},
                         {"p3-palmar-process", {47, 22}},
                         {"p3-dorsal-distal", {104, 25}},
                         {"p3-dorsal-proximal", {74, 63}}};
  const Spreads spreads = {
      {"ground-heel", {0, 0, "", ""}},
      {"ground-toe", {0, 0, "", ""}},
      {"p3-tip", {0.7, 0.7, "", ""}},
      {"p3-palmar-process", {0.8, 2.5, "p3-palmar-process", "p3-tip"}},
      {"p3-dorsal-distal", {0.4, 9, "p3-dorsal-distal", "p3-dorsal-proximal"}},
      {"p3-dorsal-proximal", {0.4, 9, "p3-dorsal-distal", "p3-dorsal-proximal"}}};
  constexpr double printed = 0.0006;
  CHECK(std::abs(stated(points, "palmar-angle", &spreads) - 0.934) < printed);
  CHECK(std::abs(stated(points, "p3-dorsal-angle", &spreads) - 0.670) < printed);
  CHECK(std::abs(stated(points, "p3-bone-angle", &spreads) - 1.149) < printed);
}

// Truth: geometry, variance across and along a line at 30 degrees: rotation of diag(a^2, b^2)
TEST_CASE("a spread across and along a line is an ellipse along that line", "[measure]") {
  Reading reading;
  reading.toward = PictureSide::right;
  reading.calibration.origin = ScaleOrigin::marker;
  reading.landmarks = {
      {"p3-tip", {0, 0}},
      {"p3-palmar-process",
       {-100 * std::cos(30 * radians_per_degree), 100 * std::sin(30 * radians_per_degree)}}};
  const Spreads spreads = {{"p3-tip", {0.5, 2, "p3-palmar-process", "p3-tip"}},
                           {"p3-palmar-process", {0.5, 2, "p3-palmar-process", "nowhere"}}};
  const auto at = placed(reading);
  const auto along = placement_covariance(reading, at, spreads, "p3-tip");
  CHECK(along.xx == Approx(4 * 0.75 + 0.25 * 0.25));
  CHECK(along.yy == Approx(4 * 0.25 + 0.25 * 0.75));
  CHECK(along.xy == Approx((4 - 0.25) * std::sqrt(0.75) * 0.5));
  // A direction that can't be drawn: the larger spread all round, never the smaller.
  const auto round = placement_covariance(reading, at, spreads, "p3-palmar-process");
  CHECK(round.xx == Approx(4));
  CHECK(round.yy == Approx(4));
  CHECK(round.xy == Approx(0).margin(1e-12));
  const auto unlisted = placement_covariance(reading, at, {}, "p3-tip");
  CHECK(unlisted.xx == Approx(unlisted_spread_mm * unlisted_spread_mm));
  // A proposal taken over is less sure than a point of one's own, in every direction alike.
  const auto taken_over =
      placement_covariance(reading, at, spreads, "p3-tip", Placement::confirmed);
  const double wider = confirmed_spread_ratio * confirmed_spread_ratio;
  CHECK(taken_over.xx == Approx(wider * along.xx));
  CHECK(taken_over.xy == Approx(wider * along.xy));
  CHECK(taken_over.yy == Approx(wider * along.yy));
}

// Truth: JCGM 100:2008 (GUM), H.2, five sets of V, I and phi measured together: R 127.732 +- 0.071,
// X 219.847 +- 0.295, Z 254.260 +- 0.236, correlations -0.588, -0.485, 0.993 (data from memory,
// they give every printed figure). Without the correlations R would be 0.195 unsure
TEST_CASE("resistance and reactance from correlated inputs", "[measure]") {
  constexpr std::array<std::array<double, 3>, 5> sets = {{{5.007, 19.663e-3, 1.0456},
                                                          {4.994, 19.639e-3, 1.0438},
                                                          {5.005, 19.640e-3, 1.0468},
                                                          {4.990, 19.685e-3, 1.0428},
                                                          {4.999, 19.678e-3, 1.0433}}};
  std::array<double, 3> mean{};
  for (const auto& set : sets)
    for (std::size_t i = 0; i < 3; ++i)
      mean[i] += set[i] / 5;
  // Two landmarks carry the inputs: (V, I) and (phi, nothing). The means' covariance is the sum
  // over the sets of deviation times deviation / (5 * 4): five errors common to both landmarks.
  Propagation propagated;
  propagated.landmarks = {{0, 0, 0}, {0, 0, 0}};
  for (const auto& set : sets) {
    std::array<double, 3> d{};
    for (std::size_t i = 0; i < 3; ++i)
      d[i] = (set[i] - mean[i]) / std::sqrt(20.0);
    propagated.common.push_back({{d[0], d[1]}, {d[2], 0}});
  }
  const auto V = Gradient::input(mean[0], 1), I = Gradient::input(mean[1], 2),
             phi = Gradient::input(mean[2], 3);
  const auto R = V * cos(phi) / I, X = V * sin(phi) / I, Z = V / I;
  const auto u = [&](const Gradient& g) { return standard_uncertainty(g, propagated); };
  const auto r = [&](const Gradient& a, const Gradient& b) {
    return covariance(a, b, propagated) / (u(a) * u(b));
  };
  constexpr double printed = 0.0006;
  CHECK(std::abs(R.value - 127.732) < printed);
  CHECK(std::abs(X.value - 219.847) < printed);
  CHECK(std::abs(Z.value - 254.260) < printed);
  CHECK(std::abs(u(R) - 0.071) < printed);
  CHECK(std::abs(u(X) - 0.295) < 0.0007); // 0.2956: the document rounds down
  CHECK(std::abs(u(Z) - 0.236) < printed);
  CHECK(std::abs(r(R, X) + 0.588) < printed);
  CHECK(std::abs(r(R, Z) + 0.485) < printed);
  CHECK(std::abs(r(X, Z) - 0.993) < printed);
  // The same inputs without their correlations: what a program that dropped them would state.
  Propagation apart;
  apart.landmarks = {{0.003209 * 0.003209, 0, 0.009471e-3 * 0.009471e-3},
                     {0.000752 * 0.000752, 0, 0}};
  CHECK(std::abs(standard_uncertainty(R, apart) - 0.1945) < printed);
  CHECK(std::abs(standard_uncertainty(X, apart) - 0.2009) < printed);
  CHECK(std::abs(standard_uncertainty(Z, apart) - 0.2041) < printed);
}

// Truth: JCGM 101:2008, 20,000 draws of a card's map and lens, each put through the map itself
TEST_CASE("a card's errors common to all landmarks agree with Monte Carlo", "[measure]") {
  for (const char* name : {"fore-limb-side", "sole", "fore-limb-front"}) {
    const auto& kind = animals::kind(name);
    feet::Random random(611);
    auto reading = feet::reading(animals::make(kind, random));
    for (auto& landmark : reading.landmarks) // into a picture of 4,000 pixels
      landmark.at = {landmark.at.x * 0.3 + 3000, landmark.at.y * 0.3 + 2500};
    const double s = 0.5;
    Rectification card{.map = {s, 0.02 * s, 3, -0.01 * s, s, -2, 1.5e-5, -1e-5, 1},
                       .lens = Lens{{2000, 1500}, 3200, 0.03}};
    const std::array<double, 8> unsure = {2e-3, 1e-3, 0.5, 1e-3, 2e-3, 0.5, 3e-7, 3e-7};
    for (std::size_t i = 0; i < unsure.size(); ++i) {
      auto map = card.map;
      map[i] += unsure[i];
      card.one_sigma.push_back({map, card.lens});
    }
    auto bent = card.lens;
    bent->k1 += 0.005;
    card.one_sigma.push_back({card.map, bent});
    reading.calibration = {.origin = ScaleOrigin::card, .rectification = card};

    Spreads exact; // nothing but the card is unsure
    for (const auto& landmark : reading.landmarks)
      exact[landmark.id] = {0, 0, "", ""};
    const auto stated = measure_reading(reading, exact, {});
    std::normal_distribution<double> normal;
    std::vector<double> sum(stated.size()), squares(stated.size());
    constexpr int draws = 20'000;
    for (int k = 0; k < draws; ++k) {
      auto drawn = reading;
      auto& moved = *drawn.calibration.rectification;
      for (std::size_t i = 0; i < unsure.size(); ++i)
        moved.map[i] += unsure[i] * normal(random);
      moved.lens->k1 += 0.005 * normal(random);
      const auto at = placed(drawn);
      for (std::size_t i = 0; i < stated.size(); ++i)
        if (stated[i].measurable()) {
          const double value = evaluate(*stated[i].definition, at)->value;
          sum[i] += value - stated[i].value;
          squares[i] += (value - stated[i].value) * (value - stated[i].value);
        }
    }
    int compared = 0;
    for (std::size_t i = 0; i < stated.size(); ++i) {
      if (!stated[i].measurable())
        continue;
      const double mean = sum[i] / draws;
      const double seen = std::sqrt(squares[i] / draws - mean * mean);
      INFO(name << ", " << stated[i].definition->id << ": " << stated[i].reason);
      CHECK(std::abs(stated[i].standard_uncertainty / seen - 1) < 0.05);
      ++compared;
    }
    CHECK(compared > 5);
  }
}
