#include "job/visit.h"

#include "imaging/scale.h"
#include "measure/checks.h"
#include "record/sight.h"

#include <algorithm>
#include <array>
#include <set>

#include "job/picture_checks.h"

namespace pritchel::job {
namespace {

using measure::View;

constexpr std::array limbs = {measure::Limb::left_fore,
                              measure::Limb::right_fore,
                              measure::Limb::left_hind,
                              measure::Limb::right_hind};

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

/// The first read photo of each view, as the paper shows them.
std::vector<plan::DatedReading> photos(const std::vector<MeasuredPicture>& pictures,
                                       measure::Limb limb) {
  std::set<View> views;
  for (const auto& each : pictures)
    if (!measure::is_radiograph(each.entry.view))
      views.insert(each.entry.view);
  std::vector<plan::DatedReading> found;
  for (const auto view : views)
    if (auto first = dated(read_pictures(pictures, limb, view), 0))
      found.push_back(std::move(*first));
  return found;
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
         .dorsopalmar_before = dated(read_pictures(before, limb, View::dorsopalmar), 0),
         .photos = photos(now, limb)});
  }
  return result;
}

} // namespace

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

const record::Visit* visit_before(const record::Case& value, const record::Visit& visit) {
  const auto at = std::find_if(value.visits.begin(), value.visits.end(), [&](const auto& each) {
    return each.id == visit.id;
  });
  return at == value.visits.end() || at == value.visits.begin() ? nullptr : &*std::prev(at);
}

Result<std::vector<MeasuredPicture>>
measured_pictures(const Desk& desk, const record::Case& value, const record::Visit& visit) {
  std::vector<MeasuredPicture> result;
  for (const auto& entry : visit.pictures) {
    PRITCHEL_TRY(picture, desk.shelf.picture(desk.store, entry.digest));
    PRITCHEL_TRY(readings, desk.store.readings_of(value.id, entry.digest));
    const auto* working = record::working_reading(readings);
    const auto reading =
        working != nullptr ? *working : record::ReadingEntry{.picture = entry.digest};
    result.push_back(measured(picture, entry, reading, value.horse, desk.practice));
  }
  return result;
}

Result<std::vector<MeasuredPicture>>
pictures_before(const Desk& desk, const record::Case& value, const record::Visit& visit) {
  const auto* before = visit_before(value, visit);
  return before != nullptr ? measured_pictures(desk, value, *before)
                           : Result<std::vector<MeasuredPicture>>(std::vector<MeasuredPicture>{});
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

} // namespace pritchel::job
