#include "report/card_page.h"

#include "report/canvas.h"

namespace pritchel::report {
namespace {

using imaging::Card;
using imaging::CardPatch;

constexpr drawing::Rgb black = 0x000000;
constexpr drawing::Rgb white = 0xFFFFFF;

PaperBox box_of(const imaging::CardBox& box) {
  return {box.left, box.top, box.width, box.height};
}

double board_right(const Card& card) {
  return card.board.x + card.columns * card.square_mm;
}

void board(Canvas& canvas, const Card& card) {
  for (const auto& patch : imaging::board_patches(card))
    canvas.fill(box_of(patch.box), patch.paint == CardPatch::Paint::black ? black : white);
}

/// Name and how-to, in the strip above the board.
void head(Canvas& canvas, const Card& card) {
  constexpr double top = 7, name_width = 42, gap = 4;
  const double left = card.board.x;
  canvas.own_mark({left, top + 0.6}, 5);
  canvas.text({left + 7, top}, name_width - 7, "Pritchel card", type::strong);
  canvas.text({left + 7, top + 4.8},
              name_width - 7,
              card.paper == imaging::CardPaper::a4 ? "A4, actual size" : "Letter, actual size",
              type::fine);
  const double from = left + name_width + gap;
  canvas.text(
      {from, top},
      board_right(card) - from,
      "Fix it to something stiff. Stand it upright along a straight board that lies along the "
      "foot, for a whole limb half way up. Show the whole card. Hold the camera level and "
      "square to it, two metres off or more. Measure by tape how far the card stands before or "
      "behind the limb\u2019s middle.",
      type::fine);
}

/// 100 mm between the outer edges of the end strokes.
void bar(Canvas& canvas, const Card& card) {
  const auto& at = card.bar;
  constexpr double tick = 0.3, base = 0.5;
  canvas.fill({at.left, at.top + at.height - base, at.width, base}, black);
  for (int mm = 0; mm <= 100; mm += 10) {
    const bool end = mm == 0 || mm == 100;
    const double high = end || mm == 50 ? at.height : at.height * 0.6;
    const double x = mm == 0     ? at.left
                     : mm == 100 ? at.left + at.width - tick
                                 : at.left + mm - tick / 2;
    canvas.fill({x, at.top + at.height - high, tick, high}, black);
  }
  canvas.text({at.left, at.top + at.height + 0.6},
              at.width,
              "100 mm by a ruler, and the pattern 180 by 240 mm; else print again at 100 %.",
              type::fine);
}

/// The ground line along the paper's edge, an arrow to it and the words.
void foot(Canvas& canvas, const Card& card) {
  const double right = board_right(card), middle = right - 6;
  const double top = card.bar.top;
  canvas.text({card.bar.left + card.bar.width + 6, top - 0.6},
              middle - 8 - (card.bar.left + card.bar.width + 6),
              "This edge down, on the ground",
              in(type::strong, Align::right));
  canvas.fill({middle - 0.6, top, 1.2, 4}, black);
  constexpr int steps = 12; // the arrow's head, as strips: the canvas fills boxes
  for (int i = 0; i < steps; ++i) {
    const double half = 3.0 * (steps - i) / steps;
    canvas.fill({middle - half, top + 4 + 0.25 * i, 2 * half, 0.26}, black);
  }
}

} // namespace

Result<std::string> make_card(imaging::CardPaper paper) {
  const auto& layout = imaging::card(paper);
  Canvas canvas({.width_mm = layout.width_mm, .height_mm = layout.height_mm},
                {.title = "Pritchel card", .subject = "Gives a photo its millimetres"});
  canvas.begin_page();
  head(canvas, layout);
  board(canvas, layout);
  bar(canvas, layout);
  foot(canvas, layout);
  auto bytes = canvas.finish();
  if (bytes.empty())
    return fail("The card", "couldn't be painted", {}, Trouble::outside);
  return bytes;
}

} // namespace pritchel::report
