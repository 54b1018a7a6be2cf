/// Numbers and dates as people read them, and as machines do; never by the locale.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel {

/// Fixed decimals with a true minus sign (U+2212); -0.04 at one decimal prints as 0.0.
[[nodiscard]] std::string for_people(double value, int decimals);

/// The same with a plus sign before positive values, for changes.
[[nodiscard]] std::string change_for_people(double value, int decimals);

/// "a, b and c"
[[nodiscard]] std::string listed(const std::vector<std::string>& parts);

/// Reads a whole string as a finite decimal number with a point; nothing else.
[[nodiscard]] std::optional<double> parse_number(std::string_view text);

/// True for a calendar date YYYY-MM-DD that exists.
[[nodiscard]] bool is_date(std::string_view text);

/// Days from one date to another (both as is_date accepts), positive when `to` is later.
[[nodiscard]] int days_between(std::string_view from, std::string_view to);

} // namespace pritchel
