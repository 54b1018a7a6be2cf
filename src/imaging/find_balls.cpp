#include "imaging/find_marker.h"
#include "imaging/scale.h"
#include "imaging/value_raster.h"

#include <Eigen/Dense>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace pritchel::imaging {
namespace {

// What a ball's shadow is, all own estimates [E].
constexpr double least_radius_px = 8;
constexpr double greatest_radius_share = 0.15; ///< of the picture's longer side
constexpr double least_contrast_share = 0.2;   ///< of the picture's whole range
constexpr double least_edge_share = 0.8;       ///< of the way round
constexpr double greatest_flattening = 0.06;   ///< 1/cos of 20 degrees off the central ray
constexpr double greatest_scatter = 0.012;     ///< of the radius, or a third of a pixel
constexpr double greatest_softness = 0.12;     ///< between the outer two levels, of the radius
constexpr double greatest_unevenness = 0.25;   ///< of the grey within, of the step

struct Disc {
  ImagePoint centre;
  double radius = 0; ///< in widths of a pixel
};

/// What is the same for all candidates of a picture.
struct Search {
  cv::Mat values;
  double aspect = 1; ///< pixel height over width
  double range = 1;  ///< of the values, but for their extremes
  double low = 0;
};

double quantile(std::vector<double> values, double share) {
  const auto at = static_cast<long>(share * static_cast<double>(values.size() - 1));
  std::nth_element(values.begin(), values.begin() + at, values.end());
  return values[static_cast<std::size_t>(at)];
}

Search search_of(const Picture& radiograph) {
  Search search{.values = value_raster(radiograph),
                .aspect = pixel_aspect_ratio(radiograph.spacing, radiograph.pixel_aspect)};
  std::vector<double> some;
  const int step = std::max(1, std::max(search.values.cols, search.values.rows) / 600);
  for (int y = 0; y < search.values.rows; y += step)
    for (int x = 0; x < search.values.cols; x += step)
      some.push_back(static_cast<double>(search.values.at<float>(y, x)));
  search.low = quantile(some, 0.01);
  search.range = quantile(some, 0.999) - search.low;
  return search;
}

/// Round bright outlines of a small, smooth copy at one level.
void add_round_outlines(
    std::vector<Disc>& discs, const cv::Mat& small, double level, double zoom, double aspect) {
  cv::Mat above;
  cv::threshold(small, above, level, 255, cv::THRESH_BINARY);
  above.convertTo(above, CV_8U);
  std::vector<std::vector<cv::Point>> outlines;
  cv::findContours(above, outlines, cv::RETR_LIST, cv::CHAIN_APPROX_NONE);
  constexpr double least_roundness = 0.8, least_small_area = 40;
  for (const auto& outline : outlines) {
    const double area = cv::contourArea(outline);
    const double around = cv::arcLength(outline, true);
    if (area < least_small_area ||
        4 * std::numbers::pi * area / (around * around) < least_roundness)
      continue;
    const auto moments = cv::moments(outline);
    discs.push_back({.centre = {(moments.m10 / moments.m00 + 0.5) * zoom - 0.5,
                                ((moments.m01 / moments.m00 + 0.5) * zoom - 0.5) / aspect},
                     .radius = std::sqrt(area / std::numbers::pi) * zoom});
  }
}

std::vector<Disc> candidates(const Search& search) {
  constexpr double small_side = 1200;
  const double wide = search.values.cols, high = search.values.rows * search.aspect;
  const double zoom = std::max(1.0, std::max(wide, high) / small_side);
  cv::Mat small;
  cv::resize(search.values,
             small,
             {cvRound(wide / zoom), cvRound(high / zoom)},
             0,
             0,
             zoom > 1 ? cv::INTER_AREA : cv::INTER_LINEAR);
  cv::GaussianBlur(small, small, {0, 0}, 1.0);
  std::vector<Disc> discs;
  constexpr int levels = 16;
  for (int i = 1; i < levels; ++i)
    add_round_outlines(discs, small, search.low + search.range * i / levels, zoom, search.aspect);
  const double most = greatest_radius_share * std::max(wide, high);
  std::erase_if(discs,
                [&](const Disc& d) { return d.radius < least_radius_px || d.radius > most; });
  return discs;
}

ImagePoint on_ray(const Disc& disc, double angle, double r, double aspect) {
  return {disc.centre.x + r * std::cos(angle), disc.centre.y + r * std::sin(angle) / aspect};
}

/// Where each of three levels of the step from inside to ground is crossed along one ray.
struct EdgePoint {
  double angle = 0;
  std::array<double, 3> r{}; ///< in the order of step_shares
};

/// Shares of the step above the ground. A film's values go with the logarithm of the exposure, and
/// the edge of an opaque ball is where blur leaves half the exposure: ln 2 above the ground, which
/// is 0.30 to 0.10 of the step where scatter leaves 10 % to 0.1 % of the exposure behind the ball;
/// edge enhancement and a burnt-out ground take more off. Half of the grey would make every ball
/// too small by two and a half times the blur.
constexpr std::array<double, 3> step_shares{0.30, 0.11, 0.04};

struct Ray {
  std::vector<double> r;
  std::vector<double> value;
};

Ray ray_from(const Search& search, const Disc& disc, double angle) {
  constexpr double inner = 0.6, outer = 1.4, step_px = 0.5;
  const double room = std::max(6.0, 0.4 * disc.radius);
  Ray ray;
  for (double r = inner * disc.radius; r <= std::max(outer * disc.radius, disc.radius + room);
       r += step_px)
    if (const auto value = value_at(search.values, on_ray(disc, angle, r, search.aspect))) {
      ray.r.push_back(r);
      ray.value.push_back(*value);
    }
  return ray;
}

/// The place nearest to the expected radius where the values fall through the level.
std::optional<double> fall_through(const Ray& ray, double level, double near) {
  std::optional<double> best;
  for (std::size_t i = 0; i + 1 < ray.r.size(); ++i) {
    const double a = ray.value[i], b = ray.value[i + 1];
    if (a < level || b >= level)
      continue;
    const double r = ray.r[i] + (ray.r[i + 1] - ray.r[i]) * (a - level) / (a - b);
    if (!best || std::abs(r - near) < std::abs(*best - near))
      best = r;
  }
  return best;
}

std::optional<EdgePoint>
edge_on(const Search& search, const Disc& disc, double angle, double inside) {
  const auto ray = ray_from(search, disc, angle);
  std::vector<double> ground;
  for (std::size_t i = 0; i < ray.r.size(); ++i)
    if (ray.r[i] > 1.15 * disc.radius)
      ground.push_back(ray.value[i]);
  constexpr std::size_t least_ground = 4;
  if (ground.size() < least_ground)
    return std::nullopt;
  const double outside = quantile(ground, 0.5);
  const double step = inside - outside;
  if (step < least_contrast_share * search.range)
    return std::nullopt;
  EdgePoint edge{.angle = angle};
  for (std::size_t i = 0; i < step_shares.size(); ++i) {
    const auto r = fall_through(ray, outside + step_shares[i] * step, disc.radius);
    if (!r)
      return std::nullopt;
    edge.r[i] = *r;
  }
  return edge;
}

/// Grey within the disc: its middle and how far nine tenths of it stray, of the step to the ground
/// later on.
struct Within {
  double middle = 0;
  double spread = 0;
};

Within within(const Search& search, const Disc& disc) {
  std::vector<double> values;
  constexpr int rings = 6, spokes = 24;
  for (int i = 0; i <= rings; ++i)
    for (int k = 0; k < spokes; ++k) {
      const double angle = 2 * std::numbers::pi * k / spokes;
      const double r = 0.75 * disc.radius * i / rings;
      if (const auto value = value_at(search.values, on_ray(disc, angle, r, search.aspect)))
        values.push_back(*value);
    }
  if (values.empty())
    return {};
  return {.middle = quantile(values, 0.5),
          .spread = quantile(values, 0.95) - quantile(values, 0.05)};
}

/// An ellipse close to a circle: r = radius + c cos 2a + s sin 2a about its centre, to first order
/// in the flattening (4e-4 of the radius at 20 degrees off the central ray).
struct NearCircle {
  Disc disc;
  double c = 0;
  double s = 0;
  double scatter = 0; ///< standard deviation of an edge point
  std::size_t points = 0;

