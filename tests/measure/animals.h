/// Invented animals for every kind of picture that a practice's protocols know: the protocol's
/// drawing, which is to scale, with size, joints, offsets and single points changed by seed. The
/// two radiographs come from feet.h, as their drawings are of one foot only. Placement spreads are
/// the practice's own.
#pragma once

#include "practice/practice.h"

#include <vector>

#include "feet.h"

namespace animals {

/// One protocol on one leg.
struct Kind {
  const pritchel::practice::Protocol* protocol = nullptr;
  pritchel::measure::Limb limb = pritchel::measure::Limb::left_fore;
  pritchel::measure::Spreads spreads;

  [[nodiscard]] pritchel::measure::View view() const { return protocol->view; }
  [[nodiscard]] std::string name() const { return protocol->id; }
};

/// Every shipped protocol, each on a leg it is for: those for fore legs on a left fore, for hind
/// legs on a right hind, for all legs on a left fore.
const std::vector<Kind>& kinds();
const Kind& kind(std::string_view protocol);

/// Every landmark of the protocol that a bare foot has, mm, y up. Upright and ground differ by up
/// to a degree and a half.
feet::PlaneFoot make(const Kind& kind, feet::Random& random);

/// The protocol's drawing itself, without any change.
feet::PlaneFoot as_drawn(const Kind& kind);

/// Without its plumb line: then the ground is the level.
feet::PlaneFoot without_plumb(feet::PlaneFoot foot);

/// The rows of the table that such a picture has.
std::vector<const pritchel::measure::Definition*> rows(const Kind& kind);

} // namespace animals
