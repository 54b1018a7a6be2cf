/// JPEG 2000 code streams and JP2 files through OpenJPEG, signed samples too. Inside imaging only.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace pritchel::imaging {

struct GreyFrame {
  std::vector<std::uint16_t> samples; ///< low bits as decoded; negative values in two's complement
  bool lossy = false;
};

/// One greyscale component of exactly this size, at most 16 bits; all of it or an error.
[[nodiscard]] Result<GreyFrame> decode_jpeg2000(std::span<const std::uint8_t> bytes,
                                                int columns,
                                                int rows,
                                                const std::string& name);

} // namespace pritchel::imaging
