#include "plan/propose.h"

#include "base/text.h"
#include "plan/conditions.h"
#include "plan/search.h"
#include "plan/variables.h"
#include "plan/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::plan {
namespace {

using practice::Practice;
using practice::Rule;
using practice::RuleKind;
using record::FootChange;

void add_once(std::vector<std::string>& sentences, const std::string& sentence) {
  if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end())
    sentences.push_back(sentence);
}

/// The sentence, with the limb before it unless it is about the whole case.
std::string said_of(const Foot& foot, const Rule& rule, const std::string& sentence) {
  return is_about_case(rule) ? capital(sentence) : heading(foot.limb) + ": " + sentence;
}

/// A rule that looks at the value alone still shows its doubt.
std::string shown(std::string id) {
  constexpr std::string_view alone = ".value";
  if (id.size() > alone.size() && id.substr(id.size() - alone.size()) == alone)
    id.resize(id.size() - alone.size());
  return id;
}

/// "Palmar angle 1.3° ± 1.3° (below 3.0°)": each measured condition of the rule.
std::string evidence(const Rule& rule, const Foot& foot) {
  std::string text;
  for (const auto& condition : rule.when) {
    if (measure::definition(plain_measurement(condition.measurement)) == nullptr)
      continue;
    const auto id = shown(condition.measurement);
    const auto q = quantity(foot, id);
    text += fmt::format("{}{} {} ({})",
                        text.empty() ? "" : "; ",
                        title_of(id, foot.limb),
                        q.known ? with_doubt(q, id) : "not known",
                        asked(condition));
  }
  return text.empty() ? text : text + ".";
}

void add_limit(const Foot& foot, const Limit& limit, FootPlan& plan) {
  add_once(plan.locks, heading(foot.limb) + ": " + measure::worded_for(foot.limb, limit.sentence));
}

void ask_again(const Foot& foot, const practice::Condition& condition, FootPlan& plan) {
  const auto q = looked_at(condition, foot, 0);
  const auto title = title_of(condition.measurement, foot.limb);
  const auto* picture = picture_for(foot, condition.measurement);
  if (!q.known && !q.asked_for)
    return;
  if (picture == nullptr) {
    add_once(plan.remeasure, title + ": " + q.reason + ".");
  } else if (!picture->fit()) {
    const auto view = measure::definition(plain_measurement(condition.measurement))->view;
    add_once(plan.remeasure,
             fmt::format("{}, {} picture: {}.",
                         heading(foot.limb),
                         measure::for_people(view, foot.limb),
                         picture->unfit));
  } else if (!q.known) {
    add_once(plan.remeasure,
             fmt::format("{}: {} isn't known: {}.", heading(foot.limb), title, q.reason));
  } else {
    add_once(plan.remeasure,
             fmt::format("{}: {} {} doesn't settle whether it is {}. Measure it again, best by a "
                         "second reader or on a second picture.",
                         heading(foot.limb),
                         title,
                         with_doubt(q, condition.measurement),
                         asked(condition)));
  }
}

/// About the first thing that is open: what stands behind it may be moot once that is settled.
void ask_again(const Foot& foot, const Firing& firing, FootPlan& plan) {
  if (firing.holds != Holds::no && !firing.open.empty())
    ask_again(foot, *firing.open.front(), plan);
}

bool concerns(const Rule& rule, const Foot& foot, CaseRules case_rules) {
  return applies_to(rule, foot.limb) &&
         (case_rules == CaseRules::said_here || !is_about_case(rule));
}

std::string source_words(const Rule& rule, const Practice& practice) {
  const auto found = practice.sources.find(rule.source);
  return found == practice.sources.end() ? rule.source : found->second;
}

record::ProposalLine line_of(const Rule& rule, const Foot& foot, const Practice& practice) {
  return {.rule = rule.id,
          .limb = foot.limb,
          .what = rule.what,
          .amount = "none",
          .why = joined(evidence(rule, foot), measure::worded_for(foot.limb, rule.why)),
          .caution = measure::worded_for(foot.limb, rule.caution),
          .watch = filled(rule.watch, {}, foot.facts->day),
          .source = source_words(rule, practice)};
}

/// The numbers a reader wants to see move, beside the rule's own aim.
bool matters(std::string_view id) {
  constexpr std::array<std::string_view, 12> shown{"palmar-angle",
                                                   "sole-depth-tip",
                                                   "hpa-deviation",
                                                   "breakover-distance",
                                                   "cor-toe",
                                                   "cor-heel",
                                                   "base-proportion",
                                                   "p3-ml-tilt-articular",
                                                   "coronet-ml-tilt",
                                                   "wall-length-difference",
                                                   "foot-axis-offset",
                                                   "toe-length"};
  return std::find(shown.begin(), shown.end(), id) != shown.end();
}

