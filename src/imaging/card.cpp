#include "imaging/card.h"

#include "base/assert.h"

#include <array>
#include <cmath>

namespace pritchel::imaging {
namespace {

constexpr int markers_a_card = 24;
constexpr int bits_a_side = 4;
constexpr int modules_a_side = bits_a_side + 2;

constexpr std::array<std::uint16_t, std::size_t{2} * markers_a_card> dictionary{
    0xB532, 0x0F9A, 0x332D, 0x9946, 0x549E, 0x79CD, 0x9E2E, 0xC4F2, 0xFEDA, 0xCF56, 0xF991, 0x11A7,
    0x0EB7, 0x2A0F, 0x24B1, 0x263E, 0x4665, 0x6600, 0x6C5E, 0x76AF, 0x868B, 0xB02B, 0xCCD5, 0xDD82,
    0xFE47, 0x9471, 0xACE4, 0xA554, 0x2123, 0x346F, 0x4415, 0x57B2, 0x9ECF, 0xF0CB, 0x08AE, 0x0929,
    0x1875, 0x04FF, 0x0DF6, 0x1C5A, 0x1718, 0x2A28, 0x328C, 0x38B2, 0x24E8, 0x2EEB, 0x2D3F, 0x4B64};

// The pattern keeps 15 mm from the sides, so that any printer reaches it.
constexpr Card a4{.paper = CardPaper::a4,
                  .width_mm = 210,
                  .height_mm = 297,
                  .board = {15, 31},
                  .first_marker = 0,
                  .bar = {15, 278, 100, 3}};
constexpr Card letter{.paper = CardPaper::letter,
                      .width_mm = 215.9,
                      .height_mm = 279.4,
                      .board = {18, 22},
                      .first_marker = markers_a_card,
                      .bar = {18, 266, 100, 3}};

struct Cell {
  int column = 0;
  int row = 0;
};

bool is_marker_cell(const Cell& cell) {
  return (cell.column + cell.row) % 2 != 0;
}

/// The n-th marker's square. Each row holds half as many markers as squares.
Cell cell_of(const Card& card, int n) {
  const int a_row = card.columns / 2;
  const int row = n / a_row;
  return {2 * (n % a_row) + 1 - row % 2, row};
}

CardBox square_at(const Card& card, const Cell& cell) {
  return {card.board.x + cell.column * card.square_mm,
          card.board.y + cell.row * card.square_mm,
          card.square_mm,
          card.square_mm};
}

CardBox marker_box(const Card& card, const Cell& cell) {
  const auto square = square_at(card, cell);
  const double margin = (card.square_mm - card.marker_mm) / 2;
  return {square.left + margin, square.top + margin, card.marker_mm, card.marker_mm};
}

bool is_white_bit(int marker, int column, int row) {
  const int place = bits_a_side * bits_a_side - 1 - (bits_a_side * row + column);
  return (static_cast<unsigned>(marker_bits(marker)) >> static_cast<unsigned>(place) & 1U) != 0;
}

enum class Along { rows, columns };

/// The marker's white modules as maximal runs.
void add_runs(std::vector<CardPatch>& patches, const CardBox& box, int marker, Along along) {
  const double module = box.width / modules_a_side;
  const auto is_white = [&](int line, int i) {
    return along == Along::rows ? is_white_bit(marker, i, line) : is_white_bit(marker, line, i);
  };
  for (int line = 0; line < bits_a_side; ++line)
    for (int from = 0; from < bits_a_side; ++from) {
      int to = from;
      while (to < bits_a_side && is_white(line, to))
        ++to;
      if (to == from)
        continue;
      const double start = (from + 1) * module, across = (line + 1) * module;
      const double run = (to - from) * module;
      patches.push_back({along == Along::rows
                             ? CardBox{box.left + start, box.top + across, run, module}
                             : CardBox{box.left + across, box.top + start, module, run},
                         CardPatch::Paint::white});
      from = to;
    }
}

} // namespace

const Card& card(CardPaper paper) {
  return paper == CardPaper::a4 ? a4 : letter;
}

std::string_view key(CardPaper paper) {
  return paper == CardPaper::a4 ? "a4" : "letter";
}

std::optional<CardPaper> card_paper(std::string_view name) {
  for (const auto paper : {CardPaper::a4, CardPaper::letter})
    if (key(paper) == name)
      return paper;
  return std::nullopt;
}

int corner_count(const Card& card) {
  return (card.columns - 1) * (card.rows - 1);
}

CardPoint corner(const Card& card, int id) {
  const int a_row = card.columns - 1;
  return {card.board.x + (id % a_row + 1) * card.square_mm,
          card.board.y + (id / a_row + 1) * card.square_mm};
}

std::optional<std::vector<CardPoint>> marker_corners(const Card& card, int marker) {
  const int n = marker - card.first_marker;
  if (n < 0 || n >= markers_a_card)
    return std::nullopt;
  const auto box = marker_box(card, cell_of(card, n));
  const double right = box.left + box.width, bottom = box.top + box.height;
  return std::vector<CardPoint>{
      {box.left, box.top}, {right, box.top}, {right, bottom}, {box.left, bottom}};
}

std::optional<CardPaper> paper_of_marker(int marker) {
  for (const auto& each : {a4, letter})
    if (marker >= each.first_marker && marker < each.first_marker + markers_a_card)
      return each.paper;
  return std::nullopt;
}

std::uint16_t marker_bits(int marker) {
  PRITCHEL_ASSERT(marker >= 0 && marker < static_cast<int>(dictionary.size()));
  return dictionary[static_cast<std::size_t>(marker)];
}

std::vector<CardPatch> board_patches(const Card& card) {
  std::vector<CardPatch> patches;
  for (int row = 0; row < card.rows; ++row)
    for (int column = 0; column < card.columns; ++column)
      if (!is_marker_cell({column, row}))
        patches.push_back({square_at(card, {column, row}), CardPatch::Paint::black});
  for (int n = 0; n < markers_a_card; ++n) {
    const auto box = marker_box(card, cell_of(card, n));
    patches.push_back({box, CardPatch::Paint::black});
    add_runs(patches, box, card.first_marker + n, Along::rows);
    add_runs(patches, box, card.first_marker + n, Along::columns);
  }
  return patches;
}

bool is_black(const Card& card, const CardPoint& at) {
  const Cell cell{static_cast<int>(std::floor((at.x - card.board.x) / card.square_mm)),
                  static_cast<int>(std::floor((at.y - card.board.y) / card.square_mm))};
  if (cell.column < 0 || cell.column >= card.columns || cell.row < 0 || cell.row >= card.rows)
    return false;
  if (!is_marker_cell(cell))
    return true;
  const auto box = marker_box(card, cell);
  const double module = box.width / modules_a_side;
  const int column = static_cast<int>(std::floor((at.x - box.left) / module)) - 1;
  const int row = static_cast<int>(std::floor((at.y - box.top) / module)) - 1;
  if (column < -1 || column > bits_a_side || row < -1 || row > bits_a_side)
    return false;
  if (column < 0 || column == bits_a_side || row < 0 || row == bits_a_side)
    return true;
  const int marker = card.first_marker + cell.row * (card.columns / 2) + cell.column / 2;
  return !is_white_bit(marker, column, row);
}

} // namespace pritchel::imaging
