#include "plan/limits.h"

#include "plan/limit_tests.h"

#include <array>

namespace pritchel::plan {
namespace {

constexpr std::string_view common = "common-practice", own = "own-estimate";
constexpr auto standing = LimitKind::standing;
constexpr auto of_amounts = LimitKind::of_amounts;
constexpr auto to_a_vet = Yields::to_a_named_vet;

constexpr std::array<Limit, 34> table{{
    {"red-flag", "A red flag is ticked: the vet first.", common, &limit::no_red_flag, standing},
    {"lame-unseen",
     "Lame at 3 of 5 or 4 of 10, or suddenly lame, and no named vet has seen the horse.",
     common,
     &limit::not_lame_unseen,
     standing},
    {"no-default",
     "No amounts from the program for ponies, donkeys, draught horses, foals, a horse under 148 cm "
     "or of unknown height, or laminitis known or suspected: the vet's own numbers only.",
     own,
     &limit::has_default_limits,
     standing},
    {"amount-negative",
     "Amounts below zero are for the vet.",
     own,
     &limit::amounts_are_not_negative},
    {"safety-numbers",
     "Sole depth, palmar angle, distal displacement, capsular rotation and the coffin bone's own "
     "angle must all be measured before anything is proposed.",
     own,
     &limit::safety_numbers_are_known,
     standing},
    {"check-landmarks",
     "The coffin bone's own angle lies outside 38\u201360\u00b0 or differs from the last reading "
     "by "
     "more than 3.2\u00b0: check the landmarks.",
     "geometry",
     &limit::reading_is_believed,
     standing},
    {"distal-displacement",
     "Distal displacement above 12 mm, or risen by more than 3 mm and beyond doubt: the vet first.",
     common,
     &limit::not_displaced,
     standing},
    {"rotation",
     "Capsular rotation above 5\u00b0, or risen by more than 2.5\u00b0 and beyond doubt: the vet "
     "first.",
     common,
     &limit::not_rotated,
     standing},
    {"angle-stop",
     "Palmar angle above 15\u00b0: the vet first.",
     common,
     &limit::angle_below_stop,
     standing},
    {"sole-stop",
     "The sole may be thinner than 10 mm at the tip: the vet first.",
     common,
     &limit::sole_above_stop,
     standing},
    {"geometry-known",
     "What the change would do to this foot can't be computed from its landmarks.",
     "geometry",
     &limit::geometry_is_known},
    {"film-age",
     "No trim amounts from a picture more than six weeks old, of unknown date, or taken before or "
     "on the day of the last trim.",
     own,
     &limit::film_is_recent},
    {"sole-lock",
     "The sole may be thinner than 15 mm at the tip: nothing comes off the toe, nor under the tip.",
     common,
     &limit::thin_sole_is_left_alone},
    {"sole-floor",
     "15 mm of sole must be left at the tip, or the cut must surely stay in the wall.",
     common,
     &limit::sole_stays_above_floor},
    {"sole-palmar",
     "10 mm of sole must be left under the palmar process, or the cut must surely stay clear of "
     "it.",
     own,
     &limit::palmar_sole_is_left},
    {"toe-visit",
     "No more off the toe than has grown since the last trim at 7 mm in 28 days (5 mm when its "
     "date "
     "isn't known), never more than 8 mm.",
     "josseck-1995",
     &limit::toe_within_growth,
     of_amounts,
     to_a_vet},
    {"heel-visit",
     "At most 3 mm off the heels, and nothing while the palmar angle may be below 3\u00b0 (hind "
     "0\u00b0), the axis may be broken back by 2\u00b0, or the sole there isn't measured.",
     own,
     &limit::heel_is_free},
    {"heel-left",
     "The heel must keep a third of the toe's height; without the coronary band at the heel that "
     "can't be told.",
     common,
     &limit::heel_keeps_a_third},
    {"wall-left",
     "The front of the wall is dressed by at most 2 mm and a quarter of its horn, as a photo of "
     "the "
     "sole shows it; a flare isn't, since its horn isn't measured.",
     own,
     &limit::wall_keeps_its_horn},
    {"breakover-visit",
     "Breakover goes back by at most 8 mm a visit, trim and shoe together, and never behind the "
     "coffin bone's tip.",
     own,
     &limit::breakover_within_visit},
    {"roll-sole",
     "No rocker over a sole that may be thinner than 15 mm.",
     common,
     &limit::no_rocker_on_thin_sole},
    {"branch-reach",
     "Branches at most 10 mm longer.",
     common,
     &limit::branches_within_reach,
     of_amounts,
     to_a_vet},
    {"turn-trim",
     "A trim turns the foot by at most 2\u00b0 up or 1\u00b0 down.",
     own,
     &limit::turn_by_trim_is_small,
     of_amounts,
     to_a_vet},
    {"turn-total",
     "Trim and shoe together turn the foot by at most 3\u00b0 up or 1\u00b0 down in one cycle.",
     own,
     &limit::turn_is_small,
     of_amounts,
     to_a_vet},
    {"wedge-gate",
     "No wedge unless a named vet has given a diagnosis or the palmar angle is surely below "
     "0\u00b0.",
     own,
     &limit::wedge_is_called_for,
     of_amounts,
     to_a_vet},
    {"wedge-total",
     "All wedges under the hoof together at most 4\u00b0.",
     own,
     &limit::wedges_are_few,
     of_amounts,
     to_a_vet},
    {"angle-ceiling",
     "The palmar angle must surely stay at or below 10\u00b0 (hind 8\u00b0).",
     own,
     &limit::angle_stays_below_ceiling},
    {"axis-ceiling",
     "The hoof\u2013pastern axis isn't driven through straight to the other side, and must be "
     "measured on a loaded foot before the foot is turned.",
     own,
     &limit::axis_is_not_overdone},
    {"ml-two-pictures",
     "Nothing off one side unless two pictures, wall length and coronary band all say surely that "
     "it is the high side.",
     own,
     &limit::two_pictures_agree},
    {"ml-wedge",
     "A wedge under one side only with a named vet's diagnosis.",
     common,
     &limit::side_wedge_is_called_for,
     of_amounts,
     to_a_vet},
    {"ml-visit",
     "At most 2 mm off one side, and 1\u00b0 of tilt.",
     own,
     &limit::tilt_is_small,
     of_amounts,
     to_a_vet},
    {"ml-sole",
     "10 mm of sole must be left on the side that is cut, and the sole there must be measured.",
     own,
     &limit::sole_at_sides_is_left},
    {"young-horse",
     "Under two years, or of unknown age: the vet before any change from side to side.",
     common,
     &limit::old_enough_for_sides},
    {"extension", "Branches at most 5 mm wider.", common, &limit::extensions_are_small},
}};

} // namespace

Trial trial_of(const Foot& foot, const record::FootChange& change) {
  Trial trial{.foot = foot, .change = change};
  if (foot.side.fit() && foot.bearing)
    if (auto moved = after(foot.side.placed, change)) {
      trial.side_after = std::move(*moved);
      trial.cut_deg = cut_angle_deg(*foot.bearing, amounts_of<double>(change));
      trial.turn_deg = trial.cut_deg + change.wedge_deg;
    }
  return trial;
}

std::span<const Limit> limits() {
  return table;
}

std::vector<const Limit*> broken_standing(const Foot& foot) {
  const record::FootChange nothing{.limb = foot.limb};
  const Trial trial{.foot = foot, .change = nothing};
  std::vector<const Limit*> broken;
  for (const auto& each : limits())
    if (each.kind == LimitKind::standing && !each.kept(trial))
      broken.push_back(&each);
  return broken;
}

BrokenLimits broken_limits(const Trial& trial) {
  if (changes_nothing(trial.change))
    return 0;
  BrokenLimits broken = 0;
  for (std::size_t i = 0; i < table.size(); ++i)
    if (!table[i].kept(trial)) {
      broken |= BrokenLimits{1} << i;
      if (table[i].kept == &limit::geometry_is_known)
        return broken; // the rows below need it
    }
  return broken;
}

const Limit* first_broken(const Foot& foot, const record::FootChange& change) {
  if (changes_nothing(change))
    return nullptr;
  const auto trial = trial_of(foot, change);
  for (const auto& each : limits())
    if (!each.kept(trial))
      return &each;
  return nullptr;
}

} // namespace pritchel::plan
