#include "serve/fit_json.h"

#include "base/words.h"
#include "plan/variables.h"
#include "record/words.h"
#include "serve/prediction_json.h"

#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using nlohmann::json;

constexpr Words<plan::AimState, 4> aim_states{{{plan::AimState::reached, "reached"},
                                               {plan::AimState::nearer, "nearer"},
                                               {plan::AimState::missed, "missed"},
                                               {plan::AimState::kept, "kept"}}};
constexpr Words<plan::StagesEnd, 5> ends{{{plan::StagesEnd::reached, "reached"},
                                          {plan::StagesEnd::within_doubt, "within-doubt"},
                                          {plan::StagesEnd::no_nearer, "no-nearer"},
                                          {plan::StagesEnd::not_foreseen, "not-foreseen"},
                                          {plan::StagesEnd::most_visits, "most-visits"}}};

json outcome_json(const plan::AimOutcome& outcome, measure::Limb limb) {
  const auto* definition = measure::definition(outcome.measurement);
  return {{"measurement", outcome.measurement},
          {"title", measure::worded_for(limb, definition->title)},
          {"unit", measure::key(definition->unit)},
          {"decimals", measure::decimals(definition->unit)},
          {"state", word(aim_states, outcome.state)},
          {"before", outcome.before},
          {"uncertainty_before", outcome.uncertainty_before},
          {"after", outcome.after},
          {"missed_by", outcome.missed_by},
          {"beyond_reach", outcome.beyond_reach}};
}

json outcomes_json(const std::vector<plan::AimOutcome>& outcomes, measure::Limb limb) {
  json list = json::array();
  for (const auto& each : outcomes)
    list.push_back(outcome_json(each, limb));
  return list;
}

json hindrances_json(const std::vector<plan::Hindrance>& hindrances, measure::Limb limb) {
  json list = json::array();
  for (const auto& each : hindrances)
    list.push_back({{"id", each.id},
                    {"with", each.with},
                    {"sentence", each.sentence},
                    {"gain", outcomes_json(each.gain, limb)}});
  return list;
}

json stages_json(const plan::Stages& stages, measure::Limb limb) {
  json list = json::array();
  for (const auto& each : stages.stages)
    list.push_back({{"visit", each.visit},
                    {"day", each.day},
                    {"change", change_json(each.change)},
                    {"amount", plan::amounts_for_people(each.change)},
                    {"outcomes", outcomes_json(each.outcomes, limb)}});
  return {{"weeks", stages.weeks},
          {"end", word(ends, stages.end)},
          {"visits", list},
          {"words", plan::stage_words(stages, limb)}};
}

} // namespace

json change_json(const record::FootChange& change) {
  json value = json::object();
  for (const auto& each : plan::variables())
    if (change.*each.field != 0)
      value[std::string(each.name)] = change.*each.field;
  return value;
}

json fit_json(const job::FitFound& found) {
  const auto& fit = found.fit;
  json left_out = json::array();
  for (const auto& each : fit.left_out)
    left_out.push_back({{"measurement", each.measurement},
                        {"reason", each.reason},
                        {"impossible", each.impossible}});
  json ways = json::array();
  for (std::size_t i = 0; i < fit.ways.size(); ++i) {
    const auto& way = fit.ways[i];
    ways.push_back({{"means", record::key(way.means)},
                    {"title", record::way_words(way.means)},
                    {"change", change_json(way.change)},
                    {"amount", plan::amounts_for_people(way.change)},
                    {"reached", way.reached},
                    {"distance", way.distance},
                    {"outcomes", outcomes_json(way.outcomes, fit.limb)},
                    {"in_the_way", hindrances_json(way.in_the_way, fit.limb)},
                    {"costs",
                     {{"wall_off_toe_mm", way.costs.wall_off_toe_mm},
                      {"heel_off_mm", way.costs.heel_off_mm},
                      {"steps", way.costs.steps},
                      {"sentences", way.costs.sentences}}},
                    {"predictions", predictions_json(way.predictions)},
                    {"stages", stages_json(found.stages[i], fit.limb)}});
  }
  return {{"limb", measure::key(fit.limb)},
          {"refused", fit.refused},
          {"left_out", left_out},
          {"conflicts", fit.conflicts},
          {"distance_now", fit.distance_now},
          {"ways", ways}};
}

} // namespace pritchel::serve
