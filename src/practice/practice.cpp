#include "practice/practice.h"

#include "base/assert.h"
#include "base/words.h"
#include "measure/definitions.h"
#include "practice/parts.h"

#include <fmt/format.h>

#include <algorithm>

namespace pritchel::practice {
namespace {

constexpr pritchel::Words<Group, 3> groups{
    {{Group::main, "main"}, {Group::check, "check"}, {Group::more, "more"}}};
constexpr pritchel::Words<Snap, 4> snaps{
    {{Snap::none, "none"}, {Snap::edge, "edge"}, {Snap::line, "line"}, {Snap::circle, "circle"}}};

Result<void> check_definition_sources(const std::filesystem::path& file, const Words& sources) {
  for (const auto& definition : measure::definitions())
    if (!sources.contains(definition.source))
      return fail(file.string(),
                  fmt::format(R"(lacks the source "{}" of the measurement "{}")",
                              definition.source,
                              definition.id));
  return {};
}

} // namespace

bool is_id(std::string_view text) {
  const auto fits = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
  };
  return !text.empty() && text.front() != '-' && text.back() != '-' &&
         std::all_of(text.begin(), text.end(), fits);
}

Result<Practice> load_practice(const std::filesystem::path& templates) {
  const auto sources_file = templates / "sources.json";
  PRITCHEL_TRY(sources, read_sources(sources_file));
  PRITCHEL_CHECK(check_definition_sources(sources_file, sources));
  PRITCHEL_TRY(protocols, read_protocols(templates / "protocols"));
  PRITCHEL_TRY(bands, read_references(templates / "references", sources));
  PRITCHEL_TRY(rules, read_rules(templates / "rules" / "rules.json", sources));
  PRITCHEL_TRY(red_flags, read_red_flags(templates / "rules" / "red-flags.json", sources));
  PRITCHEL_TRY(aims, read_aims(templates / "aims" / "aims.json", sources));
  PRITCHEL_TRY(shoes, read_shoes(templates / "shoes" / "shoes.json", sources));
  PRITCHEL_TRY(words, read_words(templates / "words"));
  return Practice{.protocols = std::move(protocols),
                  .bands = std::move(bands),
                  .rules = std::move(rules),
                  .red_flags = std::move(red_flags),
                  .aims = std::move(aims),
                  .shoes = std::move(shoes),
                  .words = std::move(words),
                  .sources = std::move(sources)};
}

const Protocol&
protocol(const Practice& practice, measure::View view, measure::Limb limb, std::string_view id) {
  const auto rank = [&](const Protocol& each) {
    if (!id.empty() && each.id == id)
      return 0;
    if (each.view != view)
      return 3;
    return measure::are_for(each.legs, limb) ? 1 : 2;
  };
  const auto best =
      std::min_element(practice.protocols.begin(),
                       practice.protocols.end(),
                       [&](const auto& a, const auto& b) { return rank(a) < rank(b); });
  PRITCHEL_ASSERT(best != practice.protocols.end() && rank(*best) < 3);
  return *best;
}

const Protocol* protocol_by_id(const Practice& practice, std::string_view id) {
  const auto found = std::find_if(practice.protocols.begin(),
                                  practice.protocols.end(),
                                  [&](const auto& each) { return each.id == id; });
  return found == practice.protocols.end() ? nullptr : &*found;
}

const LandmarkGuide* guide(const Protocol& protocol, std::string_view landmark) {
  const auto found = std::find_if(protocol.landmarks.begin(),
                                  protocol.landmarks.end(),
                                  [&](const auto& each) { return each.id == landmark; });
  return found == protocol.landmarks.end() ? nullptr : &*found;
}

std::string
landmark_title(const Protocol& protocol, std::string_view landmark, measure::Limb limb) {
  const auto* known = guide(protocol, landmark);
  return known == nullptr ? std::string(landmark) : measure::worded_for(limb, known->title);
}

std::string spread_sentence(const Protocol& protocol) {
  int own = 0, fewest = 0;
  for (const auto& each : protocol.landmarks)
    if (each.own_repeats > 0) {
      fewest = own == 0 ? each.own_repeats : std::min(fewest, each.own_repeats);
      ++own;
    }
  if (own == 0)
    return "Placement spread: default estimates, not this practice's own.";
  return fmt::format("Placement spread: this practice's own for {} of {} points, from at least {} "
                     "repeats each; default estimates for the others.",
                     own,
                     protocol.landmarks.size(),
                     fewest);
}

measure::Spreads spreads(const Protocol& protocol) {
  measure::Spreads all;
  for (const auto& each : protocol.landmarks)
    all.emplace(each.id, each.spread);
  return all;
}

std::string_view key(Snap snap) {
  return word(snaps, snap);
}

std::optional<Snap> snap_from(std::string_view key) {
  return meaning(snaps, key);
}

std::string_view key(Group group) {
  return word(groups, group);
}
std::optional<Group> group_from(std::string_view key) {
  return meaning(groups, key);
}

} // namespace pritchel::practice
