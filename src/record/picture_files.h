/// The folder pictures/ of a store: one file a picture, named by its SHA-256, written once and
/// never changed. A file appears under its name only when all of it is on disk: it is written under
/// a temporary name, synced, then renamed, then the folder is synced. Inside record only.
#pragma once

#include "base/result.h"

#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace pritchel::record {

/// Writes the file unless it is there, whole. Returns its digest.
[[nodiscard]] Result<std::string> keep_picture(const std::filesystem::path& folder,
                                               std::span<const char> bytes);

/// The bytes, checked against their name. not_found for an unknown digest or no digest at all.
[[nodiscard]] Result<std::vector<char>> kept_picture(const std::filesystem::path& folder,
                                                     const std::string& digest);

} // namespace pritchel::record
