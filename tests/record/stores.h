/// A store in a test's own folder, with the sample case in it. Header only.
#pragma once

#include "record/store.h"

#include <catch2/catch.hpp>
#include <sqlite3.h>

#include <memory>
#include <string>
#include <utility>

#include "folder.h"
#include "samples.h"

namespace pritchel::record::test {

inline const Stamp now{.who = "Fred", .when = "2026-03-02T10:00:00Z"};

inline std::unique_ptr<Store> opened(const Folder& folder) {
  auto store = open_store(folder.path(), Opening::create);
  REQUIRE(store);
  return std::move(*store);
}

inline std::unique_ptr<Store> with_case(const Folder& folder) {
  auto store = opened(folder);
  REQUIRE(store->add_case(sample_case(), now));
  return store;
}

/// Changes the database behind the store's back; true when SQLite let it.
inline bool tamper(const Folder& folder, const std::string& sql) {
  sqlite3* database = nullptr;
  sqlite3_open((folder.path() / "pritchel.sqlite").c_str(), &database);
  const int code = sqlite3_exec(database, sql.c_str(), nullptr, nullptr, nullptr);
  sqlite3_close(database);
  return code == SQLITE_OK;
}

} // namespace pritchel::record::test
