/// Does the hoof wall still show? Over-exposed films burn the horn out: wall and air become equally
/// black, and what is placed there is a guess. Looked at along an edge that a person has placed.
#pragma once

#include "geometry/frames.h"
#include "imaging/picture.h"

namespace pritchel::imaging {

struct EdgeToLook {
  ImagePoint from; ///< along the outer wall
  ImagePoint to;
  ImagePoint inside; ///< any point of the foot: says on which side of the edge the horn lies
  double pixel_mm = 0.15;
};

/// Of the places looked at along the edge (one a millimetre): where the step from horn to air is
/// lost. A step counts as lost below twice the noise of a single pixel, or where both sides lie at
/// the end of the stored range. Own estimate.
struct EdgeLook {
  int places = 0;           ///< 0 when the edge lies outside the picture or is too short
  double share_lost = 0;    ///< 0 to 1
  double step_to_noise = 0; ///< median over the places
  double share_at_end = 0;  ///< places whose horn lies at the end of the stored range
};

/// The picture must be a radiograph.
[[nodiscard]] EdgeLook look_at_edge(const Picture& picture, const EdgeToLook& edge);

} // namespace pritchel::imaging
