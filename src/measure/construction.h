/// The lines, circles and points that show how a number came about. What is drawn is what was
/// computed: every formula returns its construction with its value. Plane frame, mm.
#pragma once

#include "geometry/frames.h"

#include <vector>

namespace pritchel::measure {

/// What a line belongs to; the drawing floor chooses ink and dash by it.
enum class Tissue { bone, hoof, ground, span };

struct Stroke {
  PlanePoint from;
  PlanePoint to;
  Tissue tissue = Tissue::span;
};

struct Round {
  PlanePoint centre;
  double radius = 0;
  Tissue tissue = Tissue::bone;
};

/// An angle at `vertex` from direction `first` to direction `second`, the shorter way.
struct Opening {
  PlanePoint vertex;
  PlaneVector first;
  PlaneVector second;
};

struct Construction {
  std::vector<Stroke> strokes;
  std::vector<Round> rounds;
  std::vector<Opening> openings;
  std::vector<PlanePoint> computed; ///< points that were computed, not placed
  PlanePoint label_at;              ///< where the number belongs
};

} // namespace pritchel::measure
