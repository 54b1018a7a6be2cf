/// First-order uncertainty against Monte Carlo (JCGM 101:2008) with the same placement covariances
/// and the same scale, on random feet and limbs in every kind of picture. The spreads are
/// the practice's own; the sampling is the test's own.
#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "animals.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr int draws = 40'000;
constexpr std::uint64_t first_seed = 4100;
constexpr int feet_a_kind = 4;
/// What the program promises: first order within 5 % of the sampled standard deviation. The
/// sampled one is itself unsure by 1 / sqrt(2 * 40,000) = 0.35 %.
constexpr double promised = 0.05;
constexpr double scale_share = 0.01;

/// Rows that first order states worse, and by how much at most (docs/accuracy.md). A line of some
/// 13 to 19 mm whose ends are free by 3 mm along it: its direction's spread goes with one over a
/// length that is itself unsure by a quarter. And the quotient of a joint space of 2 mm.
struct Worse {
  std::string_view row;
  double off;
};
constexpr std::array worse = {Worse{"heel-angle", 0.2},
                              Worse{"toe-heel-difference", 0.2},
                              Worse{"photo-heel-angle", 0.2},
                              Worse{"photo-toe-heel-difference", 0.2},
                              Worse{"heel-collapse", 0.2},
                              Worse{"limb-heel-angle", 0.2},
                              Worse{"hoof-minus-heel", 0.2},
                              Worse{"hoof-angle-proximal", 0.1},
                              Worse{"capsular-rotation-proximal", 0.1},
                              Worse{"dip-space-ratio", 0.07}};

double allowed(std::string_view row) {
  for (const auto& each : worse)
    if (each.row == row)
      return each.off;
  return promised;
}

struct Sampler {
  Covariance root; ///< lower triangle: xx, xy (below the diagonal), yy
  explicit Sampler(const Covariance& c) {
    root.xx = std::sqrt(c.xx);
    root.xy = c.xy / root.xx;
    root.yy = std::sqrt(std::max(0.0, c.yy - root.xy * root.xy));
  }
  [[nodiscard]] PlanePoint around(const PlanePoint& p, double a, double b) const {
    return {p.x + root.xx * a, p.y + root.xy * a + root.yy * b};
  }
};

bool wants_table() {
  return std::getenv("PRITCHEL_TEST_TABLE") != nullptr;
}
void report(const std::string& what, double per_cent) {
  if (wants_table())
    std::printf("%-32s %+7.2f %%\n", what.c_str(), per_cent);
}

/// What the program says of one reading.
struct Stated {
  const animals::Kind* kind;
  Reading reading;
  Propagation propagated;
  std::vector<const Definition*> rows;
  std::vector<Gradient> values;

  Stated(const animals::Kind& of_kind, const Reading& of)
      : kind(&of_kind),
        reading(of),
        propagated(propagation(of, of_kind.spreads)) {
    for (const auto* row : animals::rows(of_kind)) {
      INFO(row->id);
      const auto drawn = evaluate(*row, propagated.placed);
      REQUIRE(drawn);
      rows.push_back(row);
      values.push_back(drawn->value);
    }
  }
  [[nodiscard]] double uncertainty(std::size_t i) const {
    return standard_uncertainty(values[i], propagated);
  }
};

/// Running mean and second moments of all measurements of one foot.
struct Sampled {
  std::vector<const Definition*> rows;
  std::vector<double> mean;
  std::vector<std::vector<double>> moment; ///< sums of products of deviations
  std::vector<int> refused;
  std::vector<int> inside; ///< within two stated uncertainties of the stated value
  int drawn = 0;

