#include "base/svg.h"

#include <charconv>

namespace pritchel {

std::optional<SvgSize> svg_size(std::string_view svg) {
  constexpr std::string_view opening = "viewBox=\"0 0 ";
  const auto begin = svg.find("<svg");
  const auto tag = svg.substr(begin == std::string_view::npos ? svg.size() : begin);
  const auto at = tag.substr(0, tag.find('>')).find(opening);
  if (at == std::string_view::npos)
    return std::nullopt;
  const char* const end = tag.data() + tag.size();
  SvgSize size;
  const auto after = std::from_chars(tag.data() + at + opening.size(), end, size.width).ptr;
  if (after == end || std::from_chars(after + 1, end, size.height).ec != std::errc{} ||
      !(size.width > 0 && size.height > 0))
    return std::nullopt;
  return size;
}

} // namespace pritchel
