#include "report/life_tiles.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace pritchel::report {
namespace {

using drawing::Ink;
using drawing::PaperFrame;

constexpr double step(double window) {
  return window - tile_overlap_mm;
}

int sheets_for(double length, double window) {
  return length <= window ? 1
                          : static_cast<int>(std::ceil((length - tile_overlap_mm) / step(window)));
}

double whole(int sheets, double window) {
  return window + (sheets - 1) * step(window);
}

class Extent {
public:
  void add(PaperPoint p) {
    left_ = std::min(left_, p.x);
    right_ = std::max(right_, p.x);
    top_ = std::min(top_, p.y);
    bottom_ = std::max(bottom_, p.y);
  }
  void operator()(const drawing::LineItem<PaperFrame>& line) {
    add(line.from);
    add(line.to);
  }
  void operator()(const drawing::CircleItem<PaperFrame>& circle) {
    add({circle.centre.x - circle.radius_x, circle.centre.y - circle.radius_y});
    add({circle.centre.x + circle.radius_x, circle.centre.y + circle.radius_y});
  }
  void operator()(const drawing::PathItem<PaperFrame>& path) {
    for (const auto& p : path.points)
      add(p);
  }
  void operator()(const drawing::AreaItem<PaperFrame>& area) {
    for (const auto& p : area.points)
      add(p);
  }
  void operator()(const drawing::MarkItem<PaperFrame>& mark) { add(mark.at); }
  void operator()(const drawing::LabelItem<PaperFrame>& label) {
    // A generous estimate for letters of eight points: the typeface is not known here.
    constexpr double letter_mm = 1.7, half_line_mm = 2;
    const auto letters = std::count_if(label.text.begin(), label.text.end(), [](char c) {
      return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    });
    const double wide = static_cast<double>(letters) * letter_mm;
    const double before = label.anchor == drawing::Anchor::left    ? 0
                          : label.anchor == drawing::Anchor::right ? wide
                                                                   : wide / 2;
    add({label.at.x - before, label.at.y - half_line_mm});
    add({label.at.x - before + wide, label.at.y + half_line_mm});
  }

  [[nodiscard]] PaperBox box() const { return {left_, top_, right_ - left_, bottom_ - top_}; }

private:
  static constexpr double far_ = std::numeric_limits<double>::max();
  double left_ = far_, top_ = far_, right_ = -far_, bottom_ = -far_;
};

void add_cross(drawing::Sheet& marks, PaperPoint at, std::size_t index) {
  constexpr double arm = 5, ring = 2.5;
  const std::string letter(1, static_cast<char>('A' + index % 26));
  marks.push_back(
      {drawing::LineItem<PaperFrame>{{at.x - arm, at.y}, {at.x + arm, at.y}}, Ink::text, "cross"});
  marks.push_back(
      {drawing::LineItem<PaperFrame>{{at.x, at.y - arm}, {at.x, at.y + arm}}, Ink::text, "cross"});
  marks.push_back({drawing::CircleItem<PaperFrame>{at, ring, ring}, Ink::text, "cross"});
  marks.push_back(
      {drawing::LabelItem<PaperFrame>{{at.x + 2.6, at.y - 3.4}, letter}, Ink::text, ""});
}

} // namespace

PaperBox extent_of(const drawing::Sheet& sheet) {
  Extent extent;
  for (const auto& item : sheet)
    std::visit(extent, item.shape);
  return extent.box();
}

Vector<PaperFrame> Tiles::shift(int index, PaperPoint at) const {
  const int column = index % columns, row = index / columns;
  return at - PaperPoint{corner.x + column * step(width), corner.y + row * step(height)};
}

Tiles tiles_for(const PaperBox& extent, double window_width, double window_height) {
  Tiles tiles{.columns = sheets_for(extent.width, window_width),
              .rows = sheets_for(extent.height, window_height),
              .width = window_width,
              .height = window_height};
  tiles.corner = {extent.left - (whole(tiles.columns, window_width) - extent.width) / 2,
                  extent.top - (whole(tiles.rows, window_height) - extent.height) / 2};
  return tiles;
}

drawing::Sheet registration_marks(const Tiles& tiles) {
  // Two for each strip: one would leave the sheet free to turn. Away from the strips' own
  // crossings.
  constexpr double places[] = {0.15, 0.85};
  drawing::Sheet marks;
  std::size_t count = 0;
  for (int row = 0; row < tiles.rows; ++row)
    for (int column = 0; column < tiles.columns; ++column) {
      const PaperPoint corner{tiles.corner.x + column * step(tiles.width),
                              tiles.corner.y + row * step(tiles.height)};
      for (const double place : places) {
        if (column + 1 < tiles.columns)
          add_cross(marks,
                    {corner.x + tiles.width - tile_overlap_mm / 2, corner.y + tiles.height * place},
                    count++);
        if (row + 1 < tiles.rows)
          add_cross(marks,
                    {corner.x + tiles.width * place, corner.y + tiles.height - tile_overlap_mm / 2},
                    count++);
      }
    }
  return marks;
}

} // namespace pritchel::report
