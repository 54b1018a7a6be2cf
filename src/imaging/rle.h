/// DICOM's run-length encoding, by hand: DCMTK 3.6.7 reads a frame that is spread over several
/// fragments into a wrong picture without a word. Inside imaging only.
/// Source: DICOM PS3.5 annex G.
#pragma once

#include "base/result.h"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace pritchel::imaging {

/// `count` greyscale samples of one or two bytes each (high bytes first, as segments); all of them
/// or an error.
[[nodiscard]] Result<std::vector<std::uint16_t>> decode_rle(std::span<const std::uint8_t> bytes,
                                                            std::size_t count,
                                                            int bytes_per_sample,
                                                            const std::string& name);

} // namespace pritchel::imaging
