#include "job/foresee.h"

#include <map>
#include <utility>

namespace pritchel::job {
namespace {

using measure::View;

using Histories = std::map<measure::Limb, std::vector<plan::DatedHoof>>;

void add_to(Histories& histories,
            const std::vector<MeasuredPicture>& pictures,
            const std::string& last_trim) {
  for (const auto& picture : pictures) {
    if (!is_read(picture) || picture.entry.view != View::lateromedial)
      continue;
    const auto* angle = measure::find(picture.measurements, "hoof-angle");
    const auto* length = measure::find(picture.measurements, "toe-length");
    if (angle && length && angle->measurable() && length->measurable())
      histories[picture.entry.limb].push_back(
          {picture.entry.taken, last_trim, angle->value, length->value});
  }
}

/// Every side view of each limb that was read, up to this visit, whose own pictures are `now`.
Result<Histories> histories_of(const Desk& desk,
                               const record::Case& value,
                               const record::Visit& visit,
                               const std::vector<MeasuredPicture>& now) {
  Histories histories;
  for (const auto& each : value.visits) {
    if (each.date > visit.date)
      continue;
    if (each.id == visit.id) {
      add_to(histories, now, each.last_trim);
      continue;
    }
    PRITCHEL_TRY(pictures, measured_pictures(desk, value, each));
    add_to(histories, pictures, each.last_trim);
  }
  return histories;
}

} // namespace

Result<std::vector<plan::Prediction>> predictions(const Desk& desk,
                                                  const record::Case& value,
                                                  const record::Visit& visit,
                                                  const record::Plan& plan) {
  PRITCHEL_TRY(pictures, measured_pictures(desk, value, visit));
  std::vector<plan::Prediction> result;
  for (const auto& change : plan.changes)
    for (const auto view : {View::lateromedial, View::dorsopalmar})
      for (const auto* picture : read_pictures(pictures, change.limb, view)) {
        const auto spreads = practice::spreads(practice::protocol(desk.practice, view));
        if (auto found = plan::predict(
                picture->reading, spreads, change, bands_for(value.horse, desk.practice)))
          result.insert(result.end(), found->begin(), found->end());
        break; // the first picture of a view is the one the plan was made on
      }
  return result;
}

Result<plan::Growth> growth_of(const Desk& desk, const PlanGround& ground, measure::Limb limb) {
  const auto side = read_pictures(ground.pictures, limb, View::lateromedial);
  if (side.empty())
    return plan::growth_at_age(ground.value.horse.age_years);
  PRITCHEL_TRY(histories, histories_of(desk, ground.value, ground.visit, ground.pictures));
  return plan::growth_of(side.front()->reading, histories[limb], ground.value.horse.age_years);
}

Result<std::optional<plan::Outlook>>
outlook_of(const Desk& desk, const PlanGround& ground, const record::FootChange& change) {
  const auto side = read_pictures(ground.pictures, change.limb, View::lateromedial);
  if (side.empty())
    return std::optional<plan::Outlook>{};
  PRITCHEL_TRY(growth, growth_of(desk, ground, change.limb));
  return std::optional(
      plan::outlook_of(side.front()->reading,
                       practice::spreads(practice::protocol(desk.practice, View::lateromedial)),
                       change,
                       bands_for(ground.value.horse, desk.practice),
                       growth));
}

Result<std::vector<plan::Outlook>> outlooks(const Desk& desk,
                                            const record::Case& value,
                                            const record::Visit& visit,
                                            const record::Plan& plan) {
  PRITCHEL_TRY(pictures, measured_pictures(desk, value, visit));
  PRITCHEL_TRY(histories, histories_of(desk, value, visit, pictures));
  const auto spreads = practice::spreads(practice::protocol(desk.practice, View::lateromedial));
  std::vector<plan::Outlook> result;
  for (const auto& change : plan.changes) {
    const auto side = read_pictures(pictures, change.limb, View::lateromedial);
    if (side.empty())
      continue;
    const auto& reading = side.front()->reading;
    result.push_back(
        plan::outlook_of(reading,
                         spreads,
                         change,
                         bands_for(value.horse, desk.practice),
                         plan::growth_of(reading, histories[change.limb], value.horse.age_years)));
  }
  return result;
}

} // namespace pritchel::job
