#include "base/text.h"

#include <catch2/catch.hpp>

using namespace pritchel;

// Truth: typography, U+2212 is the minus sign
TEST_CASE("numbers for people carry a true minus sign and never a negative zero", "[base]") {
  CHECK(for_people(-3.14159, 1) == "\u22123.1");
  CHECK(for_people(3.14159, 1) == "3.1");
  CHECK(for_people(-0.04, 1) == "0.0");
  CHECK(change_for_people(2.0, 1) == "+2.0");
  CHECK(change_for_people(0.01, 1) == "0.0");
}

TEST_CASE("a number is read only when the whole text is one finite number", "[base]") {
  CHECK(parse_number("0.148") == 0.148);
  CHECK_FALSE(parse_number("0,148"));
  CHECK_FALSE(parse_number("nan"));
  CHECK_FALSE(parse_number("inf"));
  CHECK_FALSE(parse_number("12mm"));
  CHECK_FALSE(parse_number(""));
}

// Truth: Gregorian calendar, 2024 is a leap year and 2023 isn't
TEST_CASE("only dates that exist are dates", "[base]") {
  CHECK(is_date("2024-02-29"));
  CHECK_FALSE(is_date("2023-02-29"));
  CHECK_FALSE(is_date("2023-2-9"));
  CHECK_FALSE(is_date("yesterday"));
  CHECK(days_between("2024-02-28", "2024-03-01") == 2);
  CHECK(days_between("2024-03-01", "2024-02-28") == -2);
}
