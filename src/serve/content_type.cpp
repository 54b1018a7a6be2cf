#include "serve/content_type.h"

#include <array>
#include <utility>

namespace pritchel::serve {
namespace {

constexpr std::array<std::pair<std::string_view, const char*>, 6> types{
    {{".html", "text/html; charset=utf-8"},
     {".js", "text/javascript; charset=utf-8"},
     {".css", "text/css; charset=utf-8"},
     {".svg", "image/svg+xml; charset=utf-8"},
     {".json", "application/json; charset=utf-8"},
     {".png", "image/png"}}};

} // namespace

std::string content_type(std::string_view file_name) {
  for (const auto& [ending, type] : types)
    if (file_name.ends_with(ending))
      return type;
  return "application/octet-stream";
}

} // namespace pritchel::serve
