/// The few things a photo's TIFF structure says that matter here. Inside imaging only.
/// Source: TIFF 6.0 sections 2 and 8; Exif 2.3 (CIPA DC-008) section 4.6.
#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace pritchel::imaging {

struct TiffFacts {
  int orientation = 1;            ///< 1...8; 1 when absent or senseless
  std::size_t orientation_at = 0; ///< where its 16-bit value lies; 0 when there is none
  std::int64_t columns = 0;
  std::int64_t rows = 0;
  bool complete = false; ///< all strips or tiles named in the first directory lie within the bytes
  std::string taken;     ///< DateTimeOriginal, else DateTime, as YYYY-MM-DD; else empty
  int lens_35mm = 0;     ///< FocalLengthIn35mmFilm; 0 when absent
};

/// Reads what it can; never leaves the bytes. `bytes` begin with II or MM.
[[nodiscard]] TiffFacts read_tiff_facts(std::span<const std::uint8_t> bytes);

} // namespace pritchel::imaging
