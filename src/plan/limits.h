/// What a plan never does, whatever a rule says: the hard limits, one row each. Only a named vet
/// may go beyond one, by hand and with his own numbers; the program doesn't. State (a depth, an
/// angle) is held against its limit at the cautious end: a floor is kept when value - 2u is above
/// it, a ceiling when value + 2u is below; depths are first divided by the scale's safety divisor.
/// A fact that isn't known counts as the worst case. Planned amounts are held as they are. Sources:
/// common practice and own estimates, as each row says; none is a published safe dose.
#pragma once

#include "plan/foot.h"

#include <cstdint>
#include <span>
#include <vector>

namespace pritchel::plan {

/// A change tried on a foot. Invariant: `side_after` is there when the side view could be moved.
struct Trial {
  const Foot& foot;
  const record::FootChange& change;
  std::optional<measure::Placed<double>> side_after;
  double cut_deg = 0;  ///< turn by the trim
  double turn_deg = 0; ///< by trim and wedge
};

[[nodiscard]] Trial trial_of(const Foot& foot, const record::FootChange& change);

/// A standing limit looks at the foot alone: while it is broken nothing at all is changed.
enum class LimitKind { standing, of_amounts };

/// What may be told of a limit that stands in the way: what going past it would gain, or never
/// that. Sole, bone and the picture's worth are not for sale.
enum class Yields { to_a_named_vet, never };

struct Limit {
  std::string_view id;
  std::string_view sentence; ///< for people, complete
  std::string_view source;   ///< key in templates/sources.json
  bool (*kept)(const Trial&);
  LimitKind kind = LimitKind::of_amounts;
  Yields yields = Yields::never;
};

/// In the order in which they are tried: the case first, then depths, then amounts.
[[nodiscard]] std::span<const Limit> limits();

/// The standing limits that are broken for this foot.
[[nodiscard]] std::vector<const Limit*> broken_standing(const Foot& foot);

/// Bit i: the change breaks limits()[i]. The standing limits must be kept. Where what the change
/// does can't be computed, that limit alone is said.
using BrokenLimits = std::uint64_t;
[[nodiscard]] BrokenLimits broken_limits(const Trial& trial);

/// The first limit that the change breaks; nullptr when it keeps them all. A change of zero keeps
/// every limit.
[[nodiscard]] const Limit* first_broken(const Foot& foot, const record::FootChange& change);

} // namespace pritchel::plan
