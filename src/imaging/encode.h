/// Eight-bit rasters to PNG and JPEG, and small versions of a picture for page and paper.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"

#include <cstdint>
#include <span>
#include <vector>

namespace pritchel::imaging {

enum class Channels { grey = 1, rgb = 3 };

/// Rows from the top, no padding; pixels.size() must be columns * rows * channels.
[[nodiscard]] Result<std::vector<std::uint8_t>>
encode_png(std::span<const std::uint8_t> pixels, int columns, int rows, Channels channels);

/// Quality 1...100.
[[nodiscard]] Result<std::vector<std::uint8_t>> encode_jpeg(
    std::span<const std::uint8_t> pixels, int columns, int rows, Channels channels, int quality);

/// The whole picture in its default window (a photo in colour), true in shape even when pixels are
/// not square, its longer side at most `longest_side`; never enlarged beyond its own pixels.
[[nodiscard]] Result<std::vector<std::uint8_t>> thumbnail_jpeg(const Picture& picture,
                                                               int longest_side);

} // namespace pritchel::imaging