/// A change smaller than the last digit that is shown isn't worth a row, but the sole always is.
bool is_worth_showing(const Prediction& prediction, const std::vector<std::string>& aims) {
  const auto id = prediction.definition->id;
  if (std::find(aims.begin(), aims.end(), id) != aims.end() || id == "sole-depth-tip")
    return true;
  const double last_digit = std::pow(10.0, -measure::decimals(prediction.definition->unit));
  return matters(id) && std::abs(prediction.change) >= last_digit / 2;
}

std::vector<record::ExpectedChange> expected_changes(const Foot& foot,
                                                     const Rule& rule,
                                                     const FootChange& change,
                                                     const Practice& practice) {
  const auto aim = plain_measurement(rule.aim_measurement);
  const auto& picture = *picture_for(foot, aim);
  const auto predictions =
      predict(picture.dated->reading,
              practice::spreads(practice::protocol(practice, picture.dated->reading.view)),
              change,
              practice.bands);
  if (!predictions)
    return {};
  // Against the shoe's base an offset moves, and the number that is taken from the walls doesn't.
  const std::vector<std::string> aims{std::string(aim)};
  return worth_showing(*predictions,
                       is_against_base(rule.aim_measurement) ? std::vector<std::string>{} : aims);
}

FootChange added(const FootChange& before, const FootChange& after) {
  FootChange change{.limb = after.limb};
  for (const auto& each : variables())
    change.*each.field = after.*each.field - before.*each.field;
  return change;
}

std::string aim_words(const Rule& rule, const Foot& foot) {
  const auto number = [&](double value) {
    return with_doubt({.known = true, .value = value}, rule.aim_measurement);
  };
  std::string text =
      "Aim, set in this practice's rules: " + title_of(rule.aim_measurement, foot.limb) + " ";
  if (rule.aim_low && rule.aim_high)
    text += "between " + number(*rule.aim_low) + " and " + number(*rule.aim_high);
  else
    text +=
        rule.aim_low ? "at least " + number(*rule.aim_low) : "at most " + number(*rule.aim_high);
  return text + ".";
}

/// Why a proposal stops short of its aim.
std::string held_words(const Found& found, const Rule& rule, const Foot& foot) {
  if (found.reached)
    return {};
  const auto missed = missed_by(foot, rule, found.change);
  if (!missed)
    return "What a change would do to it can't be computed from this reading.";
  std::string text =
      fmt::format("The aim is missed by {}; more isn't proposed in this visit.",
                  with_doubt({.known = true, .value = *missed}, rule.aim_measurement));
  for (const auto* limit : found.held_by)
    text = joined(text, measure::worded_for(foot.limb, limit->sentence));
  if (!found.locked.empty())
    text = joined(text, "A rule of this practice holds the rest: see what is held at zero.");
  return text;
}

std::string
what_words(const Rule& rule, const Foot& foot, const Found& found, const FootChange& own) {
  if (!changes_nothing(own))
    return measure::worded_for(foot.limb, filled(rule.what, own, foot.facts->day));
  const auto title = title_of(rule.aim_measurement, foot.limb);
  if (found.reached)
    return title + ": nothing beyond the lines above.";
  return title + (changes_nothing(found.change) ? ": nothing is proposed."
                                                : ": nothing is proposed beyond the lines above.");
}

struct Drafting {
  const Foot& foot;
  const Practice& practice;
  FootPlan& plan;
  std::set<std::string, std::less<>> locked;
  std::size_t findings = 0;
};

void propose(const Rule& rule, Drafting& draft) {
  const auto& foot = draft.foot;
  const auto found = search(foot, rule, draft.plan.change, draft.locked);
  const auto own = added(draft.plan.change, found.change);
  auto line = line_of(rule, foot, draft.practice);
  line.what = what_words(rule, foot, found, own);
  line.amount = amounts_for_people(own);
  line.why = joined(line.why, joined(aim_words(rule, foot), held_words(found, rule, foot)));
  if (changes_shoe(own) && foot.side.placed.shoeing == measure::Shoeing::shod)
    line.caution = joined(line.caution, "Amounts of the shoe are differences to the one worn.");
  if (own.trim_heel_mm > 0 && !foot.side.placed.has("heel-wall-proximal"))
    line.caution = joined(line.caution,
                          "The heel's slope wasn't measured; it is taken to be 5\u00b0 flatter "
                          "than the toe's.");
  if (!changes_nothing(found.change))
    line.expected = expected_changes(foot, rule, found.change, draft.practice);
  for (const auto* limit : found.held_by)
    add_limit(foot, *limit, draft.plan);
  draft.plan.change = found.change;
  draft.plan.lines.push_back(std::move(line));
}

