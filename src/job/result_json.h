/// What measuring gave, as JSON for page and command line; docs/formats/http.md, `result`.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/visit.h"

namespace pritchel::job {

/// A picture's scale in words and numbers, with what may make it worse than stated.
[[nodiscard]] nlohmann::json calibration_json(const record::Scaled& scaled);

/// All but `overlay`; wording for the reading's limb. A value, its uncertainty and its interval are
/// absent where the measurement isn't measurable.
[[nodiscard]] nlohmann::json result_json(const MeasuredPicture& found,
                                         const practice::Practice& practice);

} // namespace pritchel::job
