/// Blind readings: who may see what, which reading is worked with, and what the store keeps.
#include "record/json.h"
#include "record/sight.h"
#include "record/store.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <sqlite3.h>

#include <algorithm>

#include "folder.h"
#include "samples.h"

using namespace pritchel;
using namespace pritchel::record;

namespace {

const std::string film = test::sample_picture().digest;
const std::string horse = "old-tom";

Stamp at(const std::string& minute) {
  return {.who = "somebody", .when = "2026-03-02T10:" + minute + ":00Z"};
}

std::unique_ptr<Store> with_case(const test::Folder& folder) {
  auto store = open_store(folder.path(), Opening::create);
  REQUIRE(store);
  REQUIRE((*store)->add_case(test::sample_case(), at("00")));
  return std::move(*store);
}

/// Saves one point in the reader's newest turn.
ReadingEntry place(Store& store, const std::string& reader, double x, const std::string& minute) {
  auto reading = *store.reading_by(horse, film, reader);
  reading.landmarks = {{.id = "p3-tip", .at = {x, 20}}};
  const auto saved = store.save_reading(horse, reading, at(minute));
  REQUIRE(saved);
  return *saved;
}

std::vector<ReadingEntry> all_of(Store& store) {
  return *store.readings_of(horse, film);
}

/// "Ada 1, Ben 2": readers and turns, in any order.
std::string names(std::vector<ReadingEntry> readings) {
  std::sort(readings.begin(), readings.end(), [](const auto& a, const auto& b) {
    return std::pair(a.reader, a.turn) < std::pair(b.reader, b.turn);
  });
  std::string text;
  for (const auto& each : readings)
    text += (text.empty() ? "" : ", ") + each.reader + " " + std::to_string(each.turn);
  return text;
}

std::string seen(Store& store, const std::string& reader) {
  return names(seen_by(reader, all_of(store)));
}

/// Two blind readings, Ada's done, Ben's in the middle.
std::unique_ptr<Store> half_done(const test::Folder& folder) {
  auto store = with_case(folder);
  REQUIRE(store->begin_turn(horse, film, "Ada", Sight::blind, at("01")));
  REQUIRE(store->begin_turn(horse, film, "Ben", Sight::blind, at("02")));
  place(*store, "Ada", 10, "03");
  place(*store, "Ben", 12, "04");
  REQUIRE(store->finish_reading(horse, film, "Ada", at("05")));
  return store;
}

/// The store as the first released version made it.
void make_old_store(const test::Folder& folder, const std::string& reading) {
  sqlite3* database = nullptr;
  REQUIRE(sqlite3_open((folder.path() / "pritchel.sqlite").c_str(), &database) == SQLITE_OK);
  const std::string sql = R"sql(
CREATE TABLE cases (id TEXT PRIMARY KEY NOT NULL, horse TEXT NOT NULL, yard TEXT NOT NULL,
  newest_visit TEXT NOT NULL, document TEXT NOT NULL) STRICT;
CREATE TABLE readings (case_id TEXT NOT NULL REFERENCES cases(id), picture TEXT NOT NULL,
  reader TEXT NOT NULL, revision INTEGER NOT NULL, saved TEXT NOT NULL, document TEXT NOT NULL,
  PRIMARY KEY (case_id, picture, reader, revision)) STRICT;
CREATE TABLE plans (case_id TEXT NOT NULL REFERENCES cases(id), visit TEXT NOT NULL,
  version INTEGER NOT NULL, is_signed INTEGER NOT NULL DEFAULT 0, digest TEXT NOT NULL DEFAULT '',
  document TEXT NOT NULL, PRIMARY KEY (case_id, visit, version)) STRICT;
CREATE TABLE audit (number INTEGER PRIMARY KEY, case_id TEXT NOT NULL, at TEXT NOT NULL,
  who TEXT NOT NULL, what TEXT NOT NULL) STRICT;
CREATE INDEX audit_by_case ON audit(case_id, number);
CREATE TRIGGER reading_kept BEFORE UPDATE ON readings
  BEGIN SELECT RAISE(ABORT, 'readings are kept'); END;
CREATE TRIGGER reading_not_removed BEFORE DELETE ON readings
  BEGIN SELECT RAISE(ABORT, 'readings are kept'); END;
PRAGMA application_id = 1347570004;
PRAGMA user_version = 1;
INSERT INTO cases VALUES ('old-tom', 'Old Tom', '', '2026-03-02', ')sql" +
                          to_json(test::sample_case()).dump() + "');\n" + reading;
  char* trouble = nullptr;
  sqlite3_exec(database, sql.c_str(), nullptr, nullptr, &trouble);
  INFO((trouble == nullptr ? "" : trouble));
  REQUIRE(trouble == nullptr);
  sqlite3_close(database);
}

std::string old_row(int revision, const std::string& minute, double x) {
  return "INSERT INTO readings VALUES ('old-tom', '" + film + "', 'Ada', " +
         std::to_string(revision) + ", '2026-03-02T09:" + minute + ":00Z', '{\"picture\": \"" +
         film + "\", \"reader\": \"Ada\", \"saved\": \"2026-03-02T09:" + minute +
         ":00Z\", \"revision\": " + std::to_string(revision) + ", \"landmarks\": {\"p3-tip\": [" +
         std::to_string(x) + ", 20]}}');\n";
}

} // namespace

TEST_CASE("a blind reading is hidden from everybody else until both are done", "[record][blind]") {
  const test::Folder folder;
  const auto store = half_done(folder);
  CHECK(seen(*store, "Ada") == "Ada 1");
  CHECK(seen(*store, "Ben") == "Ben 1");
  CHECK(seen(*store, "Cora").empty());
  CHECK(seen(*store, "").empty());
  REQUIRE(store->finish_reading(horse, film, "Ben", at("06")));
  for (const std::string reader : {"Ada", "Ben", "Cora", ""})
    CHECK(seen(*store, reader) == "Ada 1, Ben 1");
}

TEST_CASE("one blind reading alone stays hidden though it is done", "[record][blind]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  REQUIRE(store->begin_turn(horse, film, "Ada", Sight::blind, at("01")));
  place(*store, "Ada", 10, "02");
  REQUIRE(store->finish_reading(horse, film, "Ada", at("03")));
  CHECK(seen(*store, "Ada") == "Ada 1");
  CHECK(seen(*store, "Ben").empty());
}

TEST_CASE("who reads blind sees no open reading and no earlier turn either", "[record][blind]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  place(*store, "Ada", 10, "01");
  place(*store, "Ben", 11, "02");
  CHECK(seen(*store, "Ben") == "Ada 1, Ben 1");
  REQUIRE(store->begin_turn(horse, film, "Ben", Sight::blind, at("03")));
  CHECK(seen(*store, "Ben") == "Ben 2");
  place(*store, "Ben", 12, "04");
  REQUIRE(store->finish_reading(horse, film, "Ben", at("05")));
  CHECK(seen(*store, "Ben") == "Ada 1, Ben 1, Ben 2");
  CHECK(seen(*store, "Ada") == "Ada 1, Ben 1");
}

TEST_CASE("a second blind round is hidden again while the first stays revealed",
          "[record][blind]") {
  const test::Folder folder;
  const auto store = half_done(folder);
  REQUIRE(store->finish_reading(horse, film, "Ben", at("06")));
  REQUIRE(store->begin_turn(horse, film, "Ada", Sight::blind, at("07")));
  place(*store, "Ada", 13, "08");
  REQUIRE(store->finish_reading(horse, film, "Ada", at("09")));
  CHECK(seen(*store, "Ben") == "Ada 1, Ben 1");
  CHECK(seen(*store, "Ada") == "Ada 1, Ada 2, Ben 1");
}

TEST_CASE("another turn begins empty and ends the one before", "[record][blind]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  place(*store, "Ada", 10, "01");
  const auto second = store->begin_turn(horse, film, "Ada", Sight::blind, at("02"));
  REQUIRE(second);
  CHECK(second->turn == 2);
  CHECK(second->landmarks.empty());
  CHECK(second->sight == Sight::blind);
  for (const auto& each : all_of(*store))
    CHECK(each.done == (each.turn == 1 ? at("02").when : ""));
  // While it is empty it may still become an open one.
  const auto changed = store->begin_turn(horse, film, "Ada", Sight::open, at("03"));
  CHECK(changed->turn == 2);
  CHECK(changed->sight == Sight::open);
  CHECK(store->revisions_of(horse, film, "Ada")->size() == 4);
}

TEST_CASE("a done blind reading stays as it is, an open one is no longer done once changed",
          "[record][blind]") {
  const test::Folder folder;
  const auto store = half_done(folder);
  auto frozen = *store->reading_by(horse, film, "Ada");
  frozen.landmarks.clear();
  const auto refused = store->save_reading(horse, frozen, at("06"));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().trouble == Trouble::conflict);
  CHECK(store->reading_by(horse, film, "Ada")->landmarks.size() == 1);

