/// Best fit of one foot of a visit: worked out when asked, kept only when a person
/// takes a way (job/choose.h).
#pragma once

#include "plan/staging.h"
#include "record/json.h"

#include <string>
#include <vector>

#include "job/visit.h"

namespace pritchel::job {

struct FitFound {
  plan::Fit fit;
  std::vector<plan::Stages> stages; ///< one for each of the fit's ways
};

/// `asked.means` isn't looked at: every way is worked out.
[[nodiscard]] Result<FitFound> best_fit(const Desk& desk,
                                        const std::string& case_id,
                                        const std::string& visit,
                                        const record::AskedFit& asked,
                                        const record::Stamp& stamp);

} // namespace pritchel::job
