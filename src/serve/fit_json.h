/// A best fit for the page; docs/formats/http.md, "The best fit".
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/fit.h"

namespace pritchel::serve {

[[nodiscard]] nlohmann::json fit_json(const job::FitFound& found);

/// What isn't 0, by name.
[[nodiscard]] nlohmann::json change_json(const record::FootChange& change);

} // namespace pritchel::serve
