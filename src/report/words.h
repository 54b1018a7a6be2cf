/// Numbers, dates and standing sentences as the paper words them. Inside report only.
#pragma once

#include "base/text.h"
#include "measure/measure.h"
#include "practice/practice.h"
#include "record/case.h"

#include <string>
#include <string_view>
#include <vector>

namespace pritchel::report {

/// The practice's wording, or ours.
[[nodiscard]] std::string
word(const practice::Practice& practice, std::string_view key, std::string_view ours);

/// "4 May 2026" from YYYY-MM-DD or a time that begins so; what it isn't comes back as it is.
[[nodiscard]] std::string date_for_people(std::string_view date);

/// "3.2", "4": one decimal where there is one.
[[nodiscard]] std::string number_for_people(double value);
/// "3.2", padded so that right-aligned numbers of all units line up on the decimal point.
[[nodiscard]] std::string column_number(double value, measure::Unit unit);
/// "3.2° ± 1.8°"
[[nodiscard]] std::string
with_uncertainty(double value, double standard_uncertainty, measure::Unit unit);
/// "3.2°", "14.9 mm"
[[nodiscard]] std::string quantity(double value, measure::Unit unit);
/// "within", "can't tell", ...
[[nodiscard]] std::string status_word(measure::Status status);
/// "2 to 10°", "from 15 mm", "up to 5°"
[[nodiscard]] std::string band_range(const measure::Band& band, measure::Unit unit);
[[nodiscard]] std::string standing_word(measure::Standing standing);

/// "bay gelding, Hanoverian, 9 years, 162 cm, 540 kg, riding"
[[nodiscard]] std::string horse_line(const record::Horse& horse);
/// "Left fore"
[[nodiscard]] std::string capital(std::string text);

/// What stands at the foot of every page.
[[nodiscard]] std::string caution_line(const practice::Practice& practice);
/// All cautions in full, for the last pages.
[[nodiscard]] std::vector<std::string> cautions(const practice::Practice& practice);
/// What the model doesn't know, one sentence each.
[[nodiscard]] std::vector<std::string> unknowns(const practice::Practice& practice);

} // namespace pritchel::report
