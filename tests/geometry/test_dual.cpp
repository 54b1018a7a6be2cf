#include "geometry/dual.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <random>

using namespace pritchel;

namespace {

using D = Dual<2>;

struct Sample {
  const char* name;
  std::function<D(D, D)> dual;
  std::function<double(double, double)> plain;
};

const std::vector<Sample>& samples() {
  static const std::vector<Sample> all = {
      {"sum", [](D a, D b) { return a + b; }, [](double a, double b) { return a + b; }},
      {"difference",
       [](D a, D b) { return 1.5 - a - b; },
       [](double a, double b) { return 1.5 - a - b; }},
      {"product",
       [](D a, D b) { return a * b * 3.0; },
       [](double a, double b) { return a * b * 3.0; }},
      {"quotient",
       [](D a, D b) { return 2.0 / a + a / b; },
       [](double a, double b) { return 2.0 / a + a / b; }},
      {"root",
       [](D a, D b) { return sqrt(a * a + b * b); },
       [](double a, double b) { return std::sqrt(a * a + b * b); }},
      {"sine and cosine",
       [](D a, D b) { return sin(a) * cos(b); },
       [](double a, double b) { return std::sin(a) * std::cos(b); }},
      {"tangent",
       [](D a, D b) { return tan(a * 0.1) + b; },
       [](double a, double b) { return std::tan(a * 0.1) + b; }},
      {"arc tangent",
       [](D a, D b) { return atan(a) + atan2(a, b); },
       [](double a, double b) { return std::atan(a) + std::atan2(a, b); }},
      {"absolute value",
       [](D a, D b) { return abs(-a) * b; },
       [](double a, double b) { return std::abs(-a) * b; }},
  };
  return all;
}

} // namespace

// Truth: central differences of the C++ standard library's own functions
TEST_CASE("every dual operation agrees with central differences", "[geometry]") {
  std::mt19937_64 random(7);
  std::uniform_real_distribution<double> in(0.3, 3.0);
  constexpr double h = 1e-5;
  constexpr double tolerance =
      1e-8; // h^2 times third derivatives of order 10, plus rounding 1e-16/h
  for (const auto& sample : samples()) {
    for (int i = 0; i < 50; ++i) {
      const double a = in(random), b = in(random);
      INFO(sample.name << " at " << a << ", " << b);
      const D result = sample.dual(D::input(a, 0), D::input(b, 1));
      CHECK(result.value == Approx(sample.plain(a, b)).epsilon(1e-14));
      const double da = (sample.plain(a + h, b) - sample.plain(a - h, b)) / (2 * h);
      const double db = (sample.plain(a, b + h) - sample.plain(a, b - h)) / (2 * h);
      CHECK(std::abs(result.partial[0] - da) < tolerance * (1 + std::abs(da)) * 10);
      CHECK(std::abs(result.partial[1] - db) < tolerance * (1 + std::abs(db)) * 10);
    }
  }
}

// Truth: calculus, d/dx atan2(y, x) = -y / (x^2 + y^2)
TEST_CASE("the arc tangent of two arguments has its textbook derivative", "[geometry]") {
  const D r = atan2(D::input(3.0, 0), D::input(4.0, 1));
  CHECK(r.partial[0] == Approx(4.0 / 25));
  CHECK(r.partial[1] == Approx(-3.0 / 25));
}
