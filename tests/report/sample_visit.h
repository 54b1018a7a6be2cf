/// An invented visit for the tests of the paper: a side and a front picture with landmarks computed
/// from round numbers, and the plan that the plan floor makes of them.
#pragma once

#include "report/report.h"

#include <string>

namespace sample {

enum class Scale { marker, none };

/// Grey picture with a lighter foot, and its reading. Landmarks in mm of the plane frame, toe or
/// lateral towards +x.
[[nodiscard]] pritchel::report::PictureSheet side_picture(Scale scale);
[[nodiscard]] pritchel::report::PictureSheet front_picture(Scale scale);

/// Both pictures, no plan.
[[nodiscard]] pritchel::report::ReportInput visit(Scale scale);

/// A plan of so many invented lines, with texts of about so many letters.
[[nodiscard]] pritchel::record::Plan plan_of_lines(int lines, int letters);

/// "Gänsefüßchen ..." of about so many letters.
[[nodiscard]] std::string long_text(int letters);

} // namespace sample
