/// The numbers of a changed foot and how surely they are known. Internal to the plan floor; the
/// public doors are predict() and ghost() in plan.h.
#pragma once

#include "plan/change.h"
#include "plan/foot.h"

namespace pritchel::plan {

/// How surely a hand does what was planned: standard uncertainties (own estimates).
namespace hand {
inline constexpr double trim_mm = 1.0; ///< at each end of the cut
inline constexpr double wedge_deg = 0.3;
inline constexpr double along_mm = 2.0; ///< breakover and branches
inline constexpr double dressing_mm = 0.5;
} // namespace hand

/// How far the rigid, standing foot of this model may be from the real one: a share of each
/// change that is planned (own estimate, until a practice's own records give better).
inline constexpr double model_share = 0.15;

/// The measurement on landmarks that carry no derivatives; nothing when not measurable.
[[nodiscard]] std::optional<double> value_on(const measure::Placed<double>& placed,
                                             std::string_view measurement);

/// predict() of both views that are fit to plan on; what can't be predicted is left out.
[[nodiscard]] std::vector<Prediction> predictions_of(const Foot& foot,
                                                     const record::FootChange& change,
                                                     const practice::Practice& practice);

} // namespace pritchel::plan
