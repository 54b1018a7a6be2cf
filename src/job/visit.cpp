#include "job/visit.h"

#include "imaging/scale.h"
#include "measure/checks.h"
#include "record/sight.h"

#include <algorithm>
#include <array>
#include <map>

#include "job/picture_checks.h"

namespace pritchel::job {
namespace {

using measure::View;

constexpr std::array limbs = {measure::Limb::left_fore,
                              measure::Limb::right_fore,
                              measure::Limb::left_hind,
                              measure::Limb::right_hind};

/// The visit before this one, if there was one.
const record::Visit* visit_before(const record::Case& value, const record::Visit& visit) {
  const auto at = std::find_if(value.visits.begin(), value.visits.end(), [&](const auto& each) {
    return each.id == visit.id;
  });
  return at == value.visits.end() || at == value.visits.begin() ? nullptr : &*std::prev(at);
}

bool is_read(const MeasuredPicture& picture) {
  return !picture.entry_reading.landmarks.empty();
}

std::vector<const MeasuredPicture*>
read_pictures(const std::vector<MeasuredPicture>& pictures, measure::Limb limb, View view) {
  std::vector<const MeasuredPicture*> found;
  for (const auto& each : pictures)
    if (is_read(each) && each.entry.limb == limb && each.entry.view == view)
      found.push_back(&each);
  return found;
}

/// How much longer the scale in use reads than the header's own correction; 1 when it doesn't.
double scale_conflict(const MeasuredPicture& picture) {
  const auto header = imaging::calibrate(picture.picture->spacing,
                                         picture.picture->pixel_aspect,
                                         picture.picture->columns,
                                         picture.picture->rows,
                                         {.kind = imaging::ScaleStatement::Kind::header});
  if (!header || !picture.scaled.calibration.has_scale())
    return 1;
  return std::max(1.0, picture.scaled.calibration.pixel_width_mm / header->pixel_width_mm);
}

/// As a person said with the scale, else as the header says.
std::optional<double> source_to_detector(const record::PictureEntry& entry,
                                         const imaging::Picture& picture) {
  if (entry.scale.source_to_detector_mm > 0)
    return entry.scale.source_to_detector_mm;
  return picture.spacing.distance_source_to_detector_mm;
}

std::optional<plan::DatedReading> dated(const std::vector<const MeasuredPicture*>& pictures,
                                        std::size_t index) {
  if (index >= pictures.size())
    return std::nullopt;
  const auto& picture = *pictures[index];
  return plan::DatedReading{.reading = picture.reading,
                            .taken = picture.entry.taken,
                            .scale_conflict = scale_conflict(picture)};
}

std::vector<plan::FootReadings> feet(const std::vector<MeasuredPicture>& now,
                                     const std::vector<MeasuredPicture>& before) {
  std::vector<plan::FootReadings> result;
  for (const auto limb : limbs) {
    const auto side = read_pictures(now, limb, View::lateromedial);
    const auto front = read_pictures(now, limb, View::dorsopalmar);
    if (side.empty() && front.empty())
      continue;
    result.push_back(
        {.limb = limb,
         .lateromedial = dated(side, 0),
         .dorsopalmar = dated(front, 0),
         .dorsopalmar_repeat = dated(front, 1),
         .lateromedial_before = dated(read_pictures(before, limb, View::lateromedial), 0),
         .dorsopalmar_before = dated(read_pictures(before, limb, View::dorsopalmar), 0)});
  }
  return result;
}

Result<std::vector<MeasuredPicture>>
pictures_before(const Desk& desk, const record::Case& value, const record::Visit& visit) {
  const auto* before = visit_before(value, visit);
  return before ? measured_pictures(desk, value, *before)
                : Result<std::vector<MeasuredPicture>>(std::vector<MeasuredPicture>{});
}

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

const practice::Protocol& protocol_of(const record::PictureEntry& entry,
                                      const practice::Practice& practice) {
  return practice::protocol(practice, entry.view, entry.limb, entry.protocol);
}

const measure::Bands& bands_for(const record::Horse& horse, const practice::Practice& practice) {
  static const measure::Bands none;
  constexpr double adult_years = 2;
  const bool adult = !horse.age_years || *horse.age_years >= adult_years;
  return horse.species == record::Species::horse && adult ? practice.bands : none;
}

MeasuredPicture measured(std::shared_ptr<const imaging::Picture> picture,
                         const record::PictureEntry& entry,
                         const record::ReadingEntry& reading,
                         const record::Horse& horse,
                         const practice::Practice& practice) {
  const auto scaled = record::calibration_or_none(entry, reading, *picture);
  return measured(std::move(picture), entry, reading, scaled, bands_for(horse, practice), practice);
}

MeasuredPicture measured(std::shared_ptr<const imaging::Picture> picture,
                         const record::PictureEntry& entry,
                         const record::ReadingEntry& reading,
                         const record::Scaled& scaled,
                         const measure::Bands& bands,
                         const practice::Practice& practice) {
  MeasuredPicture result{.picture = std::move(picture),
                         .entry = entry,
                         .entry_reading = reading,
                         .scaled = scaled,
                         .reading = record::reading_of(entry, reading, scaled.calibration)};
  result.reading.source_to_detector_mm = source_to_detector(entry, *result.picture);
  result.reading.picture_checks = picture_checks(*result.picture, result.reading);
  const auto spreads = practice::spreads(protocol_of(entry, practice));
  auto checks = measure::check_reading(result.reading, spreads);
  result.measurements = measure::measure_reading(result.reading, spreads, bands, checks);
  if (is_read(result))
    result.checks = std::move(checks);
  return result;
}

Result<record::Visit> visit_of(const record::Case& value, const std::string& id) {
  if (value.visits.empty())
    return fail(value.horse.name,
                "has no visit yet",
                "add one with its pictures first",
                Trouble::not_found);
  if (id.empty())
    return value.visits.back();
  for (const auto& visit : value.visits)
    if (visit.id == id)
      return visit;
  return fail("visit " + id, "is not in this case", {}, Trouble::not_found);
}

Result<std::vector<MeasuredPicture>>
measured_pictures(const Desk& desk, const record::Case& value, const record::Visit& visit) {
  std::vector<MeasuredPicture> result;
  for (const auto& entry : visit.pictures) {
    PRITCHEL_TRY(picture, desk.shelf.picture(desk.store, entry.digest));
    PRITCHEL_TRY(readings, desk.store.readings_of(value.id, entry.digest));
    const auto* working = record::working_reading(readings);
    const auto reading = working ? *working : record::ReadingEntry{.picture = entry.digest};
    result.push_back(measured(picture, entry, reading, value.horse, desk.practice));
  }
  return result;
}

Result<PlanGround>
plan_ground(const Desk& desk, const std::string& case_id, const std::string& visit_id) {
  PRITCHEL_TRY(value, desk.store.load_case(case_id));
  PRITCHEL_TRY(visit, visit_of(value, visit_id));
  PRITCHEL_TRY(now, measured_pictures(desk, value, visit));
  PRITCHEL_TRY(before, pictures_before(desk, value, visit));
  auto found = feet(now, before);
  return PlanGround{std::move(value), std::move(visit), std::move(now), std::move(found)};
}

plan::PlanInput plan_input(const PlanGround& ground, const record::Stamp& stamp) {
  return {.case_ = ground.value,
          .visit = ground.visit,
          .feet = ground.feet,
          .made = stamp.when,
          .made_by = stamp.who,
          .day = ground.visit.date};
}

Result<plan::Planned> make_plan(const Desk& desk,
                                const std::string& case_id,
                                const std::string& visit_id,
                                const record::Stamp& stamp) {
  PRITCHEL_TRY(ground, plan_ground(desk, case_id, visit_id));
  auto planned = plan::make_plan(plan_input(ground, stamp), desk.practice);
  PRITCHEL_TRY(kept, desk.store.add_plan(case_id, planned.plan, stamp));
  planned.plan = std::move(kept);
  return planned;
}

Result<std::optional<record::Plan>>
newest_plan(const Desk& desk, const std::string& case_id, const std::string& visit) {
  PRITCHEL_TRY(plans, desk.store.plans_of(case_id, visit));
  if (plans.empty())
    return std::optional<record::Plan>{};
  return std::optional<record::Plan>{std::move(plans.back())};
}

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

namespace {

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

Result<plan::Growth> growth_of(const Desk& desk, const PlanGround& ground, measure::Limb limb) {
  const auto side = read_pictures(ground.pictures, limb, View::lateromedial);
  if (side.empty())
    return plan::growth_at_age(ground.value.horse.age_years);
  PRITCHEL_TRY(histories, histories_of(desk, ground.value, ground.visit, ground.pictures));
  return plan::growth_of(side.front()->reading, histories[limb], ground.value.horse.age_years);
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
    input.pictures.push_back(
        {.picture = *each.picture,
         .entry = each.entry,
         .reading = each.entry_reading,
         .calibration = each.scaled.calibration,
         .conflicts = each.scaled.conflicts,
         .measurements = each.measurements,
         .checks = each.checks,
         .spreads_used = spreads_used(each, desk.practice),
         .earlier = last_visit ? earlier(each, before, last_visit->date) : std::nullopt});
  if (plan) {
    PRITCHEL_TRY(effects, predictions(desk, value, visit, *plan));
    input.predictions = std::move(effects);
    PRITCHEL_TRY(expected, outlooks(desk, value, visit, *plan));
    input.outlooks = std::move(expected);
  }
  return report::make_report(input);
}

} // namespace pritchel::job
