/// The paper of a visit.
#pragma once

#include "report/report.h"

#include <string>
#include <vector>

#include "job/visit.h"

namespace pritchel::job {

/// With its newest plan when there is one. `made`: UTC.
[[nodiscard]] Result<std::vector<char>> paper(const Desk& desk,
                                              const std::string& case_id,
                                              const std::string& visit,
                                              report::Paper paper,
                                              const std::string& made);

} // namespace pritchel::job
