#include "record/edit.h"

#include <catch2/catch.hpp>

#include "samples.h"

using namespace pritchel;
using namespace pritchel::record;

namespace {

PictureEntry another_picture() {
  auto entry = test::sample_picture();
  entry.digest = sha256_hex(std::string("another picture"));
  return entry;
}

} // namespace

TEST_CASE("a new visit gets an id of its own and its place by date", "[record][edit]") {
  auto value = with_new_visit(test::sample_case(), {.date = "2025-05-05"});
  value = with_new_visit(value, {.id = "visit-1", .date = "2026-05-05"});
  REQUIRE(value.visits.size() == 3);
  CHECK(value.visits[0].date == "2025-05-05");
  CHECK(value.visits[1].id == "visit-1");
  CHECK(value.visits[2].date == "2026-05-05");
  CHECK(value.visits[0].id != value.visits[2].id);
  CHECK(value.visits[2].id != "visit-1");
}

TEST_CASE("a picture is in one visit once", "[record][edit]") {
  const auto two = with_new_visit(test::sample_case(), {.date = "2026-05-05"});
  const auto later = two.visits[1].id;
  const auto again = with_new_picture(two, "visit-1", test::sample_picture());
  REQUIRE(again);
  CHECK(again->visits[0].pictures.size() == 1);
  const auto elsewhere = with_new_picture(two, later, test::sample_picture());
  REQUIRE_FALSE(elsewhere);
  CHECK(elsewhere.error().trouble == Trouble::conflict);
  const auto other = with_new_picture(two, later, another_picture());
  REQUIRE(other);
  CHECK(picture_in(*other, later, another_picture().digest));
  CHECK_FALSE(picture_in(*other, "visit-1", another_picture().digest));
}

TEST_CASE("taking a picture out leaves the others", "[record][edit]") {
  const auto two = with_new_picture(test::sample_case(), "visit-1", another_picture());
  REQUIRE(two);
  const auto one = without_picture(*two, "visit-1", test::sample_picture().digest);
  REQUIRE(one);
  REQUIRE(one->visits[0].pictures.size() == 1);
  CHECK(one->visits[0].pictures[0].digest == another_picture().digest);
}

TEST_CASE("an unknown visit or picture is not found", "[record][edit]") {
  const auto value = test::sample_case();
  const auto is_not_found = [](const auto& result) {
    return !result && result.error().trouble == Trouble::not_found;
  };
  CHECK(is_not_found(visit_in(value, "visit-9")));
  CHECK(is_not_found(picture_in(value, another_picture().digest)));
  CHECK(is_not_found(with_visit(value, {.id = "visit-9", .date = "2026-05-05"})));
  CHECK(is_not_found(with_picture(value, "visit-1", another_picture())));
  CHECK(is_not_found(without_picture(value, "visit-1", another_picture().digest)));
  CHECK(is_not_found(with_new_picture(value, "visit-9", another_picture())));
}
