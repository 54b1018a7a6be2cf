/// The checks of a picture as JSON for page and command line; docs/formats/http.md, `checks`.
#pragma once

#include "measure/check.h"
#include "measure/view.h"

#include <nlohmann/json_fwd.hpp>

#include <span>
#include <string_view>
#include <vector>

namespace pritchel::job {

/// Landmarks that a check looks at, to be shown in the picture; empty for one that looks at the
/// whole picture or isn't known.
[[nodiscard]] std::span<const std::string_view> points_of_check(std::string_view check);

/// Wording for the limb.
[[nodiscard]] nlohmann::json checks_json(const std::vector<measure::Check>& checks,
                                         measure::Limb limb);

} // namespace pritchel::job
