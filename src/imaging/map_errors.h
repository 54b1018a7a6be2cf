/// How far two maps of the same picture differ in lengths and angles round a place: what is used
/// to foretell errors before anything is measured. Inside imaging only.
#pragma once

#include "geometry/homography.h"

#include <array>

namespace pritchel::imaging {

/// Millimetres for a pixel to the right and a pixel down: xx, xy, yx, yy.
using PixelSteps = std::array<double, 4>;

[[nodiscard]] PixelSteps
pixel_steps(const Homography& map, const std::optional<Lens>& lens, const ImagePoint& at);

/// The picture as a square-on camera would map it, without turning it.
[[nodiscard]] PixelSteps square_steps(double pixel_mm);

struct MapError {
  double length_share = 0; ///< greatest of any length
  double angle_deg = 0;    ///< greatest between two directions
  double turn_deg = 0;     ///< by which all directions are turned, with its sign
};

/// What `wrong` makes of small figures that `right` maps truly.
[[nodiscard]] MapError map_error(const PixelSteps& right, const PixelSteps& wrong);

/// Longest and shortest side of a pixel's image over its directions, mm.
struct PixelSpan {
  double least = 0;
  double greatest = 0;
};
[[nodiscard]] PixelSpan pixel_span(const PixelSteps& steps);

} // namespace pritchel::imaging
