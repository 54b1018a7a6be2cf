/// The printed card that gives a photo its millimetres: a chessboard with markers in its white
/// squares, standing on the paper's bottom edge. This is the one place that knows its layout;
/// whoever paints or finds it asks here. Knows no picture, printer or library.
/// Source of the markers: the dictionary of 50 markers of 4 x 4 bits that OpenCV's aruco module
/// publishes (checked against it in the tests).
#pragma once

#include "geometry/frames.h"

#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

namespace pritchel::imaging {

/// Millimetres from the paper's top left corner: x right, y down.
struct CardFrame {};
using CardPoint = Point<CardFrame>;

enum class CardPaper { a4, letter };

struct CardBox {
  double left = 0;
  double top = 0;
  double width = 0;
  double height = 0;
};

/// Every length is whole millimetres but the paper itself, so that a ruler can check a print. The
/// two papers carry the same board with different markers: a marker tells which paper it is on.
struct Card {
  CardPaper paper = CardPaper::a4;
  double width_mm = 0;
  double height_mm = 0; ///< y of the base edge, which stands on the ground
  int columns = 6;      ///< squares
  int rows = 8;
  double square_mm = 30;
  double marker_mm = 24; ///< its black frame included: 6 x 6 modules
  CardPoint board;       ///< top left corner of the top left square, which is black
  int first_marker = 0;  ///< in the dictionary; the rest follow from left to right, row by row
  CardBox bar;           ///< 100 mm to lay a ruler on
};

[[nodiscard]] const Card& card(CardPaper paper);
/// "a4" or "letter".
[[nodiscard]] std::string_view key(CardPaper paper);
[[nodiscard]] std::optional<CardPaper> card_paper(std::string_view key);

/// Inner corners of the chessboard, where four squares meet, numbered from the top left row by row
/// from 0.
[[nodiscard]] int corner_count(const Card& card);
[[nodiscard]] CardPoint corner(const Card& card, int id);

/// A marker's four corners, clockwise from its own top left; nothing for a marker not on this card.
[[nodiscard]] std::optional<std::vector<CardPoint>> marker_corners(const Card& card, int marker);
/// The card that carries the marker, if any does.
[[nodiscard]] std::optional<CardPaper> paper_of_marker(int marker);
/// Bits of a marker of the dictionary (0 to 47), from its top left, row by row, highest bit first;
/// 1 is white.
[[nodiscard]] std::uint16_t marker_bits(int marker);

/// A rectangle of the board; painted in the order given, later ones cover earlier ones.
struct CardPatch {
  enum class Paint { black, white };
  CardBox box;
  Paint paint = Paint::black;
};
/// The whole board on white paper. White modules come as runs along rows and along columns, which
/// overlap, so that no renderer leaves hairlines between them.
[[nodiscard]] std::vector<CardPatch> board_patches(const Card& card);

/// True where the board is black: the board as a texture.
[[nodiscard]] bool is_black(const Card& card, const CardPoint& at);

} // namespace pritchel::imaging
