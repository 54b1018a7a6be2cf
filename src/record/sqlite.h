/// A thin cover over SQLite: handles that close themselves, results instead of codes.
/// Inside record only.
#pragma once

#include "base/result.h"

#include <sqlite3.h>

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

namespace pritchel::record {

/// One prepared statement, run once. Placeholders are filled in order.
class Query {
public:
  Query(sqlite3* database, std::string_view sql);

  Query& with(std::string_view text);
  Query& with(std::int64_t number);

  /// True when there is a row to read, false after the last.
  [[nodiscard]] Result<bool> next();
  /// For statements that give no rows.
  [[nodiscard]] Result<void> run();

  [[nodiscard]] std::string text(int column) const;
  [[nodiscard]] std::int64_t number(int column) const;

private:
  struct Finalize {
    void operator()(sqlite3_stmt* statement) const { sqlite3_finalize(statement); }
  };
  sqlite3* database_;
  std::unique_ptr<sqlite3_stmt, Finalize> statement_;
  int placed_ = 0;
};

class Database {
public:
  /// The file is made when it isn't there and `flags` allow it (SQLITE_OPEN_...).
  [[nodiscard]] static Result<Database> open(const std::filesystem::path& file, int flags);

  [[nodiscard]] Query query(std::string_view sql) const { return {handle_.get(), sql}; }
  /// Several statements at once, without placeholders.
  [[nodiscard]] Result<void> run(const std::string& sql) const;
  [[nodiscard]] sqlite3* handle() const { return handle_.get(); }

private:
  struct Close {
    void operator()(sqlite3* handle) const { sqlite3_close_v2(handle); }
  };
  std::unique_ptr<sqlite3, Close> handle_;
};

/// Begins at once (BEGIN IMMEDIATE); undone unless committed.
class Transaction {
public:
  [[nodiscard]] static Result<Transaction> begin(const Database& database);
  Transaction(Transaction&& other) noexcept
      : database_(other.database_) {
    other.database_ = nullptr;
  }
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  Transaction& operator=(Transaction&&) = delete;
  ~Transaction();

  [[nodiscard]] Result<void> commit();

private:
  const Database* database_;
  explicit Transaction(const Database& database)
      : database_(&database) {}
};

/// One sentence for the database's last trouble.
[[nodiscard]] Error database_error(sqlite3* database);

} // namespace pritchel::record