  explicit Sampled(const std::vector<const Definition*>& measured)
      : rows(measured),
        mean(rows.size(), 0),
        moment(rows.size(), std::vector<double>(rows.size(), 0)),
        refused(rows.size(), 0),
        inside(rows.size(), 0) {}
  [[nodiscard]] double covariance(std::size_t i, std::size_t j) const {
    return moment[i][j] / (drawn - 1);
  }
  [[nodiscard]] double deviation(std::size_t i) const { return std::sqrt(covariance(i, i)); }
  void add(const std::vector<double>& values) {
    ++drawn;
    std::vector<double> before(values.size());
    for (std::size_t i = 0; i < values.size(); ++i) {
      before[i] = values[i] - mean[i];
      mean[i] += before[i] / drawn;
    }
    for (std::size_t i = 0; i < values.size(); ++i)
      for (std::size_t j = 0; j <= i; ++j)
        moment[i][j] += before[i] * (values[j] - mean[j]);
  }
};

/// One draw of all landmarks and of the scale.
class Landmarks {
public:
  Landmarks(const Reading& reading, const Spreads& spreads, std::uint64_t seed)
      : centre_(placed(reading)),
        scale_share_(reading.calibration.relative_uncertainty),
        random_(seed) {
    for (const auto& [id, at] : centre_.points())
      samplers_.emplace_back(placement_covariance(reading, centre_, spreads, id));
  }
  Placed<double> draw() {
    auto moved = centre_;
    const double scale = 1 + scale_share_ * normal_(random_);
    for (std::size_t i = 0; i < samplers_.size(); ++i) {
      const double a = normal_(random_), b = normal_(random_);
      const auto at = samplers_[i].around(centre_.points()[i].second, a, b);
      moved.points()[i].second = {at.x * scale, at.y * scale};
    }
    return moved;
  }

private:
  Placed<double> centre_;
  double scale_share_;
  std::mt19937_64 random_;
  std::normal_distribution<double> normal_;
  std::vector<Sampler> samplers_;
};

Sampled sample(const Stated& stated, std::uint64_t seed) {
  Sampled result(stated.rows);
  Landmarks landmarks(stated.reading, stated.kind->spreads, seed * 7919);
  std::vector<double> uncertainty(stated.rows.size()), values(stated.rows.size());
  for (std::size_t i = 0; i < stated.rows.size(); ++i)
    uncertainty[i] = stated.uncertainty(i);
  for (int k = 0; k < draws; ++k) {
    const auto moved = landmarks.draw();
    bool whole = true;
    for (std::size_t i = 0; i < values.size(); ++i) {
      const auto drawn = evaluate(*stated.rows[i], moved);
      if (!drawn) {
        ++result.refused[i];
        whole = false;
        continue;
      }
      values[i] = drawn->value;
      if (std::abs(values[i] - stated.values[i].value) <= coverage_factor * uncertainty[i])
        ++result.inside[i];
    }
    if (whole)
      result.add(values);
  }
  return result;
}

struct SampledFoot {
  std::uint64_t seed;
  Stated stated;
  Sampled sampled;
};

/// Sampled once, looked at by several cases.
const std::vector<SampledFoot>& sampled_feet() {
  static const std::vector<SampledFoot> all = [] {
    std::vector<SampledFoot> made;
    for (const auto& kind : animals::kinds())
      for (std::uint64_t seed = first_seed; seed < first_seed + feet_a_kind; ++seed) {
        feet::Random random(seed);
        auto foot = animals::make(kind, random);
        if (seed % 2 == 0)
          foot = animals::without_plumb(foot);
        const Stated stated(kind, feet::reading(foot, {.relative_uncertainty = scale_share}));
        made.push_back({seed, stated, sample(stated, seed)});
      }
    return made;
  }();
  return all;
}

template <class Body> void for_sampled_feet(Body body) {
  for (const auto& [seed, stated, sampled] : sampled_feet()) {
    INFO("seed " << seed << ", " << stated.kind->name());
    for (std::size_t i = 0; wants_table() && i < sampled.rows.size(); ++i)
      report(std::string(sampled.rows[i]->id),
             100 * (stated.uncertainty(i) / sampled.deviation(i) - 1));
    body(stated, sampled);
  }
}

} // namespace

