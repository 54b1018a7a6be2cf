#include "record/sqlite.h"

namespace pritchel::record {
namespace {

constexpr int wait_for_others_ms = 5000;

struct Words {
  int code;
  const char* problem;
  const char* way_out;
};

constexpr Words troubles[] = {
    {SQLITE_NOTADB, "is not a database", "restore it from a copy"},
    {SQLITE_CORRUPT, "is damaged", "restore it from a copy"},
    {SQLITE_READONLY, "cannot be written", "check the rights of the folder"},
    {SQLITE_CANTOPEN, "cannot be opened", "check the path and the rights of the folder"},
    {SQLITE_PERM, "cannot be opened", "check the rights of the folder"},
    {SQLITE_AUTH, "cannot be opened", "check the rights of the folder"},
    {SQLITE_FULL, "cannot be written: the disk is full", "make room"},
    {SQLITE_BUSY, "is in use by another program", "close that and try again"},
    {SQLITE_LOCKED, "is in use by another program", "close that and try again"},
    {SQLITE_IOERR, "cannot be read or written", "check the disk"},
};

} // namespace

Error database_error(sqlite3* database) {
  const int code = sqlite3_errcode(database);
  for (const auto& each : troubles)
    if (each.code == (code & 0xff))
      return {"The case store", each.problem, each.way_out, Trouble::outside};
  return {"The case store",
          std::string("reports: ") + sqlite3_errmsg(database),
          "try again",
          Trouble::outside};
}

Query::Query(sqlite3* database, std::string_view sql)
    : database_(database) {
  sqlite3_stmt* statement = nullptr;
  sqlite3_prepare_v2(database, sql.data(), static_cast<int>(sql.size()), &statement, nullptr);
  statement_.reset(statement);
}

Query& Query::with(std::string_view text) {
  sqlite3_bind_text(
      statement_.get(), ++placed_, text.data(), static_cast<int>(text.size()), SQLITE_TRANSIENT);
  return *this;
}

Query& Query::with(std::int64_t number) {
  sqlite3_bind_int64(statement_.get(), ++placed_, number);
  return *this;
}

Result<bool> Query::next() {
  if (!statement_)
    return tl::make_unexpected(database_error(database_));
  const int code = sqlite3_step(statement_.get());
  if (code != SQLITE_ROW && code != SQLITE_DONE)
    return tl::make_unexpected(database_error(database_));
  return code == SQLITE_ROW;
}

Result<void> Query::run() {
  PRITCHEL_CHECK(next());
  return {};
}

std::string Query::text(int column) const {
  const auto* bytes = sqlite3_column_text(statement_.get(), column);
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_.get(), column));
  return bytes == nullptr ? std::string{} : std::string(reinterpret_cast<const char*>(bytes), size);
}

std::int64_t Query::number(int column) const {
  return sqlite3_column_int64(statement_.get(), column);
}

Result<Database> Database::open(const std::filesystem::path& file, int flags) {
  Database database;
  sqlite3* handle = nullptr;
  const int code = sqlite3_open_v2(file.c_str(), &handle, flags, nullptr);
  database.handle_.reset(handle);
  if (code != SQLITE_OK)
    return tl::make_unexpected(database_error(handle));
  sqlite3_busy_timeout(handle, wait_for_others_ms);
  return database;
}

Result<void> Database::run(const std::string& sql) const {
  if (sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK)
    return tl::make_unexpected(database_error(handle_.get()));
  return {};
}

Result<Transaction> Transaction::begin(const Database& database) {
  PRITCHEL_CHECK(database.run("BEGIN IMMEDIATE"));
  return Transaction(database);
}

Transaction::~Transaction() {
  if (database_ != nullptr)
    sqlite3_exec(database_->handle(), "ROLLBACK", nullptr, nullptr, nullptr);
}

Result<void> Transaction::commit() {
  PRITCHEL_CHECK(database_->run("COMMIT"));
  database_ = nullptr;
  return {};
}

} // namespace pritchel::record
