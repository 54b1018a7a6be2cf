#include "plan/outlook.h"

#include <utility>

namespace pritchel::plan {

Growth growth_of(const measure::Reading& reading,
                 std::vector<DatedHoof> history,
                 std::optional<double> age_years) {
  if (const auto bearing = bearing_of(measure::placed(reading)))
    if (const auto own = own_growth(intervals_of(std::move(history)), *bearing))
      return *own;
  return growth_at_age(age_years);
}

Outlook outlook_of(const measure::Reading& reading,
                   const measure::Spreads& spreads,
                   const record::FootChange& change,
                   const measure::Bands& bands,
                   const Growth& growth) {
  Outlook outlook{.limb = reading.limb, .growth = growth, .base_shift_mm = base_shift(change)};
  if (auto later = predict_week(reading, spreads, change, bands, outlook.week, growth))
    outlook.in_week = std::move(*later);
  else
    outlook.no_growth = later.error();
  if (const auto review = review_of(reading, spreads, change, bands, growth))
    outlook.review = *review;
  if (const auto changed = ghost(reading, change))
    outlook.arms = arms_of(measure::placed(reading), *changed, reading.limb);
  return outlook;
}

} // namespace pritchel::plan
