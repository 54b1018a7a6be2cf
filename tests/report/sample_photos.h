/// Invented photos for the tests of the paper: each protocol's schematic, taken by a camera that
/// looks askew, with its landmarks where that camera sees them.
#pragma once

#include "report/report.h"

#include <string_view>

#include "sample_visit.h"

namespace sample {

/// The photo of a protocol ("fore-limb-side"), read by somebody. Nothing drawn in it but tones.
[[nodiscard]] pritchel::report::PictureSheet
photo(std::string_view protocol, pritchel::measure::Limb limb, Scale scale);

/// The same with some landmarks moved, in mm of the plane frame.
struct Moved {
  std::string_view landmark;
  pritchel::PlaneVector by;
};
[[nodiscard]] pritchel::report::PictureSheet photo(std::string_view protocol,
                                                   pritchel::measure::Limb limb,
                                                   Scale scale,
                                                   const std::vector<Moved>& moved);

/// A visit with these pictures.
[[nodiscard]] pritchel::report::ReportInput
visit_of(std::vector<pritchel::report::PictureSheet> pictures);

} // namespace sample
