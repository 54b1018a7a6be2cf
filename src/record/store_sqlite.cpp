#include "base/digest.h"
#include "record/json.h"
#include "record/picture_files.h"
#include "record/sight.h"
#include "record/signing.h"
#include "record/sqlite.h"
#include "record/store.h"
#include "record/store_schema.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <mutex>
#include <system_error>
#include <utility>

namespace pritchel::record {
namespace {

constexpr const char* database_name = "pritchel.sqlite";
constexpr const char* pictures_name = "pictures";
constexpr std::size_t id_from_name_bytes = 40;

/// "Old Tom" -> "old-tom"; "case" when nothing of the name is left.
std::string id_from_name(const std::string& name) {
  std::string id;
  for (const char c : name) {
    const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if ((lower >= 'a' && lower <= 'z') || (lower >= '0' && lower <= '9'))
      id += lower;
    else if (!id.empty() && id.back() != '-')
      id += '-';
    if (id.size() == id_from_name_bytes)
      break;
  }
  while (!id.empty() && id.back() == '-')
    id.pop_back();
  return id.empty() ? "case" : id;
}

std::string newest_visit(const Case& value) {
  std::string newest;
  for (const auto& each : value.visits)
    newest = std::max(newest, each.date);
  return newest;
}

std::string short_name(const std::string& digest) {
  return digest.substr(0, 12);
}

template <class Value>
Result<Value> value_from(const std::string& text,
                         Result<Value> (*read)(const nlohmann::json&),
                         const char* what) {
  PRITCHEL_TRY(document, parse_json(text, std::string("A stored ") + what));
  auto value = read(document);
  if (!value)
    return fail(std::string("A stored ") + what,
                "cannot be read: " + value.error().sentence(),
                "restore the store from a copy",
                Trouble::outside);
  return value;
}

Result<Plan> plan_from_row(const Query& row) {
  const auto text = row.text(0);
  if (row.number(1) != 0 && sha256_hex(text) != row.text(2))
    return fail("A signed plan",
                "was changed after it was signed",
                "restore the store from a copy",
                Trouble::outside);
  return value_from<Plan>(text, &plan_from, "plan");
}

Result<void> may_be_saved(const ReadingEntry& newest, const ReadingEntry& reading) {
  if (newest.revision == 0 && reading.turn > 1)
    return fail(fmt::format("Turn {} of {}", reading.turn, reading.reader),
                "was never begun",
                "begin another turn first",
                Trouble::conflict);
  if (newest.sight == Sight::blind && !newest.done.empty())
    return fail("The blind reading by " + reading.reader,
                "is done and stays as it is",
                "begin another turn to read again",
                Trouble::conflict);
  if (newest.revision != reading.revision)
    return fail("The reading",
                fmt::format("was saved meanwhile, as revision {}", newest.revision),
                "load it and place your points again",
                Trouble::conflict);
  return {};
}

Result<ReadingEntry>
reading_to_pick(const std::vector<ReadingEntry>& all, const std::string& reader, int turn) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const auto& each) {
    return each.reader == reader && each.turn == turn;
  });
  if (at == all.end())
    return fail(fmt::format("Turn {} of {}", turn, reader),
                "is not among the readings of this picture",
                "look at the list of readings",
                Trouble::not_found);
  if (at->sight == Sight::open || !is_revealed(*at, all))
    return fail(fmt::format("Turn {} of {}", turn, reader),
                at->sight == Sight::open ? "is an open reading" : "is still hidden",
                at->sight == Sight::open ? "the last saved open one is used anyway"
                                         : "wait until both readers are done",
                Trouble::conflict);
  return *at;
}

tl::unexpected<Error> no_case(const std::string& id) {
  return fail(
      "The case " + id, "is not in this store", "look at the list of cases", Trouble::not_found);
}

class SqliteStore final : public Store {
public:
  SqliteStore(Database database, std::filesystem::path pictures)
      : database_(std::move(database)),
        pictures_(std::move(pictures)) {}