// Truth: JCGM 101:2008, Monte Carlo with 40,000 draws of the same covariances
TEST_CASE("every stated uncertainty agrees with Monte Carlo within 5 per cent, or as said",
          "[measure]") {
  for_sampled_feet([](const Stated& stated, const Sampled& sampled) {
    for (std::size_t i = 0; i < sampled.rows.size(); ++i) {
      const double u = stated.uncertainty(i);
      INFO(sampled.rows[i]->id << ": stated " << u << ", sampled " << sampled.deviation(i)
                               << ", refused " << sampled.refused[i]);
      CHECK(std::abs(u / sampled.deviation(i) - 1) < allowed(sampled.rows[i]->id));
      CHECK(sampled.refused[i] < draws / 1000);
    }
  });
}

// Truth: JCGM 101:2008, the same draws; the promise is "about 95 per cent" (JCGM 100:2008, 6.3.3),
// read here as 93 to 97: a normal quantity has 95.45, the formulas' bend takes up to 1 off
TEST_CASE("value plus and minus two standard uncertainties holds 95 per cent", "[measure]") {
  for_sampled_feet([](const Stated&, const Sampled& sampled) {
    for (std::size_t i = 0; i < sampled.rows.size(); ++i) {
      INFO(sampled.rows[i]->id);
      const double share = static_cast<double>(sampled.inside[i]) / sampled.drawn;
      // A fixed uncertainty here; a reading's own goes with its own points: test_coverage.cpp.
      CHECK(share > (allowed(sampled.rows[i]->id) > promised ? 0.92 : 0.93));
      CHECK(share < 0.97);
      report(std::string(sampled.rows[i]->id) + " inside", 100 * share);
    }
  });
}

// Truth: JCGM 101:2008, covariances of the same draws; each correlation within 0.05
TEST_CASE("results that share landmarks carry the covariance of sampling", "[measure]") {
  for_sampled_feet([](const Stated& stated, const Sampled& sampled) {
    for (std::size_t i = 0; i < sampled.rows.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        INFO(sampled.rows[i]->id << ", " << sampled.rows[j]->id);
        const double own = covariance(stated.values[i], stated.values[j], stated.propagated) /
                           (stated.uncertainty(i) * stated.uncertainty(j));
        const double seen =
            sampled.covariance(i, j) / (sampled.deviation(i) * sampled.deviation(j));
        const bool poor =
            std::max(allowed(sampled.rows[i]->id), allowed(sampled.rows[j]->id)) > promised;
        const double off = poor ? 2 * promised : promised;
        CHECK(std::abs(own - seen) < off);
      }
  });
}

// Truth: second-order propagation of a quotient: relative variance r^2 (1 + 8 r^2 ...) grows above
// first order's as the divisor's relative uncertainty r does
TEST_CASE("the joint space ratio's uncertainty is too small where the space is narrow",
          "[measure]") {
  const auto short_by = [](double medial_mm) {
    feet::Random random(first_seed);
    auto foot = feet::dorsopalmar(random);
    for (auto& [id, at] : foot.points) {
      if (id == "dip-p3-medial" || id == "dip-p3-lateral")
        at = {id == "dip-p3-medial" ? -20.0 : 20.0, 45};
      if (id == "dip-p2-medial" || id == "dip-p2-lateral")
        at = {id == "dip-p2-medial" ? -20.0 : 20.0, 45 + medial_mm};
    }
    const auto reading = feet::reading(foot);
    const Stated stated(animals::kind("dorsopalmar"), reading);
    const auto sampled = sample(stated, first_seed);
    for (std::size_t i = 0; i < sampled.rows.size(); ++i)
      if (sampled.rows[i]->id == "dip-space-ratio") {
        const double off = stated.uncertainty(i) / sampled.deviation(i) - 1;
        report("ratio at " + std::to_string(medial_mm) + " mm", 100 * off);
        return -off;
      }
    return -1.0;
  };
  CHECK(short_by(3.0) < 0.03);
  CHECK(short_by(2.0) < promised);
  CHECK(short_by(1.2) > promised); // a known limit: see docs/accuracy.md
}
