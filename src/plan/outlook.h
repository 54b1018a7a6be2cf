/// What is to be expected of one changed foot beyond its first day: week six, when to look again,
/// and its levers. For page and paper; shows, never decides.
#pragma once

#include "plan/arm.h"
#include "plan/growth.h"

#include <string>
#include <vector>

namespace pritchel::plan {

struct Outlook {
  measure::Limb limb = measure::Limb::left_fore;
  Growth growth;
  int week = longest_interval_weeks;
  std::vector<Prediction> in_week; ///< now against week `week`; empty: see `no_growth`
  std::optional<Review> review;
  std::string no_growth; ///< why growth isn't foreseen
  Arms arms;             ///< on the first day
  double base_shift_mm = 0;
};

/// Of a side view's reading. `growth`: this foot's own, or growth_at_age().
[[nodiscard]] Outlook outlook_of(const measure::Reading& reading,
                                 const measure::Spreads& spreads,
                                 const record::FootChange& change,
                                 const measure::Bands& bands,
                                 const Growth& growth);

/// This foot's own growth where its history gives it, else the usual one at that age.
[[nodiscard]] Growth growth_of(const measure::Reading& reading,
                               std::vector<DatedHoof> history,
                               std::optional<double> age_years);

} // namespace pritchel::plan
