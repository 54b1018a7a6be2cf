/// One foot as a drawing in real millimetres: its outline as it was read, and over it, dashed in
/// the proposal's ink, what the plan does to it. For the life-size pages. Inside report only.
/// Must not know: pages, tiles, text blocks.
#pragma once

#include "drawing/display_list.h"
#include "measure/attempt.h"
#include "report/report.h"

#include <string>
#include <vector>

namespace pritchel::report {

/// `items` in mm of the foot, x right and y down, the ground on the picture level; the origin lies
/// where the heel bears (side view) or midway between the walls (front view). Toe or lateral stands
/// on the side on which the picture shows it.
struct LifeOutline {
  drawing::Sheet items;
  std::vector<std::string> landmarks; ///< ids that were drawn, each a ring
};

/// Lines run straight from one read point to the next; a point that wasn't placed leaves its line
/// out. Side view: front wall, heel wall, coronary band, sole, bearing line, coffin bone, the shoe
/// worn; planned: cut, dressed wall, shoe, breakover, new ground. Front view: walls, coronary band,
/// bearing line, coffin bone; planned: cut, dressed walls, shoe with its extensions, new ground.
/// Refused with the reason: another view, no scale, or what plan::ghost() refuses.
[[nodiscard]] measure::Attempt<LifeOutline> life_outline(const PictureSheet& sheet,
                                                         const record::FootChange& change);

} // namespace pritchel::report
