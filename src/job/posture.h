/// A visit's pictures of one limb held against each other: standing and hanging free, and one
/// coffin joint in two side views.
#pragma once

#include "base/result.h"

#include <nlohmann/json_fwd.hpp>

#include <string>

#include "job/visit.h"

namespace pritchel::job {

/// {"limbs": [{"limb", "rows": [...]}], "joints": [{"limb", "from", "to", ...}]},
/// docs/formats/http.md; a limb without both pictures isn't there.
[[nodiscard]] Result<nlohmann::json>
posture_json(const Desk& desk, const std::string& case_id, const std::string& visit);

} // namespace pritchel::job
