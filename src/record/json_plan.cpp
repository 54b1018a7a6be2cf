#include "record/json.h"
#include "record/json_parts.h"
#include "record/words.h"

#include <fmt/format.h>

#include <array>
#include <utility>

namespace pritchel::record {
namespace {

using nlohmann::json;

constexpr std::size_t most_lines = 200;
/// No foot is changed by more than this, mm or degrees.
constexpr Range change_range{-100, 100};
constexpr Range measured_range{-10'000, 10'000};
constexpr int most_versions = 100'000;
constexpr int most_revisions = 1'000'000'000;

constexpr std::array<std::pair<std::string_view, double FootChange::*>, 15> change_fields{
    {{"trim_toe_mm", &FootChange::trim_toe_mm},
     {"trim_heel_mm", &FootChange::trim_heel_mm},
     {"dress_toe_mm", &FootChange::dress_toe_mm},
     {"trim_medial_mm", &FootChange::trim_medial_mm},
     {"trim_lateral_mm", &FootChange::trim_lateral_mm},
     {"shoe_thickness_mm", &FootChange::shoe_thickness_mm},
     {"wedge_deg", &FootChange::wedge_deg},
     {"breakover_back_mm", &FootChange::breakover_back_mm},
     {"branch_longer_mm", &FootChange::branch_longer_mm},
     {"extend_medial_mm", &FootChange::extend_medial_mm},
     {"extend_lateral_mm", &FootChange::extend_lateral_mm},
     {"dress_medial_mm", &FootChange::dress_medial_mm},
     {"dress_lateral_mm", &FootChange::dress_lateral_mm},
     {"pad_mm", &FootChange::pad_mm},
     {"ml_wedge_deg", &FootChange::ml_wedge_deg}}};

constexpr std::array<std::pair<std::string_view, std::string ProposalLine::*>, 8> line_texts{
    {{"rule", &ProposalLine::rule},
     {"what", &ProposalLine::what},
     {"amount", &ProposalLine::amount},
     {"why", &ProposalLine::why},
     {"caution", &ProposalLine::caution},
     {"watch", &ProposalLine::watch},
     {"source", &ProposalLine::source},
     {"note", &ProposalLine::note}}};

ShoeFacts shoe_at(const Node& node) {
  return {.kind = node["kind"].text(),
          .bar = node["bar"].word(&bar_from, bar_words, Bar::none),
          .frog_support =
              node["frog_support"].word(&frog_support_from, frog_support_words, FrogSupport::none),
          .web_mm = node["web_mm"].number({0, change_range.high}),
          .roll_rise_mm = node["roll_rise_mm"].number({0, change_range.high})};
}

json change_json(const FootChange& change) {
  json value{{"limb", measure::key(change.limb)}};
  for (const auto& [field, member] : change_fields)
    value[std::string(field)] = change.*member;
  value["shoe"] = to_json(change.shoe);
  return value;
}

FootChange change_at(const Node& node) {
  FootChange change;
  change.limb = node.need("limb").word(&measure::limb_from, limb_words, change.limb);
  for (const auto& [field, member] : change_fields)
    change.*member = node[field].number(change_range);
  change.shoe = shoe_at(node["shoe"]);
  return change;
}

json expected_json(const ExpectedChange& expected) {
  return {{"measurement", expected.measurement},
          {"before", expected.before},
          {"after", expected.after},
          {"uncertainty_of_change", expected.uncertainty_of_change}};
}

ExpectedChange expected_at(const Node& node) {
  return {.measurement = node.need("measurement").text(),
          .before = node.need("before").number(measured_range),
          .after = node.need("after").number(measured_range),
          .uncertainty_of_change = node["uncertainty_of_change"].number({0, measured_range.high})};
}

json line_json(const ProposalLine& line) {
  json value{{"limb", measure::key(line.limb)}, {"decision", key(line.decision)}};
  for (const auto& [field, member] : line_texts)
    value[std::string(field)] = line.*member;
  value["expected"] = json::array();
  for (const auto& each : line.expected)
    value["expected"].push_back(expected_json(each));
  return value;
}

Decision decision_at(const Node& node) {
  return node.word(&decision_from, decision_words, Decision::open);
}

ProposalLine line_at(const Node& node) {
  ProposalLine line;
  line.limb = node.need("limb").word(&measure::limb_from, limb_words, line.limb);
  for (const auto& [field, member] : line_texts)
    line.*member = node[field].text();
  node["expected"].each(most_lines,
                        [&](const Node& each) { line.expected.push_back(expected_at(each)); });
  line.decision = decision_at(node["decision"]);
  return line;
}

constexpr std::string_view means_words = "trim, shoe or both";
constexpr std::size_t most_aims = 20;

json known_json(const Known& value) {
  return value ? json(*value) : json(nullptr);
}

json aim_json(const Aim& aim) {
  return {{"measurement", aim.measurement},
          {"low", known_json(aim.low)},
          {"high", known_json(aim.high)},
          {"counts_as_one", aim.counts_as_one},
          {"source", aim.source}};
}

Aim aim_at(const Node& node) {
  Aim aim{.measurement = node.need("measurement").text(),
          .low = node["low"].known_number(measured_range),
          .high = node["high"].known_number(measured_range),
          .counts_as_one = node.need("counts_as_one").number({1e-6, measured_range.high}),
          .source = node["source"].text()};
  if (!aim.low && !aim.high)
    node.complain("needs a low or a high end");
  else if (aim.low && aim.high && *aim.low > *aim.high)
    node.complain("has a low end above its high one");
  return aim;
}

std::vector<Aim> aims_at(const Node& node) {
  std::vector<Aim> aims;
  node.each(most_aims, [&](const Node& each) { aims.push_back(aim_at(each)); });
  return aims;
}

json taken_json(const TakenWay& taken) {
  json aims = json::array();
  for (const auto& each : taken.aims)
    aims.push_back(aim_json(each));
  return {{"limb", measure::key(taken.limb)},
          {"means", key(taken.means)},
          {"aims", aims},
          {"reached", taken.reached},
          {"in_the_way", taken.in_the_way},
          {"later", taken.later}};
}

std::vector<std::string> texts_at(const Node& node) {
  std::vector<std::string> texts;
  node.each(most_lines, [&](const Node& each) { texts.push_back(each.text()); });
  return texts;
}

TakenWay taken_at(const Node& node) {
  TakenWay taken;
  taken.limb = node.need("limb").word(&measure::limb_from, limb_words, taken.limb);
  taken.means = node.need("means").word(&means_from, means_words, taken.means);
  taken.aims = aims_at(node["aims"]);
  taken.reached = node["reached"].flag();
  taken.in_the_way = texts_at(node["in_the_way"]);
  taken.later = texts_at(node["later"]);
  return taken;
}

json by_hand_json(const SetByHand& set) {
  return {{"limb", measure::key(set.limb)}, {"by", set.by}};
}

SetByHand by_hand_at(const Node& node) {
  SetByHand set;
  set.limb = node.need("limb").word(&measure::limb_from, limb_words, set.limb);
  set.by = node["by"].text();
  return set;
}

json sign_off_json(const SignOff& sign_off) {
  return {{"name", sign_off.name},
          {"registration", sign_off.registration},
          {"date", sign_off.date},
          {"note", sign_off.note}};
}

SignOff sign_off_at(const Node& node) {
  return {.name = node.need("name").text(),
          .registration = node.need("registration").text(),
          .date = node.need("date").date(),
          .note = node["note"].text()};
}

Plan plan_at(const Node& node) {
  Plan plan;
  plan.visit = node.need("visit").id();
  plan.version = node.need("version").integer(0, most_versions);
  plan.revision = node["revision"].integer(0, most_revisions);
  plan.made = node["made"].moment();
  plan.made_by = node["made_by"].text();
  node["changes"].each(most_lines,
                       [&](const Node& each) { plan.changes.push_back(change_at(each)); });
  node["lines"].each(most_lines, [&](const Node& each) { plan.lines.push_back(line_at(each)); });
  plan.stops = texts_at(node["stops"]);
  plan.locks = texts_at(node["locks"]);
  plan.remeasure = texts_at(node["remeasure"]);
  node["taken"].each(most_lines, [&](const Node& each) { plan.taken.push_back(taken_at(each)); });
  node["by_hand"].each(most_lines,
                       [&](const Node& each) { plan.by_hand.push_back(by_hand_at(each)); });
  if (node["sign_off"].is_there())
    plan.sign_off = sign_off_at(node["sign_off"]);
  return plan;
}

void read_decisions(const Node& node, Plan& plan) {
  std::size_t at = 0;
  node.each(most_lines, [&](const Node& each) {
    if (at < plan.lines.size()) {
      plan.lines[at].decision = decision_at(each.need("decision"));
      plan.lines[at].note = each["note"].text();
    }
    ++at;
  });
  if (at != plan.lines.size())
    node.complain(
        fmt::format("must hold one entry for each of the plan's {} lines", plan.lines.size()),
        fmt::format("it holds {}", at));
}

} // namespace

json to_json(const ShoeFacts& shoe) {
  return {{"kind", shoe.kind},
          {"bar", key(shoe.bar)},
          {"frog_support", key(shoe.frog_support)},
          {"web_mm", shoe.web_mm},
          {"roll_rise_mm", shoe.roll_rise_mm}};
}

json to_json(const Plan& value) {
  json changes = json::array();
  for (const auto& each : value.changes)
    changes.push_back(change_json(each));
  json lines = json::array();
  for (const auto& each : value.lines)
    lines.push_back(line_json(each));
  json taken = json::array();
  for (const auto& each : value.taken)
    taken.push_back(taken_json(each));
  json by_hand = json::array();
  for (const auto& each : value.by_hand)
    by_hand.push_back(by_hand_json(each));
  return {{"visit", value.visit},
          {"version", value.version},
          {"revision", value.revision},
          {"made", value.made},
          {"made_by", value.made_by},
          {"changes", changes},
          {"lines", lines},
          {"stops", value.stops},
          {"locks", value.locks},
          {"remeasure", value.remeasure},
          {"taken", taken},
          {"by_hand", by_hand},
          {"sign_off", value.sign_off ? sign_off_json(*value.sign_off) : json(nullptr)}};
}

Result<Plan> plan_from(const json& value) {
  return read_document(value, &plan_at);
}

Result<Plan> plan_with_decisions(Plan known, const json& decisions) {
  return read_document(decisions, [&](const Node& node) {
    auto plan = known;
    plan.revision = node["revision"].integer(0, most_revisions);
    read_decisions(node.need("lines"), plan);
    return plan;
  });
}

Result<AskedFit> asked_fit_from(const json& value) {
  return read_document(value, [](const Node& node) {
    AskedFit asked;
    asked.limb = node.need("limb").word(&measure::limb_from, limb_words, asked.limb);
    asked.aims = aims_at(node.need("aims"));
    asked.means = node["means"].word(&means_from, means_words, asked.means);
    return asked;
  });
}

Result<AskedTry> asked_try_from(const json& value) {
  return read_document(value, [](const Node& node) {
    return AskedTry{.wished = change_at(node.need("change")),
                    .moved = node["moved"].text(),
                    .weeks = node["weeks"].flag(),
                    .from_plan = node["from_plan"].flag()};
  });
}

Result<SignOff> sign_off_from(const json& value) {
  return read_document(value, &sign_off_at);
}

Result<int> plan_version_from(const json& value) {
  return read_document(
      value, [](const Node& node) { return node.need("version").integer(1, most_versions); });
}

Result<int> plan_revision_from(const json& value) {
  return read_document(
      value, [](const Node& node) { return node["revision"].integer(0, most_revisions); });
}

Result<std::string> made_by_from(const json& value) {
  return read_document(value, [](const Node& node) { return node["made_by"].text(); });
}

} // namespace pritchel::record
