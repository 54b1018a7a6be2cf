/// Sentences of a plan: numbers with their doubt, rules' words with the amounts filled in. Internal
/// to the plan floor.
#pragma once

#include "plan/foot.h"

#include <string>

namespace pritchel::plan {

/// "Palmar angle", "Palmar angle, against the other foot": worded for the limb; a fact of the case
/// in plain words.
[[nodiscard]] std::string title_of(std::string_view id, measure::Limb limb);

/// "1.3° ± 1.3°": value and 95 % interval in the measurement's unit.
[[nodiscard]] std::string with_doubt(const Quantity& quantity, std::string_view id);

/// "below 3.0°": what a condition asks for.
[[nodiscard]] std::string asked(const practice::Condition& condition);

/// A rule's words with what `change` holds: "{toe}", "{heel}", ... become numbers, "{in-4-weeks}"
/// (any number of weeks from 1 to 12) a date. A clause in square brackets that names only amounts
/// of zero is left out.
[[nodiscard]] std::string
filled(const std::string& words, const record::FootChange& change, const std::string& day);

/// "Left fore"
[[nodiscard]] std::string heading(measure::Limb limb);

/// The text with its first letter large.
[[nodiscard]] std::string capital(std::string text);

/// The two joined by a space, whichever may be empty.
[[nodiscard]] std::string joined(const std::string& first, const std::string& second);

} // namespace pritchel::plan
