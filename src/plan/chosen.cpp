#include "plan/chosen.h"

#include "plan/fit.h"
#include "plan/fit_words.h"
#include "plan/hold.h"
#include "plan/predict.h"
#include "plan/shoes.h"
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

/// What one line holds.
struct Part {
  std::string_view name;
  std::string_view verb;
  std::vector<double FootChange::*> fields;
};

const std::array<Part, 5>& parts() {
  static const std::array<Part, 5> all{
      {{"trim", "Take ", {&FootChange::trim_toe_mm, &FootChange::trim_heel_mm}},
       {"dress", "Wall: ", {&FootChange::dress_toe_mm}},
       {"sides", "Take ", {&FootChange::trim_medial_mm, &FootChange::trim_lateral_mm}},
       {"shoe",
        "Shoe: ",
        {&FootChange::breakover_back_mm,
         &FootChange::branch_longer_mm,
         &FootChange::shoe_thickness_mm,
         &FootChange::pad_mm,
         &FootChange::extend_medial_mm,
         &FootChange::extend_lateral_mm}},
       {"wedge", "Shoe: ", {&FootChange::wedge_deg, &FootChange::ml_wedge_deg}}}};
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

/// What every line of a chosen change says alike.
struct Chosen {
  std::string_view by; ///< the first part of its lines' rule
  std::string why;
  std::string source;
  std::vector<std::string> aims;
};

std::vector<record::ProposalLine> lines_of(const Foot& foot,
                                           const FootChange& change,
                                           const Chosen& chosen,
                                           const practice::Practice& practice) {
  std::vector<record::ProposalLine> lines;
  FootChange so_far{.limb = foot.limb};
  for (const auto& part : parts()) {
    FootChange own{.limb = foot.limb};
    for (const auto field : part.fields)
      so_far.*field = own.*field = change.*field;
    if (changes_nothing(own))
      continue;
    const auto amount = amounts_for_people(own);
    lines.push_back(
        {.rule = fmt::format("{}-{}", chosen.by, part.name),
         .limb = foot.limb,
         .what = std::string(part.verb) + amount + ".",
         .amount = amount,
         .why = chosen.why,
         .caution = caution_words(own),
         .watch = "New pictures before the next trim or shoe.",
         .source = chosen.source,
         .expected = worth_showing(predictions_of(foot, so_far, practice), chosen.aims)});
  }
  return lines;
}

/// What a person's choice replaces: the amounts of the rules, and that there are none.
bool is_replaced(const record::ProposalLine& line, const practice::Practice& practice) {
  return line.rule == "nothing-proposed" ||
         std::any_of(practice.rules.begin(), practice.rules.end(), [&](const auto& rule) {
           return rule.id == line.rule && rule.kind == practice::RuleKind::propose;
         });
}

std::vector<std::string> measurements_of(const std::vector<record::Aim>& aims) {
  std::vector<std::string> ids;
  ids.reserve(aims.size());
  for (const auto& each : aims)
    ids.push_back(each.measurement);
  return ids;
}

/// The change of the draft, in place of the rules' amounts.
void replace_lines(const Foot& foot,
                   const Chosen& chosen,
                   const practice::Practice& practice,
                   FootPlan& plan) {
  std::erase_if(plan.lines, [&](const auto& line) { return is_replaced(line, practice); });
  auto lines = lines_of(foot, plan.change, chosen, practice);
  plan.lines.insert(plan.lines.begin(),
                    std::make_move_iterator(lines.begin()),
                    std::make_move_iterator(lines.end()));
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
  replace_lines(foot,
                {.by = "fit",
                 .why = fmt::format("Best fit, {}: {}.",
                                    record::way_words(taken.means),
                                    wanted_words(foot, taken.aims)),
                 .source = source_words(taken.aims),
                 .aims = measurements_of(taken.aims)},
                practice,
                plan);
}

void take_hand_change(const Foot& foot,
                      const HandChange& set,
                      const practice::Practice& practice,
                      FootPlan& plan) {
  if (!broken_standing(foot).empty())
    return;
  const auto held = hold_within_limits(foot, locks_of(foot, practice), set.change, {});
  plan.change = held.change;
  if (const auto refused = take_out_refused_shoe(foot, practice, plan.change); !refused.empty())
    plan.locks.push_back(heading(foot.limb) + ": " + refused);
  for (const auto& each : held.held_back)
    plan.locks.push_back(heading(foot.limb) + ": " + each.sentence);
  const auto who = set.by.empty() ? std::string("a person") : set.by;
  replace_lines(foot,
                {.by = "hand",
                 .why = fmt::format("Set by hand on the picture by {}.", who),
                 .source = "Own judgement of who set it. Every limit is kept.",
                 .aims = {}},
                practice,
                plan);
}

} // namespace pritchel::plan
