/// A wished change held within the limits and the practice's locks. Internal to the plan floor.
#pragma once

#include "plan/propose.h"
#include "plan/what_if.h"

namespace pritchel::plan {

struct Hold {
  record::FootChange change;
  std::vector<HeldBack> held_back;
};

/// As what_if(); the foot's standing limits must be kept.
[[nodiscard]] Hold hold_within_limits(const Foot& foot,
                                      const Locks& locks,
                                      const record::FootChange& wished,
                                      std::string_view moved);

} // namespace pritchel::plan
