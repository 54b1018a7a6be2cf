/// What a browser is told a file is.
#pragma once

#include <string>
#include <string_view>

namespace pritchel::serve {

/// By the ending of its name; bytes of no stated kind for an unknown one.
[[nodiscard]] std::string content_type(std::string_view file_name);

} // namespace pritchel::serve
