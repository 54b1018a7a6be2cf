/// The paper: one PDF from a visit's record, to be read in ten seconds, checked picture by picture,
/// decided on line by line and signed. Form fields, attachment and names: docs/formats/report.md.
/// Must not know: the store, requests, the command line.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"
#include "measure/check.h"
#include "measure/measure.h"
#include "plan/outlook.h"
#include "practice/practice.h"
#include "record/case.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::report {

enum class Paper { a4, letter };

/// The same measurement at an earlier visit.
struct EarlierValue {
  std::string measurement; ///< id
  double value = 0;        ///< in the measurement's unit
  double standard_uncertainty = 0;
};

struct EarlierVisit {
  std::string date; ///< YYYY-MM-DD
  std::vector<EarlierValue> values;
};

/// Whose placement spreads a picture's uncertainties were made with.
struct SpreadsUsed {
  int own = 0;            ///< landmarks of the reading with a spread from this practice's repeats
  int fewest_repeats = 0; ///< behind any of those
};

/// One picture with what one reader found on it.
struct PictureSheet {
  imaging::Picture picture;
  std::optional<imaging::Window> window; ///< else the picture's default window
  record::PictureEntry entry;
  record::ReadingEntry reading;
  Calibration calibration;
  std::vector<std::string> conflicts; ///< of the scale, one sentence each
  std::vector<measure::Measurement> measurements;
  std::vector<measure::Check> checks = {}; ///< measure::check_reading(), in its order
  SpreadsUsed spreads_used = {};
  std::optional<EarlierVisit> earlier = {}; ///< same limb and view
};

struct ReportInput {
  record::Case case_;
  record::Visit visit;
  practice::Practice practice;
  std::vector<PictureSheet> pictures; ///< in the order of the paper
  std::optional<record::Plan> plan;
  std::vector<plan::Prediction> predictions; ///< of the plan as a whole
  std::vector<plan::Outlook> outlooks = {};  ///< of each foot it changes, where there is one
  Paper paper = Paper::a4;
  std::string made; ///< UTC, YYYY-MM-DDThh:mm:ssZ: the only clock there is
};

/// PDF bytes. The same input gives the same bytes.
[[nodiscard]] Result<std::vector<char>> make_report(const ReportInput& input);

/// The record as it is attached to the paper: case, visit, readings and plan in one JSON document
/// ("pritchel-record", docs/formats/report.md).
[[nodiscard]] std::string record_json(const ReportInput& input);

} // namespace pritchel::report
