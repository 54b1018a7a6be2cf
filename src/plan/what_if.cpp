#include "plan/what_if.h"

#include "plan/fit_words.h"
#include "plan/hold.h"
#include "plan/predict.h"
#include "plan/shoes.h"
#include "plan/variables.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace pritchel::plan {
namespace {

using measure::Placed;
using measure::View;
using record::FootChange;

/// As if it had been wished on a step, within the table's end.
FootChange on_steps(const FootChange& wished) {
  auto change = wished;
  for (const auto& each : variables())
    change.*each.field =
        std::clamp(std::round(wished.*each.field / each.step) * each.step, 0.0, each.most);
  return change;
}

std::string sentence_of(const Limit& limit, const Foot& foot) {
  return measure::worded_for(foot.limb, limit.sentence);
}

/// Holds one change, and remembers why.
class Holding {
public:
  Holding(const Foot& foot, const Locks& locks, const FootChange& wished)
      : foot_(foot),
        wished_(on_steps(wished)) {
    for (const auto& each : variables())
      if (wished_.*each.field != 0 && locks.names.contains(std::string(each.name)))
        hold(each, 0, lock_sentence(locks.sentences));
  }

  Hold held_at(std::string_view moved) && {
    if (first_broken(foot_, wished_) == nullptr)
      return {wished_, std::move(held_back_)};
    const auto* under_hand = variable(moved);
    if (under_hand == nullptr || !give_way(*under_hand))
      take_up();
    return {wished_, std::move(held_back_)};
  }

private:
  const Foot& foot_;
  FootChange wished_;
  std::vector<HeldBack> held_back_;

  void hold(const Variable& variable, double at, std::string sentence) {
    held_back_.push_back(
        {std::string(variable.name), wished_.*variable.field, at, std::move(sentence)});
    wished_.*variable.field = at;
  }

  /// The wish with another amount of one variable, in steps.
  [[nodiscard]] FootChange with(const Variable& variable, int steps) const {
    auto change = wished_;
    change.*variable.field = steps * variable.step;
    return change;
  }

  [[nodiscard]] static int steps_of(const Variable& variable, double amount) {
    return static_cast<int>(std::round(amount / variable.step));
  }

  /// Holds at `at` and says what stands in the way of the step after it.
  void hold_short(const Variable& variable, int at) {
    const int wished = steps_of(variable, wished_.*variable.field);
    const auto* broken = first_broken(foot_, with(variable, at < wished ? at + 1 : at - 1));
    hold(variable, at * variable.step, sentence_of(*broken, foot_));
  }

  /// The nearest step of one amount with which the whole keeps every limit.
  bool give_way(const Variable& variable) {
    const int most = steps_of(variable, variable.most);
    const int from = steps_of(variable, wished_.*variable.field);
    for (int away = 1; away <= most; ++away)
      for (const int at : {from - away, from + away})
        if (at >= 0 && at <= most && first_broken(foot_, with(variable, at)) == nullptr) {
          hold_short(variable, at);
          return true;
        }
    return false;
  }

  void take_up() {
    const auto wished = wished_;
    wished_ = {.limb = wished.limb, .shoe = wished.shoe};
    for (const auto& each : variables()) {
      wished_.*each.field = wished.*each.field;
      if (first_broken(foot_, wished_) == nullptr)
        continue;
      int at = steps_of(each, wished.*each.field) - 1;
      while (at > 0 && first_broken(foot_, with(each, at)) != nullptr)
        --at;
      hold_short(each, at);
    }
  }
};

/// A chosen shoe that the foot isn't to have is left out of the change.
ShoeTried tried_shoe(const Foot& foot, const practice::Practice& practice, FootChange& change) {
  ShoeTried tried{.refused = take_out_refused_shoe(foot, practice, change)};
  if (const auto* kind = shoe_kind(practice, change.shoe.kind))
    tried.not_given = not_given(foot, *kind, change);
  for (const auto* each : shoes_for(foot, practice, change))
    tried.fitting.push_back(each->id);
  return tried;
}

// ---- grips ----

using Place = std::optional<PlanePoint>;

Place landmark(const Placed<double>& placed, const char* id) {
  return placed.has(id) ? Place(placed[id]) : std::nullopt;
}

/// On the ground, that far outside the landmark, so that it doesn't lie on it.
Place beside_on_ground(const Placed<double>& placed, const char* id, double along_mm) {
  if (!placed.has(id))
    return std::nullopt;
  const auto ground = measure::ground_of(placed);
  return ground.below(placed[id]) + ground.u * along_mm;
}

struct GripRow {
  std::string_view variable;
  View view;
  Place (*place)(const Placed<double>&);
};

constexpr double clear_of_heel_mm = -22, clear_of_wall_mm = 16;

constexpr std::array<GripRow, 8> rows{{
    {"trim_toe_mm",
     View::lateromedial,
     [](const Placed<double>& p) { return landmark(p, "wall-toe-ground"); }},
    {"trim_heel_mm",
     View::lateromedial,
     [](const Placed<double>& p) { return landmark(p, "heel-ground"); }},
    {"wedge_deg",
     View::lateromedial,
     [](const Placed<double>& p) { return beside_on_ground(p, "heel-ground", clear_of_heel_mm); }},
    {"breakover_back_mm",
     View::lateromedial,
     [](const Placed<double>& p) { return landmark(p, "breakover"); }},
    {"branch_longer_mm",
     View::lateromedial,
     [](const Placed<double>& p) { return landmark(p, "shoe-heel-end"); }},
    {"trim_medial_mm",
     View::dorsopalmar,
     [](const Placed<double>& p) { return landmark(p, "wall-ground-medial"); }},
    {"trim_lateral_mm",
     View::dorsopalmar,
     [](const Placed<double>& p) { return landmark(p, "wall-ground-lateral"); }},
    {"ml_wedge_deg",
     View::dorsopalmar,
     [](const Placed<double>& p) {
       return beside_on_ground(p, "wall-ground-lateral", clear_of_wall_mm);
     }},
}};

} // namespace

Hold hold_within_limits(const Foot& foot,
                        const Locks& locks,
                        const FootChange& wished,
                        std::string_view moved) {
  return Holding(foot, locks, wished).held_at(moved);
}

WhatIf what_if(const PlanInput& input,
               const practice::Practice& practice,
               const FootChange& wished,
               std::string_view moved) {
  const auto facts = case_facts(input);
  const auto feet = feet_of(input, facts, practice);
  WhatIf tried{.refused = refusals(feet, wished.limb, practice), .change = {.limb = wished.limb}};
  if (!tried.refused.empty())
    return tried;
  const auto& foot = *find(feet, wished.limb);
  auto held = hold_within_limits(foot, locks_of(foot, practice), wished, moved);
  tried.change = held.change;
  tried.held_back = std::move(held.held_back);
  tried.shoe = tried_shoe(foot, practice, tried.change);
  tried.predictions = predictions_of(foot, tried.change, practice);
  return tried;
}

std::vector<Grip> grips_of(const measure::Reading& reading, const FootChange& change) {
  constexpr double still_mm = 0.05;
  std::vector<Grip> grips;
  const auto here = ghost(reading, change);
  if (!here)
    return grips;
  for (const auto& row : rows) {
    if (row.view != reading.view)
      continue;
    auto more = change;
    more.*variable(row.variable)->field += 1;
    const auto there = ghost(reading, more);
    const auto at = row.place(*here), next = there ? row.place(*there) : std::nullopt;
    if (at && next && distance(*at, *next) > still_mm)
      grips.push_back({row.variable, *at, *next - *at});
  }
  return grips;
}

} // namespace pritchel::plan
