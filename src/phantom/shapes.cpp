#include "phantom/shapes.h"

namespace pritchel::phantom {

namespace {

std::size_t piece(const std::vector<std::pair<double, double>>& knots, double x) {
  std::size_t i = 0;
  while (i + 2 < knots.size() && x > knots[i + 1].first)
    ++i;
  return i;
}

} // namespace

Curve::Curve(std::vector<std::pair<double, double>> knots)
    : knots_(std::move(knots)),
      slopes_(knots_.size(), 0.0) {
  const auto chord = [&](std::size_t i) {
    return (knots_[i + 1].second - knots_[i].second) / (knots_[i + 1].first - knots_[i].first);
  };
  for (std::size_t i = 1; i + 1 < knots_.size(); ++i) {
    const double before = chord(i - 1);
    const double after = chord(i);
    slopes_[i] = before * after <= 0 ? 0.0 : 2.0 * before * after / (before + after);
  }
  if (knots_.size() > 1) {
    slopes_.front() = chord(0);
    slopes_.back() = chord(knots_.size() - 2);
  }
}

double Curve::at(double x) const {
  if (x <= knots_.front().first)
    return knots_.front().second;
  if (x >= knots_.back().first)
    return knots_.back().second;
  const std::size_t i = piece(knots_, x);
  const double h = knots_[i + 1].first - knots_[i].first;
  const double t = (x - knots_[i].first) / h;
  const double u = 1 - t;
  return knots_[i].second * (1 + 2 * t) * u * u + slopes_[i] * h * t * u * u +
         knots_[i + 1].second * t * t * (3 - 2 * t) - slopes_[i + 1] * h * t * t * u;
}

double Polyline::at(double x) const {
  if (x <= knots_.front().first)
    return knots_.front().second;
  if (x >= knots_.back().first)
    return knots_.back().second;
  const std::size_t i = piece(knots_, x);
  const double t = (x - knots_[i].first) / (knots_[i + 1].first - knots_[i].first);
  return knots_[i].second + t * (knots_[i + 1].second - knots_[i].second);
}

} // namespace pritchel::phantom
