/// What a JPEG stream says of itself before anybody decodes it. Inside imaging only.
/// Source: ITU-T T.81 annex B.
#pragma once

#include <cstdint>
#include <optional>
#include <span>

namespace pritchel::imaging {

struct JpegHeader {
  int columns = 0;
  int rows = 0;
  int bits = 0;
  int components = 0;
  std::span<const std::uint8_t> exif; ///< TIFF structure of the APP1 Exif segment; empty if none
  bool complete = false;              ///< an end-of-image marker follows the scan data
};

/// Empty when the bytes don't begin with SOI or hold no frame header before the scan.
[[nodiscard]] std::optional<JpegHeader> read_jpeg_header(std::span<const std::uint8_t> bytes);

} // namespace pritchel::imaging
