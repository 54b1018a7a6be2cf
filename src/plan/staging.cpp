#include "plan/staging.h"

#include "plan/fit_grid.h"
#include "plan/fit_words.h"
#include "plan/predict.h"
#include "plan/variables.h"
#include "plan/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

namespace pritchel::plan {
namespace {

using measure::Attempt;
using measure::because;
using record::Aim;

/// A foot at one visit, with all that its plan needs to stand on its own.
struct Scene {
  record::Case case_;
  record::Visit visit;
  FootReadings readings;
  std::string day;
  std::string made;
};

PlanInput input_of(const Scene& scene) {
  return {.case_ = scene.case_,
          .visit = scene.visit,
          .feet = {scene.readings},
          .made = scene.made,
          .made_by = {},
          .day = scene.day};
}

std::optional<Scene> first_scene(const PlanInput& input, measure::Limb limb) {
  for (const auto& each : input.feet)
    if (each.limb == limb)
      return Scene{input.case_, input.visit, each, case_facts(input).day, input.made};
  return std::nullopt;
}

/// The points that only show how a picture was taken are left out: the next one's aren't known.
measure::Reading with_landmarks(measure::Reading reading,
                                const measure::Placed<double>& moved,
                                const practice::Practice& practice) {
  const auto& protocol = practice::protocol(practice, reading.view, reading.limb);
  std::erase_if(reading.landmarks, [&](const measure::Landmark& each) {
    const auto* guide = practice::guide(protocol, each.id);
    return guide != nullptr && guide->group == practice::Group::check;
  });
  const PlaneMap map(reading.calibration, reading.toward);
  for (const auto& point : moved.points()) {
    const auto& id = point.first;
    const auto at = map.to_image(point.second);
    const auto known = std::find_if(reading.landmarks.begin(),
                                    reading.landmarks.end(),
                                    [&](const auto& each) { return each.id == id; });
    if (known != reading.landmarks.end())
      known->at = at;
    else if (const auto* guide = practice::guide(protocol, id);
             guide == nullptr || guide->group != practice::Group::check)
      reading.landmarks.push_back({.id = id, .at = at});
  }
  reading.shoeing = moved.shoeing;
  return reading;
}

/// Changed, and grown by so many mm; walls seen from the front are taken to grow alike.
Attempt<measure::Reading> later(const measure::Reading& reading,
                                const record::FootChange& change,
                                double toe_mm,
                                double heel_mm,
                                const practice::Practice& practice) {
  auto moved = after(measure::placed(reading), change);
  if (!moved)
    return because(moved.error());
  if (reading.view == measure::View::lateromedial) {
    auto taller = grown(*moved, toe_mm, heel_mm);
    if (!taller)
      return because(taller.error());
    moved = std::move(taller);
  }
  return with_landmarks(reading, *moved, practice);
}

Attempt<Scene> next_scene(const Scene& scene,
                          const record::FootChange& change,
                          const Growth& growth,
                          int weeks,
                          const practice::Practice& practice) {
  Scene next = scene;
  next.visit.last_trim = scene.day;
  next.day = next.visit.date = weeks_later(scene.day, weeks);
  next.made.clear();
  if (next.day.empty())
    return because("the day of this visit isn't known");
  next.readings.lateromedial_before = scene.readings.lateromedial;
  next.readings.dorsopalmar_before = scene.readings.dorsopalmar;
  for (auto* dated : {&next.readings.lateromedial,
                      &next.readings.dorsopalmar,
                      &next.readings.dorsopalmar_repeat}) {
    if (!*dated)
      continue;
    auto reading =
        later((*dated)->reading, change, weeks * growth.toe_mm, weeks * growth.heel_mm, practice);
    if (!reading)
      return because(reading.error());
    (*dated)->reading = std::move(*reading);
    (*dated)->taken = next.day;
  }
  return next;
}

std::vector<Aim> sought_in(const Way& way, const FitRequest& request) {
  std::vector<Aim> sought;
  for (const auto& aim : request.aims)
    for (const auto& each : way.outcomes)
      if (each.measurement == aim.measurement && each.state != AimState::kept) {
        sought.push_back(aim);
        break;
      }
  return sought;
}

std::optional<double>
value_after(const Scene& scene, const record::FootChange& change, const std::string& id) {
  const auto& dated = measure::definition(id)->view == measure::View::lateromedial
                          ? scene.readings.lateromedial
                          : scene.readings.dorsopalmar;
  if (!dated)
    return std::nullopt;
  const auto moved = after(measure::placed(dated->reading), change);
  return moved ? value_on(*moved, id) : std::nullopt;
}

/// The same aims at every stage, sought there or not.
Stage stage_of(const Scene& scene, const record::FootChange& change, const std::vector<Aim>& aims) {
  Stage stage{.day = scene.day, .change = change};
  const record::FootChange nothing{.limb = change.limb};
  for (const auto& aim : aims) {
    AimOutcome outcome{.measurement = aim.measurement};
    outcome.before = value_after(scene, nothing, aim.measurement).value_or(0);
    outcome.after = value_after(scene, change, aim.measurement).value_or(0);
    const double off = missed(aim, outcome.after);
    outcome.missed_by = off * aim.counts_as_one;
    outcome.state = state_of_sought(aim, outcome.before, outcome.after);
    stage.distance = std::hypot(stage.distance, off);
    stage.outcomes.push_back(std::move(outcome));
  }
  stage.sole_before = value_after(scene, nothing, "sole-depth-tip");
  stage.sole_after = value_after(scene, change, "sole-depth-tip");
  return stage;
}

std::string outcome_words(const Stage& stage, measure::Limb limb) {
  std::string text;
  for (const auto& each : stage.outcomes)
    text += fmt::format("{}{} about {}, afterwards {}",
                        text.empty() ? "" : "; ",
                        title_of(each.measurement, limb),
                        value_words(each.before, each.measurement),
                        value_words(each.after, each.measurement));
  return text;
}

std::string end_words(const Stages& stages, measure::Limb limb) {
  const auto count = stages.stages.size();
  switch (stages.end) {
  case StagesEnd::reached:
    return fmt::format("So the aims would be reached at visit {}.", count);
  case StagesEnd::within_doubt:
    return "What is then left isn't surely outside its band: that visit's own pictures decide.";
  case StagesEnd::no_nearer: {
    std::string left;
    for (const auto& each : stages.stages.back().outcomes)
      if (each.state != AimState::reached)
        left += (left.empty() ? "" : "; ") + title_of(each.measurement, limb) + " by " +
                value_words(each.missed_by, each.measurement);
    return fmt::format(
        "No further visit would bring it nearer: not reachable in this way. Still missed after "
        "visit {}: {}.",
        count,
        left);
  }
  case StagesEnd::not_foreseen:
    return "Later visits aren't foreseen: " + stages.reason + ".";
  case StagesEnd::most_visits:
    break;
  }
  return fmt::format("Not reached in {} visits; farther isn't looked.", count);
}

} // namespace

Stages stages_at(const PlanInput& input,
                 const practice::Practice& practice,
                 const FitRequest& request,
                 record::Means means,
                 const Growth& growth,
                 int weeks) {
  Stages stages{.means = means, .weeks = weeks};
  auto scene = first_scene(input, request.limb);
  if (!scene)
    return stages;
  FitRequest asked{
      .limb = request.limb, .aims = request.aims, .means = {means}, .detail = Detail::change_only};
  std::vector<Aim> sought;
  for (int visit = 1; visit <= most_stages; ++visit) {
    const auto fit =
        visit == 1 ? fit_foot(input, practice, asked) : fit_foot(input_of(*scene), practice, asked);
    if (!fit.refused.empty() && visit > 1) {
      stages.end = StagesEnd::not_foreseen;
      stages.reason = fit.refused.front();
      return stages;
    }
    if (fit.ways.empty()) {
      stages.end = StagesEnd::within_doubt;
      return stages;
    }
    if (visit == 1)
      sought = sought_in(fit.ways.front(), request);
    auto stage = stage_of(*scene, fit.ways.front().change, sought);
    stage.visit = visit;
    if (visit > 1 && stage.distance > stages.stages.back().distance - equally_near) {
      stages.end = StagesEnd::no_nearer;
      return stages;
    }
    stages.stages.push_back(stage);
    if (stage.distance == 0)
      return stages;
    auto next = next_scene(*scene, stage.change, growth, weeks, practice);
    if (!next) {
      stages.end = StagesEnd::not_foreseen;
      stages.reason = next.error();
      return stages;
    }
    scene = std::move(*next);
  }
  stages.end = StagesEnd::most_visits;
  return stages;
}

Stages stages_of(const PlanInput& input,
                 const practice::Practice& practice,
                 const FitRequest& request,
                 record::Means means,
                 const Growth& growth) {
  constexpr int shortest_interval_weeks = 4;
  auto best = stages_at(input, practice, request, means, growth, longest_interval_weeks);
  for (int weeks = longest_interval_weeks - 1; weeks >= shortest_interval_weeks; --weeks) {
    if (best.stages.empty() || best.end == StagesEnd::reached ||
        best.end == StagesEnd::not_foreseen)
      return best;
    auto sooner = stages_at(input, practice, request, means, growth, weeks);
    const bool nearer = sooner.end == StagesEnd::reached ||
                        (!sooner.stages.empty() && sooner.stages.back().distance <
                                                       best.stages.back().distance - equally_near);
    if (nearer)
      best = std::move(sooner);
  }
  return best;
}

std::vector<std::string> stage_words(const Stages& stages, measure::Limb limb) {
  std::vector<std::string> words;
  if (stages.stages.empty() || (stages.stages.size() == 1 && stages.end == StagesEnd::reached))
    return words;
  for (const auto& stage : stages.stages) {
    if (stage.visit == 1)
      continue;
    std::string text = fmt::format("Visit {}, {} weeks on", stage.visit, stages.weeks);
    if (!stage.day.empty())
      text += " (" + stage.day + ")";
    text += fmt::format(": {}. {}.", amounts_for_people(stage.change), outcome_words(stage, limb));
    if (stage.sole_before && stage.sole_after)
      text += fmt::format(" Sole under the tip {}, afterwards {}.",
                          value_words(*stage.sole_before, "sole-depth-tip"),
                          value_words(*stage.sole_after, "sole-depth-tip"));
    words.push_back(text + " First take new pictures and plan again from them; lamer, or less "
                           "sole than this: stop and ask the vet.");
  }
  words.push_back(end_words(stages, limb));
  return words;
}

} // namespace pritchel::plan
