/// What several commands need around a store: a file written whole, a case found, a folder taken
/// in.
#pragma once

#include "base/result.h"
#include "cli/commands.h"
#include "record/store.h"

#include <filesystem>
#include <string>
#include <vector>

namespace pritchel::cli {

/// Writes the whole file or nothing: a temporary file beside it, then a rename.
[[nodiscard]] Result<void> write_file(const std::filesystem::path& path,
                                      const std::vector<char>& bytes);

/// The id given, or the store's only case.
[[nodiscard]] Result<std::string> case_or_only_one(record::Store& store, const std::string& id);

/// Takes a case from an ordinary folder into the store: case.json, every *.reading.json and the
/// picture each names, which goes to the visit of the day it was taken. A plan is then made for
/// each visit with pictures. A case whose id the store knows already is left as it is.
struct TakenIn {
  record::Case value;
  bool was_there = false;
  std::size_t pictures = 0;
};
[[nodiscard]] Result<TakenIn>
take_in(const std::filesystem::path& folder, record::Store& store, const Places& places);

} // namespace pritchel::cli
