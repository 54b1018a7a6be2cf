#include "imaging/snap.h"

#include "imaging/edge_fit.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace pritchel::imaging {
namespace {

constexpr double least_cos_bright = 0.643; // 50 degrees

/// A pixel where the grey is steepest, and which way it gets brighter there.
struct Edgel {
  ImagePoint at;
  Vector<ImageFrame> across;
  double steep = 0; ///< grey a pixel
};

class Slopes {
public:
  explicit Slopes(const cv::Mat& values) {
    cv::Mat smooth;
    cv::GaussianBlur(values, smooth, {0, 0}, 1.2);
    cv::Sobel(smooth, x_, CV_32F, 1, 0, 3, 0.125);
    cv::Sobel(smooth, y_, CV_32F, 0, 1, 3, 0.125);
  }
  [[nodiscard]] double steep(int x, int y) const {
    return std::hypot(static_cast<double>(x_.at<float>(y, x)),
                      static_cast<double>(y_.at<float>(y, x)));
  }
  [[nodiscard]] Vector<ImageFrame> across(int x, int y) const {
    const double s = steep(x, y);
    return {static_cast<double>(x_.at<float>(y, x)) / s,
            static_cast<double>(y_.at<float>(y, x)) / s};
  }
  [[nodiscard]] double steep_beside(int x, int y, const Vector<ImageFrame>& way) const {
    return steep(x + static_cast<int>(std::lround(way.x)),
                 y + static_cast<int>(std::lround(way.y)));
  }

private:
  cv::Mat x_, y_;
};

bool is_meant(const Vector<ImageFrame>& across, const std::optional<Vector<ImageFrame>>& bright) {
  return !bright || dot(across, *bright) >= least_cos_bright * length(*bright);
}

std::vector<Edgel> edgels_round(const EdgePatch& patch,
                                const ImagePoint& at,
                                double room,
                                const std::optional<Vector<ImageFrame>>& bright) {
  const Slopes slopes(patch.values());
  const double least = 0.6 * patch.noise();
  std::vector<Edgel> edgels;
  for (int y = 2; y + 2 < patch.values().rows; ++y)
    for (int x = 2; x + 2 < patch.values().cols; ++x) {
      const double steep = slopes.steep(x, y);
      const ImagePoint here{static_cast<double>(x), static_cast<double>(y)};
      if (steep < least || distance(here, at) > room)
        continue;
      const auto across = slopes.across(x, y);
      if (is_meant(across, bright) && steep >= slopes.steep_beside(x, y, across) &&
          steep > slopes.steep_beside(x, y, -across))
        edgels.push_back({here, across, steep});
    }
  return edgels;
}

/// How steep, on average, the edge goes on to both sides of an edgel.
double support(const Edgel& of, const std::vector<Edgel>& all, double half_length) {
  constexpr double least_alike = 0.9; // cosine
  double sum = 0;
  const Vector<ImageFrame> along{-of.across.y, of.across.x};
  for (const auto& each : all) {
    const auto way = each.at - of.at;
    const double s = std::abs(dot(way, along));
    if (s > half_length || dot(each.across, of.across) < least_alike)
      continue;
    const double slack = 1.2 + s * s / (6 * half_length);
    if (std::abs(dot(way, of.across)) < slack)
      sum += std::min(each.steep, 2 * of.steep);
  }
  return sum / (2 * half_length + 1);
}

struct Candidate {
  Edgel edgel;
  double worth = 0;
};

/// Edgels within reach by how well they are supported, a near one before a far one; best first.
std::vector<Candidate>
candidates(const std::vector<Edgel>& edgels, const ImagePoint& at, double reach) {
  std::vector<Candidate> found;
  for (const auto& each : edgels) {
    const double far = distance(each.at, at) / reach;
    if (far <= 1)
      found.push_back(
          {each, std::pow(support(each, edgels, 0.6 * reach), 0.25) * std::exp(-far * far)});
  }
  std::stable_sort(
      found.begin(), found.end(), [](const auto& a, const auto& b) { return a.worth > b.worth; });
  return found;
}

/// Side by side run several edges of one thing (both rims of a block, the wire on it): the
/// strongest of them is taken, from whichever side the hand came.
Edgel strongest_beside(const std::vector<Candidate>& found,
                       const std::vector<Edgel>& edgels,
                       double reach) {
  constexpr double least_alike = 0.9, beside = 0.4;
  const Edgel first = found.front().edgel;
  Edgel best = first;
  double most = support(first, edgels, 0.6 * reach);
  for (const auto& each : found) {
    const auto way = each.edgel.at - first.at;
    if (dot(each.edgel.across, first.across) < least_alike || length(way) > beside * reach)
      continue;
    const double strong = support(each.edgel, edgels, 0.6 * reach);
    if (strong > most) {
      most = strong;
      best = each.edgel;
    }
  }
  return best;
}

/// Another edge that could be meant as well.
bool has_rival(const std::vector<Candidate>& found, const EdgeCurve& curve) {
  constexpr double apart_px = 4, least_worth = 0.75;
  return std::any_of(found.begin(), found.end(), [&](const auto& each) {
    const double s = dot(each.edgel.at - curve.origin, curve.along);
    return each.worth > least_worth * found.front().worth && std::abs(s) <= curve.half_length &&
           std::abs(dot(each.edgel.at - curve.origin, curve.across) - curve.aside(s)) > apart_px;
  });
}

EdgeCurve curve_through(const Edgel& edgel, double half_length) {
  return {.origin = edgel.at,
          .along = {-edgel.across.y, edgel.across.x},
          .across = edgel.across,
          .half_length = half_length};
}

/// The same curve with its middle at `at`, which lies on it.
EdgeCurve moved_along(const EdgeCurve& curve, const ImagePoint& at) {
  auto moved = curve;
  const double s = dot(at - curve.origin, curve.along);
  moved.along = unit(curve.along + curve.across * (curve.slope + 2 * curve.bend * s));
  moved.across = dot(Vector<ImageFrame>{-moved.along.y, moved.along.x}, curve.across) > 0
                     ? Vector<ImageFrame>{-moved.along.y, moved.along.x}
                     : Vector<ImageFrame>{moved.along.y, -moved.along.x};
  moved.origin = at;
  moved.slope = 0;
  return moved;
}

std::optional<Vector<ImageFrame>> bright_in(const EdgePatch& patch, const Snapping& snapping) {
  if (!snapping.bright)
    return std::nullopt;
  return patch.inward(*snapping.bright);
}

std::optional<ImagePoint>
point_in(const EdgePatch& patch, const ImagePoint& at, const Snapping& snapping) {
  const double reach = snapping.reach_px;
  const auto edgels = edgels_round(patch, at, 1.8 * reach, bright_in(patch, snapping));
  const auto found = candidates(edgels, at, reach);
  if (found.empty())
    return std::nullopt;
  const auto edgel = strongest_beside(found, edgels, reach);
  auto curve = fitted(patch, curve_through(edgel, 0.5 * reach), 3, Shape::bent);
  constexpr int rounds = 2;
  for (int i = 0; i < rounds && curve; ++i)
    curve = fitted(patch, moved_along(*curve, curve->nearest(at)), 2.5, Shape::bent);
  if (!curve || !is_clear(*curve) || has_rival(found, *curve))
    return std::nullopt;
  const auto settled = curve->nearest(at);
  if (distance(settled, at) > 1.1 * reach)
    return std::nullopt;
  return patch.outward(settled);
}

} // namespace

std::optional<ImagePoint>
snap_point(const Picture& picture, const ImagePoint& at, const Snapping& snapping) {
  if (!is_usable(snapping))
    return std::nullopt;
  try {
    const std::vector<ImagePoint> round{at};
    const EdgePatch patch(picture, round, 2.5 * snapping.reach_px + 12);
    if (patch.empty())
      return std::nullopt;
    return point_in(patch, patch.inward(at), snapping);
  } catch (const cv::Exception&) {
    return std::nullopt;
  }
}

} // namespace pritchel::imaging
