/// JPEG-LS through CharLS: DCMTK's own copy refuses depths that CharLS reads (seven bits, say).
/// Inside imaging only.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace pritchel::imaging {

/// One greyscale component of exactly this size; all of it or an error.
[[nodiscard]] Result<std::vector<std::uint16_t>>
decode_jpeg_ls(std::span<const std::uint8_t> bytes, int columns, int rows, const std::string& name);

} // namespace pritchel::imaging
