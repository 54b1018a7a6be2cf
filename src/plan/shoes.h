/// Which shoes of the practice's list (templates/shoes) do what a change asks of the shoe, and how
/// a plan says it. A shoe moves no number by its name: the change's amounts do, within the limits.
#pragma once

#include "plan/foot.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::plan {

/// nullptr for an id that isn't in the list.
[[nodiscard]] const practice::ShoeKind* shoe_kind(const practice::Practice& practice,
                                                  std::string_view id);

/// What of the change the shoe as listed doesn't give, a phrase each: "breakover 8 mm back by the
/// shoe (it gives 0 to 3 mm)". Of a bare foot: a shod one's amounts are differences to the shoe
/// that is worn, so nothing can be told and nothing is.
[[nodiscard]] std::vector<std::string>
not_given(const Foot& foot, const practice::ShoeKind& kind, const record::FootChange& change);

/// Why this foot isn't to have the shoe, complete; empty when it may.
[[nodiscard]] std::string refused_shoe(const Foot& foot, const practice::ShoeKind& kind);

/// Takes a chosen shoe that the foot isn't to have out of the change: why, else empty.
[[nodiscard]] std::string take_out_refused_shoe(const Foot& foot,
                                                const practice::Practice& practice,
                                                record::FootChange& change);

/// Those that give all of the change and aren't refused, plainest first; none when the change asks
/// nothing of the shoe or the foot is shod.
[[nodiscard]] std::vector<const practice::ShoeKind*>
shoes_for(const Foot& foot, const practice::Practice& practice, const record::FootChange& change);

/// The plan's line on the shoe: the one that was chosen, or else the plainest two that do it, or
/// that none of the list does. Nothing where no shoe is chosen and none is asked for.
[[nodiscard]] std::optional<record::ProposalLine>
shoe_line(const Foot& foot, const practice::Practice& practice, const record::FootChange& change);

} // namespace pritchel::plan
