#include "job/foresee.h"

#include "plan/change.h"

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
    // A bare foot wears as it grows.
    if (!is_read(picture) || picture.entry.view != View::lateromedial ||
        picture.entry.shoeing != measure::Shoeing::shod)
      continue;
    const auto* angle = measure::find(picture.measurements, "hoof-angle");
    const auto* length = measure::find(picture.measurements, "toe-length");
    if (angle != nullptr && length != nullptr && angle->measurable() && length->measurable())
      histories[picture.entry.limb].push_back({picture.entry.taken,
                                               last_trim,
                                               angle->value,
                                               length->value,
                                               picture.reading.calibration.origin});
  }
}

/// Every side view of each shod limb that was read, up to this visit, whose own pictures are `now`.
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

plan::Outlook outlook_from(const Desk& desk,
                           const record::Horse& horse,
                           const measure::Reading& reading,
                           std::vector<plan::DatedHoof> history,
                           const record::FootChange& change) {
  return plan::outlook_of(reading,
                          practice::spreads(practice::protocol(desk.practice, View::lateromedial)),
                          change,
                          bands_for(horse, desk.practice),
                          plan::growth_of(reading, std::move(history), horse.age_years));
}

std::vector<plan::Prediction> predictions(const Desk& desk,
                                          const record::Horse& horse,
                                          const std::vector<MeasuredPicture>& pictures,
                                          const record::FootChange& change) {
  std::vector<plan::Prediction> result;
  for (const auto view : {View::lateromedial, View::dorsopalmar}) {
    const auto read = read_pictures(pictures, change.limb, view);
    if (read.empty())
      continue;
    const auto spreads = practice::spreads(practice::protocol(desk.practice, view));
    // The first picture of a view is the one the plan was made on.
    if (const auto found =
            plan::predict(read.front()->reading, spreads, change, bands_for(horse, desk.practice)))
      result.insert(result.end(), found->begin(), found->end());
  }
  return result;
}

} // namespace

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
  PRITCHEL_TRY(histories, histories_of(desk, ground.value, ground.visit, ground.pictures));
  return std::optional(outlook_from(
      desk, ground.value.horse, side.front()->reading, std::move(histories[change.limb]), change));
}

Result<Foreseen> foreseen(const Desk& desk,
                          const record::Case& value,
                          const record::Visit& visit,
                          const std::vector<MeasuredPicture>& pictures,
                          const record::Plan& plan) {
  PRITCHEL_TRY(histories, histories_of(desk, value, visit, pictures));
  Foreseen result;
  for (const auto& change : plan.changes) {
    if (plan::changes_nothing(change)) // a shoe's kind alone
      continue;
    const auto effects = predictions(desk, value.horse, pictures, change);
    result.predictions.insert(result.predictions.end(), effects.begin(), effects.end());
    if (const auto side = read_pictures(pictures, change.limb, View::lateromedial); !side.empty())
      result.outlooks.push_back(
          outlook_from(desk, value.horse, side.front()->reading, histories[change.limb], change));
  }
  return result;
}

} // namespace pritchel::job
