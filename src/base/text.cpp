#include "base/text.h"

#include "base/assert.h"

#include <fmt/format.h>

#include <charconv>
#include <chrono>
#include <cmath>

namespace pritchel {
namespace {

std::optional<int> digits(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || value < 0)
    return std::nullopt;
  return value;
}

std::optional<std::chrono::year_month_day> calendar_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-')
    return std::nullopt;
  const auto year = digits(text.substr(0, 4));
  const auto month = digits(text.substr(5, 2));
  const auto day = digits(text.substr(8, 2));
  if (!year || !month || !day)
    return std::nullopt;
  const std::chrono::year_month_day date{std::chrono::year{*year},
                                         std::chrono::month{static_cast<unsigned>(*month)},
                                         std::chrono::day{static_cast<unsigned>(*day)}};
  return date.ok() ? std::optional{date} : std::nullopt;
}

bool rounds_to_zero(double value, int decimals) {
  return std::abs(value) < 0.5 * std::pow(10.0, -decimals);
}

} // namespace

std::string for_people(double value, int decimals) {
  if (rounds_to_zero(value, decimals))
    return fmt::format("{:.{}f}", 0.0, decimals);
  const std::string size = fmt::format("{:.{}f}", std::abs(value), decimals);
  return value < 0 ? "\u2212" + size : size;
}

std::string change_for_people(double value, int decimals) {
  const std::string text = for_people(value, decimals);
  return value > 0 && !rounds_to_zero(value, decimals) ? "+" + text : text;
}

std::string listed(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t i = 0; i < parts.size(); ++i)
    text += (i == 0 ? "" : i + 1 == parts.size() ? " and " : ", ") + parts[i];
  return text;
}

std::optional<double> parse_number(std::string_view text) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
    return std::nullopt;
  return value;
}

bool is_date(std::string_view text) {
  return calendar_date(text).has_value();
}

int days_between(std::string_view from, std::string_view to) {
  const auto a = calendar_date(from);
  const auto b = calendar_date(to);
  PRITCHEL_ASSERT(a && b);
  return static_cast<int>((std::chrono::sys_days{*b} - std::chrono::sys_days{*a}).count());
}

} // namespace pritchel
