/// What a plan would do to the measurements; docs/formats/http.md, `predictions`.
#pragma once

#include "plan/outlook.h"

#include <nlohmann/json_fwd.hpp>

#include <vector>

namespace pritchel::serve {

[[nodiscard]] nlohmann::json predictions_json(const std::vector<plan::Prediction>& predictions);
/// What is to be expected of each changed foot; docs/formats/http.md, `outlooks`.
[[nodiscard]] nlohmann::json outlooks_json(const std::vector<plan::Outlook>& outlooks);

} // namespace pritchel::serve
