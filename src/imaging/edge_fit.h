/// Smooth curves and circles laid along the edges of a patch, robustly. Inside imaging only.
#pragma once

#include "imaging/edge_patch.h"
#include "imaging/snap.h"

#include <optional>

namespace pritchel::imaging {

/// An edge about an origin: at `s` along it, it lies slope * s + bend * s * s aside (towards
/// bright).
struct EdgeCurve {
  ImagePoint origin;
  Vector<ImageFrame> along;  ///< length 1
  Vector<ImageFrame> across; ///< length 1, towards bright, square to `along`
  double slope = 0;
  double bend = 0;
  double half_length = 0;
  double scatter = 0; ///< robust standard deviation of the edge about it, pixels
  double share = 0;   ///< of its length on which an edge lies on it
  double step = 0;    ///< median height of the edge over a pixel's noise

  [[nodiscard]] double aside(double s) const { return slope * s + bend * s * s; }
  [[nodiscard]] ImagePoint at(double s) const { return origin + along * s + across * aside(s); }
  [[nodiscard]] ImagePoint nearest(const ImagePoint& to) const;
};

enum class Shape { straight, bent };

/// The curve moved onto the edge that runs within `reach` pixels of it; nothing when less than half
/// of its length lies on one.
[[nodiscard]] std::optional<EdgeCurve>
fitted(const EdgePatch& patch, const EdgeCurve& start, double reach, Shape shape);

/// A reach that makes sense.
[[nodiscard]] bool is_usable(const Snapping& snapping);

/// Clear enough to move a person's point onto it.
[[nodiscard]] bool is_clear(const EdgeCurve& curve);

} // namespace pritchel::imaging
