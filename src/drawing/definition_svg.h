/// A small SVG that shows what a measurement is: its construction, as the measuring code returns
/// it, over a pale schematic. For documentation; stands alone, so that it shows inside an <img>.
/// Must not know: protocols, files.
#pragma once

#include "measure/measure.h"
#include "measure/reading.h"

#include <string>
#include <string_view>

namespace pritchel::drawing {

/// An SVG file taken apart: what stands inside it, and the size of its viewBox, which begins at 0.
struct Schematic {
  std::string inside;
  double width = 0;
  double height = 0;
};

/// A width of 0 for a text that isn't an SVG with such a viewBox.
[[nodiscard]] Schematic schematic(std::string_view svg);

/// `reading`: the landmarks to be marked, in the schematic's own unit as pixels. `measurement` must
/// be measurable. Shows the part of the schematic where the construction lies.
[[nodiscard]] std::string definition_svg(const Schematic& schematic,
                                         const measure::Reading& reading,
                                         const measure::Measurement& measurement);

} // namespace pritchel::drawing
