/// A radiograph laid out for searching: toe (or lateral) to the right, in millimetres, with greys
/// that hardly depend on exposure. Inside this floor only.
#pragma once

#include "geometry/frames.h"
#include "imaging/picture.h"

#include <vector>

#include "suggest/suggest.h"

namespace pritchel::suggest {

/// Millimetres in the plane of interest (as far as the scale is known): x towards toe or lateral,
/// y down, the picture's corner pixel on that side at 0, 0.
struct SheetFrame {};
using SheetPoint = Point<SheetFrame>;
using SheetVector = Vector<SheetFrame>;

/// Row by row, every `pixel_mm`; the first value at 0, 0.
struct Raster {
  int columns = 0;
  int rows = 0;
  double pixel_mm = 1;
  std::vector<float> values;
};

class Sheet {
public:
  /// `toward` must be known, `mm_per_pixel` (of a pixel's width) positive.
  Sheet(const imaging::Picture& radiograph, Toward toward, double mm_per_pixel);

  /// Greys: 0 at the darkest percent, 1 at the brightest.
  [[nodiscard]] const Raster& greys() const { return greys_; }
  [[nodiscard]] ImagePoint to_picture(const SheetPoint& at) const;
  [[nodiscard]] SheetPoint from_picture(const ImagePoint& at) const;
  [[nodiscard]] double width_mm() const { return width_mm_; }
  [[nodiscard]] double height_mm() const { return height_mm_; }
  /// The place is in the picture and this far from its edges.
  [[nodiscard]] bool holds(const SheetPoint& at, double margin_mm) const;

private:
  double pixel_width_mm_;
  double pixel_height_mm_;
  double last_column_;
  bool mirrored_;
  double width_mm_;
  double height_mm_;
  Raster greys_;
};

/// The same at a coarser pixel, smoothed so that nothing finer is left over.
[[nodiscard]] Raster coarser(const Raster& fine, double pixel_mm);

} // namespace pritchel::suggest