  [[nodiscard]] double flattening() const { return 2 * std::hypot(c, s) / disc.radius; }
};

/// Least squares about a centre near enough that its shift is small: dx cos a + dy sin a.
std::optional<NearCircle> fit_near_circle(const Disc& about,
                                          const std::vector<EdgePoint>& edge,
                                          std::size_t level,
                                          double aspect) {
  constexpr std::size_t least_points = 16;
  if (edge.size() < least_points)
    return std::nullopt;
  Eigen::MatrixXd rows(static_cast<long>(edge.size()), 5);
  Eigen::VectorXd r(static_cast<long>(edge.size()));
  for (std::size_t i = 0; i < edge.size(); ++i) {
    const double a = edge[i].angle;
    rows.row(static_cast<long>(i)) << 1, std::cos(a), std::sin(a), std::cos(2 * a), std::sin(2 * a);
    r[static_cast<long>(i)] = edge[i].r[level];
  }
  const Eigen::VectorXd x = rows.colPivHouseholderQr().solve(r);
  const double squares = (rows * x - r).squaredNorm();
  return NearCircle{
      .disc = {.centre = {about.centre.x + x[1], about.centre.y + x[2] / aspect}, .radius = x[0]},
      .c = x[3],
      .s = x[4],
      .scatter = std::sqrt(squares / static_cast<double>(edge.size() - 5)),
      .points = edge.size()};
}

double off_fit(const NearCircle& fit, const Disc& about, const EdgePoint& e, double aspect) {
  const double dx = fit.disc.centre.x - about.centre.x;
  const double dy = (fit.disc.centre.y - about.centre.y) * aspect;
  return e.r[1] - (fit.disc.radius + dx * std::cos(e.angle) + dy * std::sin(e.angle) +
                   fit.c * std::cos(2 * e.angle) + fit.s * std::sin(2 * e.angle));
}

int rays_round(double radius) {
  return std::clamp(static_cast<int>(2 * std::numbers::pi * radius), 64, 360);
}

std::vector<EdgePoint> edge_of(const Search& search, const Disc& disc, double inside) {
  std::vector<EdgePoint> edge;
  const int rays = rays_round(disc.radius);
  for (int i = 0; i < rays; ++i)
    if (const auto e = edge_on(search, disc, 2 * std::numbers::pi * i / rays, inside))
      edge.push_back(*e);
  return edge;
}

/// Rays that meet something else (a label, the wire) are left out.
std::vector<EdgePoint> without_strays(const NearCircle& fit,
                                      const Disc& about,
                                      std::vector<EdgePoint> edge,
                                      double aspect) {
  std::vector<double> off;
  for (const auto& e : edge)
    off.push_back(std::abs(off_fit(fit, about, e, aspect)));
  const double most = std::max(0.3, 4 * 1.4826 * quantile(off, 0.5));
  std::erase_if(
      edge, [&](const EdgePoint& e) { return std::abs(off_fit(fit, about, e, aspect)) > most; });
  return edge;
}

struct Refined {
  BallSeen ball;
  double step = 0; ///< in grey, of the whole range: the stronger the surer
};

double softness(const std::vector<EdgePoint>& edge) {
  std::vector<double> widths;
  for (const auto& e : edge)
    widths.push_back(e.r[2] - e.r[0]);
  return quantile(widths, 0.5);
}

/// The short side: where the flattening is no more than chance leaves, the mean.
double short_side(const NearCircle& fit) {
  const double flat = std::hypot(fit.c, fit.s);
  const double chance = fit.scatter * std::sqrt(2.0 / static_cast<double>(fit.points));
  return 2 * (fit.disc.radius - (flat > 3 * chance ? flat : 0));
}

std::optional<Refined> refined(const Search& search, Disc disc) {
  constexpr int rounds = 4;
  const double first_radius = disc.radius;
  for (int i = 0; i < rounds; ++i) {
    const auto inside = within(search, disc);
    const auto all = edge_of(search, disc, inside.middle);
    const auto first = fit_near_circle(disc, all, 1, search.aspect);
    if (!first)
      return std::nullopt;
    const auto edge = without_strays(*first, disc, all, search.aspect);
    const auto fit = fit_near_circle(disc, edge, 1, search.aspect);
    if (!fit || fit->disc.radius < least_radius_px || fit->disc.radius > 2 * first_radius ||
        distance(fit->disc.centre, disc.centre) > disc.radius)
      return std::nullopt;
    if (i + 1 < rounds) {
      disc = fit->disc;
      continue;
    }
    const auto outer = fit_near_circle(disc, edge, 2, search.aspect);
    const auto inner = fit_near_circle(disc, edge, 0, search.aspect);
    const auto ground =
        value_at(search.values, on_ray(disc, edge.front().angle, 1.3 * disc.radius, search.aspect));
    if (!outer || !inner || !ground)
      return std::nullopt;
    const double soft = softness(edge);
    const double step = inside.middle - *ground;
    const bool good =
        static_cast<double>(edge.size()) >= least_edge_share * rays_round(disc.radius) &&
        fit->flattening() < greatest_flattening &&
        fit->scatter < std::max(0.34, greatest_scatter * fit->disc.radius) &&
        soft < std::max(3.0, greatest_softness * fit->disc.radius) &&
        inside.spread < greatest_unevenness * step;
    if (!good)
      return std::nullopt;
    // Neighbouring rays share pixels: a quarter of them tells something of its own. The edge most
    // likely lies between the outer two levels; processing may have moved it as far again beyond
    // either (triangular, JCGM 100 4.3.9).
    const double by_scatter = 2 * fit->scatter / std::sqrt(static_cast<double>(edge.size()) / 4.0);
    const double by_softness = 2 * (outer->disc.radius - inner->disc.radius) / std::sqrt(6.0);
    return Refined{.ball = {.centre = fit->disc.centre,
                            .diameter_px = short_side(*fit),
                            .unsure_px = std::hypot(by_scatter, by_softness)},
                   .step = step / search.range};
  }
  return std::nullopt;
}

void keep_if_new(std::vector<Refined>& found, const Refined& one) {
  for (auto& each : found)
    if (distance(each.ball.centre, one.ball.centre) < each.ball.diameter_px / 2) {
      if (one.ball.unsure_px < each.ball.unsure_px)
        each = one;
      return;
    }
  found.push_back(one);
}

} // namespace

std::vector<BallSeen> find_balls(const Picture& radiograph) {
  if (radiograph.kind != PictureKind::radiograph)
    return {};
  try {
    const auto search = search_of(radiograph);
    if (!(search.range > 0))
      return {};
    std::vector<Refined> found;
    for (const auto& disc : candidates(search))
      if (const auto one = refined(search, disc))
        keep_if_new(found, *one);
    std::stable_sort(found.begin(), found.end(), [](const Refined& a, const Refined& b) {
      return a.step / (a.ball.unsure_px / a.ball.diameter_px) >
             b.step / (b.ball.unsure_px / b.ball.diameter_px);
    });
    std::vector<BallSeen> balls;
    for (const auto& each : found)
      balls.push_back(each.ball);
    return balls;
  } catch (const cv::Exception&) {
    return {};
  }
}

} // namespace pritchel::imaging
