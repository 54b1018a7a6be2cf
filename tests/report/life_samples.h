/// Invented feet with a plan, for the tests of the life-size pages. Header only.
#pragma once

#include "report/report.h"

#include <algorithm>
#include <string>
#include <vector>

#include "sample_visit.h"

namespace life_samples {

using pritchel::report::PictureSheet;
using pritchel::report::ReportInput;

inline PictureSheet& side_of(ReportInput& input) {
  return input.pictures[0];
}

inline void
move(PictureSheet& sheet, const std::vector<std::string>& ids, double right, double down) {
  for (auto& each : sheet.reading.landmarks)
    if (std::find(ids.begin(), ids.end(), each.id) != ids.end())
      each.at = {each.at.x + right / sheet.calibration.pixel_width_mm,
                 each.at.y + down / sheet.calibration.pixel_height_mm};
}

/// The sample foot with this change, in a plan of two lines; it breaks over behind its toe.
inline ReportInput planned(const pritchel::record::FootChange& change) {
  auto input = sample::visit(sample::Scale::marker);
  input.plan = sample::plan_of_lines(2, 100);
  input.plan->changes = {change};
  move(side_of(input), {"breakover"}, 18, 0);
  return input;
}

/// Toe, breakover, shoe and one side of a bare fore foot.
inline ReportInput fore_bare() {
  return planned({.limb = pritchel::measure::Limb::left_fore,
                  .trim_toe_mm = 4,
                  .trim_heel_mm = 1,
                  .dress_toe_mm = 1,
                  .trim_lateral_mm = 2,
                  .shoe_thickness_mm = 8,
                  .breakover_back_mm = 6,
                  .branch_longer_mm = 5,
                  .extend_lateral_mm = 4});
}

/// A hind foot on a shoe of 10 mm, with a wedge planned.
inline ReportInput hind_shod() {
  using namespace pritchel;
  auto input = planned({.limb = measure::Limb::left_hind,
                        .trim_toe_mm = 3,
                        .wedge_deg = 2,
                        .breakover_back_mm = 5,
                        .branch_longer_mm = 4});
  for (auto& sheet : input.pictures) {
    sheet.entry.limb = measure::Limb::left_hind;
    sheet.entry.shoeing = measure::Shoeing::shod;
    sheet.entry.toward = PictureSide::left;
  }
  auto& side = side_of(input);
  move(side, {"ground-heel", "ground-toe", "breakover"}, 0, 10);
  side.reading.landmarks.push_back({"shoe-heel-end", {860 - 14 / 0.2, 860 + 10 / 0.2}});
  return input;
}

/// The same foot seen on a picture whose pixels are `times` as large.
inline ReportInput large(double times) {
  auto input = fore_bare();
  for (auto& sheet : input.pictures) {
    sheet.calibration.pixel_width_mm *= times;
    sheet.calibration.pixel_height_mm *= times;
  }
  return input;
}

} // namespace life_samples
