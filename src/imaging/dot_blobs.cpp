#include "imaging/dot_blobs.h"

#include "base/median.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {

namespace {

constexpr double pi = 3.14159265358979323846;
/// Levels from near black to white in steps of 12 %; a dot must stand out by four steps.
constexpr double lowest_level = 0.01;
constexpr double highest_level = 1.5;
constexpr double level_step = 1.12;
constexpr int least_levels = 4;
/// Half axes' ratio at 70 degrees of slant is 0.34.
constexpr double least_roundness = 0.3;
/// A square fills 0.955 of its ellipse of equal moments; a disc of few pixels about 0.98.
constexpr double least_filled = 0.9;

struct Track {
  Blob blob;
  double area = 0;
  int last_level = 0;
  int levels = 1;
};

bool continues(const Track& track, const Blob& blob, double area, int level) {
  return track.last_level == level - 1 &&
         cv::norm(track.blob.centre - blob.centre) < 0.25 * track.blob.longer + 0.5 &&
         area > 0.7 * track.area && area <= track.area * 1.05;
}

/// Adds the blobs of one level to the tracks.
void add_level(
    const cv::Mat1f& like, int level, double least_px, double most_px, std::vector<Track>& tracks) {
  const double threshold = lowest_level * std::pow(level_step, level);
  cv::Mat1i labels;
  cv::Mat1i stats;
  cv::Mat1d centres;
  const int count =
      cv::connectedComponentsWithStats(cv::Mat1b(like > threshold), labels, stats, centres, 4);
  const std::size_t before = tracks.size();
  for (int i = 1; i < count; ++i) {
    const cv::Rect box(stats(i, cv::CC_STAT_LEFT),
                       stats(i, cv::CC_STAT_TOP),
                       stats(i, cv::CC_STAT_WIDTH),
                       stats(i, cv::CC_STAT_HEIGHT));
    const double area = stats(i, cv::CC_STAT_AREA);
    const double across = std::max(box.width, box.height);
    if (across < least_px || across > most_px || area < 0.6 * box.area() * least_roundness)
      continue;
    const MaskEllipse ellipse = ellipse_of(cv::Mat1b(labels(box) == i), box.tl());
    if (ellipse.filled < least_filled ||
        ellipse.blob.shorter < least_roundness * ellipse.blob.longer)
      continue;
    const auto old =
        std::find_if(tracks.begin(),
                     tracks.begin() + static_cast<std::ptrdiff_t>(before),
                     [&](const Track& t) { return continues(t, ellipse.blob, area, level); });
    if (old == tracks.begin() + static_cast<std::ptrdiff_t>(before))
      tracks.push_back({ellipse.blob, area, level, 1});
    else
      *old = {ellipse.blob, area, level, old->levels + 1};
  }
}

double at(const cv::Mat1f& like, double x, double y) {
  const int left = std::clamp(static_cast<int>(std::floor(x)), 0, like.cols - 2);
  const int top = std::clamp(static_cast<int>(std::floor(y)), 0, like.rows - 2);
  const double u = std::clamp(x - left, 0.0, 1.0);
  const double v = std::clamp(y - top, 0.0, 1.0);
  const auto value = [&](int dy, int dx) { return static_cast<double>(like(top + dy, left + dx)); };
  return (1 - v) * ((1 - u) * value(0, 0) + u * value(0, 1)) +
         v * ((1 - u) * value(1, 0) + u * value(1, 1));
}

struct Ray {
  cv::Point2d middle;
  cv::Vec2d half; ///< from the middle to the ellipse
  [[nodiscard]] cv::Point2d point(double share) const {
    return {middle.x + share * half[0], middle.y + share * half[1]};
  }
};

std::vector<Ray> rays_of(const Blob& blob) {
  constexpr int rays = 48;
  std::vector<Ray> all;
  for (int i = 0; i < rays; ++i) {
    const double angle = 2 * pi * i / rays;
    const double u = blob.longer * std::cos(angle);
    const double v = blob.shorter * std::sin(angle);
    all.push_back({blob.centre,
                   {u * std::cos(blob.turn) - v * std::sin(blob.turn),
                    u * std::sin(blob.turn) + v * std::cos(blob.turn)}});
  }
  return all;
}

/// Shares of the half axes where inside ends and outside begins for sure.
constexpr double inside_to = 0.6;
constexpr double outside_from = 1.5;

/// Where the likeness falls through the half-way mark, as a share of the ray; 0: nowhere.
double rim_share(const cv::Mat1f& like, const Ray& ray, double inside) {
  const auto along = [&](double share) {
    const cv::Point2d p = ray.point(share);
    return at(like, p.x, p.y);
  };
  const double outside = along(outside_from);
  if (inside < 1.25 * outside + 1e-4)
    return 0;
  const double half_way = 0.5 * (inside + outside);
  constexpr int steps = 18;
  constexpr double step = (outside_from - inside_to) / steps;
  double before = along(inside_to);
  if (before < half_way)
    return 0;
  for (int i = 1; i <= steps; ++i) {
    const double share = inside_to + i * step;
    const double here = along(share);
    if (here < half_way)
      return share - step * (half_way - here) / (before - here);
    before = here;
  }
  return 0;
}

Blob fitted(const std::vector<cv::Point2f>& points) {
  const cv::RotatedRect box = cv::fitEllipseDirect(points);
  const auto wide = static_cast<double>(box.size.width);
  const auto high = static_cast<double>(box.size.height);
  Blob blob{box.center, 0.5 * wide, 0.5 * high, static_cast<double>(box.angle) * pi / 180};
  if (blob.shorter > blob.longer) {
    std::swap(blob.longer, blob.shorter);
    blob.turn += 0.5 * pi;
  }
  return blob;
}

/// Distance from the middle over the ellipse's own in that direction.
double radius_share(const Blob& blob, const cv::Point2f& p) {
  const double dx = static_cast<double>(p.x) - blob.centre.x;
  const double dy = static_cast<double>(p.y) - blob.centre.y;
  const double u = dx * std::cos(blob.turn) + dy * std::sin(blob.turn);
  const double v = -dx * std::sin(blob.turn) + dy * std::cos(blob.turn);
  return std::hypot(u / blob.longer, v / blob.shorter);
}

double roughness_of(const Blob& blob, const std::vector<cv::Point2f>& points) {
  double sum = 0;
  for (const cv::Point2f& p : points)
    sum += std::pow(radius_share(blob, p) - 1, 2);
  return std::sqrt(sum / static_cast<double>(points.size()));
}

} // namespace

