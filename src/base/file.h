/// Reading a whole file, text or not, with a look at its size first.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <filesystem>
#include <string>

namespace pritchel {

/// Not there, not a file, over `most_bytes` or not readable: one sentence.
[[nodiscard]] Result<std::string> read_file(const std::filesystem::path& path,
                                            std::uintmax_t most_bytes);

} // namespace pritchel
