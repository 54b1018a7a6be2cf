/// How much of a dot's colour a pixel shows, whatever the shade. Inside imaging only.
#pragma once

#include "imaging/find_dots.h"

#include <opencv2/core.hpp>

namespace pritchel::imaging {

/// Red, green, blue in linear light, 0...1, of a photo or of a smaller copy of it.
[[nodiscard]] cv::Mat3f linear_light(const cv::Mat3b& rgb);
[[nodiscard]] cv::Vec3f linear_light(const DotColour& colour);

/// Light along the colour less what stands off it. Shade scales it; another hue makes it 0.
/// `colour` is of any length.
[[nodiscard]] cv::Mat1f likeness(const cv::Mat3f& light, const cv::Vec3f& colour);

} // namespace pritchel::imaging
