/// The size of an SVG drawing.
#pragma once

#include <optional>
#include <string_view>

namespace pritchel {

/// In the drawing's own unit.
struct SvgSize {
  double width = 0;
  double height = 0;
};

/// By the viewBox of its <svg> tag, which begins at 0 0; nothing for a text without one.
[[nodiscard]] std::optional<SvgSize> svg_size(std::string_view svg);

} // namespace pritchel
