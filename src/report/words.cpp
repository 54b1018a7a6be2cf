#include "report/words.h"

#include "base/text.h"
#include "measure/uncertainty.h"

#include <array>
#include <cctype>

namespace pritchel::report {
namespace {

constexpr std::array<const char*, 12> months{"January",
                                             "February",
                                             "March",
                                             "April",
                                             "May",
                                             "June",
                                             "July",
                                             "August",
                                             "September",
                                             "October",
                                             "November",
                                             "December"};

/// Figure and punctuation spaces: as wide as a tabular digit and a point.
constexpr const char* digit_space = "\u2007";
constexpr const char* point_space = "\u2008";

bool is_spaced(measure::Unit unit) {
  return unit == measure::Unit::millimetres || unit == measure::Unit::per_cent;
}

std::string with_unit(std::string number, measure::Unit unit) {
  number += is_spaced(unit) ? "\u202f" : "";
  return number + std::string(measure::symbol(unit));
}

void add(std::string& line, const std::string& part) {
  if (part.empty())
    return;
  line += (line.empty() ? "" : ", ") + part;
}

/// A numbered group of the practice's words, in its order.
std::vector<std::string>
group(const practice::Practice& practice, std::string_view stem, std::string_view but) {
  std::vector<std::string> found;
  for (const auto& [key, words] : practice.words)
    if (key.substr(0, stem.size()) == stem && key != but)
      found.push_back(words);
  return found;
}

std::string known(const record::Known& value, const char* unit) {
  return value ? number_for_people(*value) + unit : std::string();
}

} // namespace

std::string word(const practice::Practice& practice, std::string_view key, std::string_view ours) {
  const auto found = practice.words.find(key);
  return found == practice.words.end() ? std::string(ours) : found->second;
}

std::string date_for_people(std::string_view date) {
  const auto day = date.substr(0, 10);
  if (!is_date(day))
    return std::string(date);
  const auto month = static_cast<std::size_t>((day[5] - '0') * 10 + (day[6] - '0') - 1);
  const auto number = day[8] == '0' ? day.substr(9, 1) : day.substr(8, 2);
  return std::string(number) + "\u00a0" + months.at(month) + " " + std::string(day.substr(0, 4));
}

std::string number_for_people(double value) {
  const auto with_one = for_people(value, 1);
  return with_one.ends_with(".0") ? with_one.substr(0, with_one.size() - 2) : with_one;
}

std::string column_number(double value, measure::Unit unit) {
  constexpr int most = 2;
  const int decimals = measure::decimals(unit);
  std::string text = for_people(value, decimals);
  if (decimals == 0)
    text += point_space;
  for (int i = decimals; i < most; ++i)
    text += digit_space;
  return text;
}

std::string with_uncertainty(double value, double standard_uncertainty, measure::Unit unit) {
  return with_unit(for_people(value, measure::decimals(unit)), unit) + " \u00b1\u202f" +
         with_unit(
             for_people(measure::coverage_factor * standard_uncertainty, measure::decimals(unit)),
             unit);
}

std::string quantity(double value, measure::Unit unit) {
  return with_unit(for_people(value, measure::decimals(unit)), unit);
}

std::string status_word(measure::Status status) {
  switch (status) {
  case measure::Status::within:
    return "within";
  case measure::Status::below:
    return "below";
  case measure::Status::above:
    return "above";
  case measure::Status::cannot_tell:
    return "can't tell";
  case measure::Status::no_band:
    return "no band";
  case measure::Status::not_measurable:
    break;
  }
  return "not measurable";
}

std::string band_range(const measure::Band& band, measure::Unit unit) {
  const auto number = [&](double value) {
    return unit == measure::Unit::ratio ? for_people(value, 2) : number_for_people(value);
  };
  if (band.low && band.high)
    return number(*band.low) + " to " + with_unit(number(*band.high), unit);
  if (band.low)
    return "from " + with_unit(number(*band.low), unit);
  return band.high ? "up to " + with_unit(number(*band.high), unit) : std::string("open");
}

std::string standing_word(measure::Standing standing) {
  switch (standing) {
  case measure::Standing::published:
    return "published";
  case measure::Standing::own_practice:
    return "this practice's own";
  case measure::Standing::trade_rule:
    break;
  }
  return "trade rule";
}

std::string horse_line(const record::Horse& horse) {
  std::string line = horse.colour;
  if (!horse.sex.empty())
    line += (line.empty() ? "" : " ") + horse.sex;
  add(line, horse.breed);
  add(line, known(horse.age_years, " years"));
  add(line, known(horse.height_cm, " cm"));
  add(line, known(horse.weight_kg, " kg"));
  add(line, horse.work);
  return line;
}

std::string capital(std::string text) {
  if (!text.empty())
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  return text;
}

std::string caution_line(const practice::Practice& practice) {
  return word(practice,
              "caution.page",
              "An aid to judgement, not a diagnosis. The treating vet decides.") +
         " " + word(practice, "caution.5-horn", "") + " " + word(practice, "caution.4-picture", "");
}

std::vector<std::string> cautions(const practice::Practice& practice) {
  return group(practice, "caution.", "caution.page");
}

std::vector<std::string> unknowns(const practice::Practice& practice) {
  return group(practice, "unknown.", "unknown.title");
}

} // namespace pritchel::report
