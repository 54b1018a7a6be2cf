/// The tests behind the rows of limits.cpp, one function a limit: true when the change keeps it.
/// Internal to the plan floor. Each may rely on the rows above its own being kept.
#pragma once

#include "geometry/angle.h"
#include "plan/limits.h"

namespace pritchel::plan::limit {

// limits_case.cpp: who, when, and whether the reading can be believed
[[nodiscard]] bool amounts_are_not_negative(const Trial& t);
[[nodiscard]] bool no_red_flag(const Trial& t);
[[nodiscard]] bool not_lame_unseen(const Trial& t);
[[nodiscard]] bool has_default_limits(const Trial& t);
[[nodiscard]] bool geometry_is_known(const Trial& t);
[[nodiscard]] bool safety_numbers_are_known(const Trial& t);
[[nodiscard]] bool reading_is_believed(const Trial& t);
[[nodiscard]] bool not_displaced(const Trial& t);
[[nodiscard]] bool not_rotated(const Trial& t);
[[nodiscard]] bool angle_below_stop(const Trial& t);
[[nodiscard]] bool sole_above_stop(const Trial& t);
[[nodiscard]] bool film_is_recent(const Trial& t);

// limits_sole.cpp: what is left under the bone
[[nodiscard]] bool thin_sole_is_left_alone(const Trial& t);
[[nodiscard]] bool sole_stays_above_floor(const Trial& t);
[[nodiscard]] bool palmar_sole_is_left(const Trial& t);
[[nodiscard]] bool sole_at_sides_is_left(const Trial& t);
[[nodiscard]] bool sole_is_locked(const Trial& t);

// limits_amount.cpp: how much at once
[[nodiscard]] bool toe_within_growth(const Trial& t);
[[nodiscard]] bool heel_is_free(const Trial& t);
[[nodiscard]] bool heel_keeps_a_third(const Trial& t);
[[nodiscard]] bool wall_keeps_its_horn(const Trial& t);
[[nodiscard]] bool breakover_within_visit(const Trial& t);
[[nodiscard]] bool no_rocker_on_thin_sole(const Trial& t);
[[nodiscard]] bool branches_within_reach(const Trial& t);
[[nodiscard]] bool turn_by_trim_is_small(const Trial& t);
[[nodiscard]] bool turn_is_small(const Trial& t);
[[nodiscard]] bool wedge_is_called_for(const Trial& t);
[[nodiscard]] bool wedges_are_few(const Trial& t);
[[nodiscard]] bool angle_stays_below_ceiling(const Trial& t);
[[nodiscard]] bool axis_is_not_overdone(const Trial& t);
[[nodiscard]] bool tilt_is_small(const Trial& t);
[[nodiscard]] bool side_wedge_is_called_for(const Trial& t);
[[nodiscard]] bool two_pictures_agree(const Trial& t);
[[nodiscard]] bool old_enough_for_sides(const Trial& t);
[[nodiscard]] bool extensions_are_small(const Trial& t);

/// Amounts that meet a limit exactly keep it, whatever the last digit says.
inline constexpr double rounding = 1e-9;
inline constexpr double twice = measure::coverage_factor;

[[nodiscard]] inline bool cuts_from_below(const record::FootChange& c) {
  return c.trim_toe_mm != 0 || c.trim_heel_mm != 0;
}
[[nodiscard]] inline bool cuts_sideways(const record::FootChange& c) {
  return c.trim_medial_mm != 0 || c.trim_lateral_mm != 0;
}
/// By the knife or by the shoe.
[[nodiscard]] inline bool tilts_sideways(const record::FootChange& c) {
  return cuts_sideways(c) || c.ml_wedge_deg != 0;
}
[[nodiscard]] inline bool changes_side_view(const record::FootChange& c) {
  return cuts_from_below(c) || c.dress_toe_mm != 0 || c.shoe_thickness_mm != 0 || c.pad_mm != 0 ||
         c.wedge_deg != 0 || c.breakover_back_mm != 0 || c.branch_longer_mm != 0;
}
[[nodiscard]] inline bool changes_front_view(const record::FootChange& c) {
  return tilts_sideways(c) || c.extend_medial_mm != 0 || c.extend_lateral_mm != 0 ||
         c.dress_medial_mm != 0 || c.dress_lateral_mm != 0;
}

} // namespace pritchel::plan::limit
