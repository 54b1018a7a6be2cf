#include "plan/limit_tests.h"
#include "plan/predict.h"

#include <algorithm>
#include <cmath>

namespace pritchel::plan::limit {

namespace {

double toe_allowance(const CaseFacts& facts) {
  constexpr double growth_mm_per_day = 7.0 / 28, unknown_date_mm = 5, most_mm = 8;
  const auto days = days_since_trim(facts);
  return days ? std::min(most_mm, std::max(0.0, *days) * growth_mm_per_day) : unknown_date_mm;
}

} // namespace

bool toe_within_growth(const Trial& t) {
  if (t.change.trim_toe_mm == 0)
    return true;
  return wall_taken(*t.foot.bearing, amounts_of<double>(t.change)) <=
         toe_allowance(*t.foot.facts) + rounding;
}

bool heel_is_free(const Trial& t) {
  constexpr double most_mm = 3, least_axis_deg = -2;
  if (t.change.trim_heel_mm == 0)
    return true;
  const double least_angle_deg = measure::is_hind(t.foot.limb) ? 0 : 3;
  const auto angle = quantity(t.foot, "palmar-angle-foot");
  const auto axis = quantity(t.foot, "hpa-deviation");
  return t.change.trim_heel_mm <= most_mm + rounding && angle.known &&
         angle.low() >= least_angle_deg && axis.known && axis.low() >= least_axis_deg &&
         quantity(t.foot, "sole-depth-palmar").known;
}

bool heel_keeps_a_third(const Trial& t) {
  constexpr double height_uncertainty_mm = 2.0; // own estimate
  if (t.change.trim_heel_mm == 0)
    return true;
  const auto& placed = t.foot.side.placed;
  if (!placed.has("coronary-band-heel") || !placed.has("coronary-band"))
    return false;
  const auto& bearing = *t.foot.bearing;
  const auto height = [&](const char* id) {
    const double x = bearing.x(placed[id]);
    return (bearing.y(placed[id]) - cut_height(bearing, amounts_of<double>(t.change), x)) *
           std::cos(from_degrees(t.cut_deg));
  };
  return height("coronary-band-heel") - twice * height_uncertainty_mm >=
         height("coronary-band") / 3;
}

bool wall_keeps_its_horn(const Trial& t) {
  constexpr double most_mm = 2, most_share = 0.25;
  const auto& c = t.change;
  if (c.dress_medial_mm != 0 || c.dress_lateral_mm != 0)
    return false;
  if (c.dress_toe_mm == 0)
    return true;
  const auto horn = quantity(t.foot, "horn-thickness-toe");
  return horn.known && c.dress_toe_mm <= std::min(most_mm, most_share * horn.low()) + rounding;
}

bool breakover_within_visit(const Trial& t) {
  constexpr double most_mm = 8;
  if (!changes_side_view(t.change))
    return true;
  const auto before = quantity(t.foot, "breakover-distance");
  const auto after = value_on(*t.side_after, "breakover-distance");
  if (!before.known || !after)
    return false;
  const double fall = before.value - *after;
  if (fall <= rounding)
    return true;
  return fall <= most_mm + rounding && *after - twice * before.uncertainty >= 0;
}

bool no_rocker_on_thin_sole(const Trial& t) {
  constexpr double rocker_from_mm = 10;
  return !sole_is_locked(t) || t.change.breakover_back_mm < rocker_from_mm;
}

bool branches_within_reach(const Trial& t) {
  constexpr double most_mm = 10;
  return t.change.branch_longer_mm <= most_mm;
}

bool turn_by_trim_is_small(const Trial& t) {
  return t.cut_deg >= -1 - rounding && t.cut_deg <= 2 + rounding;
}
bool turn_is_small(const Trial& t) {
  return t.turn_deg >= -1 - rounding && t.turn_deg <= 3 + rounding;
}

bool wedge_is_called_for(const Trial& t) {
  if (t.change.wedge_deg == 0)
    return true;
  const auto angle = quantity(t.foot, "palmar-angle");
  return t.foot.facts->diagnosed || (angle.known && angle.high() < 0);
}

namespace {

/// Of the wedge of the shoe on the picture: its plane's two points over about 100 mm, 0.7 mm each.
constexpr double worn_wedge_uncertainty_deg = 0.57;

} // namespace

bool wedges_are_few(const Trial& t) {
  constexpr double most_deg = 4;
  if (t.change.wedge_deg == 0)
    return true;
  const bool shod = t.foot.side.placed.shoeing == measure::Shoeing::shod;
  const double doubt = shod ? twice * worn_wedge_uncertainty_deg : 0;
  return std::max(0.0, t.foot.bearing->worn_wedge_deg) + doubt + t.change.wedge_deg <=
         most_deg + rounding;
}

bool angle_stays_below_ceiling(const Trial& t) {
  if (t.turn_deg <= rounding)
    return true;
  const double ceiling = measure::is_hind(t.foot.limb) ? 8 : 10;
  const double trim = cuts_from_below(t.change)
                          ? in_degrees(std::sqrt(2.0) * hand::trim_mm / t.foot.bearing->span)
                          : 0;
  const double wedge = t.change.wedge_deg != 0 ? hand::wedge_deg : 0;
  const auto angle = quantity(t.foot, "palmar-angle");
  const double doubt = twice * std::hypot(angle.uncertainty, trim, wedge);
  return angle.known && angle.value + t.turn_deg + doubt <= ceiling + rounding;
}

bool axis_is_not_overdone(const Trial& t) {
  if (std::abs(t.turn_deg) <= rounding)
    return true;
  const auto axis = quantity(t.foot, "hpa-deviation");
  if (!axis.known)
    return false;
  const double after = axis.value + (standing_shares.coffin + standing_shares.pastern) * t.turn_deg;
  const double doubt = twice * axis.uncertainty;
  return t.turn_deg > 0 ? after <= doubt + rounding : after >= -doubt - rounding;
}

bool tilt_is_small(const Trial& t) {
  constexpr double most_mm = 2, most_deg = 1;
  if (!tilts_sideways(t.change))
    return true;
  const double difference = t.change.trim_medial_mm - t.change.trim_lateral_mm;
  const auto& placed = t.foot.front.placed;
  const auto ground = measure::ground_of(placed);
  const double span =
      ground.along(placed["wall-ground-lateral"]) - ground.along(placed["wall-ground-medial"]);
  return std::max(t.change.trim_lateral_mm, t.change.trim_medial_mm) <= most_mm + rounding &&
         std::abs(in_degrees(std::atan(difference / span)) + t.change.ml_wedge_deg) <=
             most_deg + rounding;
}

bool side_wedge_is_called_for(const Trial& t) {
  return t.change.ml_wedge_deg == 0 || t.foot.facts->diagnosed;
}

bool two_pictures_agree(const Trial& t) {
  constexpr double least_tilt_deg = 2;
  if (!tilts_sideways(t.change))
    return true;
  // The side to be lowered. A wedge lifts the lateral side and so lowers the medial one.
  const bool lateral = t.change.trim_lateral_mm > 0;
  if (lateral && (t.change.trim_medial_mm > 0 || t.change.ml_wedge_deg > 0))
    return false;
  const auto beyond = [&](const char* id, double least) {
    const auto q = quantity(t.foot, id);
    return q.known && (lateral ? q.low() > least : q.high() < -least);
  };
  return beyond("p3-ml-tilt-articular", least_tilt_deg) &&
         beyond("p3-ml-tilt-articular.repeat", least_tilt_deg) &&
         beyond("wall-length-difference", 0) && beyond("coronet-ml-tilt", 0);
}

bool old_enough_for_sides(const Trial& t) {
  constexpr double grown_years = 2;
  return !changes_front_view(t.change) ||
         (t.foot.facts->age_years && *t.foot.facts->age_years >= grown_years);
}

bool extensions_are_small(const Trial& t) {
  constexpr double most_mm = 5;
  return std::max(t.change.extend_medial_mm, t.change.extend_lateral_mm) <= most_mm;
}

} // namespace pritchel::plan::limit
