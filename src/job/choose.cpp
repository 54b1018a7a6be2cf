#include "job/choose.h"

#include "plan/change.h"
#include "plan/staging.h"
#include "plan/what_if.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "job/foresee.h"

namespace pritchel::job {
namespace {

struct Choices {
  std::vector<record::TakenWay> taken;
  std::vector<plan::HandChange> by_hand;
};

/// Those of the newest plan, for every foot but one.
Choices choices_but(const std::optional<record::Plan>& newest, measure::Limb limb) {
  Choices kept;
  if (!newest)
    return kept;
  for (const auto& each : newest->taken)
    if (each.limb != limb)
      kept.taken.push_back(each);
  for (const auto& each : newest->by_hand)
    for (const auto& change : newest->changes)
      if (each.limb == change.limb && each.limb != limb)
        kept.by_hand.push_back({change, each.by});
  return kept;
}

/// What is taken, with the visits that would follow.
Result<record::TakenWay> with_later(const Desk& desk,
                                    const PlanGround& ground,
                                    record::TakenWay taken,
                                    const record::Stamp& stamp) {
  PRITCHEL_TRY(growth, growth_of(desk, ground, taken.limb));
  const auto stages = plan::stages_of(plan_input(ground, stamp),
                                      desk.practice,
                                      {.limb = taken.limb, .aims = taken.aims},
                                      taken.means,
                                      growth);
  taken.later = plan::stage_words(stages, taken.limb);
  return taken;
}

Result<plan::Planned>
kept_plan(const Desk& desk, const PlanGround& ground, Choices choices, const record::Stamp& stamp) {
  auto input = plan_input(ground, stamp);
  for (auto& each : choices.taken) {
    PRITCHEL_TRY(whole, with_later(desk, ground, std::move(each), stamp));
    input.taken.push_back(std::move(whole));
  }
  input.by_hand = std::move(choices.by_hand);
  auto planned = plan::make_plan(input, desk.practice);
  PRITCHEL_TRY(kept, desk.store.add_plan(ground.value.id, planned.plan, stamp));
  planned.plan = std::move(kept);
  return planned;
}

/// A sentence as the reason of an error, which ends its own.
std::string as_reason(std::string sentence) {
  if (sentence.ends_with('.'))
    sentence.pop_back();
  return sentence;
}

} // namespace

Result<plan::Planned> take_way(const Desk& desk,
                               const std::string& case_id,
                               const std::string& visit,
                               const record::AskedFit& asked,
                               const record::Stamp& stamp) {
  PRITCHEL_TRY(ground, plan_ground(desk, case_id, visit));
  PRITCHEL_TRY(newest, newest_plan(desk, case_id, ground.visit.id));
  const auto found =
      plan::fit_foot(plan_input(ground, stamp),
                     desk.practice,
                     {.limb = asked.limb, .aims = asked.aims, .means = {asked.means}});
  if (!found.refused.empty())
    return fail(
        "The best fit", "isn't made: " + as_reason(found.refused.front()), {}, Trouble::conflict);
  if (found.ways.empty())
    return fail("The best fit",
                "has nothing to take: no aim is surely missed",
                "see why under what was left out",
                Trouble::conflict);
  auto choices = choices_but(newest, asked.limb);
  choices.taken.push_back({.limb = asked.limb, .means = asked.means, .aims = asked.aims});
  return kept_plan(desk, ground, std::move(choices), stamp);
}

Result<plan::Planned> take_by_hand(const Desk& desk,
                                   const std::string& case_id,
                                   const std::string& visit,
                                   const record::FootChange& wished,
                                   const record::Stamp& stamp) {
  PRITCHEL_TRY(ground, plan_ground(desk, case_id, visit));
  PRITCHEL_TRY(newest, newest_plan(desk, case_id, ground.visit.id));
  const auto tried = plan::what_if(plan_input(ground, stamp), desk.practice, wished, {});
  if (!tried.refused.empty())
    return fail(
        "The amounts", "aren't taken: " + as_reason(tried.refused.front()), {}, Trouble::conflict);
  if (plan::asks_nothing(tried.change))
    return fail("The amounts", "are all nothing", "set at least one", Trouble::conflict);
  auto choices = choices_but(newest, wished.limb);
  choices.by_hand.push_back({tried.change, stamp.who});
  return kept_plan(desk, ground, std::move(choices), stamp);
}

} // namespace pritchel::job
