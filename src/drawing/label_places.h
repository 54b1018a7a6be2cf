/// Where labels stand so that none covers another or, while there is room, the foot: two columns of
/// free places, filled greedily, leaders then uncrossed. Deterministic. Inside drawing only.
#pragma once

#include "drawing/overlay.h"

#include <vector>

namespace pritchel::drawing {

struct LabelWish {
  ImagePoint belongs_to; ///< where the leader ends
  double width_px = 0;
};

struct LabelPlace {
  ImagePoint at; ///< middle of the text's outer edge
  Anchor anchor = Anchor::left;
  ImagePoint leader_from; ///< inner edge of the text
};

/// One place for each wish, in the same order. When the room is too low for all of them, the lines
/// move closer together.
[[nodiscard]] std::vector<LabelPlace> label_places(const std::vector<LabelWish>& wishes,
                                                   const std::vector<ImagePoint>& keep_clear,
                                                   const Room& room,
                                                   double label_height_px);

} // namespace pritchel::drawing
