/// The printed card found in a photo by itself.
#pragma once

#include "base/result.h"
#include "imaging/card.h"
#include "imaging/picture.h"
#include "imaging/scale.h"

#include <vector>

namespace pritchel::imaging {

/// Corners are those of the chessboard, to a fraction of a pixel, sorted by id; a corner that is
/// covered, outside the picture or off the board's plane by more than the others is left out.
struct CardSeen {
  CardPaper paper = CardPaper::a4;
  std::vector<CardCorner> corners;
};

/// Fewest corners that are called a card.
inline constexpr std::size_t least_card_corners = 12;

/// One sentence when no card is seen or too little of it. Never guesses: the markers must agree
/// with one flat board. The picture must be a photo.
[[nodiscard]] Result<CardSeen> find_card(const Picture& photo);

} // namespace pritchel::imaging
