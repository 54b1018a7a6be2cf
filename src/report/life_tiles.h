/// A drawing larger than the window of a page, cut into sheets that overlap. Inside report only.
/// Must not know: what is drawn.
#pragma once

#include "drawing/display_list.h"
#include "report/canvas.h"

#include <string>
#include <vector>

namespace pritchel::report {

/// Width of the strip that two neighbouring sheets share.
inline constexpr double tile_overlap_mm = 20;

/// Smallest box around all shapes, and around labels by an estimate of their width.
[[nodiscard]] PaperBox extent_of(const drawing::Sheet& sheet);

struct Tiles {
  int columns = 1;
  int rows = 1;
  double width = 0;    ///< of the window
  double height = 0;   ///< of the window
  PaperPoint corner{}; ///< of the first sheet, in the drawing

  [[nodiscard]] int count() const { return columns * rows; }
  /// What moves the drawing so that sheet `index` (row by row) comes to lie in a window at `at`.
  [[nodiscard]] Vector<drawing::PaperFrame> shift(int index, PaperPoint at) const;
};

/// As few sheets as hold the extent, with the drawing in their middle.
[[nodiscard]] Tiles tiles_for(const PaperBox& extent, double window_width, double window_height);

/// A cross with a letter; each lies in a strip that two sheets share, so both show it.
[[nodiscard]] drawing::Sheet registration_marks(const Tiles& tiles);

} // namespace pritchel::report
