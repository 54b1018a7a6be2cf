/// The page's files as they were when the program was built.
#pragma once

#include <span>
#include <string_view>

namespace pritchel::serve {

struct PageFile {
  std::string_view name; ///< "panels/case.js"
  std::string_view bytes;
};

[[nodiscard]] std::span<const PageFile> packed_page();

} // namespace pritchel::serve
