/// A list of DICOM files with what a reader must find in them, read from a manifest.json.
#pragma once

#include "imaging/picture.h"

#include <nlohmann/json.hpp>

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace truth {

struct Manifest {
  std::filesystem::path folder;
  nlohmann::json entries;
};

/// The few files that travel with the repository: tests/truth/dicom.
Manifest kept_files();

/// All files, where their folder lies beside the repository.
std::optional<Manifest> all_files();

std::vector<char> file_bytes(const std::filesystem::path& path);

/// As the manifest states it: SHA-256 over stored values, 16-bit little endian two's complement.
std::string digest_of_stored(const pritchel::imaging::Picture& picture);

/// Decodes or refuses every entry and checks each against what the manifest says.
/// Returns how many were decoded and refused.
struct Tally {
  int decoded = 0;
  int refused = 0;
};
Tally check_all(const Manifest& manifest);

} // namespace truth
