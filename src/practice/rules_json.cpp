#include "measure/comparison.h"
#include "measure/definitions.h"
#include "practice/node.h"
#include "practice/parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace pritchel::practice {
namespace {

constexpr std::array<std::pair<std::string_view, RuleKind>, 4> kinds{
    {{"stop", RuleKind::stop},
     {"lock", RuleKind::lock},
     {"propose", RuleKind::propose},
     {"note", RuleKind::note}}};

constexpr std::array<std::pair<std::string_view, Comparison>, 4> comparisons{
    {{"surely-below", Comparison::surely_below},
     {"surely-above", Comparison::surely_above},
     {"maybe-below", Comparison::maybe_below},
     {"maybe-above", Comparison::maybe_above}}};

template <class Enum, std::size_t N>
Result<Enum> word_of(const Node& node,
                     std::string_view field,
                     const std::array<std::pair<std::string_view, Enum>, N>& words) {
  PRITCHEL_TRY(word, node.text(field));
  std::string choices;
  for (const auto& [known, value] : words) {
    if (known == word)
      return value;
    choices += (choices.empty() ? "" : ", ") + std::string(known);
  }
  return node.wrong(fmt::format(R"(has the {} "{}", which doesn't exist)", field, word),
                    "choose from " + choices);
}

/// A measurement that exists, and in the rule's view.
Result<void> check_plain_measurement(const Node& node, std::string_view id, const Rule& rule) {
  const auto* definition = measure::definition(id);
  if (definition == nullptr)
    return node.wrong(fmt::format(R"(speaks of "{}", a measurement that doesn't exist)", id));
  if (key(definition->view) != rule.view)
    return node.wrong(fmt::format(R"(speaks of "{}", which is measured in the {} view)",
                                  id,
                                  key(definition->view)),
                      R"(the rule's "view" says otherwise)");
  return {};
}

bool is_taken_hanging(std::string_view id) {
  const auto pairs = measure::comparisons();
  return std::any_of(
      pairs.begin(), pairs.end(), [&](const auto& each) { return each.first == id; });
}

bool is_offset_from_middle(std::string_view id) {
  return id == "foot-axis-offset" || id == "foot-centre-offset";
}

bool may_follow(std::string_view suffix, std::string_view measurement) {
  if (suffix == "gone-hanging")
    return is_taken_hanging(measurement);
  if (suffix == "against-base")
    return is_offset_from_middle(measurement);
  return is_in(measurement_suffixes, suffix);
}

/// A measurement with what may follow it (rule.h).
Result<void> check_measurement(const Node& node, std::string_view id, const Rule& rule) {
  auto point = id.find('.');
  const auto plain = id.substr(0, point);
  PRITCHEL_CHECK(check_plain_measurement(node, plain, rule));
  while (point != std::string_view::npos) {
    id.remove_prefix(point + 1);
    point = id.find('.');
    const auto suffix = id.substr(0, point);
    if (suffix.substr(0, less_measurement.size()) == less_measurement)
      PRITCHEL_CHECK(check_plain_measurement(node, suffix.substr(less_measurement.size()), rule));
    else if (!may_follow(suffix, plain))
      return node.wrong(
          fmt::format(R"(has ".{}" behind "{}", which means nothing)", suffix, plain));
  }
  return {};
}

Result<Condition> condition_from(const Node& node, const Rule& rule) {
  PRITCHEL_CHECK(node.only({"measurement", "comparison", "limit"}));
  PRITCHEL_TRY(id, node.text("measurement"));
  PRITCHEL_TRY(comparison, word_of(node, "comparison", comparisons));
  PRITCHEL_TRY(limit, node.number("limit"));
  if (!is_in(case_facts, id))
    PRITCHEL_CHECK(check_measurement(node, id, rule));
  return Condition{.measurement = std::move(id), .comparison = comparison, .limit = limit};
}

Result<std::vector<std::string>> fields_of(const Node& node, std::string_view field) {
  PRITCHEL_TRY(names, node.texts_or_none(field));
  for (const auto& name : names)
    if (!is_in(change_fields, name))
      return node.wrong(
          fmt::format(R"(names "{}" under "{}", a change that doesn't exist)", name, field));
  return names;
}

Result<void> read_aim(const Node& node, Rule& rule) {
  PRITCHEL_TRY(aim, node.text_or("aim_measurement", ""));
  if (!aim.empty())
    PRITCHEL_CHECK(check_measurement(node, aim, rule));
  rule.aim_measurement = std::move(aim);
  if (node.has("aim_low")) {
    PRITCHEL_TRY(low, node.number("aim_low"));
    rule.aim_low = low;
  }
  if (node.has("aim_high")) {
    PRITCHEL_TRY(high, node.number("aim_high"));
    rule.aim_high = high;
  }
  if (rule.aim_low && rule.aim_high && *rule.aim_low > *rule.aim_high)
    return node.wrong(R"(has an "aim_low" above its "aim_high")");
  return {};
}

Result<void> read_changes(const Node& node, Rule& rule) {
  PRITCHEL_TRY(locks, fields_of(node, "locks"));
  PRITCHEL_TRY(variables, fields_of(node, "variables"));
  rule.locks = std::move(locks);
  rule.variables = std::move(variables);
  PRITCHEL_CHECK(read_aim(node, rule));
  if ((rule.kind == RuleKind::lock) == rule.locks.empty())
    return node.wrong(R"(must have "locks" if its kind is lock, and else none)");
  const bool aims = !rule.aim_measurement.empty() && (rule.aim_low || rule.aim_high);
  if ((rule.kind == RuleKind::propose) != (aims && !rule.variables.empty()))
    return node.wrong(R"(must have "variables" and an aim if its kind is propose, and else none)");
  return {};
}

Result<void> read_words(const Node& node, const Words& sources, Rule& rule) {
  PRITCHEL_TRY(what, node.text("what"));
  PRITCHEL_TRY(why, node.text("why"));
  PRITCHEL_TRY(caution, node.text_or("caution", ""));
  PRITCHEL_TRY(watch, node.text_or("watch", ""));
  PRITCHEL_TRY(source, known_source(node, sources));
  rule.what = std::move(what);
  rule.why = std::move(why);
  rule.caution = std::move(caution);
  rule.watch = std::move(watch);
  rule.source = std::move(source);
  return {};
}

Result<void> read_view(const Node& node, Rule& rule) {
  PRITCHEL_TRY(view, node.text_or("view", ""));
  if (!view.empty() && !measure::view_from(view))
    return node.wrong(fmt::format(R"(has the view "{}", which doesn't exist)", view),
                      "write lateromedial, dorsopalmar or the view of a photo, or leave it out");
  PRITCHEL_TRY(fore, node.truth_or("for_fore", true));
  PRITCHEL_TRY(hind, node.truth_or("for_hind", true));
  if (!fore && !hind)
    return node.wrong("is for neither fore nor hind limbs");
  rule.view = std::move(view);
  rule.for_fore = fore;
  rule.for_hind = hind;
  return {};
}

Result<Rule> rule_from(const Node& node, const Words& sources) {
  PRITCHEL_CHECK(node.only({"id",
                            "kind",
                            "view",
                            "for_fore",
                            "for_hind",
                            "when",
                            "locks",
                            "variables",
                            "aim_measurement",
                            "aim_low",
                            "aim_high",
                            "what",
                            "why",
                            "caution",
                            "watch",
                            "source"}));
  Rule rule;
  PRITCHEL_TRY(id, node.text("id"));
  if (!is_id(id))
    return node.wrong(R"(has an "id" that isn't one)",
                      "use lower-case letters, digits and hyphens");
  rule.id = std::move(id);
  PRITCHEL_TRY(kind, word_of(node, "kind", kinds));
  rule.kind = kind;
  PRITCHEL_CHECK(read_view(node, rule));
  PRITCHEL_TRY(conditions, node.list("when"));
  for (const auto& each : conditions) {
    PRITCHEL_TRY(condition, condition_from(each, rule));
    rule.when.push_back(std::move(condition));
  }
  if (rule.when.empty())
    return node.wrong(R"(has an empty "when")", "a rule that always holds is a text: see words/");
  PRITCHEL_CHECK(read_changes(node, rule));
  PRITCHEL_CHECK(read_words(node, sources, rule));
  return rule;
}

template <class T> bool has_id(const std::vector<T>& all, std::string_view id) {
  return std::any_of(all.begin(), all.end(), [&](const auto& each) { return each.id == id; });
}

Result<RedFlag> red_flag_from(const Node& node) {
  PRITCHEL_CHECK(node.only({"id", "words"}));
  PRITCHEL_TRY(id, node.text("id"));
  if (!is_id(id))
    return node.wrong(R"(has an "id" that isn't one)",
                      "use lower-case letters, digits and hyphens");
  PRITCHEL_TRY(words, node.text("words"));
  return RedFlag{.id = std::move(id), .words = std::move(words)};
}

} // namespace

