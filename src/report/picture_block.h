/// A picture on paper with what lies over it: constructions with their letters, the letters of its
/// edges, a scale bar, and what the scale was taken from. Inside report only.
#pragma once

#include "drawing/overlay.h"
#include "report/layout.h"

namespace pritchel::report {

/// Labels stand in a column of this width at either side of the picture.
inline constexpr double label_column_mm = 17;

/// These measurements, lettered beside the picture.
[[nodiscard]] drawing::OverlayOptions
lettered_beside(const PictureSheet& sheet, const PicturePlace& place, std::vector<std::string> ids);

/// `options` with the labels in the two columns.
void picture_block(Layout& layout,
                   std::size_t index,
                   const PicturePlace& place,
                   const drawing::OverlayOptions& options);

/// A bar of so many millimetres in the plane of interest, as the camera sees it; `at` is the pixel
/// where its middle lies. The picture must have a scale.
[[nodiscard]] drawing::LineItem<ImageFrame>
scale_bar(const Calibration& calibration, PictureSide toward, const ImagePoint& at, double mm);

} // namespace pritchel::report
