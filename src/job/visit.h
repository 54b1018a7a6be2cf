/// The job as the store holds it: a visit's pictures with their readings measured, and its plan
/// made. What the page's requests and the command line both call.
#pragma once

#include "base/result.h"
#include "measure/measure.h"
#include "plan/plan.h"
#include "practice/practice.h"
#include "record/measured.h"
#include "record/store.h"

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

/// Has anybody placed a point on it?
[[nodiscard]] bool is_read(const MeasuredPicture& picture);

/// Those that were read, in their order.
[[nodiscard]] std::vector<const MeasuredPicture*>
read_pictures(const std::vector<MeasuredPicture>& pictures, measure::Limb limb, measure::View view);

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

/// The visit before this one; nullptr when it is the first.
[[nodiscard]] const record::Visit* visit_before(const record::Case& value,
                                                const record::Visit& visit);

/// Every picture of a visit with its working reading, by whomever: record/sight.h.
[[nodiscard]] Result<std::vector<MeasuredPicture>>
measured_pictures(const Desk& desk, const record::Case& value, const record::Visit& visit);

/// The same of the visit before; none when there was none.
[[nodiscard]] Result<std::vector<MeasuredPicture>>
pictures_before(const Desk& desk, const record::Case& value, const record::Visit& visit);

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

/// Makes a plan from the visit's readings and keeps it as the visit's next version.
[[nodiscard]] Result<plan::Planned> make_plan(const Desk& desk,
                                              const std::string& case_id,
                                              const std::string& visit,
                                              const record::Stamp& stamp);

/// The newest version of the visit's plan, if there is one.
[[nodiscard]] Result<std::optional<record::Plan>>
newest_plan(const Desk& desk, const std::string& case_id, const std::string& visit);

} // namespace pritchel::job
