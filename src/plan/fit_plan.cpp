#include "plan/fit_plan.h"

#include "plan/fit.h"
#include "plan/fit_words.h"
#include "plan/predict.h"
#include "plan/wording.h"
#include "record/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

namespace pritchel::plan {
namespace {

using record::FootChange;

/// What one line of the way holds.
struct Part {
  std::string_view rule;
  std::string_view verb;
  std::vector<double FootChange::*> fields;
};

const std::array<Part, 4>& parts() {
  static const std::array<Part, 4> all{
      {{"fit-trim", "Take ", {&FootChange::trim_toe_mm, &FootChange::trim_heel_mm}},
       {"fit-sides", "Take ", {&FootChange::trim_medial_mm, &FootChange::trim_lateral_mm}},
       {"fit-shoe", "Shoe: ", {&FootChange::breakover_back_mm, &FootChange::branch_longer_mm}},
       {"fit-wedge", "Shoe: ", {&FootChange::wedge_deg, &FootChange::ml_wedge_deg}}}};
  return all;
}

std::string wanted_words(const Foot& foot, const std::vector<record::Aim>& aims) {
  std::string text;
  for (const auto& aim : aims)
    text += fmt::format("{}{} {}, wanted {}",
                        text.empty() ? "" : "; ",
                        title_of(aim.measurement, foot.limb),
                        with_doubt(quantity(foot, aim.measurement), aim.measurement),
                        band_words(aim));
  return text;
}

std::string source_words(const std::vector<record::Aim>& aims) {
  std::string text = "Aims switched on by a person";
  for (std::size_t i = 0; i < aims.size(); ++i)
    if (!aims[i].source.empty() && text.find(aims[i].source) == std::string::npos)
      text += (i == 0 ? ": " : "; ") + aims[i].source;
  return text + ". The least change for them that keeps every limit.";
}

std::string caution_words(const FootChange& own) {
  std::string text;
  for (const auto& each : variables())
    if (own.*each.field != 0)
      text = joined(text, std::string(price_of(each)));
  return text;
}

std::vector<record::ProposalLine> lines_of(const Foot& foot,
                                           const FootChange& change,
                                           const record::TakenWay& taken,
                                           const practice::Practice& practice) {
  std::vector<std::string> aims;
  for (const auto& each : taken.aims)
    aims.push_back(each.measurement);
  std::vector<record::ProposalLine> lines;
  FootChange so_far{.limb = foot.limb};
  for (const auto& part : parts()) {
    FootChange own{.limb = foot.limb};
    for (const auto field : part.fields)
      so_far.*field = own.*field = change.*field;
    if (changes_nothing(own))
      continue;
    const auto amount = amounts_for_people(own);
    lines.push_back({.rule = std::string(part.rule),
                     .limb = foot.limb,
                     .what = std::string(part.verb) + amount + ".",
                     .amount = amount,
                     .why = fmt::format("Best fit, {}: {}.",
                                        record::way_words(taken.means),
                                        wanted_words(foot, taken.aims)),
                     .caution = caution_words(own),
                     .watch = "New pictures before the next trim or shoe.",
                     .source = source_words(taken.aims),
                     .expected = worth_showing(predictions_of(foot, so_far, practice), aims)});
  }
  return lines;
}

/// What a way replaces: the amounts of the rules, and that there are none.
bool is_replaced(const record::ProposalLine& line, const practice::Practice& practice) {
  return line.rule == "nothing-proposed" ||
         std::any_of(practice.rules.begin(), practice.rules.end(), [&](const auto& rule) {
           return rule.id == line.rule && rule.kind == practice::RuleKind::propose;
         });
}

} // namespace

void take_way(const Foot& foot,
              const PlanInput& input,
              const practice::Practice& practice,
              record::TakenWay& taken,
              FootPlan& plan) {
  const auto fit =
      fit_foot(input, practice, {.limb = foot.limb, .aims = taken.aims, .means = {taken.means}});
  if (fit.ways.empty())
    return;
  const auto& way = fit.ways.front();
  taken.reached = way.reached;
  taken.in_the_way = fit.conflicts;
  for (const auto& each : way.in_the_way)
    taken.in_the_way.push_back(each.sentence);
  plan.change = way.change;
  std::erase_if(plan.lines, [&](const auto& line) { return is_replaced(line, practice); });
  auto lines = lines_of(foot, way.change, taken, practice);
  plan.lines.insert(plan.lines.begin(),
                    std::make_move_iterator(lines.begin()),
                    std::make_move_iterator(lines.end()));
}

} // namespace pritchel::plan
