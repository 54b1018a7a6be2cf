#include "plan/facts.h"

#include "base/text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>

namespace pritchel::plan {
namespace {

constexpr std::string_view made_day(std::string_view made) {
  return made.substr(0, 10);
}

std::string work_day(const PlanInput& input) {
  if (!input.day.empty())
    return is_date(input.day) ? input.day : std::string();
  const std::string made(made_day(input.made));
  // Dates of this form compare as text.
  std::string latest;
  for (const auto& each : {made, input.visit.date})
    if (is_date(each) && each > latest)
      latest = each;
  return latest;
}

void take_grade(CaseFacts& facts, const record::LamenessGrade& lameness) {
  const bool of_ten = lameness.scale.find("10") != std::string::npos;
  auto& worst = of_ten ? facts.lameness_uk : facts.lameness_aaep;
  worst = std::max(worst.value_or(0), lameness.grade);
  facts.lame = facts.lame || lameness.grade > 0;
}

std::optional<double> days_from(const std::string& from, const std::string& to) {
  if (!is_date(from) || !is_date(to))
    return std::nullopt;
  return days_between(from, to);
}

double yes(bool truth) {
  return truth ? 1 : 0;
}

} // namespace

CaseFacts case_facts(const PlanInput& input) {
  const auto& horse = input.case_.horse;
  const auto& history = input.case_.history;
  const bool named = !input.case_.vet.name.empty();
  CaseFacts facts{.species = horse.species,
                  .age_years = horse.age_years,
                  .height_cm = horse.height_cm,
                  .sudden_onset = history.sudden_onset,
                  .laminitis = history.laminitis == record::Laminitis::known ||
                               history.laminitis == record::Laminitis::suspected,
                  .vet_has_seen = named && history.vet_has_seen == record::VetHasSeen::yes,
                  .diagnosed = named && !history.diagnosis.empty(),
                  .red_flags = history.red_flags.size(),
                  .day = work_day(input),
                  .last_trim = input.visit.last_trim};
  for (const auto& each : history.lameness)
    take_grade(facts, each);
  return facts;
}

std::optional<double> days_since_trim(const CaseFacts& facts) {
  return days_from(facts.last_trim, facts.day);
}

std::optional<double> days_since_picture(const CaseFacts& facts, std::string_view taken) {
  return days_from(std::string(taken), facts.day);
}

bool is_case_fact(std::string_view id) {
  constexpr std::array<std::string_view, 4> of_one_foot{
      "findings", "days-since-picture", "front-pictures", "wedge-worn-before"};
  const auto is_among = [&](const auto& all) {
    return std::find(all.begin(), all.end(), id) != all.end();
  };
  return is_among(practice::case_facts) && !is_among(of_one_foot);
}

std::optional<double> case_fact(const CaseFacts& facts, std::string_view id) {
  if (id == "lameness-aaep")
    return facts.lameness_aaep.value_or(0);
  if (id == "lameness-uk")
    return facts.lameness_uk.value_or(0);
  if (id == "lame")
    return yes(facts.lame);
  if (id == "sudden-onset")
    return yes(facts.sudden_onset);
  if (id == "vet-has-seen")
    return yes(facts.vet_has_seen);
  if (id == "laminitis")
    return yes(facts.laminitis);
  if (id == "red-flags")
    return static_cast<double>(facts.red_flags);
  if (id == "age-years")
    return facts.age_years;
  if (id == "days-since-trim")
    return days_since_trim(facts);
  return std::nullopt;
}

std::string weeks_later(const std::string& day, int weeks) {
  if (!is_date(day))
    return {};
  const auto number = [&](std::size_t from, std::size_t count) {
    return static_cast<int>(parse_number(day.substr(from, count)).value_or(0));
  };
  namespace chrono = std::chrono;
  const chrono::year_month_day start{chrono::year{number(0, 4)},
                                     chrono::month{static_cast<unsigned>(number(5, 2))},
                                     chrono::day{static_cast<unsigned>(number(8, 2))}};
  const chrono::year_month_day end{chrono::sys_days{start} + chrono::days{7 * weeks}};
  return fmt::format("{:04}-{:02}-{:02}",
                     static_cast<int>(end.year()),
                     static_cast<unsigned>(end.month()),
                     static_cast<unsigned>(end.day()));
}

} // namespace pritchel::plan
