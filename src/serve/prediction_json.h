/// What a plan would do to the measurements; docs/formats/http.md, `predictions`.
#pragma once

#include "plan/plan.h"

#include <nlohmann/json_fwd.hpp>

#include <vector>

namespace pritchel::serve {

[[nodiscard]] nlohmann::json predictions_json(const std::vector<plan::Prediction>& predictions);

} // namespace pritchel::serve
