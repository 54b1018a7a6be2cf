#include "plan/fit_words.h"

#include "base/text.h"
#include "plan/predict.h"
#include "plan/variables.h"
#include "plan/wording.h"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace pritchel::plan {
namespace {

std::string mm(double value) {
  return for_people(value, 1) + " mm";
}

void add_trim_costs(const Foot& foot, const record::FootChange& change, Costs& costs) {
  if (change.trim_toe_mm == 0 && change.trim_heel_mm == 0)
    return;
  costs.wall_off_toe_mm = wall_taken(*foot.bearing, amounts_of<double>(change));
  costs.heel_off_mm = change.trim_heel_mm;
  costs.sentences.push_back(
      fmt::format("Takes {} of wall off the toe and {} off the heels. Horn that is off can't be "
                  "put back.",
                  mm(costs.wall_off_toe_mm),
                  mm(costs.heel_off_mm)));
  const auto now = value_on(foot.side.placed, "sole-depth-tip");
  const auto changed = after(foot.side.placed, change);
  const auto then = changed ? value_on(*changed, "sole-depth-tip") : std::nullopt;
  if (now && then)
    costs.sentences.push_back(
        *now - *then < 0.05
            ? "Leaves the sole under the bone's tip as it is."
            : fmt::format("Sole under the bone's tip {} instead of {}.", mm(*then), mm(*now)));
}

void add_shoe_costs(const Foot& foot, const record::FootChange& change, Costs& costs) {
  const bool shod = foot.side.placed.shoeing == measure::Shoeing::shod;
  if (!changes_shoe(change)) {
    if (!changes_nothing(change))
      costs.sentences.emplace_back(shod ? "The shoe worn goes back on as it was."
                                        : "The foot stays bare.");
    return;
  }
  costs.sentences.emplace_back(
      shod ? "The shoe worn is changed or another one nailed on: amounts are differences to it."
           : "Needs a shoe: nails in the wall, and the smith again in a few weeks.");
  for (const auto& each : variables())
    if (change.*each.field != 0 && !price_of(each).empty())
      costs.sentences.emplace_back(price_of(each));
}

/// Common practice, except what sources.json says of lawson-2007.
constexpr std::array<std::pair<std::string_view, std::string_view>, 5> prices{
    {{"dress_toe_mm", "In the lower third only; the rasp stops before the white line."},
     {"wedge_deg",
      "A wedge may load the superficial flexor and the suspensory, and crushes weak heels. Plan "
      "its way back: one degree a cycle."},
     {"breakover_back_mm", "A lower peak load was not shown. A shoe set back grips less."},
     {"branch_longer_mm", "Longer branches are trodden on, and sink first in mud."},
     {"ml_wedge_deg",
      "A wedge under one side tells the joint in one day what horn does in weeks."}}};

} // namespace

std::string value_words(double value, const std::string& measurement) {
  return with_doubt({.known = true, .value = value}, measurement);
}

std::string_view price_of(const Variable& variable) {
  for (const auto& [name, words] : prices)
    if (name == variable.name)
      return words;
  return {};
}

std::string band_words(const record::Aim& aim) {
  if (aim.low && aim.high)
    return "between " + value_words(*aim.low, aim.measurement) + " and " +
           value_words(*aim.high, aim.measurement);
  return aim.low ? "at least " + value_words(*aim.low, aim.measurement)
                 : "at most " + value_words(*aim.high, aim.measurement);
}

std::string not_sought_words(const Foot& foot, const record::Aim& aim) {
  const auto now = quantity(foot, aim.measurement);
  const auto text =
      fmt::format("{} {}", title_of(aim.measurement, foot.limb), with_doubt(now, aim.measurement));
  if (missed(aim, now.value) == 0)
    return text + " lies in its band (" + band_words(aim) + "): nothing is sought for it.";
  return text + " doesn't surely lie outside its band (" + band_words(aim) +
         "): nothing is sought for it. Measure it again, best on a second picture.";
}

std::string gain_words(const Foot& foot, const std::vector<AimOutcome>& gain) {
  std::vector<std::string> parts;
  for (const auto& each : gain)
    if (each.state != AimState::kept)
      parts.push_back(title_of(each.measurement, foot.limb) + " " +
                      value_words(each.after, each.measurement));
  return "Without it would come out: " + listed(parts) +
         ". Only a named vet may go beyond it, by hand.";
}

std::string kept_words(const Foot& foot, const record::Aim& aim) {
  return fmt::format("{} isn't to go farther from its band ({}) than it is.",
                     title_of(aim.measurement, foot.limb),
                     band_words(aim));
}

std::string lock_sentence(const std::vector<std::string>& sentences) {
  std::string text = "A rule of this practice holds amounts at zero:";
  for (const auto& each : sentences)
    text = joined(text, each);
  return text;
}

std::string conflict_words(const std::vector<std::string>& titles) {
  return fmt::format("{} pull against one another within the limits: each alone would be reached, "
                     "together they aren't.",
                     listed(titles));
}

Costs costs_of(const Foot& foot, const record::FootChange& change) {
  Costs costs;
  for (const auto& each : variables())
    costs.steps += change.*each.field / each.step;
  add_trim_costs(foot, change, costs);
  if (change.trim_medial_mm != 0 || change.trim_lateral_mm != 0)
    costs.sentences.push_back(fmt::format("Takes {} off the medial side and {} off the lateral.",
                                          mm(change.trim_medial_mm),
                                          mm(change.trim_lateral_mm)));
  add_shoe_costs(foot, change, costs);
  return costs;
}

} // namespace pritchel::plan