MaskEllipse ellipse_of(const cv::Mat1b& mask, cv::Point at_corner) {
  const cv::Moments m = cv::moments(mask, true);
  MaskEllipse ellipse;
  if (m.m00 < 1)
    return ellipse;
  const double xx = m.mu20 / m.m00 + 1.0 / 12; // a pixel is a square, not a point
  const double yy = m.mu02 / m.m00 + 1.0 / 12;
  const double xy = m.mu11 / m.m00;
  const double middle = 0.5 * (xx + yy);
  const double apart = std::hypot(0.5 * (xx - yy), xy);
  ellipse.blob = {{at_corner.x + m.m10 / m.m00, at_corner.y + m.m01 / m.m00},
                  2 * std::sqrt(middle + apart),
                  2 * std::sqrt(std::max(middle - apart, 1e-6)),
                  0.5 * std::atan2(2 * xy, xx - yy)};
  ellipse.filled = m.m00 / (pi * ellipse.blob.longer * ellipse.blob.shorter);
  return ellipse;
}

std::vector<Blob> round_blobs(const cv::Mat1f& like, double least_px, double most_px) {
  std::vector<Track> tracks;
  const int levels =
      static_cast<int>(std::log(highest_level / lowest_level) / std::log(level_step));
  for (int level = 0; level < levels; ++level)
    add_level(like, level, least_px, most_px, tracks);
  std::vector<Blob> blobs;
  for (const Track& track : tracks)
    if (track.levels >= least_levels)
      blobs.push_back(track.blob);
  return blobs;
}

Rim rim_of(const cv::Mat1f& like, const Blob& start) {
  Rim rim{.blob = start};
  constexpr int rounds = 3;
  for (int round = 0; round < rounds; ++round) {
    const std::vector<Ray> rays = rays_of(rim.blob);
    std::vector<double> inner;
    std::vector<double> outer;
    for (const Ray& ray : rays) {
      const cv::Point2d p = ray.point(0.5);
      const cv::Point2d q = ray.point(outside_from);
      inner.push_back(at(like, p.x, p.y));
      outer.push_back(at(like, q.x, q.y));
    }
    const double inside = median(inner);
    std::vector<cv::Point2f> points;
    for (std::size_t i = 0; i < rays.size(); ++i) {
      // A shadow's edge may cross the dot: each ray has its own inside, within reason.
      const double own = std::clamp(inner[i], 0.4 * inside, 2.5 * inside);
      if (const double share = rim_share(like, rays[i], own); share > 0)
        points.emplace_back(rays[i].point(share));
    }
    rim.found = static_cast<double>(points.size()) / static_cast<double>(rays.size());
    rim.contrast = inside / std::max(median(outer), 1e-3);
    if (rim.found < 0.6)
      return rim;
    Blob fit = fitted(points);
    std::vector<double> off;
    off.reserve(points.size());
    for (const cv::Point2f& p : points)
      off.push_back(std::abs(radius_share(fit, p) - 1));
    const double limit = 3 * std::max(median(off), 0.01);
    std::vector<cv::Point2f> kept;
    for (std::size_t i = 0; i < points.size(); ++i)
      if (off[i] <= limit)
        kept.push_back(points[i]);
    constexpr std::size_t least_points = 20;
    if (kept.size() >= least_points)
      fit = fitted(kept);
    if (!std::isfinite(fit.longer) || fit.shorter < 1 ||
        cv::norm(fit.centre - start.centre) > start.longer) {
      rim.found = 0;
      return rim;
    }
    rim.blob = fit;
    rim.roughness = roughness_of(fit, points);
  }
  return rim;
}

} // namespace pritchel::imaging
