#include "imaging/edge_fit.h"
#include "imaging/snap.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace pritchel::imaging {
namespace {

struct Stroke {
  ImagePoint from;
  ImagePoint to;
};

/// The line that the stroke means: through the two points that most of it lies close to.
Stroke meant_by(const std::vector<ImagePoint>& points) {
  Stroke best{points.front(), points.back()};
  double least = INFINITY;
  for (std::size_t i = 0; i < points.size(); ++i)
    for (std::size_t j = i + 1; j < points.size(); ++j) {
      if (distance(points[i], points[j]) < 0.5 * distance(points.front(), points.back()))
        continue;
      const auto along = unit(points[j] - points[i]);
      double off = 0;
      for (const auto& p : points)
        off += std::abs(cross(along, p - points[i]));
      if (off < least) {
        least = off;
        best = {points[i], points[j]};
      }
    }
  return best;
}

std::vector<ImagePoint> thinned(const EdgePatch& patch, std::span<const ImagePoint> stroke) {
  constexpr std::size_t most = 40;
  std::vector<ImagePoint> points;
  const std::size_t step = (stroke.size() + most - 1) / most;
  for (std::size_t i = 0; i < stroke.size(); i += step)
    points.push_back(patch.inward(stroke[i]));
  points.push_back(patch.inward(stroke.back()));
  return points;
}

EdgeCurve
curve_of(const Stroke& stroke, const std::optional<Vector<ImageFrame>>& bright, int turn) {
  const auto along = unit(stroke.to - stroke.from);
  Vector<ImageFrame> across{-along.y, along.x};
  if (bright ? dot(across, *bright) < 0 : turn < 0)
    across = -across;
  return {.origin = midpoint(stroke.from, stroke.to),
          .along = along,
          .across = across,
          .half_length = 0.5 * distance(stroke.from, stroke.to)};
}

struct SeenOnProfile {
  double s = 0;
  std::vector<EdgePeak> peaks;
};

std::vector<SeenOnProfile>
profiles_of(const EdgePatch& patch, const EdgeCurve& curve, double reach) {
  std::vector<SeenOnProfile> all;
  const double step = std::max(1.0, curve.half_length / 100);
  for (double s = -curve.half_length; s <= curve.half_length; s += step)
    all.push_back({s, patch.peaks(curve.at(s), curve.across, reach, 1.5, Step::brighter)});
  return all;
}

double
worth_of(const std::vector<SeenOnProfile>& profiles, double shift, double slope, double reach) {
  constexpr double wide = 2;
  double sum = 0;
  for (const auto& profile : profiles) {
    double best = 0;
    for (const auto& peak : profile.peaks) {
      const double off = (peak.u - shift - slope * profile.s) / wide;
      if (std::abs(off) < 1)
        best = std::max(best, peak.step * (1 - off * off));
    }
    sum += best;
  }
  // The strongest edge in reach is meant; a little more likely a near one.
  const double far = shift / reach;
  return sum * std::exp(-far * far / 4);
}

/// The best of many lines through two steps each; the draws are the same every time.
EdgeCurve roughly(const std::vector<SeenOnProfile>& profiles, EdgeCurve curve, double reach) {
  std::vector<std::pair<double, EdgePeak>> all;
  for (const auto& profile : profiles)
    for (const auto& peak : profile.peaks)
      all.emplace_back(profile.s, peak);
  double most = 0, shift = 0, slope = 0;
  std::minstd_rand draw(1);
  constexpr int draws = 1500;
  for (int i = 0; i < draws && all.size() > 1; ++i) {
    const auto& [s1, a] = all[draw() % all.size()];
    const auto& [s2, b] = all[draw() % all.size()];
    if (std::abs(s2 - s1) < 0.4 * curve.half_length)
      continue;
    const double k = (b.u - a.u) / (s2 - s1), c = a.u - k * s1;
    if (std::abs(k) > 0.5 || std::abs(c) > reach)
      continue;
    const double worth = worth_of(profiles, c, k, reach);
    if (worth > most) {
      most = worth;
      shift = c;
      slope = k;
    }
  }
  curve.origin = curve.origin + curve.across * shift;
  curve.slope = slope;
  curve.step = most;
  return curve;
}

/// Square to the line: a place along the stroke keeps its place.
ImagePoint moved_onto(const EdgeCurve& line, const ImagePoint& p) {
  const auto along = unit(line.along + line.across * line.slope);
  return line.origin + along * dot(p - line.origin, along);
}

std::optional<EdgeCurve>
line_in(const EdgePatch& patch, const Stroke& stroke, const Snapping& how) {
  std::optional<Vector<ImageFrame>> bright;
  if (how.bright)
    bright = patch.inward(*how.bright);
  std::optional<EdgeCurve> best;
  for (const int turn : {1, -1}) {
    if (bright && turn < 0)
      break;
    const auto start = curve_of(stroke, bright, turn);
    const auto found = roughly(profiles_of(patch, start, how.reach_px), start, how.reach_px);
    if (!best || found.step > best->step)
      best = found;
  }
  const auto line = fitted(patch, *best, 3, Shape::straight);
  return line && is_clear(*line) ? line : std::nullopt;
}

} // namespace

std::optional<LineSeen>
snap_line(const Picture& picture, std::span<const ImagePoint> stroke, const Snapping& snapping) {
  constexpr double least_long = 16;
  if (!is_usable(snapping) || stroke.size() < 2)
    return std::nullopt;
  try {
    const EdgePatch patch(picture, stroke, 1.5 * snapping.reach_px + 12);
    if (patch.empty())
      return std::nullopt;
    const auto points = thinned(patch, stroke);
    const auto meant = meant_by(points);
    if (!(distance(points.front(), points.back()) > least_long))
      return std::nullopt;
    const auto line = line_in(patch, meant, snapping);
    if (!line)
      return std::nullopt;
    return LineSeen{.from = patch.outward(moved_onto(*line, points.front())),
                    .to = patch.outward(moved_onto(*line, points.back())),
                    .scatter_px = line->scatter};
  } catch (const cv::Exception&) {
    return std::nullopt;
  }
}

} // namespace pritchel::imaging
