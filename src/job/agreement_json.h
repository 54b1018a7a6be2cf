/// Agreement as JSON for page and command line; docs/formats/http.md, "Two readers".
#pragma once

#include <nlohmann/json_fwd.hpp>

#include <vector>

#include "job/agreement_of.h"

namespace pritchel::job {

/// `practice` for titles and default spreads.
[[nodiscard]] nlohmann::json agreement_json(const PracticeAgreement& all,
                                            const practice::Practice& practice);

/// Landmark by landmark and measurement by measurement, first less second for numbers, first to
/// second for points. `practice`: the spreads in use; `all`: what limits and ICC come from.
[[nodiscard]] nlohmann::json agreement_json(const PictureAgreement& pair,
                                            const RepeatedPicture& picture,
                                            measure::Limb limb,
                                            const PracticeAgreement& all,
                                            const practice::Practice& practice);

/// What anybody may know of a picture's readings; landmarks only of those that `reader` may see.
[[nodiscard]] nlohmann::json readings_json(const std::vector<record::ReadingEntry>& all,
                                           const std::string& reader);

} // namespace pritchel::job
