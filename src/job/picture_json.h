/// What a picture holds and what its header says, as JSON for page and command line;
/// docs/formats/http.md, `GET /api/pictures/DIGEST`.
#pragma once

#include "imaging/picture.h"

#include <nlohmann/json_fwd.hpp>

namespace pritchel::job {

/// Everything but the samples.
[[nodiscard]] nlohmann::json picture_json(const imaging::Picture& picture);

} // namespace pritchel::job
