/// What is to be expected of a changed foot: its numbers after the change, week six, the levers.
#pragma once

#include "plan/outlook.h"

#include <optional>
#include <vector>

#include "job/visit.h"

namespace pritchel::job {

/// This foot's own growth by its history up to this visit, else the usual one: plan/outlook.h.
[[nodiscard]] Result<plan::Growth>
growth_of(const Desk& desk, const PlanGround& ground, measure::Limb limb);

/// Of one changed foot; nothing when its side view wasn't read.
[[nodiscard]] Result<std::optional<plan::Outlook>>
outlook_of(const Desk& desk, const PlanGround& ground, const record::FootChange& change);

struct Foreseen {
  std::vector<plan::Prediction> predictions; ///< both views of every foot that the plan changes
  std::vector<plan::Outlook> outlooks;       ///< of those whose side view was read
};

/// What a kept plan's changes do to the visit's measurements as they read now; `pictures` are the
/// visit's own.
[[nodiscard]] Result<Foreseen> foreseen(const Desk& desk,
                                        const record::Case& value,
                                        const record::Visit& visit,
                                        const std::vector<MeasuredPicture>& pictures,
                                        const record::Plan& plan);

} // namespace pritchel::job
