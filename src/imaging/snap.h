/// A rough point, stroke or three points moved onto the edge that lies there, to a fraction of a
/// pixel; nothing where no clear edge is near. Knows no anatomy: which way the bright side lies is
/// handed in. A film's grey goes with the logarithm of the exposure, so an edge is taken where half
/// the exposure is left, not half the grey (see find_marker.h).
#pragma once

#include "geometry/frames.h"
#include "imaging/picture.h"

#include <optional>
#include <span>
#include <vector>

namespace pritchel::imaging {

struct Snapping {
  double reach_px = 40; ///< how far the edge may lie from where it was pointed to
  /// Towards the bright side of the edge that is meant, within 50 degrees; any length. Without it,
  /// whichever edge is best supported. Circles: bright inside, always.
  std::optional<Vector<ImageFrame>> bright;
};

/// The place on the edge that is nearest to `at`. An edge is a smooth curve that goes on for about
/// the reach to both sides.
[[nodiscard]] std::optional<ImagePoint>
snap_point(const Picture& picture, const ImagePoint& at, const Snapping& snapping);

struct LineSeen {
  ImagePoint from;
  ImagePoint to;
  double scatter_px = 0; ///< of the edge about the line, robust standard deviation
};

/// The straight edge along a rough stroke of two points or more; its ends are those of the stroke,
/// moved square to the line.
[[nodiscard]] std::optional<LineSeen>
snap_line(const Picture& picture, std::span<const ImagePoint> stroke, const Snapping& snapping);

/// The round edge near three points or more, which move onto it square to it, in the same order.
/// Where two outlines of about one size run side by side (the two condyles of a bone), the circle
/// is the mean of both.
[[nodiscard]] std::optional<std::vector<ImagePoint>>
snap_circle(const Picture& picture, std::span<const ImagePoint> points, const Snapping& snapping);

} // namespace pritchel::imaging