  place(*store, "Cora", 10, "07");
  CHECK_FALSE(store->finish_reading(horse, film, "Cora", at("08"))->done.empty());
  CHECK(place(*store, "Cora", 11, "09").done.empty());
}

TEST_CASE("a save cannot make a blind reading open, nor invent a turn or a done mark",
          "[record][blind]") {
  const test::Folder folder;
  const auto store = half_done(folder);
  auto mine = *store->reading_by(horse, film, "Ben");
  mine.sight = Sight::open;
  mine.done = at("06").when;
  mine.picked = at("06").when;
  const auto saved = *store->save_reading(horse, mine, at("06"));
  CHECK(saved.sight == Sight::blind);
  CHECK(saved.done.empty());
  CHECK(saved.picked.empty());
  mine.turn = 2;
  mine.revision = 0;
  CHECK(store->save_reading(horse, mine, at("07")).error().trouble == Trouble::conflict);
}

TEST_CASE("nobody is done with a reading without points", "[record][blind]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  REQUIRE(store->begin_turn(horse, film, "Ada", Sight::blind, at("01")));
  CHECK(store->finish_reading(horse, film, "Ada", at("02")).error().trouble == Trouble::conflict);
  CHECK(store->finish_reading(horse, film, "Ben", at("02")).error().trouble == Trouble::conflict);
}

