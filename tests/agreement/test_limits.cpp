#include "measure/detectable.h"

#include <catch2/catch.hpp>

#include <array>
#include <cmath>
#include <vector>

#include "agreement/limits.h"
#include "agreement/repeats.h"

using namespace pritchel;
using namespace pritchel::agreement;

namespace {

// Bland and Altman, Lancet 1986; i:307-310: peak expiratory flow, l/min, 17 people, each meter
// twice. Data from memory; they reproduce every figure that the paper prints.
constexpr std::array<double, 17> large_1 = {
    494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427};
constexpr std::array<double, 17> large_2 = {
    490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421};
constexpr std::array<double, 17> mini_1 = {
    512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451};
constexpr std::array<double, 17> mini_2 = {
    525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443};

constexpr double computed = 0.5e-5; // the reference was computed apart to five digits

std::vector<double> first_less_second() {
  std::vector<double> differences;
  for (std::size_t i = 0; i < large_1.size(); ++i)
    differences.push_back(large_1.at(i) - mini_1.at(i));
  return differences;
}

Pool pooled(const std::array<double, 17>& first, const std::array<double, 17>& second) {
  Pool pool;
  for (std::size_t i = 0; i < first.size(); ++i)
    pool.add(std::array{first.at(i), second.at(i)});
  return pool;
}

} // namespace

// Truth: mean and SD of the paper's data to five digits; the paper prints -2.1 and 38.8, and limits
// of -79.7 and 75.5 from the rounded ones with 2 for 1.96.
TEST_CASE("bias and limits of agreement are those of Bland and Altman", "[agreement][limits]") {
  const auto limits = limits_of_agreement(first_less_second());
  REQUIRE(limits);
  CHECK(limits->pairs == 17);
  CHECK(limits->bias == Approx(-2.11765).margin(computed));
  CHECK(limits->sd == Approx(38.76513).margin(computed));
  CHECK(limits->lower == Approx(-78.09730).margin(computed));
  CHECK(limits->upper == Approx(73.86201).margin(computed));
  constexpr double printed = 0.05;
  CHECK(std::round(limits->bias * 10) / 10 == Approx(-2.1));
  CHECK(std::round(limits->sd * 10) / 10 == Approx(38.8));
  CHECK(-2.1 - 2 * 38.8 == Approx(-79.7).margin(printed));
  CHECK(limits->bias - 2 * limits->sd == Approx(-79.64791).margin(computed));
  CHECK(limits->bias + 2 * limits->sd == Approx(75.41261).margin(computed));
}

// Truth: the paper's formulas with t(16) = 2.1199: the paper prints -22.0 and 17.8 for the bias.
// Its intervals of the limits (-114.3 to -45.1, 40.9 to 110.1) stand about limits of 2 SD; the
// widths are the same, and the limits here are those of 1.96 SD.
TEST_CASE("the intervals of bias and limits follow the paper's standard errors",
          "[agreement][limits]") {
  const auto limits = limits_of_agreement(first_less_second());
  REQUIRE(limits);
  CHECK(limits->bias_interval.low == Approx(-22.04884).margin(computed));
  CHECK(limits->bias_interval.high == Approx(17.81354).margin(computed));
  const double shift = 0.04 * limits->sd; // between 2 and 1.96 SD
  CHECK(limits->lower_interval.low - shift == Approx(-114.16974).margin(2 * computed));
  CHECK(limits->lower_interval.high - shift == Approx(-45.12607).margin(2 * computed));
  CHECK(limits->upper_interval.low + shift == Approx(40.89078).margin(2 * computed));
  CHECK(limits->upper_interval.high + shift == Approx(109.93445).margin(2 * computed));
}

// Truth: sqrt(sum d^2 / 2n) of the paper's repeats, 15.30667 and 19.91083; the paper's coefficients
// 43.2 and 56.4 are twice the square root of sum d^2 / n, here 43.29380 and 56.31633.
TEST_CASE("within-reader SD and repeatability are those of Bland and Altman",
          "[agreement][repeats]") {
  const auto large = pooled(large_1, large_2), mini = pooled(mini_1, mini_2);
  CHECK(large.repeats() == 17);
  CHECK(large.things() == 17);
  CHECK(large.sd() == Approx(15.30667).margin(computed));
  CHECK(mini.sd() == Approx(19.91083).margin(computed));
  const double two_for_196 = 2 / 1.96;
  CHECK(measure::smallest_detectable_change(large.sd()) * two_for_196 ==
        Approx(43.29380).margin(computed));
  CHECK(measure::smallest_detectable_change(mini.sd()) * two_for_196 ==
        Approx(56.31633).margin(computed));
}

// Truth: within mean square of Shrout and Fleiss 1979, six targets read four times: 6.26389.
TEST_CASE("more than two readings of a thing pool to the within mean square",
          "[agreement][repeats]") {
  const std::vector<std::vector<double>> table = {
      {9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}};
  Pool pool;
  for (const auto& row : table)
    pool.add(row);
  CHECK(pool.repeats() == 18);
  CHECK(pool.sd() * pool.sd() == Approx(6.26389).margin(computed));
}

TEST_CASE("one pair has no limits, one reading no repeat", "[agreement][limits]") {
  CHECK_FALSE(limits_of_agreement({}));
  CHECK_FALSE(limits_of_agreement(std::array{1.0}));
  CHECK_FALSE(limits_of_agreement(std::array{1.0, std::numeric_limits<double>::infinity()}));
  Pool pool;
  pool.add(std::array{1.0});
  CHECK(pool.repeats() == 0);
  CHECK(pool.sd() == 0);
}

// Truth: printed tables of Student's t, 0.975 with 1, 2, 5, 16, 100: 12.7062, 4.3027, 2.5706,
// 2.1199, 1.9840; and F(1, n) is t(n) squared.
TEST_CASE("quantiles are those of the printed tables", "[agreement][quantile]") {
  constexpr double four_digits = 0.5e-4;
  CHECK(student_t_quantile(0.975, 1) == Approx(12.7062).margin(four_digits));
  CHECK(student_t_quantile(0.975, 2) == Approx(4.3027).margin(four_digits));
  CHECK(student_t_quantile(0.975, 5) == Approx(2.5706).margin(four_digits));
  CHECK(student_t_quantile(0.975, 16) == Approx(2.1199).margin(four_digits));
  CHECK(student_t_quantile(0.975, 100) == Approx(1.9840).margin(four_digits));
  CHECK(f_quantile(0.95, 1, 7) == Approx(std::pow(student_t_quantile(0.975, 7), 2)));
}
