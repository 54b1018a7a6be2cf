#include "agreement/intraclass.h"

#include <algorithm>
#include <cmath>

namespace pritchel::agreement {
namespace {

constexpr double upper_probability = 0.5 + interval_probability / 2;

bool is_whole(const Table& table) {
  if (table.size() < 2 || table.front().size() < 2)
    return false;
  return std::all_of(table.begin(), table.end(), [&](const auto& row) {
    return row.size() == table.front().size() &&
           std::all_of(row.begin(), row.end(), [](double each) { return std::isfinite(each); });
  });
}

double mean(const std::vector<double>& values) {
  double sum = 0;
  for (const double each : values)
    sum += each;
  return sum / static_cast<double>(values.size());
}

double squares_about(const std::vector<double>& values, double centre) {
  double sum = 0;
  for (const double each : values)
    sum += (each - centre) * (each - centre);
  return sum;
}

/// Of the mean of k readings, from that of one (Spearman and Brown).
double of_mean(double icc, double k) {
  return k * icc / (1 + (k - 1) * icc);
}

Icc of_mean(const Icc& one, double k) {
  return {of_mean(one.value, k), {of_mean(one.interval.low, k), of_mean(one.interval.high, k)}};
}

/// Forms 1 and 3 differ in what the targets' mean square is held against.
Icc one_way(double between, double error, double degrees, double n, double k) {
  const double f = between / error;
  const auto icc = [&](double ratio) { return (ratio - 1) / (ratio + k - 1); };
  return {icc(f),
          {icc(f / f_quantile(upper_probability, n - 1, degrees)),
           icc(f * f_quantile(upper_probability, degrees, n - 1))}};
}

/// Satterthwaite's degrees of freedom of the paper's form 2.
double degrees_of_two(double icc, const MeanSquares& s, double n, double k) {
  const double a = k * icc * (s.of_judges / s.residual);
  const double b = n * (1 + (k - 1) * icc) - k * icc;
  const double degrees = (k - 1) * (n - 1) * (a + b) * (a + b) / ((n - 1) * a * a + b * b);
  return std::max(1.0, degrees); // a negative coefficient can bring it to nothing
}

Icc two_way(const MeanSquares& s, double n, double k) {
  const double value = (s.between - s.residual) /
                       (s.between + (k - 1) * s.residual + k * (s.of_judges - s.residual) / n);
  const double degrees = degrees_of_two(value, s, n, k);
  const double error = k * s.of_judges + (k * n - k - n) * s.residual;
  const double f_low = f_quantile(upper_probability, n - 1, degrees);
  const double f_high = f_quantile(upper_probability, degrees, n - 1);
  return {value,
          {n * (s.between - f_low * s.residual) / (f_low * error + n * s.between),
           n * (f_high * s.between - s.residual) / (error + n * f_high * s.between)}};
}

} // namespace

std::optional<MeanSquares> mean_squares(const Table& table) {
  if (!is_whole(table))
    return std::nullopt;
  const auto n = static_cast<double>(table.size());
  const auto k = static_cast<double>(table.front().size());
  std::vector<double> of_targets, of_judges(table.front().size(), 0);
  double within = 0;
  for (const auto& row : table) {
    of_targets.push_back(mean(row));
    within += squares_about(row, of_targets.back());
    for (std::size_t j = 0; j < row.size(); ++j)
      of_judges[j] += row[j] / n;
  }
  const double grand = mean(of_targets);
  const double between = k * squares_about(of_targets, grand);
  const double judges = n * squares_about(of_judges, grand);
  return MeanSquares{.targets = static_cast<int>(table.size()),
                     .judges = static_cast<int>(table.front().size()),
                     .between = between / (n - 1),
                     .within = within / (n * (k - 1)),
                     .of_judges = judges / (k - 1),
                     .residual = std::max(0.0, within - judges) / ((n - 1) * (k - 1))};
}

std::optional<Iccs> intraclass(const MeanSquares& s) {
  const auto n = static_cast<double>(s.targets), k = static_cast<double>(s.judges);
  if (!(s.between > 0) || !(s.within > 0) || !(s.residual > 0))
    return std::nullopt;
  Iccs all{.one_1 = one_way(s.between, s.within, n * (k - 1), n, k),
           .two_1 = two_way(s, n, k),
           .three_1 = one_way(s.between, s.residual, (n - 1) * (k - 1), n, k)};
  all.one_k = of_mean(all.one_1, k);
  all.two_k = of_mean(all.two_1, k);
  all.three_k = of_mean(all.three_1, k);
  return all;
}

double sem_consistency(const MeanSquares& squares) {
  return std::sqrt(squares.residual);
}

double sem_agreement(const MeanSquares& squares) {
  const double of_judges = (squares.of_judges - squares.residual) / squares.targets;
  return std::sqrt(std::max(0.0, of_judges) + squares.residual);
}

} // namespace pritchel::agreement
