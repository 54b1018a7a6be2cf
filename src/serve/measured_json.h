/// `result` of docs/formats/http.md: numbers and overlay of one reading.
#pragma once

#include "base/result.h"
#include "record/case.h"
#include "serve/office.h"

#include <nlohmann/json_fwd.hpp>

#include <string>

namespace pritchel::serve {

/// Measures the reading on its picture, against the bands that hold for the horse. `about` is the
/// measurement whose construction is drawn; empty draws the view's main set.
[[nodiscard]] Result<nlohmann::json> measured_json(Office& office,
                                                   const record::Horse& horse,
                                                   const record::PictureEntry& entry,
                                                   const record::ReadingEntry& reading,
                                                   const std::string& about);

} // namespace pritchel::serve
