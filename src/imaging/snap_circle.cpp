#include "base/median.h"
#include "geometry/circle.h"
#include "imaging/edge_fit.h"
#include "imaging/snap.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace pritchel::imaging {
namespace {

struct Ring {
  ImagePoint centre;
  double radius = 0;
};

/// A step on a ray from the first rough centre.
struct RimPoint {
  ImagePoint at;
  double step = 0;
  std::size_t ray = 0;
};

struct Rim {
  std::vector<RimPoint> points;
  std::size_t rays = 0;
};

std::optional<Ring> ring_through(const std::vector<ImagePoint>& points) {
  std::vector<PlanePoint> plain;
  for (const auto& p : points)
    plain.push_back({p.x, p.y});
  const auto circle = fit_circle(std::span<const PlanePoint>(plain));
  if (!circle)
    return std::nullopt;
  return Ring{{circle->centre.x, circle->centre.y}, circle->radius};
}

double off(const Ring& ring, const ImagePoint& p) {
  return distance(ring.centre, p) - ring.radius;
}

/// The angles that the points span: the full turn less the largest gap between neighbours.
std::pair<double, double> arc_of(const Ring& ring, const std::vector<ImagePoint>& points) {
  std::vector<double> angles;
  for (const auto& p : points)
    angles.push_back(std::atan2(p.y - ring.centre.y, p.x - ring.centre.x));
  std::sort(angles.begin(), angles.end());
  constexpr double turn = 2 * std::numbers::pi;
  std::size_t after = 0;
  double widest = angles.front() + turn - angles.back();
  for (std::size_t i = 1; i < angles.size(); ++i)
    if (angles[i] - angles[i - 1] > widest) {
      widest = angles[i] - angles[i - 1];
      after = i;
    }
  return {angles[after], angles[after] + turn - widest};
}

Rim rim_of(const EdgePatch& patch,
           const Ring& ring,
           const std::pair<double, double>& arc,
           double reach) {
  Rim rim;
  const double arc_px = (arc.second - arc.first) * ring.radius;
  const int rays = std::clamp(static_cast<int>(arc_px), 24, 240);
  for (int i = 0; i <= rays; ++i) {
    const double a = arc.first + (arc.second - arc.first) * i / rays;
    const Vector<ImageFrame> inward{-std::cos(a), -std::sin(a)};
    const auto on = ring.centre - inward * ring.radius;
    for (const auto& peak : patch.peaks(on, inward, reach, 1, Step::brighter))
      rim.points.push_back({on + inward * peak.u, peak.step, rim.rays});
    ++rim.rays;
  }
  return rim;
}

constexpr double near_px = 1.6;

/// Sum over the rays of the best step near the ring.
double worth_of(const Rim& rim, const Ring& ring) {
  constexpr double most_step = 30;
  double sum = 0, best = 0;
  std::size_t ray = 0;
  for (const auto& p : rim.points) {
    if (p.ray != ray) {
      sum += best;
      best = 0;
      ray = p.ray;
    }
    const double far = off(ring, p.at) / near_px;
    if (std::abs(far) < 1)
      best = std::max(best, std::min(p.step, most_step) * (1 - far * far));
  }
  return sum + best;
}

std::optional<Ring> best_ring(const Rim& rim, const Ring& rough, double reach) {
  constexpr int draws = 4000;
  constexpr double least = 0.75, most = 1.33; // of the rough radius
  std::minstd_rand draw(1);
  std::optional<Ring> best;
  double best_worth = 0;
  const auto& all = rim.points;
  const double apart = 0.15 * static_cast<double>(rim.rays);
  for (int i = 0; i < draws && all.size() > 3; ++i) {
    const auto &a = all[draw() % all.size()], &b = all[draw() % all.size()],
               &c = all[draw() % all.size()];
    const auto gap = [](const RimPoint& p, const RimPoint& q) {
      return std::abs(static_cast<double>(p.ray) - static_cast<double>(q.ray));
    };
    if (gap(a, b) < apart || gap(b, c) < apart || gap(a, c) < apart)
      continue;
    const auto ring = ring_through({a.at, b.at, c.at});
    if (!ring || ring->radius < least * rough.radius || ring->radius > most * rough.radius ||
        distance(ring->centre, rough.centre) > 2 * reach)
      continue;
    const double worth = worth_of(rim, *ring);
    if (worth > best_worth) {
      best_worth = worth;
      best = ring;
    }
  }
  return best;
}

/// Least squares over the rim near the ring, three times over.
std::optional<Ring> settled(const Rim& rim, Ring ring) {
  constexpr int rounds = 3;
  for (int i = 0; i < rounds; ++i) {
    std::vector<ImagePoint> close;
    for (const auto& p : rim.points)
      if (std::abs(off(ring, p.at)) < near_px)
        close.push_back(p.at);
    constexpr std::size_t least = 10;
    const auto next = close.size() < least ? std::nullopt : ring_through(close);
    if (!next)
      return std::nullopt;
    ring = *next;
  }
  return ring;
}

/// Of the rays for which `counts` says so: the share on which a step lies near the ring.
template <class Counts> double share_on(const Rim& rim, const Ring& ring, Counts counts) {
  std::vector<int> seen(rim.rays, -1);
  for (const auto& p : rim.points)
    if (counts(p.at))
      seen[p.ray] = std::max(seen[p.ray], std::abs(off(ring, p.at)) < near_px ? 1 : 0);
  const auto asked =
      static_cast<double>(std::count_if(seen.begin(), seen.end(), [](int s) { return s >= 0; }));
  return asked == 0 ? 0 : static_cast<double>(std::count(seen.begin(), seen.end(), 1)) / asked;
}

Ring shifted(const Ring& ring, const Vector<ImageFrame>& by) {
  return {ring.centre + by, ring.radius};
}

/// The twin outline of the same size beside the first, where the two part far enough to be told
/// from each other.
std::optional<Ring> twin_of(const Rim& rim, const Ring& first) {
  constexpr double least_apart = 3, least_share = 0.7, least_rays = 0.25;
  constexpr int ways = 24;
  const double most_apart = 0.3 * first.radius;
  Rim rest{.points = {}, .rays = rim.rays};
  for (const auto& p : rim.points)
    if (std::abs(off(first, p.at)) > near_px)
      rest.points.push_back(p);
  std::optional<Ring> best;
  double most = 0;
  for (double apart = least_apart; apart <= most_apart; apart += 0.7)
    for (int way = 0; way < ways; ++way) {
      const double a = 2 * std::numbers::pi * way / ways;
      const auto ring = shifted(first, {apart * std::cos(a), apart * std::sin(a)});
      const double worth = worth_of(rest, ring);
      if (worth > most) {
        most = worth;
        best = ring;
      }
    }
  if (!best)
    return std::nullopt;
  std::size_t rays = 0;
  std::vector<char> parts(rim.rays, 0);
  for (const auto& p : rest.points)
    if (std::abs(off(*best, p.at)) < near_px && std::abs(off(first, p.at)) > 2)
      parts[p.ray] = 1;
  rays = static_cast<std::size_t>(std::count(parts.begin(), parts.end(), 1));
  const auto parted = [&](const ImagePoint& p) {
    const auto way = unit(p - first.centre);
    return std::abs(dot(way, best->centre - first.centre)) > 2.5;
  };
  if (static_cast<double>(rays) < least_rays * static_cast<double>(rim.rays) ||
      share_on(rim, *best, parted) < least_share)
    return std::nullopt;
  const auto fine = settled(rest, *best);
  if (!fine || std::abs(fine->radius / first.radius - 1) > 0.06 ||
      distance(fine->centre, first.centre) > 1.5 * most_apart)
    return best;
  return fine;
}

std::optional<Ring>
ring_in(const EdgePatch& patch, const std::vector<ImagePoint>& points, double reach) {
  const auto rough = ring_through(points);
  constexpr double least_radius = 12, most_radius = 2000;
  if (!rough || rough->radius < least_radius || rough->radius > most_radius)
    return std::nullopt;
  const auto arc = arc_of(*rough, points);
  const auto rim = rim_of(patch, *rough, arc, std::min(reach, 0.6 * rough->radius));
  const auto best = best_ring(rim, *rough, reach);
  const auto first = best ? settled(rim, *best) : std::nullopt;
  constexpr double clear_share = 0.6;
  if (!first || share_on(rim, *first, [](const ImagePoint&) { return true; }) < clear_share)
    return std::nullopt;
  const auto twin = twin_of(rim, *first);
  if (!twin)
    return first;
  return Ring{midpoint(first->centre, twin->centre), 0.5 * (first->radius + twin->radius)};
}

} // namespace

std::optional<std::vector<ImagePoint>>
snap_circle(const Picture& picture, std::span<const ImagePoint> points, const Snapping& snapping) {
  if (!is_usable(snapping) || points.size() < 3)
    return std::nullopt;
  try {
    const EdgePatch patch(picture, points, 2 * snapping.reach_px + 12);
    if (patch.empty())
      return std::nullopt;
    std::vector<ImagePoint> rough, settled_on;
    for (const auto& p : points)
      rough.push_back(patch.inward(p));
    const auto ring = ring_in(patch, rough, snapping.reach_px);
    if (!ring)
      return std::nullopt;
    for (const auto& p : rough) {
      const auto on = ring->centre + unit(p - ring->centre) * ring->radius;
      if (distance(on, p) > 1.5 * snapping.reach_px)
        return std::nullopt;
      settled_on.push_back(patch.outward(on));
    }
    return settled_on;
  } catch (const cv::Exception&) {
    return std::nullopt;
  }
}

} // namespace pritchel::imaging
