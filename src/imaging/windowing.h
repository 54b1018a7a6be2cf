/// From stored values to grey, exactly as DICOM defines it: rescale or modality LUT, then window or
/// VOI LUT, then MONOCHROME1 turned over. Source: DICOM PS3.3 C.11.1, C.11.2.1.2.
#pragma once

#include "imaging/picture.h"

#include <cstdint>
#include <vector>

namespace pritchel::imaging {

/// Grey 0...255, not rounded, of a value after rescale. `table` needs the picture: here it reads as
/// linear_exact. Width must be positive (linear: 1 or more).
[[nodiscard]] double window_output(const Window& window, double value);

/// True when the window may be applied: finite, and wide enough for its shape.
[[nodiscard]] bool is_usable(const Window& window);

/// The value after rescale (or modality LUT) of a sample.
[[nodiscard]] double rescaled_value(const Picture& picture, std::uint16_t sample);

/// 65,536 entries, sample -> grey on screen; 0 is black. The picture must be a radiograph and the
/// window usable.
[[nodiscard]] std::vector<std::uint8_t> display_table(const Picture& picture, const Window& window);

/// The header's first window; else its VOI LUT as a window of shape `table`; else the range between
/// the 1st and the 99.5th percentile of the values (own choice), padding left out. Always usable.
[[nodiscard]] Window default_window(const Picture& picture);

/// One byte a pixel. The picture must be a radiograph.
[[nodiscard]] std::vector<std::uint8_t> render_grey(const Picture& picture, const Window& window);

} // namespace pritchel::imaging
