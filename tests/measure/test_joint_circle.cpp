/// How surely a joint's centre is known from three to five points on its arc. Sampled here, and
/// held against the numbers of the project's notes on measurements and against first order.
#include "geometry/circle.h"
#include "measure/measure.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr double radius = 17, noise = 0.5;
constexpr int draws = 100'000;
constexpr std::uint64_t seed = 1717;

/// Points spread evenly over an arc whose middle points straight down.
std::vector<PlanePoint> arc(double degrees, int count) {
  std::vector<PlanePoint> points;
  for (int i = 0; i < count; ++i) {
    const double at = -degrees / 2 + degrees * i / (count - 1);
    const double a = at * 3.14159265358979323846 / 180;
    points.push_back({80 + radius * std::sin(a), 60 - radius * std::cos(a)});
  }
  return points;
}

struct Spreading {
  double along = 0;  ///< standard deviation of the centre along the ground, mm
  double height = 0; ///< in height
  double bias = 0;   ///< mean height less the true one
  double lost = 0;   ///< share of draws without a circle
};

Spreading sampled(double degrees, int count) {
  feet::Random random(seed);
  std::normal_distribution<double> normal(0, noise);
  const auto exact = arc(degrees, count);
  double x = 0, xx = 0, y = 0, yy = 0;
  int found = 0;
  for (int k = 0; k < draws; ++k) {
    auto points = exact;
    for (auto& p : points)
      p = {p.x + normal(random), p.y + normal(random)};
    const auto circle = fit_circle(std::span<const PlanePoint>(points));
    if (!circle)
      continue;
    ++found;
    const double dx = circle->centre.x - 80, dy = circle->centre.y - 60;
    x += dx;
    xx += dx * dx;
    y += dy;
    yy += dy * dy;
  }
  return {std::sqrt(xx / found - x * x / found / found),
          std::sqrt(yy / found - y * y / found / found),
          y / found,
          1 - static_cast<double>(found) / draws};
}

/// The program's own: derivatives of the fit, each coordinate unsure by `noise`.
Spreading first_order(double degrees, int count) {
  using D = Dual<10>;
  std::vector<Point<PlaneFrame, D>> points;
  for (const auto& p : arc(degrees, count)) {
    const int i = static_cast<int>(2 * points.size());
    points.push_back({D::input(p.x, i), D::input(p.y, i + 1)});
  }
  const auto circle = fit_circle(std::span<const Point<PlaneFrame, D>>(points));
  REQUIRE(circle);
  double along = 0, height = 0;
  for (std::size_t i = 0; i < 10; ++i) {
    along += circle->centre.x.partial[i] * circle->centre.x.partial[i];
    height += circle->centre.y.partial[i] * circle->centre.y.partial[i];
  }
  return {noise * std::sqrt(along), noise * std::sqrt(height), 0, 0};
}

void print(const char* what, double degrees, int count, const Spreading& s) {
  if (std::getenv("PRITCHEL_TEST_TABLE"))
    std::printf("%-12s arc %3.0f, %d points: along %.3f height %.3f bias %+.3f lost %.5f\n",
                what,
                degrees,
                count,
                s.along,
                s.height,
                s.bias,
                s.lost);
}

} // namespace

// Truth: geometry, radius 17, three points each unsure by 0.5 mm: along the ground 0.4-0.5; in
// height 0.8 at 150 degrees, 1.2 at 120, 1.8 at 100, 2.8 at 80 (printed with one decimal). The
// last one has a long tail, so that two samplings differ by more than the printed digit
TEST_CASE("a joint centre from three points is as unsure as the arc is short", "[measure]") {
  for (const auto& [degrees, height, digit] : {std::tuple{150.0, 0.8, 0.051},
                                               {120.0, 1.2, 0.051},
                                               {100.0, 1.8, 0.051},
                                               {80.0, 2.8, 0.12}}) {
    const auto seen = sampled(degrees, 3);
    INFO("arc " << degrees);
    CHECK(std::abs(seen.height - height) < digit);
    CHECK(seen.along > 0.35);
    CHECK(seen.along < 0.57);
  }
}

// Truth: Monte Carlo, 100,000 draws, five per cent where the arc is 100 degrees or more
TEST_CASE("first order and sampling agree on a joint centre over 100 degrees and more",
          "[measure]") {
  for (const double degrees : {100.0, 120.0, 135.0, 150.0})
    for (const int count : {3, 4, 5}) {
      const auto stated = first_order(degrees, count), seen = sampled(degrees, count);
      print("stated", degrees, count, stated);
      print("sampled", degrees, count, seen);
      INFO("arc " << degrees << ", " << count << " points");
      CHECK(std::abs(stated.along / seen.along - 1) < 0.05);
      CHECK(std::abs(stated.height / seen.height - 1) < 0.05);
      CHECK(seen.lost == 0);
    }
}

// Truth: Monte Carlo; over a short arc the height is no longer near-linear in the points, and the
// stated uncertainty is too small: a known limit, see docs/accuracy.md
TEST_CASE("over a short arc the stated uncertainty of the centre's height is too small",
          "[measure]") {
  const auto at = [](double degrees) {
    const auto stated = first_order(degrees, 3), seen = sampled(degrees, 3);
    print("stated", degrees, 3, stated);
    print("sampled", degrees, 3, seen);
    return stated.height / seen.height;
  };
  CHECK(at(90) > 0.93);
  CHECK(at(80) > 0.88);
  CHECK(at(70) < 0.88);
  CHECK(at(60) < 0.80);
}
