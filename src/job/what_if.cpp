#include "job/what_if.h"

#include "drawing/overlay.h"

#include <utility>

#include "job/foresee.h"

namespace pritchel::job {
namespace {

ChangedPicture changed_picture(const MeasuredPicture& picture, const record::FootChange& change) {
  const auto& reading = picture.reading;
  ChangedPicture changed{.digest = picture.entry.digest,
                         .read_by = picture.entry_reading.reader,
                         .overlay = {},
                         .grips = {}};
  if (const auto placed = plan::ghost(reading, change))
    changed.overlay = drawing::changed_overlay(reading, *placed);
  const PlaneMap map(reading.calibration, reading.toward);
  for (const auto& grip : plan::grips_of(reading, change)) {
    const auto at = map.to_image(grip.at);
    changed.grips.push_back(
        {std::string(grip.variable), at, map.to_image(grip.at + grip.per_unit) - at});
  }
  return changed;
}

/// As the newest plan has them; none where it leaves the foot alone.
Result<record::FootChange>
planned_change(const Desk& desk, const PlanGround& ground, measure::Limb limb) {
  PRITCHEL_TRY(newest, newest_plan(desk, ground.value.id, ground.visit.id));
  if (newest)
    for (const auto& each : newest->changes)
      if (each.limb == limb)
        return each;
  return record::FootChange{.limb = limb};
}

} // namespace

Result<Tried> what_if(const Desk& desk,
                      const std::string& case_id,
                      const std::string& visit,
                      const record::AskedTry& asked,
                      const record::Stamp& stamp) {
  PRITCHEL_TRY(ground, plan_ground(desk, case_id, visit));
  auto wished = asked.wished;
  if (asked.from_plan) {
    PRITCHEL_TRY(planned, planned_change(desk, ground, wished.limb));
    wished = planned;
  }
  Tried tried{.what = plan::what_if(plan_input(ground, stamp), desk.practice, wished, asked.moved)};
  if (!tried.what.refused.empty())
    return tried;
  for (const auto& each : ground.pictures)
    if (each.entry.limb == asked.wished.limb && measure::is_radiograph(each.reading.view) &&
        !each.reading.landmarks.empty())
      tried.pictures.push_back(changed_picture(each, tried.what.change));
  if (asked.weeks) {
    PRITCHEL_TRY(outlook, outlook_of(desk, ground, tried.what.change));
    tried.outlook = std::move(outlook);
  }
  return tried;
}

} // namespace pritchel::job