  Result<std::vector<CaseLine>> list_cases() override {
    const std::lock_guard lock(mutex_);
    auto query = database_.query(
        "SELECT id, horse, yard, newest_visit FROM cases ORDER BY newest_visit DESC, id");
    std::vector<CaseLine> lines;
    while (true) {
      PRITCHEL_TRY(more, query.next());
      if (!more)
        return lines;
      lines.push_back({.id = query.text(0),
                       .horse = query.text(1),
                       .yard = query.text(2),
                       .newest_visit = query.text(3)});
    }
  }

  Result<Case> load_case(const std::string& id) override {
    const std::lock_guard lock(mutex_);
    return case_row(id);
  }

  Result<Case> add_case(Case value, const Stamp& stamp) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_TRY(transaction, Transaction::begin(database_));
    if (value.id.empty()) {
      PRITCHEL_TRY(id, free_id(id_from_name(value.horse.name)));
      value.id = id;
    } else {
      PRITCHEL_TRY(taken, has_case(value.id));
      if (taken)
        return fail(
            "The case " + value.id, "is there already", "choose another id", Trouble::conflict);
    }
    PRITCHEL_CHECK(write_case(value));
    PRITCHEL_CHECK(note(value.id, "began the case", stamp));
    PRITCHEL_CHECK(transaction.commit());
    return value;
  }

  Result<void> save_case(const Case& value, const Stamp& stamp) override {
    PRITCHEL_CHECK(change_case(
        value.id, "saved the case", [&](const Case&) { return Result<Case>(value); }, stamp));
    return {};
  }

  Result<Case> change_case(const std::string& id,
                           const std::string& what,
                           const std::function<Result<Case>(Case)>& change,
                           const Stamp& stamp) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_TRY(transaction, Transaction::begin(database_));
    PRITCHEL_TRY(known, case_row(id));
    PRITCHEL_TRY(changed, change(std::move(known)));
    changed.id = id;
    PRITCHEL_CHECK(write_case(changed));
    PRITCHEL_CHECK(note(id, what, stamp));
    PRITCHEL_CHECK(transaction.commit());
    return changed;
  }

  Result<std::string> add_picture(std::span<const char> bytes) override {
    return keep_picture(pictures_, bytes);
  }

  Result<std::vector<char>> picture_bytes(const std::string& digest) override {
    return kept_picture(pictures_, digest);
  }

  Result<ReadingEntry> save_reading(const std::string& case_id,
                                    const ReadingEntry& reading,
                                    const Stamp& stamp) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_TRY(transaction, Transaction::begin(database_));
    PRITCHEL_CHECK(need_case(case_id));
    PRITCHEL_TRY(newest, newest_of_turn(case_id, reading));
    PRITCHEL_CHECK(may_be_saved(newest, reading));
    auto saved = reading;
    saved.sight = newest.revision == 0 ? reading.sight : newest.sight;
    saved.saved = stamp.when;
    saved.done.clear();
    saved.picked.clear();
    PRITCHEL_TRY(written, write_next(case_id, saved, "saved a", stamp, knowing(saved)));
    PRITCHEL_CHECK(transaction.commit());
    return written;
  }

  Result<ReadingEntry> reading_by(const std::string& case_id,
                                  const std::string& picture,
                                  const std::string& reader) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_CHECK(need_case(case_id));
    return newest_reading(case_id, picture, reader);
  }

  Result<std::vector<ReadingEntry>> readings_of(const std::string& case_id,
                                                const std::string& picture) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_CHECK(need_case(case_id));
    return newest_readings(case_id, picture);
  }

  Result<ReadingEntry> begin_turn(const std::string& case_id,
                                  const std::string& picture,
                                  const std::string& reader,
                                  Sight sight,
                                  const Stamp& stamp) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_TRY(transaction, Transaction::begin(database_));
    PRITCHEL_CHECK(need_case(case_id));
    PRITCHEL_TRY(newest, newest_reading(case_id, picture, reader));
    ReadingEntry begun{.picture = picture,
                       .reader = reader,
                       .turn = newest.turn,
                       .sight = sight,
                       .saved = stamp.when,
                       .revision = newest.revision};
    if (!newest.landmarks.empty()) {
      if (newest.done.empty()) {
        newest.done = stamp.when;
        PRITCHEL_CHECK(write_next(case_id, newest, "was done with the", stamp));
      }
      begun.turn = newest.turn + 1;
      begun.revision = 0;
    }
    PRITCHEL_TRY(written, write_next(case_id, begun, "began a", stamp));
    PRITCHEL_CHECK(transaction.commit());
    return written;
  }

  Result<ReadingEntry> finish_reading(const std::string& case_id,
                                      const std::string& picture,
                                      const std::string& reader,
                                      const Stamp& stamp) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_TRY(transaction, Transaction::begin(database_));
    PRITCHEL_CHECK(need_case(case_id));
    PRITCHEL_TRY(newest, newest_reading(case_id, picture, reader));
    if (newest.landmarks.empty())
      return fail(
          "The reading by " + reader, "has no points yet", "place them first", Trouble::conflict);
    if (!newest.done.empty())
      return newest;
    newest.done = stamp.when;
    PRITCHEL_TRY(written, write_next(case_id, newest, "was done with the", stamp));
    PRITCHEL_CHECK(transaction.commit());
    return written;
  }

  Result<ReadingEntry> pick_reading(const std::string& case_id,
                                    const std::string& picture,
                                    const std::string& reader,
                                    int turn,
                                    const Stamp& stamp) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_TRY(transaction, Transaction::begin(database_));
    PRITCHEL_CHECK(need_case(case_id));
    PRITCHEL_TRY(all, newest_readings(case_id, picture));
    PRITCHEL_TRY(picked, reading_to_pick(all, reader, turn));
    picked.picked = stamp.when;
    PRITCHEL_TRY(written, write_next(case_id, picked, "picked the", stamp));
    PRITCHEL_CHECK(transaction.commit());
    return written;
  }

  Result<std::vector<ReadingEntry>> revisions_of(const std::string& case_id,
                                                 const std::string& picture,
                                                 const std::string& reader) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_CHECK(need_case(case_id));
    auto query = database_.query("SELECT document FROM readings WHERE case_id = ? AND picture = ? "
                                 "AND reader = ? ORDER BY turn, revision");
    return readings_in(query.with(case_id).with(picture).with(reader));
  }

  Result<Plan> add_plan(const std::string& case_id, const Plan& plan, const Stamp& stamp) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_TRY(transaction, Transaction::begin(database_));
    PRITCHEL_CHECK(need_case(case_id));
    PRITCHEL_TRY(newest, newest_version(case_id, plan.visit));
    auto added = plan;
    added.version = newest + 1;
    added.revision = 1;
    added.sign_off.reset();
    PRITCHEL_CHECK(
        database_.query("INSERT INTO plans (case_id, visit, version, document) VALUES (?, ?, ?, ?)")
            .with(case_id)
            .with(added.visit)
            .with(added.version)
            .with(text_of(to_json(added)))
            .run());
    PRITCHEL_CHECK(note(case_id, plan_words("made", added), stamp));
    PRITCHEL_CHECK(transaction.commit());
    return added;
  }

  Result<Plan>
  save_plan(const std::string& case_id, const Plan& plan, const Stamp& stamp) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_TRY(transaction, Transaction::begin(database_));
    PRITCHEL_TRY(known, plan_row(case_id, plan.visit, plan.version));
    PRITCHEL_CHECK(is_as_seen(case_id, known, {plan.version, plan.revision}));
    auto saved = plan;
    saved.sign_off.reset();
    ++saved.revision;
    PRITCHEL_CHECK(write_plan(case_id, saved));
    PRITCHEL_CHECK(note(case_id, plan_words("saved", saved), stamp));
    PRITCHEL_CHECK(transaction.commit());
    return saved;
  }

  Result<Plan> sign_plan(const std::string& case_id,
                         const std::string& visit,
                         SeenPlan seen,
                         const SignOff& sign_off,
                         const Stamp& stamp) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_TRY(transaction, Transaction::begin(database_));
    PRITCHEL_TRY(plan, plan_row(case_id, visit, seen.version));
    PRITCHEL_CHECK(is_as_seen(case_id, plan, seen));
    PRITCHEL_CHECK(ready_to_sign(plan, sign_off));
    plan.sign_off = sign_off;
    PRITCHEL_CHECK(write_plan(case_id, plan));
    PRITCHEL_CHECK(note(case_id, plan_words("signed", plan), stamp));
    PRITCHEL_CHECK(transaction.commit());
    return plan;
  }

  Result<Plan> plan_of(const std::string& case_id, const std::string& visit, int version) override {
    const std::lock_guard lock(mutex_);
    return plan_row(case_id, visit, version);
  }

  Result<std::vector<Plan>> plans_of(const std::string& case_id,
                                     const std::string& visit) override {
    const std::lock_guard lock(mutex_);
    PRITCHEL_CHECK(need_case(case_id));
    auto query = database_.query("SELECT document, is_signed, digest FROM plans WHERE case_id = ? "
                                 "AND visit = ? ORDER BY version");
    query.with(case_id).with(visit);
    std::vector<Plan> plans;
    while (true) {
      PRITCHEL_TRY(more, query.next());
      if (!more)
        return plans;
      PRITCHEL_TRY(plan, plan_from_row(query));
      plans.push_back(std::move(plan));
    }
  }

  Result<std::vector<AuditLine>> audit_of(const std::string& case_id) override {
    const std::lock_guard lock(mutex_);
    auto query =
        database_.query("SELECT at, who, what FROM audit WHERE case_id = ? ORDER BY number");
    query.with(case_id);
    std::vector<AuditLine> lines;
    while (true) {
      PRITCHEL_TRY(more, query.next());
      if (!more)
        return lines;
      lines.push_back({.when = query.text(0), .who = query.text(1), .what = query.text(2)});
    }
  }

  Result<std::int64_t> change_of(const std::string& case_id, const std::string& reader) override {
    const std::lock_guard lock(mutex_);
    auto query = database_.query("SELECT coalesce(sum(number), 0) FROM changes WHERE case_id = ? "
                                 "AND reader IN ('', ?)");
    PRITCHEL_CHECK(query.with(case_id).with(reader).next());
    const auto number = query.number(0);
    if (number == 0)
      return no_case(case_id);
    return number;
  }

