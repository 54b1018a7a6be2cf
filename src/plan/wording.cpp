#include "plan/wording.h"

#include "base/text.h"
#include "plan/variables.h"

#include <fmt/format.h>

#include <array>
#include <cctype>
#include <utility>

namespace pritchel::plan {
namespace {

using Words = std::pair<std::string_view, std::string_view>;

constexpr std::array<Words, 13> fact_titles{
    {{"lameness-aaep", "Lameness, 0 to 5"},
     {"lameness-uk", "Lameness, 0 to 10"},
     {"lame", "Lameness"},
     {"sudden-onset", "Sudden lameness"},
     {"vet-has-seen", "Seen by a named vet"},
     {"laminitis", "Laminitis"},
     {"age-years", "Age in years"},
     {"days-since-trim", "Days since the last trim"},
     {"days-since-picture", "Days since the picture"},
     {"red-flags", "Red flags"},
     {"front-pictures", "Dorsopalmar pictures"},
     {"wedge-worn-before", "Heel wedge at the previous visit"},
     {"findings", "Findings"}}};

constexpr std::array<Words, 8> suffix_words{{{"rise", "change since the previous visit"},
                                             {"shift", "difference from the previous visit"},
                                             {"repeat", "second picture"},
                                             {"less-other-foot", "less the other foot"},
                                             {"apart", "difference between left and right"},
                                             {"size", "to either side"},
                                             {"gone-hanging", "share gone when the limb hangs"},
                                             {"against-base", "against the shoe's base"}}};

std::string_view words_for(std::string_view id, const auto& list) {
  for (const auto& [key, words] : list)
    if (key == id)
      return words;
  return {};
}

std::string suffix_title(std::string_view suffix, measure::Limb limb) {
  if (suffix.substr(0, practice::less_measurement.size()) == practice::less_measurement)
    return "less " + title_of(suffix.substr(practice::less_measurement.size()), limb);
  return std::string(words_for(suffix, suffix_words));
}

measure::Unit unit_of(const measure::Definition& definition, std::string_view id) {
  constexpr std::string_view share = ".gone-hanging";
  const bool is_share = id.size() > share.size() && id.substr(id.size() - share.size()) == share;
  return is_share ? measure::Unit::per_cent : definition.unit;
}

std::string number(double value, std::string_view id) {
  const auto* definition = measure::definition(plain_measurement(id));
  if (definition == nullptr)
    return amount_for_people(value);
  const auto unit = unit_of(*definition, id);
  const auto symbol = measure::symbol(unit);
  const std::string space = symbol == "mm" || symbol == "%" ? " " : "";
  return for_people(value, measure::decimals(unit)) + space + std::string(symbol);
}

void replace_all(std::string& text, std::string_view from, const std::string& to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
}

/// A clause is kept when one of its amounts isn't zero.
bool says_something(const std::string& clause, const record::FootChange& change) {
  bool names_any = false;
  for (const auto& each : variables()) {
    if (clause.find(each.placeholder) == std::string::npos)
      continue;
    if (change.*each.field != 0)
      return true;
    names_any = true;
  }
  return !names_any;
}

std::string without_empty_clauses(const std::string& words, const record::FootChange& change) {
  std::string text;
  std::size_t at = 0;
  for (auto open = words.find('['); open != std::string::npos; open = words.find('[', at)) {
    const auto close = words.find(']', open);
    if (close == std::string::npos)
      break;
    text += words.substr(at, open - at);
    if (const auto clause = words.substr(open + 1, close - open - 1);
        says_something(clause, change))
      text += clause;
    at = close + 1;
  }
  return text + words.substr(at);
}

std::string trimmed_of_spaces(const std::string& text) {
  const auto from = text.find_first_not_of(' ');
  if (from == std::string::npos)
    return {};
  return text.substr(from, text.find_last_not_of(' ') - from + 1);
}

} // namespace

std::string title_of(std::string_view id, measure::Limb limb) {
  const auto* definition = measure::definition(plain_measurement(id));
  if (definition == nullptr)
    return std::string(words_for(id, fact_titles));
  std::string title = measure::worded_for(limb, definition->title);
  for (auto point = id.find('.'); point != std::string_view::npos;) {
    id.remove_prefix(point + 1);
    point = id.find('.');
    if (const auto words = suffix_title(id.substr(0, point), limb); !words.empty())
      title += ", " + words;
  }
  return title;
}

std::string with_doubt(const Quantity& quantity, std::string_view id) {
  std::string value = number(quantity.value, id);
  if (quantity.uncertainty == 0)
    return value;
  return value + " \u00b1 " + number(measure::coverage_factor * quantity.uncertainty, id);
}

std::string asked(const practice::Condition& condition) {
  const auto limit = number(condition.limit, condition.measurement);
  switch (condition.comparison) {
  case practice::Comparison::surely_below:
    return "below " + limit;
  case practice::Comparison::surely_above:
    return "above " + limit;
  case practice::Comparison::maybe_below:
    return "may be below " + limit;
  case practice::Comparison::maybe_above:
    break;
  }
  return "may be above " + limit;
}

std::string
filled(const std::string& words, const record::FootChange& change, const std::string& day) {
  std::string text = without_empty_clauses(words, change);
  for (const auto& each : variables())
    replace_all(text, each.placeholder, amount_for_people(change.*each.field));
  for (int weeks = 1; weeks <= 12; ++weeks)
    if (const auto date = weeks_later(day, weeks); !date.empty())
      replace_all(text, fmt::format("{{in-{}-weeks}}", weeks), date);
    else
      replace_all(text, fmt::format("{{in-{}-weeks}}", weeks), fmt::format("in {} weeks", weeks));
  return trimmed_of_spaces(text);
}

std::string heading(measure::Limb limb) {
  return capital(measure::for_people(limb));
}

std::string capital(std::string text) {
  if (!text.empty())
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

std::string joined(const std::string& first, const std::string& second) {
  return first.empty() || second.empty() ? first + second : first + " " + second;
}

} // namespace pritchel::plan
