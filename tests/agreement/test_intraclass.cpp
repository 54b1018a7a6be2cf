#include "measure/detectable.h"

#include <catch2/catch.hpp>

#include "agreement/intraclass.h"

using namespace pritchel;
using namespace pritchel::agreement;

namespace {

/// Shrout and Fleiss, Psychological Bulletin 1979; 86:420-428, table 2: six targets, four judges.
const Table published = {
    {9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}};

constexpr double printed = 0.005;   // the paper prints two digits
constexpr double computed = 0.5e-5; // the reference was computed apart with SciPy to five digits

void check(const Icc& icc, double value, double low, double high) {
  CHECK(icc.value == Approx(value).margin(computed));
  CHECK(icc.interval.low == Approx(low).margin(computed));
  CHECK(icc.interval.high == Approx(high).margin(computed));
}

} // namespace

// Truth: the mean squares that the paper prints for its table: 11.24, 6.26, 32.49, 1.02; further
// digits by exact fractions.
TEST_CASE("the mean squares are those of Shrout and Fleiss", "[agreement][icc]") {
  const auto squares = mean_squares(published);
  REQUIRE(squares);
  CHECK(squares->targets == 6);
  CHECK(squares->judges == 4);
  CHECK(squares->between == Approx(11.24167).margin(computed));
  CHECK(squares->within == Approx(6.26389).margin(computed));
  CHECK(squares->of_judges == Approx(32.48611).margin(computed));
  CHECK(squares->residual == Approx(1.01944).margin(computed));
}

// Truth: the six coefficients the paper prints.
TEST_CASE("the six intraclass correlations are those that Shrout and Fleiss print",
          "[agreement][icc]") {
  const auto all = intraclass(*mean_squares(published));
  REQUIRE(all);
  CHECK(all->one_1.value == Approx(0.17).margin(printed));
  CHECK(all->two_1.value == Approx(0.29).margin(printed));
  CHECK(all->three_1.value == Approx(0.71).margin(printed));
  CHECK(all->one_k.value == Approx(0.44).margin(printed));
  CHECK(all->two_k.value == Approx(0.62).margin(printed));
  CHECK(all->three_k.value == Approx(0.91).margin(printed));
}

// Truth: the paper's formulas computed apart with SciPy's F distribution.
TEST_CASE("the intervals of the intraclass correlations follow the paper's formulas",
          "[agreement][icc]") {
  const auto all = intraclass(*mean_squares(published));
  REQUIRE(all);
  check(all->one_1, 0.165742, -0.13293, 0.72256);
  check(all->two_1, 0.289764, 0.01879, 0.76108);
  check(all->three_1, 0.714841, 0.34246, 0.94586);
  check(all->three_k, 0.909316, 0.67567, 0.98589);
  CHECK(all->one_k.value == Approx(0.442797).margin(computed));
  CHECK(all->two_k.value == Approx(0.620051).margin(computed));
}

// Truth: square roots of the paper's mean squares, and 1.96 * sqrt(2) times them, computed apart.
TEST_CASE("standard errors of measurement and smallest detectable change follow from the table",
          "[agreement][icc]") {
  const auto squares = *mean_squares(published);
  CHECK(sem_consistency(squares) == Approx(1.00968).margin(computed));
  CHECK(sem_agreement(squares) == Approx(2.50278).margin(computed));
  CHECK(measure::smallest_detectable_change(sem_consistency(squares)) ==
        Approx(2.79868).margin(computed));
  CHECK(measure::smallest_detectable_change(sem_agreement(squares)) ==
        Approx(6.93734).margin(computed));
}

TEST_CASE("what is no table or has no spread has no intraclass correlation", "[agreement][icc]") {
  CHECK_FALSE(mean_squares({}));
  CHECK_FALSE(mean_squares({{1, 2}}));
  CHECK_FALSE(mean_squares({{1}, {2}}));
  CHECK_FALSE(mean_squares({{1, 2}, {3}}));
  CHECK_FALSE(mean_squares({{1, 2}, {3, std::numeric_limits<double>::quiet_NaN()}}));
  CHECK_FALSE(intraclass(*mean_squares({{1, 1}, {1, 1}})));
  CHECK_FALSE(intraclass(*mean_squares({{1, 1}, {2, 2}})));
}

// Truth: a reader who is 1 off everywhere agrees with the other about order, not about value; by
// hand: BMS 2 * var(2, 4, 6, ...), and the paper's forms 2 and 3 differ by the judges alone.
TEST_CASE("a reader's constant offset lowers absolute agreement and not consistency",
          "[agreement][icc]") {
  const Table same = {{1.0, 1.1}, {2.0, 1.9}, {3.0, 3.1}, {4.0, 3.9}};
  Table offset = same;
  for (auto& row : offset)
    row[1] += 1;
  const auto before = *intraclass(*mean_squares(same));
  const auto after = *intraclass(*mean_squares(offset));
  CHECK(after.three_1.value == Approx(before.three_1.value));
  CHECK(after.two_1.value < before.two_1.value - 0.1);
  CHECK(after.two_1.interval.low < after.two_1.value);
  CHECK(after.two_1.interval.high > after.two_1.value);
}

TEST_CASE("readers who disagree more than the pictures differ get intervals all the same",
          "[agreement][icc]") {
  const Table contrary = {{1, 6}, {2, 5}, {3, 4}, {4, 3}, {5, 2}, {6, 1.1}};
  const auto all = intraclass(*mean_squares(contrary));
  REQUIRE(all);
  CHECK(all->two_1.value < 0);
  CHECK(std::isfinite(all->two_1.interval.low));
  CHECK(std::isfinite(all->two_1.interval.high));
}
