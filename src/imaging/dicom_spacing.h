/// Every attribute of a DICOM header that speaks of spacing, each kept apart. Inside imaging only.
#pragma once

#include "imaging/picture.h"

#include <optional>

class DcmItem;

namespace pritchel::imaging {

/// Numbers as stored, plausible or not (scale.h judges them); unreadable ones are left out.
[[nodiscard]] Spacing header_spacing(DcmItem& data_set);

/// Pixel Aspect Ratio (0028,0034) as height over width, where it is usable.
[[nodiscard]] std::optional<double> header_pixel_aspect(DcmItem& data_set);

} // namespace pritchel::imaging
