#include "geometry/circle.h"

#include <Eigen/Dense>
#include <catch2/catch.hpp>

#include <random>
#include <unsupported/Eigen/NonLinearOptimization>
#include <vector>

using namespace pritchel;

namespace {

const std::vector<PlanePoint>& gander_points() {
  static const std::vector<PlanePoint> points = {{1, 7}, {2, 6}, {5, 8}, {7, 7}, {9, 5}, {3, 7}};
  return points;
}

/// The same least-squares problem for Eigen's Levenberg-Marquardt.
struct EigenCircle {
  using Scalar = double;
  using InputType = Eigen::VectorXd;
  using ValueType = Eigen::VectorXd;
  using JacobianType = Eigen::MatrixXd;
  enum { InputsAtCompileTime = Eigen::Dynamic, ValuesAtCompileTime = Eigen::Dynamic };
  const std::vector<PlanePoint>& points;

  [[nodiscard]] int inputs() const { return 3; }
  [[nodiscard]] int values() const { return static_cast<int>(points.size()); }
  int operator()(const Eigen::VectorXd& c, Eigen::VectorXd& residual) const {
    for (int i = 0; i < values(); ++i) {
      const auto& p = points[static_cast<std::size_t>(i)];
      residual(i) = std::hypot(p.x - c(0), p.y - c(1)) - c(2);
    }
    return 0;
  }
};

Eigen::Vector3d eigen_fit(const std::vector<PlanePoint>& points, Eigen::VectorXd start) {
  EigenCircle problem{points};
  Eigen::NumericalDiff<EigenCircle> differentiated(problem);
  Eigen::LevenbergMarquardt<Eigen::NumericalDiff<EigenCircle>> solver(differentiated);
  solver.parameters.xtol = 1e-14;
  solver.parameters.ftol = 1e-14;
  solver.minimize(start);
  return start;
}

} // namespace

// Truth: Gander, Golub and Strebel 1994, BIT 34:558-578, worked example, geometric fit
TEST_CASE("the circle fit gives the published geometric fit, not an algebraic one", "[geometry]") {
  const auto circle = fit_circle(std::span<const PlanePoint>(gander_points()));
  REQUIRE(circle);
  constexpr double last_printed_digit = 5e-5;
  CHECK(std::abs(circle->centre.x - 4.7398) < last_printed_digit);
  CHECK(std::abs(circle->centre.y - 2.9835) < last_printed_digit);
  CHECK(std::abs(circle->radius - 4.7142) < last_printed_digit);
}

// Truth: geometry, the circle through (62,62), (75,49), (87,57): 13^2 = 12^2 + 5^2
TEST_CASE("three points give their exact circle", "[geometry]") {
  const std::vector<PlanePoint> points = {{62, 62}, {75, 49}, {87, 57}};
  const auto circle = fit_circle(std::span<const PlanePoint>(points));
  REQUIRE(circle);
  CHECK(circle->centre.x == Approx(75).margin(1e-9));
  CHECK(circle->centre.y == Approx(62).margin(1e-9));
  CHECK(circle->radius == Approx(13).margin(1e-9));
}

// Truth: Eigen's Levenberg-Marquardt on the same sum of squares
TEST_CASE("noisy arcs are fitted as Eigen fits them", "[geometry]") {
  std::mt19937_64 random(11);
  std::normal_distribution<double> noise(0, 0.3);
  for (int trial = 0; trial < 100; ++trial) {
    std::vector<PlanePoint> points;
    for (int i = 0; i < 6; ++i) {
      const double angle = 3.4 + 0.45 * i;
      points.push_back(
          {40 + 17 * std::cos(angle) + noise(random), 30 + 17 * std::sin(angle) + noise(random)});
    }
    const auto circle = fit_circle(std::span<const PlanePoint>(points));
    REQUIRE(circle);
    const auto expected = eigen_fit(points, Eigen::Vector3d(40, 30, 17));
    constexpr double solver_tolerance = 1e-5; // Eigen differentiates numerically here
    CHECK(std::abs(circle->centre.x - expected(0)) < solver_tolerance);
    CHECK(std::abs(circle->centre.y - expected(1)) < solver_tolerance);
    CHECK(std::abs(circle->radius - expected(2)) < solver_tolerance);
  }
}

// Truth: central differences of the fit itself
TEST_CASE("the fit's derivatives are those of refitting moved points", "[geometry]") {
  using D = Dual<12>;
  std::vector<Point<PlaneFrame, D>> points;
  for (std::size_t i = 0; i < 6; ++i) {
    const auto& p = gander_points()[i];
    points.push_back(
        {D::input(p.x, static_cast<int>(2 * i)), D::input(p.y, static_cast<int>(2 * i + 1))});
  }
  const auto circle = fit_circle(std::span<const Point<PlaneFrame, D>>(points));
  REQUIRE(circle);
  constexpr double h = 1e-5;
  for (std::size_t i = 0; i < 12; ++i) {
    auto up = gander_points(), down = gander_points();
    (i % 2 == 0 ? up[i / 2].x : up[i / 2].y) += h;
    (i % 2 == 0 ? down[i / 2].x : down[i / 2].y) -= h;
    const auto a = fit_circle(std::span<const PlanePoint>(up));
    const auto b = fit_circle(std::span<const PlanePoint>(down));
    REQUIRE(a);
    REQUIRE(b);
    constexpr double tolerance = 1e-5; // convergence 1e-12 over h, times a condition of about 100
    CHECK(std::abs(circle->centre.x.partial[i] - (a->centre.x - b->centre.x) / (2 * h)) <
          tolerance);
    CHECK(std::abs(circle->centre.y.partial[i] - (a->centre.y - b->centre.y) / (2 * h)) <
          tolerance);
    CHECK(std::abs(circle->radius.partial[i] - (a->radius - b->radius) / (2 * h)) < tolerance);
  }
}

// Truth: geometry
TEST_CASE("points on one line and too few points have no circle", "[geometry]") {
  const std::vector<PlanePoint> straight = {{0, 0}, {1, 1}, {2, 2}, {5, 5}};
  CHECK_FALSE(fit_circle(std::span<const PlanePoint>(straight)));
  const std::vector<PlanePoint> two = {{0, 0}, {1, 1}};
  CHECK_FALSE(fit_circle(std::span<const PlanePoint>(two)));
}

// Truth: geometry, a half circle spans 180 degrees
TEST_CASE("the arc spanned is the turn less the widest gap", "[geometry]") {
  const std::vector<PlanePoint> half = {{-1, 0}, {0, -1}, {1, 0}};
  CHECK(arc_spanned({{0, 0}, 1}, half) == Approx(3.14159265).margin(1e-6));
}
