/// Stored values of a DICOM data set's first frame, whatever its compression. Inside imaging only.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <string>
#include <vector>

class DcmDataset;

namespace pritchel::imaging {

enum class PixelSign { without_sign, with_sign };

struct StoredPixels {
  int columns = 0;
  int rows = 0;
  int bits_stored = 0;
  PixelSign sign = PixelSign::without_sign;
  int offset = 0;                     ///< stored value = sample + offset
  std::vector<std::uint16_t> samples; ///< row by row, masked to Bits Stored
  bool lossy = false;                 ///< the compression scheme loses or may lose
};

/// Refuses, in one sentence: no picture, colour, other than 8 or 16 bits allocated, floating point,
/// contradictory bits, sizes of zero or beyond the limits, too few bytes, an unknown compression,
/// compressed data that do not decode in full.
/// Source: DICOM PS3.5 8 (encoding of pixel data), A.4 (encapsulation).
[[nodiscard]] Result<StoredPixels> stored_pixels(DcmDataset& data_set, const std::string& name);

} // namespace pritchel::imaging
