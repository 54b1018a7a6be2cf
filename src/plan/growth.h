/// Growth between visits: what the foot will be in week n, by moving landmarks and measuring again.
/// A shod foot keeps its shoe's place on the hoof, so the toe grows forward and the heels, which
/// rub on the shoe, lose height: angles fall. Rates: josseck-1995 (7 mm in 28 days at the toe); the
/// heels' net rate is fitted (own estimate) so that the hoof's angle falls by 3.5 degrees in eight
/// weeks, as van-heel-2005 and moleman-2006 are reported. Formulas: docs/plan.md.
#pragma once

#include "plan/change.h"
#include "plan/plan.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::plan {

/// Per week, mm along the wall; the heels' is net of wear. Uncertainties are standard ones. The
/// usual ones span what is published for the toe, and make the fall of the angle uncertain by half
/// (own estimate).
struct Growth {
  double toe_mm = 1.75;
  double heel_mm = 0.50;
  double toe_uncertainty_mm = 0.29;
  double heel_uncertainty_mm = 0.68;
  int own_intervals = 0; ///< of this foot's history that the rates come from; 0: the usual ones
};
inline constexpr Growth usual_growth{};

/// Foals and yearlings grow faster, aged horses slower (trade figures): a factor on both rates.
/// Nothing is made slower or faster at an unknown age.
[[nodiscard]] Growth growth_at_age(std::optional<double> years);

/// What one reading of a shod foot says for its history.
struct DatedHoof {
  std::string taken;     ///< YYYY-MM-DD
  std::string last_trim; ///< before it, YYYY-MM-DD; empty: not known, and the reading isn't used
  double hoof_angle_deg = 0;
  double toe_length_mm = 0;
  ScaleOrigin scale = ScaleOrigin::none; ///< of the picture it was read on
};

/// Between two readings of a foot, one after the other, without a trim between them and with scales
/// from the same kind of source: a header's scale may be 5 per cent off a marker's, which is half
/// of what a toe grows in six weeks.
struct GrowthInterval {
  double weeks = 0;
  double angle_change_deg = 0; ///< falls: negative
  double toe_growth_mm = 0;
};
[[nodiscard]] std::vector<GrowthInterval> intervals_of(std::vector<DatedHoof> readings);

/// This foot's own rates from three intervals or more: straight lines through zero, with their
/// standard errors. `bearing` brings the fall of the angle to the heels' rate. Nothing with fewer
/// intervals, or when a rate comes out that no horn has (toe not surely above zero or above 6 mm a
/// week).
[[nodiscard]] std::optional<Growth> own_growth(const std::vector<GrowthInterval>& intervals,
                                               const Bearing<double>& bearing);

/// The shod foot of a side view after growth by so many mm of wall; zero gives it back as it is.
/// Refused for a bare foot, which wears as it grows, and for a front view.
template <class T>
[[nodiscard]] measure::Attempt<measure::Placed<T>>
grown(const measure::Placed<T>& placed,
      const T& toe_mm,
      const T& heel_mm,
      const JointShares& shares = standing_shares);

/// Every predictable measurement of the side view, now (`before`) and in week `week` after the
/// change (`after`). Week 0 is predict(). Refused as predict() and grown() are. The sole's own
/// growth is not counted on.
[[nodiscard]] measure::Attempt<std::vector<Prediction>>
predict_week(const measure::Reading& reading,
             const measure::Spreads& spreads,
             const record::FootChange& change,
             const measure::Bands& bands,
             int week,
             const Growth& growth);

/// When the foot should be seen again.
struct Review {
  int week = 0;
  std::string measurement; ///< whose band is surely left in that week; empty: the longest interval
};
inline constexpr int longest_interval_weeks = 6; ///< common practice, no source

/// The first week in which a measurement surely leaves the band that it isn't surely outside of
/// after the change, or the longest interval. Refused as predict_week().
[[nodiscard]] measure::Attempt<Review> review_of(const measure::Reading& reading,
                                                 const measure::Spreads& spreads,
                                                 const record::FootChange& change,
                                                 const measure::Bands& bands,
                                                 const Growth& growth,
                                                 int longest_weeks = longest_interval_weeks);

} // namespace pritchel::plan
