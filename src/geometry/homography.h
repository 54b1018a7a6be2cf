/// Maps between a plane in space and its picture. Knows no card and no camera model beyond one
/// radial term.
/// Source: Hartley and Zisserman, Multiple View Geometry, 2nd ed. (2004), chapters 2 and 7 (from
/// memory); checked against OpenCV's functions in the tests.
#pragma once

#include "geometry/frames.h"

#include <array>
#include <optional>
#include <vector>

namespace pritchel {

/// Row by row; any scale. Takes (x, y, 1) to (x', y', w').
using Homography = std::array<double, 9>;

inline constexpr Homography identity_homography{1, 0, 0, 0, 1, 0, 0, 0, 1};

/// Not finite for a point on the map's horizon.
[[nodiscard]] ImagePoint apply(const Homography& map, const ImagePoint& p);
/// Nothing when the map can't be turned round.
[[nodiscard]] std::optional<Homography> inverse(const Homography& map);

/// One radial term about a centre: a point at r (pixels over focal length) is seen at
/// r (1 + k1 r^2), the first term of the usual polynomial model.
struct Lens {
  ImagePoint centre;
  double focal_px = 1;
  double k1 = 0;
};

/// Where the point would lie in a picture without distortion, and back. Pixels.
[[nodiscard]] ImagePoint straightened(const Lens& lens, const ImagePoint& seen);
[[nodiscard]] ImagePoint as_seen(const Lens& lens, const ImagePoint& straight);

/// From a picture's pixels to millimetres in a plane, laid out as a picture taken square-on would
/// show it: x right, y down.
struct Rectification {
  Homography map = identity_homography; ///< on straightened pixels
  std::optional<Lens> lens;
  /// Map and lens with one independent component of their joint uncertainty moved by one standard
  /// deviation.
  struct Moved {
    Homography map = identity_homography;
    std::optional<Lens> lens;
  };
  std::vector<Moved> one_sigma;
};

/// From a picture's pixel to the plane, mm.
[[nodiscard]] ImagePoint
square_on(const Homography& map, const std::optional<Lens>& lens, const ImagePoint& pixel);

} // namespace pritchel
