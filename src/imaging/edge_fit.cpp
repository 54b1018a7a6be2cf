#include "imaging/edge_fit.h"

#include "base/median.h"

#include <Eigen/Dense>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

constexpr double wide_px = 1.5;
constexpr double least_share = 0.5;
// What a clear edge is, own estimates [E].
constexpr double clear_share = 0.6;
constexpr double clear_scatter_px = 1.2;
constexpr double clear_step = 3;

struct EdgePlace {
  double s = 0;
  double u = 0;
  double step = 0;
};

/// Of several steps on a profile the high one near the curve.
std::optional<EdgePeak> likely(const std::vector<EdgePeak>& peaks, double reach) {
  const auto worth = [&](const EdgePeak& p) {
    const double far = p.u / reach;
    return std::min(p.step, 30.0) * std::exp(-2 * far * far);
  };
  const auto best = std::max_element(peaks.begin(), peaks.end(), [&](const auto& a, const auto& b) {
    return worth(a) < worth(b);
  });
  return best == peaks.end() ? std::nullopt : std::optional(*best);
}

std::vector<EdgePlace> places_along(const EdgePatch& patch, const EdgeCurve& curve, double reach) {
  std::vector<EdgePlace> places;
  for (double s = -curve.half_length; s <= curve.half_length; s += 1) {
    const double lean = curve.slope + 2 * curve.bend * s;
    const auto across = unit(curve.across - curve.along * lean);
    const auto peak =
        likely(patch.peaks(curve.at(s), across, reach, wide_px, Step::brighter), reach);
    if (peak)
      places.push_back({.s = s + peak->u * dot(across, curve.along),
                        .u = curve.aside(s) + peak->u * dot(across, curve.across),
                        .step = peak->step});
  }
  return places;
}

double tukey(double off) {
  const double t = 1 - off * off;
  return std::abs(off) < 1 ? t * t : 0;
}

/// u = c0 + c1 s (+ c2 s s), reweighted. Starts from the present curve, so that strays far from it
/// have no say.
Eigen::Vector3d reweighted(const std::vector<EdgePlace>& places,
                           const EdgeCurve& curve,
                           double widest,
                           Shape shape) {
  Eigen::Vector3d c(0, curve.slope, curve.bend);
  const int columns = shape == Shape::bent ? 3 : 2;
  constexpr int rounds = 8;
  for (int round = 0; round < rounds; ++round) {
    std::vector<double> off;
    for (const auto& p : places)
      off.push_back(std::abs(p.u - (c[0] + c[1] * p.s + c[2] * p.s * p.s)));
    const double scale = std::clamp(4.7 * 1.4826 * median(off), 0.5, widest);
    Eigen::MatrixXd rows(static_cast<long>(places.size()), columns);
    Eigen::VectorXd right(static_cast<long>(places.size()));
    for (std::size_t i = 0; i < places.size(); ++i) {
      const double w = std::sqrt(tukey(off[i] / scale));
      const double s = places[i].s;
      const Eigen::Vector3d row(w, w * s, w * s * s);
      rows.row(static_cast<long>(i)) = row.head(columns);
      right[static_cast<long>(i)] = w * places[i].u;
    }
    const Eigen::VectorXd solved = rows.colPivHouseholderQr().solve(right);
    c = Eigen::Vector3d::Zero();
    c.head(columns) = solved;
  }
  return c;
}

} // namespace

ImagePoint EdgeCurve::nearest(const ImagePoint& to) const {
  double s = dot(to - origin, along);
  constexpr int rounds = 6;
  for (int i = 0; i < rounds; ++i) {
    const auto tangent = along + across * (slope + 2 * bend * s);
    s += dot(to - at(s), tangent) / dot(tangent, tangent);
    s = std::clamp(s, -half_length, half_length);
  }
  return at(s);
}

std::optional<EdgeCurve>
fitted(const EdgePatch& patch, const EdgeCurve& start, double reach, Shape shape) {
  auto curve = start;
  if (shape == Shape::straight)
    curve.bend = 0;
  constexpr int rounds = 3;
  for (int round = 0; round < rounds; ++round, reach = std::max(2.0, reach / 2)) {
    const auto places = places_along(patch, curve, reach);
    const double profiles = std::floor(2 * curve.half_length) + 1;
    constexpr std::size_t least_places = 6;
    if (places.size() < least_places || static_cast<double>(places.size()) < least_share * profiles)
      return std::nullopt;
    const auto c = reweighted(places, curve, reach, shape);
    if (!c.allFinite() || std::abs(c[0]) > 2 * reach || std::abs(c[1]) > 1)
      return std::nullopt;
    curve.origin = curve.origin + curve.across * c[0];
    curve.slope = c[1];
    curve.bend = c[2];
    std::vector<double> off, steps;
    for (const auto& p : places) {
      const double aside = std::abs(p.u - c[0] - curve.aside(p.s));
      if (aside < std::max(1.5, reach / 2)) {
        off.push_back(aside);
        steps.push_back(p.step);
      }
    }
    curve.share = static_cast<double>(off.size()) / profiles;
    curve.scatter = 1.4826 * median(off);
    curve.step = median(steps);
  }
  return curve;
}

bool is_usable(const Snapping& snapping) {
  constexpr double least_reach = 3, most_reach = 400;
  return snapping.reach_px >= least_reach && snapping.reach_px <= most_reach;
}

bool is_clear(const EdgeCurve& curve) {
  return curve.share >= clear_share && curve.scatter <= clear_scatter_px &&
         curve.step >= clear_step;
}

} // namespace pritchel::imaging
