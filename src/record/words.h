/// The words by which enumerations travel in JSON; those of view, limb, shoeing and loading are in
/// measure/view.h. One table each; nothing else spells them.
#pragma once

#include "geometry/calibration.h"
#include "imaging/scale.h"
#include "measure/reading.h"
#include "record/case.h"

#include <optional>
#include <string_view>

namespace pritchel::record {

/// "left", "right"
[[nodiscard]] std::string_view key(PictureSide side);
/// "by-hand", "suggested", "confirmed", "snapped", "on-dot"
[[nodiscard]] std::string_view key(measure::Placement how);
/// "no", "by-person"
[[nodiscard]] std::string_view key(measure::SidesChecked checked);
/// "automatic", "marker", "magnification", "distances", "header", "detector-only", "none"
[[nodiscard]] std::string_view key(imaging::ScaleStatement::Kind kind);
/// "horse", "pony", "donkey", "draught"
[[nodiscard]] std::string_view key(Species species);
/// "not-stated", "no", "suspected", "known"
[[nodiscard]] std::string_view key(Laminitis laminitis);
/// "not-stated", "no", "yes"
[[nodiscard]] std::string_view key(VetHasSeen seen);
/// "open", "accept", "amend", "decline"
[[nodiscard]] std::string_view key(Decision decision);
/// "by-eye", "along-a-board"
[[nodiscard]] std::string_view key(imaging::ScaleStatement::CardStood stood);
/// "none", "straight", "egg", "heart"
[[nodiscard]] std::string_view key(Bar bar);
/// "none", "plate", "pad", "pour-in"
[[nodiscard]] std::string_view key(FrogSupport support);
/// "open", "blind"
[[nodiscard]] std::string_view key(Sight sight);
/// "trim", "shoe", "both"
[[nodiscard]] std::string_view key(Means means);
/// "trim only", "shoe only", "trim and shoe"
[[nodiscard]] std::string_view way_words(Means means);

[[nodiscard]] std::optional<PictureSide> side_from(std::string_view key);
[[nodiscard]] std::optional<measure::Placement> placement_from(std::string_view key);
[[nodiscard]] std::optional<measure::SidesChecked> sides_checked_from(std::string_view key);
[[nodiscard]] std::optional<imaging::ScaleStatement::Kind> scale_kind_from(std::string_view key);
[[nodiscard]] std::optional<Species> species_from(std::string_view key);
[[nodiscard]] std::optional<Laminitis> laminitis_from(std::string_view key);
[[nodiscard]] std::optional<VetHasSeen> vet_has_seen_from(std::string_view key);
[[nodiscard]] std::optional<Decision> decision_from(std::string_view key);
[[nodiscard]] std::optional<imaging::ScaleStatement::CardStood>
card_stood_from(std::string_view key);
[[nodiscard]] std::optional<Bar> bar_from(std::string_view key);
[[nodiscard]] std::optional<FrogSupport> frog_support_from(std::string_view key);
[[nodiscard]] std::optional<Sight> sight_from(std::string_view key);
[[nodiscard]] std::optional<Means> means_from(std::string_view key);

} // namespace pritchel::record
