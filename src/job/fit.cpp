#include "job/fit.h"

#include <algorithm>

namespace pritchel::job {
namespace {

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

} // namespace

Result<FitFound> best_fit(const Desk& desk,
                          const std::string& case_id,
                          const std::string& visit,
                          const record::AskedFit& asked,
                          const record::Stamp& stamp) {
  PRITCHEL_TRY(ground, plan_ground(desk, case_id, visit));
  PRITCHEL_TRY(growth, growth_of(desk, ground, asked.limb));
  const auto input = plan_input(ground, stamp);
  const plan::FitRequest request{.limb = asked.limb, .aims = asked.aims};
  FitFound found{.fit = plan::fit_foot(input, desk.practice, request), .stages = {}};
  for (const auto& way : found.fit.ways)
    found.stages.push_back(plan::stages_of(input, desk.practice, request, way.means, growth));
  return found;
}

Result<plan::Planned> take_way(const Desk& desk,
                               const std::string& case_id,
                               const std::string& visit,
                               const record::AskedFit& asked,
                               const record::Stamp& stamp) {
  PRITCHEL_TRY(ground, plan_ground(desk, case_id, visit));
  PRITCHEL_TRY(newest, newest_plan(desk, case_id, ground.visit.id));
  auto taken = newest ? newest->taken : std::vector<record::TakenWay>{};
  std::erase_if(taken, [&](const auto& each) { return each.limb == asked.limb; });
  taken.push_back({.limb = asked.limb, .means = asked.means, .aims = asked.aims});
  auto input = plan_input(ground, stamp);
  for (auto& each : taken) {
    PRITCHEL_TRY(whole, with_later(desk, ground, std::move(each), stamp));
    input.taken.push_back(std::move(whole));
  }
  const auto found = plan::fit_foot(
      input, desk.practice, {.limb = asked.limb, .aims = asked.aims, .means = {asked.means}});
  if (!found.refused.empty()) {
    auto why = found.refused.front();
    if (why.ends_with('.'))
      why.pop_back();
    return fail("The best fit", "isn't made: " + why, {}, Trouble::conflict);
  }
  if (found.ways.empty())
    return fail("The best fit",
                "has nothing to take: no aim is surely missed",
                "see why under what was left out",
                Trouble::conflict);
  auto planned = plan::make_plan(input, desk.practice);
  PRITCHEL_TRY(kept, desk.store.add_plan(case_id, planned.plan, stamp));
  planned.plan = std::move(kept);
  return planned;
}

} // namespace pritchel::job
