/// "Fit to measure": what the checks of a picture say, each as a word with a sign, and the marks by
/// which a number in the table points at the check that asks for caution. Inside report only.
#pragma once

#include "report/layout.h"

#include <string>

namespace pritchel::report {

/// The whole block; a sentence that nothing was checked where there are no checks.
void check_block(Layout& layout, const PictureSheet& sheet);

/// "△2": sign and number of each check that touches the measurement; empty when none does.
[[nodiscard]] std::string caution_marks(const PictureSheet& sheet,
                                        const measure::Measurement& measurement);

/// What page 1 says of a picture: nothing when every check is in order.
[[nodiscard]] std::string fitness_in_short(const PictureSheet& sheet);

} // namespace pritchel::report
