/// Where edges are and which way they face, pooled over cells so that a small shift changes little:
/// what places in a film are told apart by. Source of the idea: histograms of oriented gradients
/// (Dalal and Triggs 2005, CVPR). Inside this floor only.
#pragma once

#include <span>
#include <vector>

#include "suggest/sheet.h"

namespace pritchel::suggest {

/// How closely is looked.
struct Level {
  double pixel_mm = 1;
  double cell_mm = 4;
};

inline constexpr int edge_directions = 6;
inline constexpr int cells_across = 4;
inline constexpr int description_size = edge_directions * cells_across * cells_across;

class EdgeMap {
public:
  EdgeMap(const Sheet& sheet, const Level& level);

  /// Adds `edge_directions` strengths at the place, between the pixels; zeros outside.
  void at(const SheetPoint& place, std::span<float> out) const;
  /// The cells round the place, `description_size` values of length 1 (0 where nothing is).
  void describe(const SheetPoint& place, std::span<float> out) const;
  [[nodiscard]] const Level& level() const { return level_; }

private:
  Level level_;
  int columns_ = 0;
  int rows_ = 0;
  std::vector<float> strengths_; ///< pixel by pixel, its directions together
};

} // namespace pritchel::suggest
