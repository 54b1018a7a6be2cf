/// Several people on one case: the change number, and plans that are saved by two.
#include "record/json.h"
#include "record/store.h"

#include <catch2/catch.hpp>

#include <utility>

#include "stores.h"

using namespace pritchel;
using namespace pritchel::record;

namespace {

using test::now, test::opened, test::tamper, test::with_case;
const std::string horse = "old-tom";

Plan undecided_plan() {
  auto plan = test::sample_plan();
  plan.sign_off.reset();
  plan.lines.front().decision = Decision::open;
  return plan;
}

std::int64_t change(Store& store, const std::string& reader = {}) {
  const auto number = store.change_of(horse, reader);
  REQUIRE(number);
  return *number;
}

ReadingEntry reading_by(const std::string& reader, int revision) {
  auto reading = test::sample_reading();
  reading.reader = reader;
  reading.revision = revision;
  return reading;
}

} // namespace

TEST_CASE("the change number grows with every save in its case and with nothing else",
          "[record][store][changes]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  const auto picture = test::sample_reading().picture;
  auto last = change(*store);
  const auto grew = [&] {
    const auto before = std::exchange(last, change(*store));
    return last > before;
  };
  CHECK(last >= 1);
  REQUIRE(store->save_case(test::sample_case(), now));
  CHECK(grew());
  REQUIRE(store->save_reading(horse, reading_by("Ada", 0), now));
  CHECK(grew());
  REQUIRE(store->finish_reading(horse, picture, "Ada", now));
  CHECK(grew());
  REQUIRE(store->begin_turn(horse, picture, "Ada", Sight::blind, now));
  CHECK(grew());
  REQUIRE(store->add_plan(horse, undecided_plan(), now));
  CHECK(grew());
  auto plan = undecided_plan();
  plan.version = 1;
  plan.revision = 1;
  plan.lines.front().decision = Decision::accept;
  REQUIRE(store->save_plan(horse, plan, now));
  CHECK(grew());
  REQUIRE(store->sign_plan(horse,
                           plan.visit,
                           {.version = 1, .revision = 2},
                           {.name = "Vera", .registration = "V-0000", .date = "2026-03-03"},
                           now));
  CHECK(grew());

  auto other = test::sample_case();
  other.id = "thistle";
  REQUIRE(store->add_case(other, now));
  CHECK_FALSE(grew());
  CHECK_FALSE(store->save_reading(horse, reading_by("Ada", 7), now));
  CHECK_FALSE(grew());
  const auto nowhere = store->change_of("nobody", "");
  REQUIRE_FALSE(nowhere);
  CHECK(nowhere.error().trouble == Trouble::not_found);
}

TEST_CASE("what another process saved is counted, and the count outlives the program",
          "[record][store][changes]") {
  const test::Folder folder;
  auto page = with_case(folder);
  const auto before = change(*page);
  {
    const auto command_line = opened(folder);
    REQUIRE(command_line->save_reading(horse, reading_by("Ben", 0), now));
  }
  const auto after = change(*page);
  CHECK(after > before);
  page.reset();
  CHECK(change(*opened(folder)) == after);
}

TEST_CASE("the saves of a blind reading are counted for its reader alone, and leave no gap",
          "[record][store][changes][blind]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  const auto picture = test::sample_reading().picture;
  REQUIRE(store->begin_turn(horse, picture, "Ada", Sight::blind, now));
  const auto begun = change(*store, "Ben");
  auto hers = change(*store, "Ada");
  for (int revision = 1; revision < 6; ++revision) {
    REQUIRE(store->save_reading(horse, reading_by("Ada", revision), now));
    CHECK(change(*store, "Ada") == ++hers);
    CHECK(change(*store, "Ben") == begun);
    CHECK(change(*store) == begun);
  }
  // Truth: one more save that everybody may know of is one more, however often she saved between.
  REQUIRE(store->finish_reading(horse, picture, "Ada", now));
  CHECK(change(*store, "Ben") == begun + 1);
  CHECK(change(*store, "Ada") == hers + 1);
}

TEST_CASE("of two who decide on the same plan the later is told, and loses nothing of the other's",
          "[record][store][changes]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  const auto made = store->add_plan(horse, undecided_plan(), now);
  REQUIRE(made);
  CHECK(made->revision == 1);
  auto hers = *made;
  hers.lines.front().decision = Decision::accept;
  const auto saved = store->save_plan(horse, hers, now);
  REQUIRE(saved);
  CHECK(saved->revision == 2);
  auto his = *made;
  his.lines.front().decision = Decision::decline;
  const auto refused = store->save_plan(horse, his, now);
  REQUIRE_FALSE(refused);
  CHECK(refused.error().trouble == Trouble::conflict);
  CHECK(store->plan_of(horse, made->visit, 1)->lines.front().decision == Decision::accept);

  SECTION("nobody signs what another one has just changed") {
    const auto sign = [&](int revision) {
      return store->sign_plan(horse,
                              made->visit,
                              {.version = 1, .revision = revision},
                              {.name = "Vera", .registration = "V-0000", .date = "2026-03-03"},
                              now);
    };
    const auto unseen = sign(1);
    REQUIRE_FALSE(unseen);
    CHECK(unseen.error().trouble == Trouble::conflict);
    CHECK(sign(2));
  }
  SECTION("nobody decides on a version that another one has replaced") {
    REQUIRE(store->add_plan(horse, undecided_plan(), now));
    const auto late = store->save_plan(horse, *saved, now);
    REQUIRE_FALSE(late);
    CHECK(late.error().trouble == Trouble::conflict);
    CHECK(late.error().sentence().find("followed by version 2") != std::string::npos);
  }
}

TEST_CASE("a store of version 2 gets its change numbers, and its plans can be decided and signed",
          "[record][store][migration]") {
  const test::Folder folder;
  {
    const auto store = with_case(folder);
    auto plan = undecided_plan();
    REQUIRE(store->add_plan(horse, plan, now));
    REQUIRE(store->save_reading(horse, reading_by("Ada", 0), now));
  }
  // As version 2 left it: without the table, and with a plan that has no revision.
  REQUIRE(tamper(folder,
                 "DROP TABLE changes; "
                 "UPDATE plans SET document = json_remove(document, '$.revision'); "
                 "PRAGMA user_version = 2"));
  const auto store = opened(folder);
  const auto first = change(*store);
  CHECK(first >= 1);
  auto plan = *store->plan_of(horse, undecided_plan().visit, 1);
  CHECK(plan.revision == 0);
  plan.lines.front().decision = Decision::accept;
  REQUIRE(store->save_plan(horse, plan, now));
  CHECK(change(*store) == first + 1);
  CHECK_FALSE(store->save_plan(horse, plan, now));
  CHECK(store->reading_by(horse, test::sample_reading().picture, "Ada")->revision == 1);
}