TEST_CASE("a blind reading is worked with only when it is revealed and picked", "[record][blind]") {
  const test::Folder folder;
  const auto store = half_done(folder);
  CHECK(working_reading(all_of(*store)) == nullptr);
  CHECK(store->pick_reading(horse, film, "Ada", 1, at("05")).error().trouble == Trouble::conflict);
  REQUIRE(store->finish_reading(horse, film, "Ben", at("06")));
  CHECK(working_reading(all_of(*store)) == nullptr);
  CHECK(store->pick_reading(horse, film, "Ada", 7, at("07")).error().trouble == Trouble::not_found);
  REQUIRE(store->pick_reading(horse, film, "Ada", 1, at("07")));
  auto all = all_of(*store);
  CHECK(working_reading(all)->reader == "Ada");
  REQUIRE(store->pick_reading(horse, film, "Ben", 1, at("08")));
  all = all_of(*store);
  CHECK(working_reading(all)->reader == "Ben");
}

TEST_CASE("the last saved open reading with points is worked with, whoever reads blind meanwhile",
          "[record][blind]") {
  const test::Folder folder;
  const auto store = with_case(folder);
  place(*store, "Ada", 10, "01");
  place(*store, "Ben", 11, "02");
  const auto worked_with = [&] {
    const auto all = all_of(*store);
    const auto* working = working_reading(all);
    REQUIRE(working != nullptr);
    return working->reader + " " + std::to_string(working->turn);
  };
  CHECK(worked_with() == "Ben 1");
  place(*store, "Ada", 12, "03");
  CHECK(worked_with() == "Ada 1");
  REQUIRE(store->begin_turn(horse, film, "Ada", Sight::blind, at("04")));
  place(*store, "Ada", 13, "05");
  CHECK(worked_with() == "Ada 1");
  REQUIRE(store->begin_turn(horse, film, "Ben", Sight::open, at("06")));
  CHECK(worked_with() == "Ada 1"); // Ben's second turn has no points yet
  place(*store, "Ben", 14, "07");
  CHECK(worked_with() == "Ben 2");
}

TEST_CASE("a store of the first version is brought up to date with its readings",
          "[record][store][migration]") {
  const test::Folder folder;
  make_old_store(folder, old_row(1, "10", 5) + old_row(2, "20", 7));
  {
    const auto opened = open_store(folder.path(), Opening::existing);
    REQUIRE(opened);
    auto& store = **opened;
    const auto all = all_of(store);
    REQUIRE(all.size() == 1);
    CHECK(all.front().reader == "Ada");
    CHECK(all.front().turn == 1);
    CHECK(all.front().sight == Sight::open);
    CHECK(all.front().done.empty());
    CHECK(all.front().revision == 2);
    CHECK(all.front().landmarks.front().at.x == Approx(7));
    CHECK(working_reading(all)->reader == "Ada");
    CHECK(store.revisions_of(horse, film, "Ada")->size() == 2);
    place(store, "Ada", 9, "30");
    REQUIRE(store.begin_turn(horse, film, "Ada", Sight::blind, at("31")));
  }
  const auto again = open_store(folder.path(), Opening::existing);
  REQUIRE(again);
  CHECK((*again)->reading_by(horse, film, "Ada")->turn == 2);
  CHECK((*again)->revisions_of(horse, film, "Ada")->size() == 5);
}

TEST_CASE("readings of a store brought up to date are still kept from being changed",
          "[record][store][migration]") {
  const test::Folder folder;
  make_old_store(folder, old_row(1, "10", 5));
  REQUIRE(open_store(folder.path(), Opening::existing));
  sqlite3* database = nullptr;
  sqlite3_open((folder.path() / "pritchel.sqlite").c_str(), &database);
  const auto run = [&](const char* sql) {
    return sqlite3_exec(database, sql, nullptr, nullptr, nullptr);
  };
  CHECK(run("UPDATE readings SET reader = 'Eve'") != SQLITE_OK);
  CHECK(run("DELETE FROM readings") != SQLITE_OK);
  sqlite3_close(database);
}
