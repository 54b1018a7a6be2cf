#include "plan/shoes.h"

#include "base/words.h"
#include "plan/limit_tests.h"
#include "plan/variables.h"
#include "plan/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace pritchel::plan {
namespace {

using practice::Practice;
using practice::ShoeKind;
using record::Bar;
using record::FootChange;
using record::FrogSupport;

constexpr Words<Bar, 4> bar_words{{{Bar::none, ""},
                                   {Bar::straight, "straight bar"},
                                   {Bar::egg, "egg bar"},
                                   {Bar::heart, "heart bar"}}};
constexpr Words<FrogSupport, 4> frog_words{{{FrogSupport::none, ""},
                                            {FrogSupport::plate, "plate on the frog"},
                                            {FrogSupport::pad, "pad on the frog"},
                                            {FrogSupport::pour_in, "frog and sole poured in"}}};

/// Every kind is made in any thickness.
bool is_given_by_shoe(const Variable& variable) {
  return variable.field != &FootChange::shoe_thickness_mm &&
         std::find(shoe_amounts.begin(), shoe_amounts.end(), variable.field) != shoe_amounts.end();
}

/// What the change asks of the shoe.
FootChange shoe_part(const FootChange& change) {
  FootChange part{.limb = change.limb};
  for (const auto field : shoe_amounts)
    part.*field = change.*field;
  return part;
}

bool is_shod(const Foot& foot) {
  const auto& seen = foot.side.dated != nullptr ? foot.side : foot.front;
  return seen.placed.shoeing == measure::Shoeing::shod;
}

practice::Span given(const ShoeKind& kind, const Variable& variable) {
  const auto at = kind.gives.find(variable.name);
  return at == kind.gives.end() ? practice::Span{} : at->second;
}

std::string in_unit(double value, const Variable& variable) {
  return amount_for_people(value) + (variable.name.ends_with("_deg") ? "\u00b0" : " mm");
}

std::string list_of(const std::vector<std::string>& phrases, std::string_view between) {
  return fmt::format("{}", fmt::join(phrases, between));
}

void add_if_said(std::vector<std::string>& phrases, std::string_view phrase) {
  if (!phrase.empty())
    phrases.emplace_back(phrase);
}

/// Bar, web and the rest as they were set: "egg bar, web 24 mm".
std::vector<std::string> facts_words(const record::ShoeFacts& shoe) {
  std::vector<std::string> phrases;
  add_if_said(phrases, word(bar_words, shoe.bar));
  add_if_said(phrases, word(frog_words, shoe.frog_support));
  if (shoe.web_mm > 0)
    phrases.push_back(fmt::format("web {} mm at the toe", amount_for_people(shoe.web_mm)));
  if (shoe.roll_rise_mm > 0)
    phrases.push_back(fmt::format("toe rolled up by {} mm", amount_for_people(shoe.roll_rise_mm)));
  return phrases;
}

record::ProposalLine line_on(const Foot& foot, const FootChange& change) {
  const auto asked = shoe_part(change);
  record::ProposalLine line{.rule = "shoe", .limb = foot.limb, .amount = amounts_for_people(asked)};
  line.why = line.amount == "none"
                 ? std::string("Chosen by a person; it moves no number of this plan.")
                 : fmt::format("What the lines of this foot ask of the shoe: {}.", line.amount);
  line.watch = "The smith checks fit and section on the trimmed foot.";
  line.source = "This practice's list of shoes. Common practice, no source";
  return line;
}

record::ProposalLine
line_on_chosen(const Foot& foot, const Practice& practice, const FootChange& change) {
  auto line = line_on(foot, change);
  auto phrases = facts_words(change.shoe);
  const auto* kind = shoe_kind(practice, change.shoe.kind);
  if (kind != nullptr)
    phrases.insert(phrases.begin(), kind->title);
  line.what = "Shoe: " + list_of(phrases, ", ") + ".";
  if (kind == nullptr)
    return line;
  line.what = joined(line.what, kind->words);
  line.caution = kind->caution;
  if (const auto lacking = not_given(foot, *kind, change); !lacking.empty())
    line.caution = joined(
        line.caution,
        fmt::format("As listed it doesn't give all that is asked: {}.", list_of(lacking, "; ")));
  return line;
}

record::ProposalLine line_on_fitting(const Foot& foot,
                                     const FootChange& change,
                                     const std::vector<const ShoeKind*>& fitting) {
  constexpr std::size_t most_named = 2;
  auto line = line_on(foot, change);
  if (fitting.empty()) {
    line.what = "Shoe: none of this practice's list does all of this; made to order.";
    return line;
  }
  std::vector<std::string> titles;
  for (std::size_t i = 0; i < std::min(fitting.size(), most_named); ++i) {
    titles.push_back(fitting[i]->title);
    line.caution =
        joined(line.caution, fmt::format("{}: {}", fitting[i]->title, fitting[i]->caution));
  }
  line.what = "Shoe that does this: " + list_of(titles, "; or ") + ".";
  return line;
}

} // namespace

const ShoeKind* shoe_kind(const Practice& practice, std::string_view id) {
  const auto at = std::find_if(practice.shoes.begin(), practice.shoes.end(), [&](const auto& each) {
    return each.id == id;
  });
  return at == practice.shoes.end() ? nullptr : &*at;
}

std::vector<std::string>
not_given(const Foot& foot, const ShoeKind& kind, const FootChange& change) {
  std::vector<std::string> phrases;
  if (is_shod(foot))
    return phrases;
  for (const auto& each : variables()) {
    const auto [least, most] = given(kind, each);
    const double asked = change.*each.field;
    if (!is_given_by_shoe(each) || (asked >= least && asked <= most))
      continue;
    const auto gives =
        most == 0 ? std::string("it gives none")
                  : fmt::format("it gives {} to {}", amount_for_people(least), in_unit(most, each));
    phrases.push_back(fmt::format(
        "{} ({})", fmt::format(fmt::runtime(each.amount), amount_for_people(asked)), gives));
  }
  return phrases;
}

std::string refused_shoe(const Foot& foot, const ShoeKind& kind) {
  if (kind.only_with_vet && !foot.facts->diagnosed)
    return kind.title + ": only with a named vet's diagnosis.";
  const FootChange nothing{.limb = foot.limb};
  if (kind.not_over_thin_sole && limit::sole_is_locked(trial_of(foot, nothing)))
    return kind.title + ": not over a sole that may be thinner than 15 mm.";
  return {};
}

std::string take_out_refused_shoe(const Foot& foot, const Practice& practice, FootChange& change) {
  const auto* kind = shoe_kind(practice, change.shoe.kind);
  auto refused = kind == nullptr ? std::string() : refused_shoe(foot, *kind);
  if (!refused.empty())
    change.shoe = {};
  return refused;
}

std::vector<const ShoeKind*>
shoes_for(const Foot& foot, const Practice& practice, const FootChange& change) {
  std::vector<const ShoeKind*> fitting;
  if (!changes_shoe(change) || is_shod(foot))
    return fitting;
  for (const auto& each : practice.shoes)
    if (not_given(foot, each, change).empty() && refused_shoe(foot, each).empty())
      fitting.push_back(&each);
  return fitting;
}

std::optional<record::ProposalLine>
shoe_line(const Foot& foot, const Practice& practice, const FootChange& change) {
  if (change.shoe != record::ShoeFacts{})
    return line_on_chosen(foot, practice, change);
  if (practice.shoes.empty() || !changes_shoe(change) || is_shod(foot))
    return std::nullopt;
  return line_on_fitting(foot, change, shoes_for(foot, practice, change));
}

} // namespace pritchel::plan
