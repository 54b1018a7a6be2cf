/// Files that a request may name, out of one folder and never from outside it.
#pragma once

#include "base/result.h"
#include "serve/answer.h"

#include <filesystem>
#include <string>
#include <string_view>

namespace pritchel::serve {

/// Letters, digits, dots, hyphens and underscores between slashes; no part begins with a dot.
[[nodiscard]] bool is_plain_path(std::string_view path);

/// not_found for a name that isn't plain, isn't there or leads outside through a link.
[[nodiscard]] Result<Bytes> file_in(const std::filesystem::path& folder, const std::string& name);

} // namespace pritchel::serve
