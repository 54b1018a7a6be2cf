/// From a visit's readings to a plan that two people can sign, amend or decline: stops first, then
/// locks, then proposals within hard limits (plan/limits.h), each with its predicted effect.
/// Geometry of the standing foot only; an aid to judgement, not a diagnosis. The vet decides.
/// Knows no picture, paper or page. How a plan comes about: docs/plan.md.
#pragma once

#include "measure/measure.h"
#include "practice/practice.h"
#include "record/case.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::plan {

/// A reading with what the plan must know about its picture.
struct DatedReading {
  measure::Reading reading;
  std::string taken; ///< YYYY-MM-DD; empty (not known) locks every trim amount
  /// Where the picture's sources of scale disagree: the length by the scale in use over the
  /// shortest length by any of them. 1 when they agree. Depths are divided by it.
  double scale_conflict = 1;
};

/// What there is of one foot. A second dorsopalmar picture counts only when the foot was lifted and
/// set down between the two: it is what a mediolateral trim needs.
struct FootReadings {
  measure::Limb limb = measure::Limb::left_fore;
  std::optional<DatedReading> lateromedial;
  std::optional<DatedReading> dorsopalmar;
  std::optional<DatedReading> dorsopalmar_repeat;
  std::optional<DatedReading> lateromedial_before; ///< of the previous visit
  std::optional<DatedReading> dorsopalmar_before;  ///< of the previous visit
  std::vector<DatedReading> photos = {};           ///< of foot and limb, at most one of each view
};

/// Amounts of one foot and who set them.
struct HandChange {
  record::FootChange change;
  std::string by;
};

struct PlanInput {
  const record::Case& case_;
  const record::Visit& visit;
  std::vector<FootReadings> feet;
  std::string made; ///< UTC, YYYY-MM-DDThh:mm:ssZ
  std::string made_by;
  /// The day the work is meant for, YYYY-MM-DD: pictures more than six weeks older give no trim
  /// amounts. Empty: the later one of the visit's date and the day of `made`. A plan made more than
  /// six weeks after this day, and with amounts in it, says so on top of its locks.
  std::string day = {};
  /// Ways that people took (plan/fit.h), for at most one foot each: limb, means, aims, and `later`
  /// as it is to stand in the plan. Their amounts take the place of the rules' for that foot.
  std::vector<record::TakenWay> taken = {};
  /// Amounts that people set by hand, for at most one foot each and for none of `taken`: held
  /// within the limits (plan/what_if.h), they take the place of the rules' for that foot.
  std::vector<HandChange> by_hand = {};
};

/// Lowest and highest value that the published shares of the joints allow (plan/shares.h).
struct SharesRange {
  double low = 0;
  double high = 0;
};

/// One measurement before and after a change of the foot, in the definition's unit.
/// The uncertainties are standard uncertainties; that of the change is smaller than either of the
/// others where the same landmarks carry both numbers.
struct Prediction {
  measure::Limb limb = measure::Limb::left_fore;
  const measure::Definition* definition = nullptr;
  double before = 0;
  double after = 0;
  double change = 0;
  double uncertainty_of_change = 0;
  double uncertainty_before = 0;
  double uncertainty_after = 0;
  measure::Status status_after = measure::Status::no_band;
  std::optional<SharesRange> range_after = {}; ///< only where the sources disagree
  int week = 0;                                ///< of growth after the change
};

/// `predictions` show the whole plan (all its lines together) for each foot that it changes: every
/// measurement of both views that can be predicted. Empty when the plan changes nothing.
struct Planned {
  record::Plan plan;
  std::vector<Prediction> predictions;
};

[[nodiscard]] Planned make_plan(const PlanInput& input, const practice::Practice& practice);

/// Every predictable measurement of the reading's view before and after the change, in the table's
/// order. What isn't measurable before or after is left out, and so is what the model can't say
/// (joint spaces, the short pastern's lean: plan/change.h).
/// Refused with the reason: no scale, a shod foot whose bearing plane isn't placed, missing points.
[[nodiscard]] measure::Attempt<std::vector<Prediction>> predict(const measure::Reading& reading,
                                                                const measure::Spreads& spreads,
                                                                const record::FootChange& change,
                                                                const measure::Bands& bands);

/// The changed foot for drawing over its own picture: the reading's landmarks in its plane frame
/// after the change. Bones and hoof stay; ground, bearing points, sole, breakover and the two
/// pastern bones move. Bring it back with PlaneMap(reading.calibration, reading.toward).
[[nodiscard]] measure::Attempt<measure::Placed<double>> ghost(const measure::Reading& reading,
                                                              const record::FootChange& change);

} // namespace pritchel::plan
