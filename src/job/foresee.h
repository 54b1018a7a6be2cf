/// What is to be expected of a changed foot: its numbers after the change, week six, the levers.
#pragma once

#include "plan/outlook.h"

#include <optional>
#include <string>
#include <vector>

#include "job/visit.h"

namespace pritchel::job {

/// The effect of a kept plan's changes on the visit's measurements as they read now.
[[nodiscard]] Result<std::vector<plan::Prediction>> predictions(const Desk& desk,
                                                                const record::Case& value,
                                                                const record::Visit& visit,
                                                                const record::Plan& plan);

/// This foot's own growth by its history up to this visit, else the usual one: plan/outlook.h.
[[nodiscard]] Result<plan::Growth>
growth_of(const Desk& desk, const PlanGround& ground, measure::Limb limb);

/// Of one changed foot; nothing when its side view wasn't read.
[[nodiscard]] Result<std::optional<plan::Outlook>>
outlook_of(const Desk& desk, const PlanGround& ground, const record::FootChange& change);

/// Of each foot that the plan changes and whose side view was read.
[[nodiscard]] Result<std::vector<plan::Outlook>> outlooks(const Desk& desk,
                                                          const record::Case& value,
                                                          const record::Visit& visit,
                                                          const record::Plan& plan);

} // namespace pritchel::job
