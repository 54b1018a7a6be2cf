/// Reading a whole file with a look at its size first.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <filesystem>
#include <string>

namespace pritchel::record {

[[nodiscard]] Result<std::string> read_text_file(const std::filesystem::path& path,
                                                 std::uintmax_t most_bytes);

} // namespace pritchel::record