private:
  std::mutex mutex_;
  Database database_;
  std::filesystem::path pictures_;

  static std::string plan_words(const char* verb, const Plan& plan) {
    return fmt::format("{} plan version {} of visit {}", verb, plan.version, plan.visit);
  }

  static std::string reading_words(const char* did, const ReadingEntry& reading) {
    return fmt::format("{} reading of picture {} by {}, {}revision {}",
                       did,
                       short_name(reading.picture),
                       reading.reader,
                       reading.turn > 1 ? fmt::format("turn {}, ", reading.turn) : "",
                       reading.revision);
  }

  static tl::unexpected<Error> frozen(const Plan& plan) {
    return fail(fmt::format("Version {} of the plan", plan.version),
                "is signed and frozen",
                "make a new version",
                Trouble::conflict);
  }

  /// Who may know that this reading was saved: its reader alone while it is hidden, else anybody.
  static std::string knowing(const ReadingEntry& saved) {
    return saved.sight == Sight::blind ? saved.reader : std::string{};
  }

  Result<void> is_as_seen(const std::string& case_id, const Plan& known, SeenPlan seen) {
    if (known.sign_off)
      return frozen(known);
    const auto name = fmt::format("Version {} of the plan", known.version);
    if (known.revision != seen.revision)
      return fail(name, "was changed meanwhile", "look at it again", Trouble::conflict);
    PRITCHEL_TRY(newest, newest_version(case_id, known.visit));
    if (newest != known.version)
      return fail(name,
                  fmt::format("was followed by version {}", newest),
                  "decide on that one",
                  Trouble::conflict);
    return {};
  }

  /// 0 while there is no plan.
  Result<int> newest_version(const std::string& case_id, const std::string& visit) {
    auto query = database_.query(
        "SELECT coalesce(max(version), 0) FROM plans WHERE case_id = ? AND visit = ?");
    PRITCHEL_CHECK(query.with(case_id).with(visit).next());
    return static_cast<int>(query.number(0));
  }

  Result<bool> has_case(const std::string& id) {
    auto query = database_.query("SELECT 1 FROM cases WHERE id = ?");
    return query.with(id).next();
  }

  Result<void> need_case(const std::string& id) {
    PRITCHEL_TRY(known, has_case(id));
    if (!known)
      return no_case(id);
    return {};
  }

  Result<std::string> free_id(const std::string& wanted) {
    for (int number = 1;; ++number) {
      const auto id = number == 1 ? wanted : fmt::format("{}-{}", wanted, number);
      PRITCHEL_TRY(taken, has_case(id));
      if (!taken)
        return id;
    }
  }

  Result<Case> case_row(const std::string& id) {
    auto query = database_.query("SELECT document FROM cases WHERE id = ?");
    PRITCHEL_TRY(found, query.with(id).next());
    if (!found)
      return no_case(id);
    return value_from<Case>(query.text(0), &case_from, "case");
  }

  Result<void> write_case(const Case& value) {
    return database_
        .query("INSERT INTO cases (id, horse, yard, newest_visit, document) VALUES (?, ?, ?, ?, ?) "
               "ON CONFLICT (id) DO UPDATE SET horse = excluded.horse, yard = excluded.yard, "
               "newest_visit = excluded.newest_visit, document = excluded.document")
        .with(value.id)
        .with(value.horse.name)
        .with(value.yard)
        .with(newest_visit(value))
        .with(text_of(to_json(value)))
        .run();
  }

  /// Of the reader's newest turn.
  Result<ReadingEntry> newest_reading(const std::string& case_id,
                                      const std::string& picture,
                                      const std::string& reader) {
    auto query = database_.query("SELECT document FROM readings WHERE case_id = ? AND picture = ? "
                                 "AND reader = ? ORDER BY turn DESC, revision DESC LIMIT 1");
    PRITCHEL_TRY(found, query.with(case_id).with(picture).with(reader).next());
    if (!found)
      return ReadingEntry{.picture = picture, .reader = reader};
    return value_from<ReadingEntry>(query.text(0), &reading_from, "reading");
  }

  /// Of the turn that `reading` names; revision 0 when it was never begun.
  Result<ReadingEntry> newest_of_turn(const std::string& case_id, const ReadingEntry& reading) {
    auto query = database_.query("SELECT document FROM readings WHERE case_id = ? AND picture = ? "
                                 "AND reader = ? AND turn = ? ORDER BY revision DESC LIMIT 1");
    query.with(case_id).with(reading.picture).with(reading.reader).with(reading.turn);
    PRITCHEL_TRY(found, query.next());
    if (!found)
      return ReadingEntry{
          .picture = reading.picture, .reader = reading.reader, .turn = reading.turn};
    return value_from<ReadingEntry>(query.text(0), &reading_from, "reading");
  }

  Result<std::vector<ReadingEntry>> newest_readings(const std::string& case_id,
                                                    const std::string& picture) {
    auto query = database_.query(
        "SELECT document FROM readings AS r WHERE case_id = ? AND picture = ? AND revision = "
        "(SELECT max(revision) FROM readings WHERE case_id = r.case_id AND picture = r.picture AND "
        "reader = r.reader AND turn = r.turn) ORDER BY saved DESC, reader, turn DESC");
    return readings_in(query.with(case_id).with(picture));
  }

  static Result<std::vector<ReadingEntry>> readings_in(Query& query) {
    std::vector<ReadingEntry> readings;
    while (true) {
      PRITCHEL_TRY(more, query.next());
      if (!more)
        return readings;
      PRITCHEL_TRY(reading, value_from<ReadingEntry>(query.text(0), &reading_from, "reading"));
      readings.push_back(std::move(reading));
    }
  }

  /// As the next revision of its turn. `did`: "saved a". `known_to`: see count_change.
  Result<ReadingEntry> write_next(const std::string& case_id,
                                  ReadingEntry reading,
                                  const char* did,
                                  const Stamp& stamp,
                                  const std::string& known_to = {}) {
    ++reading.revision;
    PRITCHEL_CHECK(
        database_
            .query("INSERT INTO readings (case_id, picture, reader, turn, revision, saved, "
                   "document) VALUES (?, ?, ?, ?, ?, ?, ?)")
            .with(case_id)
            .with(reading.picture)
            .with(reading.reader)
            .with(reading.turn)
            .with(reading.revision)
            .with(reading.saved)
            .with(text_of(to_json(reading)))
            .run());
    PRITCHEL_CHECK(note(case_id, reading_words(did, reading), stamp, known_to));
    return reading;
  }

  Result<Plan> plan_row(const std::string& case_id, const std::string& visit, int version) {
    PRITCHEL_CHECK(need_case(case_id));
    auto query = database_.query("SELECT document, is_signed, digest FROM plans WHERE case_id = ? "
                                 "AND visit = ? AND version = ?");
    PRITCHEL_TRY(found, query.with(case_id).with(visit).with(version).next());
    if (!found)
      return fail(fmt::format("Version {} of the plan", version),
                  "is not there",
                  "make a plan first",
                  Trouble::not_found);
    return plan_from_row(query);
  }

  Result<void> write_plan(const std::string& case_id, const Plan& plan) {
    const auto document = text_of(to_json(plan));
    return database_
        .query("UPDATE plans SET document = ?, is_signed = ?, digest = ? WHERE case_id = ? AND "
               "visit = ? AND version = ?")
        .with(document)
        .with(plan.sign_off ? 1 : 0)
        .with(plan.sign_off ? sha256_hex(document) : std::string{})
        .with(case_id)
        .with(plan.visit)
        .with(plan.version)
        .run();
  }

  /// Every save ends with it.
  Result<void> note(const std::string& case_id,
                    const std::string& what,
                    const Stamp& stamp,
                    const std::string& known_to = {}) {
    PRITCHEL_CHECK(count_change(case_id, known_to));
    return database_.query("INSERT INTO audit (case_id, at, who, what) VALUES (?, ?, ?, ?)")
        .with(case_id)
        .with(stamp.when)
        .with(stamp.who)
        .with(what)
        .run();
  }

  /// `known_to`: the one reader who may know of it; empty for anybody.
  Result<void> count_change(const std::string& case_id, const std::string& known_to) {
    return database_
        .query("INSERT INTO changes (case_id, reader, number) VALUES (?, ?, 1) "
               "ON CONFLICT (case_id, reader) DO UPDATE SET number = number + 1")
        .with(case_id)
        .with(known_to)
        .run();
  }
};

Result<void> make_folder(const std::filesystem::path& folder) {
  std::error_code error;
  std::filesystem::create_directories(folder / pictures_name, error);
  if (error)
    return fail("The folder " + folder.string(),
                "cannot be made: " + error.message(),
                "choose a folder you may write to",
                Trouble::outside);
  return {};
}

} // namespace

Result<std::unique_ptr<Store>> open_store(const std::filesystem::path& folder, Opening opening) {
  std::error_code error;
  const bool is_there = std::filesystem::is_regular_file(folder / database_name, error);
  if (opening == Opening::existing && !is_there)
    return fail("The folder " + folder.string(),
                "holds no case store",
                "check the path, or begin a new store",
                Trouble::not_found);
  PRITCHEL_CHECK(make_folder(folder));
  PRITCHEL_TRY(database,
               Database::open(folder / database_name, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE));
  PRITCHEL_CHECK(database.run("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL; "
                              "PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF"));
  PRITCHEL_CHECK(bring_up_to_date(database));
  return {std::make_unique<SqliteStore>(std::move(database), folder / pictures_name)};
}

} // namespace pritchel::record
