#include "teach/trust.h"

#include <Eigen/Cholesky>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

namespace pritchel::teach {
namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;
using suggest::sign_count;

// Stricter than what is asked of unseen films (issue: 1.0 mm, 2.5 mm, 1 % over 5 mm). [E]
constexpr double good_mm = 2.5, false_mm = 5;
constexpr double greatest_median_mm = 0.9, greatest_ninth_mm = 2.2, greatest_false_share = 0.004;
constexpr double least_floor = 0.75;

struct Sums {
  MatrixXd signs;
  VectorXd good; ///< 1 or 0
};

/// Logistic regression by Newton's method, drawn towards `prior`.
VectorXd logistic(const Sums& of, const VectorXd& prior, double pull) {
  VectorXd weights = prior;
  for (int round = 0; round < 30; ++round) {
    const VectorXd chance = (1 + (-(of.signs * weights).array()).exp()).inverse();
    const VectorXd spread = (chance.array() * (1 - chance.array())).max(1e-6);
    const VectorXd slope = of.signs.transpose() * (of.good - chance) - pull * (weights - prior);
    MatrixXd bend = of.signs.transpose() * spread.asDiagonal() * of.signs;
    bend.diagonal().array() += pull;
    weights += bend.llt().solve(slope);
  }
  return weights;
}

Sums sums_of(const std::vector<Judged>& judged, const std::vector<std::size_t>& landmarks) {
  Sums sums;
  const auto rows = static_cast<Eigen::Index>(judged.size() * landmarks.size());
  sums.signs.resize(rows, sign_count);
  sums.good.resize(rows);
  Eigen::Index row = 0;
  for (const auto& each : judged)
    for (const auto i : landmarks) {
      for (std::size_t k = 0; k < sign_count; ++k)
        sums.signs(row, static_cast<Eigen::Index>(k)) =
            static_cast<double>(each.outcome.signs[i][k]);
      sums.good[row++] = each.error_mm[i] < good_mm ? 1 : 0;
    }
  return sums;
}

struct Ranked {
  double confidence;
  double error_mm;
};

bool good_enough(std::vector<double> errors) {
  std::sort(errors.begin(), errors.end());
  const auto n = static_cast<double>(errors.size());
  const auto far =
      std::count_if(errors.begin(), errors.end(), [](double e) { return e > false_mm; });
  return errors[errors.size() / 2] <= greatest_median_mm &&
         errors[errors.size() * 9 / 10] <= greatest_ninth_mm &&
         static_cast<double>(far) <= greatest_false_share * n;
}

/// The lowest floor that leaves only good ones; over 1 when none does.
double floor_of(std::vector<Ranked> ranked) {
  std::sort(ranked.begin(), ranked.end(), [](const Ranked& a, const Ranked& b) {
    return a.confidence > b.confidence;
  });
  constexpr std::size_t least_count = 40; // fewer say nothing
  std::vector<double> errors;
  for (const auto& each : ranked)
    if (each.confidence >= least_floor)
      errors.push_back(each.error_mm);
  for (; errors.size() >= least_count; errors.pop_back())
    if (good_enough(errors))
      return ranked[errors.size() - 1].confidence;
  return 2;
}

} // namespace

void learn_trust(suggest::Model& model, const std::vector<Judged>& judged) {
  std::vector<std::size_t> all(model.landmarks.size());
  std::iota(all.begin(), all.end(), std::size_t{0});
  const VectorXd nothing = VectorXd::Zero(sign_count);
  const VectorXd common = logistic(sums_of(judged, all), nothing, 1);
  model.trust.clear();
  for (const auto i : all) {
    const VectorXd weights = logistic(sums_of(judged, {i}), common, 3);
    suggest::Trust trust;
    for (const double each : weights)
      trust.weights.push_back(static_cast<float>(each));
    std::vector<Ranked> ranked;
    std::vector<double> errors;
    for (const auto& each : judged) {
      ranked.push_back({suggest::confidence(trust, each.outcome.signs[i]), each.error_mm[i]});
      errors.push_back(each.error_mm[i]);
    }
    trust.floor = static_cast<float>(floor_of(ranked));
    const auto kept = std::count_if(ranked.begin(), ranked.end(), [&](const Ranked& one) {
      return one.confidence >= static_cast<double>(trust.floor);
    });
    std::sort(errors.begin(), errors.end());
    fmt::print(stderr,
               "{:24} all: median {:.2f} 90 % {:.2f} 99 % {:.2f}; floor {:.3f} keeps {:.0f} %\n",
               model.landmarks[i],
               errors[errors.size() / 2],
               errors[errors.size() * 9 / 10],
               errors[errors.size() * 99 / 100],
               trust.floor,
               100.0 * static_cast<double>(kept) / static_cast<double>(ranked.size()));
    model.trust.push_back(std::move(trust));
  }
  std::vector<double> likeness;
  for (const auto& each : judged)
    likeness.push_back(each.outcome.likeness);
  std::sort(likeness.begin(), likeness.end());
  fmt::print(stderr,
             "likeness: least {:.3f}, 1 % {:.3f}, 10 % {:.3f}, median {:.3f}\n",
             likeness.front(),
             likeness[likeness.size() / 100],
             likeness[likeness.size() / 10],
             likeness[likeness.size() / 2]);
  model.least_likeness = static_cast<float>(likeness[likeness.size() / 100]);
}

} // namespace pritchel::teach
