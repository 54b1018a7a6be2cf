/// The table of docs/measurements.md and its drawings, from the same data the program measures by.
#pragma once

#include "base/result.h"
#include "practice/practice.h"

#include <filesystem>
#include <string>

namespace pritchel::cli {

/// `templates`: where the protocols' schematics lie.
[[nodiscard]] Result<std::string> measurements_markdown(const practice::Practice& practice,
                                                        const std::filesystem::path& templates);

/// Writes ID.svg into the folder for every measurement that its view's schematic can show, and
/// removes no other file.
[[nodiscard]] Result<void> write_drawings(const practice::Practice& practice,
                                          const std::filesystem::path& templates,
                                          const std::filesystem::path& folder);

} // namespace pritchel::cli
