#include "report/outlook_words.h"

#include "report/words.h"

#include <fmt/format.h>

#include <cmath>
#include <vector>

namespace pritchel::report {
namespace {

/// "palmar angle 0.4° ± 2.5°, ..." for what matters most after some weeks.
std::string foreseen(const plan::Outlook& outlook) {
  std::vector<std::string> parts;
  for (const auto* id : {"palmar-angle", "hpa-deviation", "cor-toe"})
    for (const auto& each : outlook.in_week)
      if (each.definition->id == id)
        parts.push_back(
            measure::worded_for(each.limb, each.definition->title) + " " +
            with_uncertainty(each.after, each.uncertainty_after, each.definition->unit));
  return listed(parts);
}

std::string title_of(const plan::Outlook& outlook, const std::string& id) {
  const auto* definition = measure::definition(id);
  return definition ? measure::worded_for(outlook.limb, definition->title) : id;
}

/// "10 % less", "3 % more"
std::string more_or_less(double ratio) {
  const long per_cent = std::lround(100 * std::abs(1 - ratio));
  return fmt::format("{}\u202f% {}", per_cent, ratio < 1 ? "less" : "more");
}

} // namespace

std::string growth_words(const plan::Outlook& outlook) {
  if (outlook.in_week.empty())
    return "Growth until the next visit isn't foreseen: " + outlook.no_growth + ".";
  const auto whose =
      outlook.growth.own_intervals > 0
          ? fmt::format("this foot's own growth ({} intervals)", outlook.growth.own_intervals)
          : std::string("usual growth");
  auto words = fmt::format("Week {}, by {}: {}.", outlook.week, whose, foreseen(outlook));
  if (outlook.review)
    words += outlook.review->measurement.empty()
                 ? fmt::format(" Look again by week {}.", outlook.review->week)
                 : fmt::format(" Look again in week {}: then {} has surely left its band.",
                               outlook.review->week,
                               title_of(outlook, outlook.review->measurement));
  return words;
}

std::string lever_words(const plan::Outlook& outlook) {
  constexpr double worth_saying = 0.01;
  std::string words;
  if (const auto& breakover = outlook.arms.breakover;
      breakover && std::abs(1 - breakover->ratio) >= worth_saying)
    words += "Lever at breakover " + more_or_less(breakover->ratio) + ". " +
             (breakover->ratio < 1 ? std::string(plan::breakover_words) + " " : "");
  if (const auto& stance = outlook.arms.mid_stance;
      stance && std::abs(1 - stance->ratio) >= worth_saying)
    words += "Lever in mid-stance about " + more_or_less(stance->ratio) + " (" +
             more_or_less(stance->low) + " to " + more_or_less(stance->high) + "). " +
             std::string(plan::mid_stance_words);
  return words;
}

} // namespace pritchel::report
