/// What several commands need around a store: a file written whole, a case found.
#pragma once

#include "base/result.h"
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

} // namespace pritchel::cli
