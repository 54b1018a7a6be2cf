#include "plan/limit_tests.h"
#include "plan/variables.h"

#include <algorithm>
#include <array>

namespace pritchel::plan::limit {

bool amounts_are_not_negative(const Trial& t) {
  return std::all_of(variables().begin(), variables().end(), [&](const Variable& each) {
    return t.change.*each.field >= 0;
  });
}

bool no_red_flag(const Trial& t) {
  return t.foot.facts->red_flags == 0;
}

bool not_lame_unseen(const Trial& t) {
  const auto& facts = *t.foot.facts;
  const bool lame = facts.lameness_aaep.value_or(0) >= 3 || facts.lameness_uk.value_or(0) >= 4 ||
                    facts.sudden_onset;
  return !lame || facts.vet_has_seen;
}

bool has_default_limits(const Trial& t) {
  constexpr double least_height_cm = 148, foal_years = 1;
  const auto& facts = *t.foot.facts;
  const bool foal = facts.age_years && *facts.age_years < foal_years;
  return facts.species == record::Species::horse && facts.height_cm &&
         *facts.height_cm >= least_height_cm && !foal && !facts.laminitis;
}

bool geometry_is_known(const Trial& t) {
  if (changes_side_view(t.change) && !(t.foot.side.fit() && t.side_after))
    return false;
  return !changes_front_view(t.change) ||
         (t.foot.front.fit() && after(t.foot.front.placed, t.change).has_value());
}

bool safety_numbers_are_known(const Trial& t) {
  constexpr std::array<std::string_view, 5> needed{"sole-depth-tip",
                                                   "palmar-angle",
                                                   "coronary-extensor-distance",
                                                   "capsular-rotation",
                                                   "p3-bone-angle"};
  return std::all_of(needed.begin(), needed.end(), [&](std::string_view id) {
    return quantity(t.foot, id).known;
  });
}

bool reading_is_believed(const Trial& t) {
  constexpr double least_deg = 38, most_deg = 60, most_shift_deg = 3.2;
  const auto bone = quantity(t.foot, "p3-bone-angle");
  const auto shift = quantity(t.foot, "p3-bone-angle.shift");
  return bone.value >= least_deg && bone.value <= most_deg &&
         !(shift.known && shift.value > most_shift_deg);
}

namespace {

/// True when it rose by more than `most` and by more than the two readings' own doubt.
bool rose(const Foot& foot, const char* measurement, double most) {
  const auto rise = quantity(foot, std::string(measurement) + ".rise");
  return rise.known && rise.value > most && rise.low() > 0;
}

} // namespace

bool not_displaced(const Trial& t) {
  return quantity(t.foot, "coronary-extensor-distance").value <= 12 &&
         !rose(t.foot, "coronary-extensor-distance", 3);
}
bool not_rotated(const Trial& t) {
  return quantity(t.foot, "capsular-rotation").value <= 5 &&
         !rose(t.foot, "capsular-rotation", 2.5);
}
bool angle_below_stop(const Trial& t) {
  return quantity(t.foot, "palmar-angle").value <= 15;
}
bool sole_above_stop(const Trial& t) {
  return quantity(t.foot, "sole-depth-tip").low() >= 10;
}

namespace {

bool picture_is_recent(const Picture& picture, const CaseFacts& facts) {
  constexpr double most_days = 42, least_days = -1; // a day for time zones
  if (picture.dated == nullptr)
    return false;
  const auto age = days_since_picture(facts, picture.dated->taken);
  // Dates compare as text. The picture of the trim's own day may show either foot: strict side.
  const bool trimmed_since = !facts.last_trim.empty() && picture.dated->taken <= facts.last_trim;
  return age && *age <= most_days && *age >= least_days && !trimmed_since;
}

} // namespace

bool film_is_recent(const Trial& t) {
  const auto& facts = *t.foot.facts;
  const bool side = cuts_from_below(t.change) || t.change.dress_toe_mm != 0;
  const auto* horn = picture_for(t.foot, "horn-thickness-toe");
  const bool by_photo = t.change.dress_toe_mm != 0 && horn->dated != nullptr;
  return (!side || picture_is_recent(t.foot.side, facts)) &&
         (!by_photo || picture_is_recent(*horn, facts)) &&
         (!cuts_sideways(t.change) || picture_is_recent(t.foot.front, facts));
}

} // namespace pritchel::plan::limit
