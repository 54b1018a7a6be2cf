/// The one look at the clock. Everything below the server and the command line is told the time.
#pragma once

#include <string>

namespace pritchel {

/// UTC, YYYY-MM-DDThh:mm:ssZ.
[[nodiscard]] std::string utc_now();

} // namespace pritchel
