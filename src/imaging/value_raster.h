/// A picture's values as a floating raster, for searching. OpenCV's matrix shows here: inside
/// the sources that search (here and in suggest) only, never from a header of a floor's face.
#pragma once

#include "geometry/frames.h"
#include "imaging/picture.h"

#include <opencv2/core.hpp>

#include <optional>

namespace pritchel::imaging {

/// One float a pixel, after rescale, bright as on screen: metal is high on a radiograph. A photo's
/// luminance.
[[nodiscard]] cv::Mat value_raster(const Picture& picture);

/// The same of a part that lies within the picture.
[[nodiscard]] cv::Mat value_raster(const Picture& picture, const cv::Rect& part);

/// Between the four pixels round the place; nothing outside.
[[nodiscard]] std::optional<double> value_at(const cv::Mat& raster, const ImagePoint& at);

} // namespace pritchel::imaging
