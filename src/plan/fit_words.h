/// Sentences of a best fit. Internal to the plan floor.
#pragma once

#include "plan/fit.h"
#include "plan/fit_grid.h"
#include "plan/variables.h"

#include <string>
#include <vector>

namespace pritchel::plan {

/// "3.4°", "12.1 mm": a value that isn't read but computed, without its doubt.
[[nodiscard]] std::string value_words(double value, const std::string& measurement);

/// "at least 3.0°", "between 3.0° and 8.0°": an aim's band.
[[nodiscard]] std::string band_words(const record::Aim& aim);

/// Why an aim is no reason to change anything: inside its band, or not surely outside.
[[nodiscard]] std::string not_sought_words(const Foot& foot, const record::Aim& aim);

/// "Without it: palmar angle 3.4° instead of ..., and who may go beyond it".
[[nodiscard]] std::string gain_words(const Foot& foot, const std::vector<AimOutcome>& gain);

[[nodiscard]] std::string kept_words(const Foot& foot, const record::Aim& aim);
[[nodiscard]] std::string lock_sentence(const std::vector<std::string>& sentences);
[[nodiscard]] std::string conflict_words(const std::vector<std::string>& titles);

/// What a shoe amount asks of the horse, whatever it gains; empty for the others.
[[nodiscard]] std::string_view price_of(const Variable& variable);

[[nodiscard]] Costs costs_of(const Foot& foot, const record::FootChange& change);

} // namespace pritchel::plan
