#include "phantom/photo_card.h"

#include "imaging/card.h"

namespace pritchel::phantom {

PrintedSheet printed_card() {
  const imaging::Card& card = imaging::card(imaging::CardPaper::a4);
  PrintedSheet sheet{.width_mm = card.width_mm,
                     .height_mm = card.height_mm,
                     .is_black =
                         [&card](double x, double y) {
                           return imaging::is_black(card, {x, y});
                         },
                     .corners = {}};
  for (int id = 0; id < imaging::corner_count(card); ++id) {
    const imaging::CardPoint p = imaging::corner(card, id);
    sheet.corners.push_back({id, p.x, p.y});
  }
  return sheet;
}

} // namespace pritchel::phantom
