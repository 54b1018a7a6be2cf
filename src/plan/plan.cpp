#include "plan/plan.h"

#include "base/assert.h"
#include "base/text.h"
#include "measure/checks.h"
#include "plan/chosen.h"
#include "plan/predict.h"
#include "plan/propose.h"
#include "plan/shoes.h"
#include "plan/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

namespace pritchel::plan {
namespace {

void append(std::vector<std::string>& all, const std::vector<std::string>& more) {
  for (const auto& each : more)
    if (std::find(all.begin(), all.end(), each) == all.end())
      all.push_back(each);
}

/// A plan may be made again for an old visit; nobody may take it for today's.
void add_lateness(const PlanInput& input, const CaseFacts& facts, record::Plan& plan) {
  constexpr int most_days = 42;
  const std::string made = input.made.substr(0, 10);
  if (plan.changes.empty() || !is_date(made) || facts.day.empty() ||
      days_between(facts.day, made) <= most_days)
    return;
  plan.locks.insert(plan.locks.begin(),
                    fmt::format("This plan is for the work of {} and was made {} days later: "
                                "its amounts hold for the foot as "
                                "it was then. Don't work from them now; take new pictures.",
                                facts.day,
                                days_between(facts.day, made)));
}

/// What the picture's own checks say of how square it was taken, unless all is in order.
std::vector<std::string> doubts_about_view(const Foot& foot, const Picture& picture) {
  constexpr std::array<std::string_view, 4> about_view{
      "obliquity", "lm-yaw-gap", "lm-roll-gap", "dp-rotation"};
  std::vector<std::string> doubts;
  for (const auto id : about_view)
    if (const auto* check = measure::find(picture.checks, id);
        check != nullptr && check->fitness != measure::Fitness::fit)
      doubts.push_back(
          fmt::format("{}, {} picture: {} {}",
                      heading(foot.limb),
                      measure::for_people(picture.dated->reading.view, foot.limb),
                      check->sentence,
                      check->fitness == measure::Fitness::unfit
                          ? "Take it again, square to the foot."
                          : "See that both sides of each bone cover one another before relying "
                            "on a line."));
  return doubts;
}

/// What the program can't see for itself and a person must.
void add_open_questions(const PlanInput& input, const std::vector<Foot>& feet, record::Plan& plan) {
  if (input.case_.history.laminitis == record::Laminitis::not_stated)
    append(plan.remeasure, {"The history doesn't say whether the horse has had laminitis: ask."});
  if (plan.lines.empty())
    return;
  for (const auto& foot : feet)
    for (const auto* picture : {&foot.side, &foot.front})
      append(plan.remeasure, doubts_about_view(foot, *picture));
}

void append_all(std::vector<Prediction>& all, std::vector<Prediction> more) {
  std::move(more.begin(), more.end(), std::back_inserter(all));
}

/// Behind the last line that holds an amount, before what is only to be noted.
void add_after_amounts(record::ProposalLine line, std::vector<record::ProposalLine>& lines) {
  const auto last = std::find_if(
      lines.rbegin(), lines.rend(), [](const auto& each) { return !each.expected.empty(); });
  lines.insert(last.base(), std::move(line));
}

void take_ways(const PlanInput& input,
               const std::vector<Foot>& feet,
               const practice::Practice& practice,
               std::vector<FootPlan>& drafts,
               record::Plan& plan) {
  for (auto taken : input.taken)
    for (std::size_t i = 0; i < feet.size(); ++i)
      if (feet[i].limb == taken.limb) {
        take_way(feet[i], input, practice, taken, drafts[i]);
        plan.taken.push_back(taken);
      }
}

void take_hand_changes(const PlanInput& input,
                       const std::vector<Foot>& feet,
                       const practice::Practice& practice,
                       std::vector<FootPlan>& drafts,
                       record::Plan& plan) {
  for (const auto& each : input.by_hand)
    for (std::size_t i = 0; i < feet.size(); ++i)
      if (feet[i].limb == each.change.limb) {
        take_hand_change(feet[i], each, practice, drafts[i]);
        plan.by_hand.push_back({each.change.limb, each.by});
      }
}

CaseRules said_with(std::size_t foot) {
  return foot == 0 ? CaseRules::said_here : CaseRules::said_elsewhere;
}

} // namespace

Planned make_plan(const PlanInput& input, const practice::Practice& practice) {
  Planned planned;
  auto& plan = planned.plan;
  plan.visit = input.visit.id;
  plan.made = input.made;
  plan.made_by = input.made_by;
  const auto facts = case_facts(input);
  const auto feet = feet_of(input, facts, practice);
  std::vector<FootPlan> drafts(feet.size());
  for (std::size_t i = 0; i < feet.size(); ++i) {
    find_stops(feet[i], practice, said_with(i), drafts[i]);
    append(plan.stops, drafts[i].stops);
  }
  if (plan.stops.empty())
    for (std::size_t i = 0; i < feet.size(); ++i)
      find_lines(feet[i], practice, said_with(i), drafts[i]);
  if (plan.stops.empty()) {
    take_ways(input, feet, practice, drafts, plan);
    take_hand_changes(input, feet, practice, drafts, plan);
  }
  for (std::size_t i = 0; i < feet.size(); ++i) {
    auto& draft = drafts[i];
    if (auto line = shoe_line(feet[i], practice, draft.change))
      add_after_amounts(std::move(*line), draft.lines);
    append(plan.locks, draft.locks);
    append(plan.remeasure, draft.remeasure);
    std::move(draft.lines.begin(), draft.lines.end(), std::back_inserter(plan.lines));
    if (asks_nothing(draft.change))
      continue;
    PRITCHEL_ASSERT(first_broken(feet[i], draft.change) == nullptr);
    plan.changes.push_back(draft.change);
    if (!changes_nothing(draft.change))
      append_all(planned.predictions, predictions_of(feet[i], draft.change, practice));
  }
  add_lateness(input, facts, plan);
  add_open_questions(input, feet, plan);
  return planned;
}

} // namespace pritchel::plan