void note(const Rule& rule, Drafting& draft) {
  auto line = line_of(rule, draft.foot, draft.practice);
  line.what = measure::worded_for(draft.foot.limb, filled(rule.what, {}, draft.foot.facts->day));
  draft.plan.lines.push_back(std::move(line));
}

/// A foot that no rule speaks of is named all the same, so that nobody thinks it was forgotten.
record::ProposalLine nothing_proposed(const Foot& foot) {
  return {.rule = "nothing-proposed",
          .limb = foot.limb,
          .what = "Nothing is proposed for this foot.",
          .amount = "none",
          .why = "Nothing lies surely outside what this practice's rules ask for. That isn't the "
                 "same as normal: see what is held at zero and what to measure again.",
          .source = "The rules of this practice"};
}

std::string lock_words(const Rule& rule, const Foot& foot) {
  return said_of(foot,
                 rule,
                 joined(measure::worded_for(foot.limb, filled(rule.what, {}, foot.facts->day)),
                        joined(evidence(rule, foot), measure::worded_for(foot.limb, rule.why))));
}

} // namespace

Locks locks_of(const Foot& foot, const Practice& practice) {
  Locks locks;
  for (const auto& rule : practice.rules)
    if (rule.kind == RuleKind::lock && applies_to(rule, foot.limb) &&
        firing_of(rule, foot, 0).holds == Holds::yes) {
      locks.names.insert(rule.locks.begin(), rule.locks.end());
      locks.sentences.push_back(lock_words(rule, foot));
    }
  return locks;
}

std::vector<std::string>
refusals(const std::vector<Foot>& feet, measure::Limb limb, const Practice& practice) {
  const auto* foot = find(feet, limb);
  if (foot == nullptr)
    return {heading(limb) + ": no picture of this foot was read."};
  std::vector<std::string> all;
  for (std::size_t i = 0; i < feet.size(); ++i) {
    FootPlan draft;
    find_stops(feet[i], practice, i == 0 ? CaseRules::said_here : CaseRules::said_elsewhere, draft);
    for (const auto& each : draft.stops)
      add_once(all, each);
  }
  for (const auto* limit : broken_standing(*foot))
    add_once(all, heading(limb) + ": " + measure::worded_for(limb, limit->sentence));
  return all;
}

std::vector<record::ExpectedChange> worth_showing(const std::vector<Prediction>& predictions,
                                                  const std::vector<std::string>& aims) {
  std::vector<record::ExpectedChange> expected;
  for (const auto& each : predictions)
    if (is_worth_showing(each, aims))
      expected.push_back({.measurement = std::string(each.definition->id),
                          .before = each.before,
                          .after = each.after,
                          .uncertainty_of_change = each.uncertainty_of_change});
  return expected;
}

void find_stops(const Foot& foot, const Practice& practice, CaseRules case_rules, FootPlan& plan) {
  for (const auto& rule : practice.rules) {
    if (rule.kind != RuleKind::stop || !concerns(rule, foot, case_rules))
      continue;
    const auto firing = firing_of(rule, foot, 0);
    ask_again(foot, firing, plan);
    if (firing.holds == Holds::yes)
      plan.stops.push_back(
          said_of(foot,
                  rule,
                  joined(measure::worded_for(foot.limb, rule.what),
                         joined(evidence(rule, foot), measure::worded_for(foot.limb, rule.why)))));
  }
}

void find_lines(const Foot& foot, const Practice& practice, CaseRules case_rules, FootPlan& plan) {
  Drafting draft{.foot = foot, .practice = practice, .plan = plan};
  plan.change = {.limb = foot.limb};
  for (const auto* limit : broken_standing(foot))
    add_limit(foot, *limit, plan);
  auto locks = locks_of(foot, practice);
  draft.locked = std::move(locks.names);
  draft.findings = locks.sentences.size();
  for (const auto& sentence : locks.sentences)
    add_once(plan.locks, sentence);
  for (const auto& rule : practice.rules) {
    if (rule.kind == RuleKind::stop || rule.kind == RuleKind::lock ||
        !concerns(rule, foot, case_rules))
      continue;
    const auto firing = firing_of(rule, foot, draft.findings);
    if (rule.kind == RuleKind::propose)
      ask_again(foot, firing, plan);
    if (firing.holds != Holds::yes)
      continue;
    rule.kind == RuleKind::propose ? propose(rule, draft) : note(rule, draft);
    ++draft.findings;
  }
  if (plan.lines.empty())
    plan.lines.push_back(nothing_proposed(foot));
}

} // namespace pritchel::plan