Result<std::vector<Rule>> read_rules(const std::filesystem::path& file, const Words& sources) {
  std::vector<Rule> rules;
  if (!std::filesystem::exists(file))
    return rules;
  PRITCHEL_TRY(json, read_document(file, "pritchel-rules"));
  const Node node(json, file.string());
  PRITCHEL_CHECK(node.only({"format", "version", "about", "rules"}));
  PRITCHEL_TRY(nodes, node.list("rules"));
  for (const auto& each : nodes) {
    PRITCHEL_TRY(rule, rule_from(each, sources));
    if (has_id(rules, rule.id))
      return each.wrong(fmt::format(R"(repeats the rule "{}")", rule.id));
    rules.push_back(std::move(rule));
  }
  return rules;
}

Result<std::vector<RedFlag>> read_red_flags(const std::filesystem::path& file,
                                            const Words& sources) {
  PRITCHEL_TRY(json, read_document(file, "pritchel-red-flags"));
  const Node node(json, file.string());
  PRITCHEL_CHECK(node.only({"format", "version", "about", "source", "red_flags"}));
  PRITCHEL_CHECK(known_source(node, sources));
  PRITCHEL_TRY(nodes, node.list("red_flags"));
  std::vector<RedFlag> flags;
  for (const auto& each : nodes) {
    PRITCHEL_TRY(flag, red_flag_from(each));
    if (has_id(flags, flag.id))
      return each.wrong(fmt::format(R"(repeats the red flag "{}")", flag.id));
    flags.push_back(std::move(flag));
  }
  return flags;
}

} // namespace pritchel::practice
