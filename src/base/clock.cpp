#include "base/clock.h"

#include <fmt/chrono.h>

#include <chrono>

namespace pritchel {

std::string utc_now() {
  using std::chrono::system_clock;
  return fmt::format("{:%Y-%m-%dT%H:%M:%SZ}",
                     fmt::gmtime(system_clock::to_time_t(system_clock::now())));
}

} // namespace pritchel
