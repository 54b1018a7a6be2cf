#include "job/paper.h"

#include <algorithm>
#include <optional>

#include "job/foresee.h"

namespace pritchel::job {
namespace {

report::SpreadsUsed spreads_used(const MeasuredPicture& picture,
                                 const practice::Practice& practice) {
  const auto& protocol = protocol_of(picture.entry, practice);
  report::SpreadsUsed used;
  for (const auto& landmark : picture.entry_reading.landmarks) {
    const auto* guide = practice::guide(protocol, landmark.id);
    if (guide == nullptr || guide->own_repeats == 0)
      continue;
    used.fewest_repeats =
        used.own == 0 ? guide->own_repeats : std::min(used.fewest_repeats, guide->own_repeats);
    ++used.own;
  }
  return used;
}

std::optional<report::EarlierVisit> earlier(const MeasuredPicture& picture,
                                            const std::vector<MeasuredPicture>& before,
                                            const std::string& date) {
  const auto same = read_pictures(before, picture.entry.limb, picture.entry.view);
  if (same.empty())
    return std::nullopt;
  report::EarlierVisit result{.date = date, .values = {}};
  for (const auto& each : same.front()->measurements)
    if (each.measurable())
      result.values.push_back(
          {std::string(each.definition->id), each.value, each.standard_uncertainty});
  return result;
}

} // namespace

Result<std::vector<char>> paper(const Desk& desk,
                                const std::string& case_id,
                                const std::string& visit_id,
                                report::Paper paper,
                                const std::string& made) {
  PRITCHEL_TRY(value, desk.store.load_case(case_id));
  PRITCHEL_TRY(visit, visit_of(value, visit_id));
  PRITCHEL_TRY(now, measured_pictures(desk, value, visit));
  PRITCHEL_TRY(before, pictures_before(desk, value, visit));
  PRITCHEL_TRY(plan, newest_plan(desk, case_id, visit.id));
  report::ReportInput input{.case_ = value,
                            .visit = visit,
                            .practice = desk.practice,
                            .plan = plan,
                            .paper = paper,
                            .made = made};
  const auto* last_visit = visit_before(value, visit);
  for (const auto& each : now)
    input.pictures.push_back({.picture = *each.picture,
                              .entry = each.entry,
                              .reading = each.entry_reading,
                              .calibration = each.scaled.calibration,
                              .conflicts = each.scaled.conflicts,
                              .measurements = each.measurements,
                              .checks = each.checks,
                              .spreads_used = spreads_used(each, desk.practice),
                              .earlier = last_visit != nullptr
                                             ? earlier(each, before, last_visit->date)
                                             : std::nullopt});
  if (plan) {
    PRITCHEL_TRY(ahead, foreseen(desk, value, visit, now, *plan));
    input.predictions = std::move(ahead.predictions);
    input.outlooks = std::move(ahead.outlooks);
  }
  return report::make_report(input);
}

} // namespace pritchel::job
