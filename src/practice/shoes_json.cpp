#include "practice/node.h"
#include "practice/parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace pritchel::practice {
namespace {

constexpr std::array<std::string_view, 7> amounts{"wedge_deg",
                                                  "breakover_back_mm",
                                                  "branch_longer_mm",
                                                  "extend_medial_mm",
                                                  "extend_lateral_mm",
                                                  "pad_mm",
                                                  "ml_wedge_deg"};
constexpr std::array<std::string_view, 4> bars{"none", "straight", "egg", "heart"};
constexpr std::array<std::string_view, 4> frog_supports{"none", "plate", "pad", "pour-in"};

Result<std::string> word_or_none(const Node& node, std::string_view field, const auto& list) {
  PRITCHEL_TRY(word, node.text_or(field, "none"));
  if (!is_in(list, word))
    return node.wrong(fmt::format(R"(has the {} "{}", which doesn't exist)", field, word),
                      fmt::format("choose from {}", fmt::join(list, ", ")));
  return word;
}

/// "[0, 10]": the least and the most.
Result<Span> span_of(const Node& node, std::string_view field) {
  PRITCHEL_TRY(ends, node.list(field));
  if (ends.size() != 2)
    return node.wrong(fmt::format(R"(has a "{}" that isn't two numbers)", field), "write [0, 10]");
  PRITCHEL_TRY(least, ends[0].number());
  PRITCHEL_TRY(most, ends[1].number());
  if (least < 0 || most < least)
    return node.wrong(fmt::format(R"(has a "{}" that isn't the least and the most)", field));
  return Span{least, most};
}

Result<Span> span_or_none(const Node& node, std::string_view field) {
  return node.has(field) ? span_of(node, field) : Span{};
}

Result<std::map<std::string, Span, std::less<>>> gives_of(const Node& shoe) {
  PRITCHEL_TRY(entries, shoe.entries("gives"));
  PRITCHEL_TRY(node, shoe.at("gives"));
  std::map<std::string, Span, std::less<>> gives;
  for (const auto& [name, ends] : entries) {
    if (!is_in(amounts, name))
      return ends.wrong("is no amount that a shoe gives",
                        fmt::format("choose from {}", fmt::join(amounts, ", ")));
    PRITCHEL_TRY(span, span_of(node, name));
    gives[name] = span;
  }
  return gives;
}

Result<ShoeKind> read_shoe(const Node& node, const Words& sources) {
  PRITCHEL_CHECK(node.only({"id",
                            "title",
                            "words",
                            "gives",
                            "web_mm",
                            "roll_rise_mm",
                            "bar",
                            "frog_support",
                            "only_with_vet",
                            "not_over_thin_sole",
                            "caution",
                            "source"}));
  PRITCHEL_TRY(id, node.text("id"));
  if (!is_id(id))
    return node.wrong(
        fmt::format(R"(has the id "{}", which isn't lower-case letters and hyphens)", id));
  PRITCHEL_TRY(title, node.text("title"));
  PRITCHEL_TRY(words, node.text("words"));
  PRITCHEL_TRY(gives, gives_of(node));
  PRITCHEL_TRY(web, span_or_none(node, "web_mm"));
  PRITCHEL_TRY(roll, span_or_none(node, "roll_rise_mm"));
  PRITCHEL_TRY(bar, word_or_none(node, "bar", bars));
  PRITCHEL_TRY(frog_support, word_or_none(node, "frog_support", frog_supports));
  PRITCHEL_TRY(only_with_vet, node.truth_or("only_with_vet", false));
  PRITCHEL_TRY(not_over_thin_sole, node.truth_or("not_over_thin_sole", false));
  PRITCHEL_TRY(caution, node.text("caution"));
  PRITCHEL_TRY(source, known_source(node, sources));
  return ShoeKind{.id = std::move(id),
                  .title = std::move(title),
                  .words = std::move(words),
                  .gives = std::move(gives),
                  .web_mm = web,
                  .roll_rise_mm = roll,
                  .bar = std::move(bar),
                  .frog_support = std::move(frog_support),
                  .only_with_vet = only_with_vet,
                  .not_over_thin_sole = not_over_thin_sole,
                  .caution = std::move(caution),
                  .source = std::move(source)};
}

} // namespace

Result<std::vector<ShoeKind>> read_shoes(const std::filesystem::path& file, const Words& sources) {
  if (!std::filesystem::exists(file))
    return std::vector<ShoeKind>{};
  PRITCHEL_TRY(json, read_document(file, "pritchel-shoes"));
  const Node node(json, file.string());
  PRITCHEL_CHECK(node.only({"format", "version", "about", "shoes"}));
  PRITCHEL_TRY(nodes, node.list("shoes"));
  std::vector<ShoeKind> shoes;
  for (const auto& each : nodes) {
    PRITCHEL_TRY(shoe, read_shoe(each, sources));
    if (std::any_of(
            shoes.begin(), shoes.end(), [&](const auto& known) { return known.id == shoe.id; }))
      return each.wrong(fmt::format(R"(is a second shoe with the id "{}")", shoe.id));
    shoes.push_back(std::move(shoe));
  }
  return shoes;
}

} // namespace pritchel::practice
