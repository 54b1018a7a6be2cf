#include "record/store_schema.h"

#include <fmt/format.h>

#include <array>

namespace pritchel::record {
namespace {

/// Step n brings version n to version n + 1. Never change one that was released: add another.
constexpr std::array<const char*, 3> steps{R"sql(
CREATE TABLE cases (
  id TEXT PRIMARY KEY NOT NULL,
  horse TEXT NOT NULL,
  yard TEXT NOT NULL,
  newest_visit TEXT NOT NULL,
  document TEXT NOT NULL
) STRICT;

CREATE TABLE readings (
  case_id TEXT NOT NULL REFERENCES cases(id),
  picture TEXT NOT NULL,
  reader TEXT NOT NULL,
  revision INTEGER NOT NULL,
  saved TEXT NOT NULL,
  document TEXT NOT NULL,
  PRIMARY KEY (case_id, picture, reader, revision)
) STRICT;

CREATE TABLE plans (
  case_id TEXT NOT NULL REFERENCES cases(id),
  visit TEXT NOT NULL,
  version INTEGER NOT NULL,
  is_signed INTEGER NOT NULL DEFAULT 0,
  digest TEXT NOT NULL DEFAULT '',
  document TEXT NOT NULL,
  PRIMARY KEY (case_id, visit, version)
) STRICT;

CREATE TABLE audit (
  number INTEGER PRIMARY KEY,
  case_id TEXT NOT NULL,
  at TEXT NOT NULL,
  who TEXT NOT NULL,
  what TEXT NOT NULL
) STRICT;
CREATE INDEX audit_by_case ON audit(case_id, number);

CREATE TRIGGER reading_kept BEFORE UPDATE ON readings
  BEGIN SELECT RAISE(ABORT, 'readings are kept'); END;
CREATE TRIGGER reading_not_removed BEFORE DELETE ON readings
  BEGIN SELECT RAISE(ABORT, 'readings are kept'); END;
CREATE TRIGGER plan_frozen BEFORE UPDATE ON plans WHEN OLD.is_signed
  BEGIN SELECT RAISE(ABORT, 'a signed plan is frozen'); END;
CREATE TRIGGER plan_not_removed BEFORE DELETE ON plans
  BEGIN SELECT RAISE(ABORT, 'plans are kept'); END;
CREATE TRIGGER audit_kept BEFORE UPDATE ON audit
  BEGIN SELECT RAISE(ABORT, 'the audit trail is kept'); END;
CREATE TRIGGER audit_not_removed BEFORE DELETE ON audit
  BEGIN SELECT RAISE(ABORT, 'the audit trail is kept'); END;
)sql",
                                           R"sql(
CREATE TABLE readings_by_turn (
  case_id TEXT NOT NULL REFERENCES cases(id),
  picture TEXT NOT NULL,
  reader TEXT NOT NULL,
  turn INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  saved TEXT NOT NULL,
  document TEXT NOT NULL,
  PRIMARY KEY (case_id, picture, reader, turn, revision)
) STRICT;
INSERT INTO readings_by_turn (case_id, picture, reader, turn, revision, saved, document)
  SELECT case_id, picture, reader, 1, revision, saved, document FROM readings ORDER BY rowid;
DROP TRIGGER reading_not_removed;
DROP TABLE readings;
ALTER TABLE readings_by_turn RENAME TO readings;

CREATE TRIGGER reading_kept BEFORE UPDATE ON readings
  BEGIN SELECT RAISE(ABORT, 'readings are kept'); END;
CREATE TRIGGER reading_not_removed BEFORE DELETE ON readings
  BEGIN SELECT RAISE(ABORT, 'readings are kept'); END;
)sql",
                                           R"sql(
CREATE TABLE changes (
  case_id TEXT NOT NULL REFERENCES cases(id),
  reader TEXT NOT NULL,
  number INTEGER NOT NULL,
  PRIMARY KEY (case_id, reader)
) STRICT, WITHOUT ROWID;
INSERT INTO changes (case_id, reader, number) SELECT id, '', 1 FROM cases;
)sql"};

constexpr int newest_version = static_cast<int>(steps.size());

Result<std::int64_t> pragma(const Database& database, const std::string& name) {
  auto query = database.query("PRAGMA " + name);
  PRITCHEL_CHECK(query.next());
  return query.number(0);
}

Result<void> check_whole(const Database& database) {
  auto query = database.query("PRAGMA quick_check(1)");
  PRITCHEL_CHECK(query.next());
  if (query.text(0) == "ok")
    return {};
  return fail("The case store", "is damaged", "restore it from a copy", Trouble::outside);
}

Result<bool> is_empty(const Database& database) {
  auto query = database.query("SELECT count(*) FROM sqlite_schema");
  PRITCHEL_CHECK(query.next());
  return query.number(0) == 0;
}

Result<void> check_ours(const Database& database, std::int64_t version) {
  PRITCHEL_TRY(application, pragma(database, "application_id"));
  PRITCHEL_TRY(empty, is_empty(database));
  if (application != store_application && !empty)
    return fail("The case store", "belongs to another program", "choose another folder");
  if (version > newest_version)
    return fail(
        "The case store",
        fmt::format("has version {}, newer than this program knows ({})", version, newest_version),
        "use a newer Pritchel");
  return {};
}

} // namespace

Result<void> bring_up_to_date(const Database& database) {
  PRITCHEL_CHECK(check_whole(database));
  PRITCHEL_TRY(seen, pragma(database, "user_version"));
  PRITCHEL_CHECK(check_ours(database, seen));
  if (seen == newest_version)
    return {};
  PRITCHEL_TRY(transaction, Transaction::begin(database));
  // Another process may have done it while we waited for the lock.
  PRITCHEL_TRY(version, pragma(database, "user_version"));
  for (auto step = static_cast<std::size_t>(version); step < steps.size(); ++step)
    PRITCHEL_CHECK(database.run(steps[step]));
  PRITCHEL_CHECK(database.run(fmt::format(
      "PRAGMA application_id = {}; PRAGMA user_version = {}", store_application, newest_version)));
  return transaction.commit();
}

} // namespace pritchel::record
