/// Heads under which a view's measurements stand, in the order of their table. Paper and
/// docs/measurements.md both use them.
#pragma once

#include "measure/definitions.h"

#include <string_view>

namespace pritchel::report {

/// "Coffin bone and ground". Fore wording; measure::worded_for() makes the hind one.
[[nodiscard]] std::string_view group_of(const measure::Definition& definition);

} // namespace pritchel::report
