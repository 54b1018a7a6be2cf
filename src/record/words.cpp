#include "record/words.h"

#include "base/words.h"

namespace pritchel::record {
namespace {

using measure::Placement;
using measure::SidesChecked;
using ScaleKind = imaging::ScaleStatement::Kind;

constexpr Words<PictureSide, 2> sides{{{PictureSide::left, "left"}, {PictureSide::right, "right"}}};
constexpr Words<Placement, 5> placements{{{Placement::by_hand, "by-hand"},
                                          {Placement::suggested, "suggested"},
                                          {Placement::confirmed, "confirmed"},
                                          {Placement::snapped, "snapped"},
                                          {Placement::on_dot, "on-dot"}}};
constexpr Words<SidesChecked, 2> checks{
    {{SidesChecked::no, "no"}, {SidesChecked::by_person, "by-person"}}};
constexpr Words<ScaleKind, 9> scale_kinds{{{ScaleKind::automatic, "automatic"},
                                           {ScaleKind::card, "card"},
                                           {ScaleKind::ball, "ball"},
                                           {ScaleKind::marker, "marker"},
                                           {ScaleKind::magnification, "magnification"},
                                           {ScaleKind::distances, "distances"},
                                           {ScaleKind::header, "header"},
                                           {ScaleKind::detector_only, "detector-only"},
                                           {ScaleKind::none, "none"}}};
constexpr Words<Species, 4> all_species{{{Species::horse, "horse"},
                                         {Species::pony, "pony"},
                                         {Species::donkey, "donkey"},
                                         {Species::draught, "draught"}}};
constexpr Words<Laminitis, 4> laminitis_words{{{Laminitis::not_stated, "not-stated"},
                                               {Laminitis::no, "no"},
                                               {Laminitis::suspected, "suspected"},
                                               {Laminitis::known, "known"}}};
constexpr Words<VetHasSeen, 3> seen_words{
    {{VetHasSeen::not_stated, "not-stated"}, {VetHasSeen::no, "no"}, {VetHasSeen::yes, "yes"}}};
constexpr Words<Sight, 2> sights{{{Sight::open, "open"}, {Sight::blind, "blind"}}};
constexpr Words<Means, 3> all_means{
    {{Means::trim, "trim"}, {Means::shoe, "shoe"}, {Means::both, "both"}}};
constexpr Words<Means, 3> means_for_people{
    {{Means::trim, "trim only"}, {Means::shoe, "shoe only"}, {Means::both, "trim and shoe"}}};
constexpr Words<Decision, 4> decisions{{{Decision::open, "open"},
                                        {Decision::accept, "accept"},
                                        {Decision::amend, "amend"},
                                        {Decision::decline, "decline"}}};
using CardStood = imaging::ScaleStatement::CardStood;
constexpr Words<CardStood, 2> card_stances{
    {{CardStood::by_eye, "by-eye"}, {CardStood::along_a_board, "along-a-board"}}};
constexpr Words<Bar, 4> bars{
    {{Bar::none, "none"}, {Bar::straight, "straight"}, {Bar::egg, "egg"}, {Bar::heart, "heart"}}};
constexpr Words<FrogSupport, 4> frog_supports{{{FrogSupport::none, "none"},
                                               {FrogSupport::plate, "plate"},
                                               {FrogSupport::pad, "pad"},
                                               {FrogSupport::pour_in, "pour-in"}}};

} // namespace

std::string_view key(PictureSide side) {
  return word(sides, side);
}
std::string_view key(Placement how) {
  return word(placements, how);
}
std::string_view key(SidesChecked checked) {
  return word(checks, checked);
}
std::string_view key(ScaleKind kind) {
  return word(scale_kinds, kind);
}
std::string_view key(Species species) {
  return word(all_species, species);
}
std::string_view key(Laminitis laminitis) {
  return word(laminitis_words, laminitis);
}
std::string_view key(VetHasSeen seen) {
  return word(seen_words, seen);
}
std::string_view key(Sight sight) {
  return word(sights, sight);
}
std::string_view key(Means means) {
  return word(all_means, means);
}
std::string_view way_words(Means means) {
  return word(means_for_people, means);
}
std::string_view key(Decision decision) {
  return word(decisions, decision);
}
std::string_view key(imaging::ScaleStatement::CardStood stood) {
  return word(card_stances, stood);
}
std::string_view key(Bar bar) {
  return word(bars, bar);
}
std::string_view key(FrogSupport support) {
  return word(frog_supports, support);
}
std::optional<PictureSide> side_from(std::string_view key) {
  return meaning(sides, key);
}
std::optional<Placement> placement_from(std::string_view key) {
  return meaning(placements, key);
}
std::optional<SidesChecked> sides_checked_from(std::string_view key) {
  return meaning(checks, key);
}
std::optional<ScaleKind> scale_kind_from(std::string_view key) {
  return meaning(scale_kinds, key);
}
std::optional<Species> species_from(std::string_view key) {
  return meaning(all_species, key);
}
std::optional<Laminitis> laminitis_from(std::string_view key) {
  return meaning(laminitis_words, key);
}
std::optional<VetHasSeen> vet_has_seen_from(std::string_view key) {
  return meaning(seen_words, key);
}
std::optional<Decision> decision_from(std::string_view key) {
  return meaning(decisions, key);
}
std::optional<imaging::ScaleStatement::CardStood> card_stood_from(std::string_view key) {
  return meaning(card_stances, key);
}
std::optional<Bar> bar_from(std::string_view key) {
  return meaning(bars, key);
}
std::optional<FrogSupport> frog_support_from(std::string_view key) {
  return meaning(frog_supports, key);
}
std::optional<Means> means_from(std::string_view key) {
  return meaning(all_means, key);
}
std::optional<Sight> sight_from(std::string_view key) {
  return meaning(sights, key);
}

} // namespace pritchel::record
