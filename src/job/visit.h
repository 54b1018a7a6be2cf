/// The job as the store holds it: a visit's pictures with their readings measured, its plan made,
/// its paper written. What the page's requests and the command line both call.
#pragma once

#include "base/result.h"
#include "measure/measure.h"
#include "plan/outlook.h"
#include "practice/practice.h"
#include "record/measured.h"
#include "record/store.h"
#include "report/report.h"

#include <memory>
#include <string>
#include <vector>

#include "job/picture_shelf.h"

namespace pritchel::job {

/// One person's landmarks on one picture, measured.
struct MeasuredPicture {
  std::shared_ptr<const imaging::Picture> picture;
  record::PictureEntry entry;
  record::ReadingEntry entry_reading; ///< revision 0 and no landmarks when nobody has read it
  record::Scaled scaled;
  measure::Reading reading;
  std::vector<measure::Check> checks; ///< is it fit to measure on? none while nobody has read it
  std::vector<measure::Measurement> measurements;
};

/// What this picture's points are asked for by.
[[nodiscard]] const practice::Protocol& protocol_of(const record::PictureEntry& entry,
                                                    const practice::Practice& practice);

/// The practice's reference bands, which hold for adult riding horses; none for a pony, a donkey, a
/// draught horse or a horse under two years.
[[nodiscard]] const measure::Bands& bands_for(const record::Horse& horse,
                                              const practice::Practice& practice);

[[nodiscard]] MeasuredPicture measured(std::shared_ptr<const imaging::Picture> picture,
                                       const record::PictureEntry& entry,
                                       const record::ReadingEntry& reading,
                                       const record::Horse& horse,
                                       const practice::Practice& practice);

/// The same with a scale that is known already.
[[nodiscard]] MeasuredPicture measured(std::shared_ptr<const imaging::Picture> picture,
                                       const record::PictureEntry& entry,
                                       const record::ReadingEntry& reading,
                                       const record::Scaled& scaled,
                                       const measure::Bands& bands,
                                       const practice::Practice& practice);

/// Who may be asked for what: the store, the decoded pictures, and the practice's templates with
/// its own spreads in them (job/repeats_of.h).
struct Desk {
  record::Store& store;
  PictureShelf& shelf;
  const practice::Practice& practice;
  /// Keeps `practice` alive where another one may take its place meanwhile; may be empty.
  std::shared_ptr<const practice::Practice> kept = {};
};

/// The visit with this id, or the newest when it is empty.
[[nodiscard]] Result<record::Visit> visit_of(const record::Case& value, const std::string& id);

/// Every picture of a visit with its working reading, by whomever: record/sight.h.
[[nodiscard]] Result<std::vector<MeasuredPicture>>
measured_pictures(const Desk& desk, const record::Case& value, const record::Visit& visit);

/// What a plan of a visit stands on.
struct PlanGround {
  record::Case value;
  record::Visit visit;
  std::vector<MeasuredPicture> pictures; ///< the visit's own
  std::vector<plan::FootReadings> feet;
};
[[nodiscard]] Result<PlanGround>
plan_ground(const Desk& desk, const std::string& case_id, const std::string& visit);
/// Invariant: the ground outlives it.
[[nodiscard]] plan::PlanInput plan_input(const PlanGround& ground, const record::Stamp& stamp);

/// This foot's own growth by its history, else the usual one: plan/outlook.h.
[[nodiscard]] Result<plan::Growth>
growth_of(const Desk& desk, const PlanGround& ground, measure::Limb limb);

/// Makes a plan from the visit's readings and keeps it as the visit's next version.
[[nodiscard]] Result<plan::Planned> make_plan(const Desk& desk,
                                              const std::string& case_id,
                                              const std::string& visit,
                                              const record::Stamp& stamp);

/// The newest version of the visit's plan, if there is one.
[[nodiscard]] Result<std::optional<record::Plan>>
newest_plan(const Desk& desk, const std::string& case_id, const std::string& visit);

/// The effect of a kept plan's changes on the visit's measurements as they read now.
[[nodiscard]] Result<std::vector<plan::Prediction>> predictions(const Desk& desk,
                                                                const record::Case& value,
                                                                const record::Visit& visit,
                                                                const record::Plan& plan);

/// What is to be expected of each foot that the plan changes and whose side view was read: week
/// six, the levers, when to look again. Its own history is that of the case up to this visit.
[[nodiscard]] Result<std::vector<plan::Outlook>> outlooks(const Desk& desk,
                                                          const record::Case& value,
                                                          const record::Visit& visit,
                                                          const record::Plan& plan);

/// The paper of a visit, with its newest plan when there is one. `made`: UTC.
[[nodiscard]] Result<std::vector<char>> paper(const Desk& desk,
                                              const std::string& case_id,
                                              const std::string& visit,
                                              report::Paper paper,
                                              const std::string& made);

} // namespace pritchel::job
