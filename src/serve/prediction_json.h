/// What a plan would do to the measurements; docs/formats/http.md, `predictions`.
#pragma once

#include "base/result.h"
#include "plan/outlook.h"
#include "plan/plan.h"
#include "serve/office.h"

#include <nlohmann/json_fwd.hpp>

#include <vector>

namespace pritchel::serve {

[[nodiscard]] nlohmann::json predictions_json(const std::vector<plan::Prediction>& predictions);
/// What is to be expected of each changed foot; docs/formats/http.md, `outlooks`.
[[nodiscard]] nlohmann::json outlooks_json(const std::vector<plan::Outlook>& outlooks);

[[nodiscard]] nlohmann::json outlook_json(const plan::Outlook& outlook);

/// A plan with what it would do: `plan`, `predictions`, `outlooks`.
[[nodiscard]] Result<nlohmann::json> planned_json(Office& office,
                                                  const std::string& case_id,
                                                  const std::string& visit_id,
                                                  const record::Plan& plan);

} // namespace pritchel::serve
