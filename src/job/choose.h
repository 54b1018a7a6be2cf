/// What a person chooses for a foot becomes the visit's next plan. Choices that the newest plan
/// holds for other feet are worked out again and stay; the foot's own earlier one goes.
#pragma once

#include "record/json.h"

#include <string>

#include "job/visit.h"

namespace pritchel::job {

/// A way of the best fit. A conflict when nothing may be fitted or no aim is surely missed.
[[nodiscard]] Result<plan::Planned> take_way(const Desk& desk,
                                             const std::string& case_id,
                                             const std::string& visit,
                                             const record::AskedFit& asked,
                                             const record::Stamp& stamp);

/// Amounts set by hand, held within the limits. A conflict when nothing may be changed or nothing
/// is left of them.
[[nodiscard]] Result<plan::Planned> take_by_hand(const Desk& desk,
                                                 const std::string& case_id,
                                                 const std::string& visit,
                                                 const record::FootChange& wished,
                                                 const record::Stamp& stamp);

} // namespace pritchel::job
