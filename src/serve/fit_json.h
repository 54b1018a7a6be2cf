/// A best fit for the page; docs/formats/http.md, "The best fit".
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/fit.h"

namespace pritchel::serve {

[[nodiscard]] nlohmann::json fit_json(const job::FitFound& found);

} // namespace pritchel::serve
