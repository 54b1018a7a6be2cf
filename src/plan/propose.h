/// From a practice's rules to the lines of a plan for one foot. Internal to the plan floor;
/// make_plan in plan.h puts the feet together. Order: stops (all that fire are said, and then there
/// are no lines), locks, then proposals and notes as they stand in the rules. All proposals for a
/// foot share one FootChange: each adds to what the lines above it hold, and none ever goes past a
/// limit of plan/limits.h.
#pragma once

#include "plan/limits.h"

#include <set>
#include <string>
#include <vector>

namespace pritchel::plan {

/// What is said of one foot. Sentences carry the limb's name.
struct FootPlan {
  record::FootChange change;
  std::vector<record::ProposalLine> lines;
  std::vector<std::string> stops;
  std::vector<std::string> locks;
  std::vector<std::string> remeasure;
};

/// Whether rules about the case alone are said with this foot: with the first one only.
enum class CaseRules { said_here, said_elsewhere };

/// What the practice's locks hold at zero.
struct Locks {
  std::set<std::string, std::less<>> names; ///< of a FootChange
  std::vector<std::string> sentences;       ///< one for each lock that holds
};
[[nodiscard]] Locks locks_of(const Foot& foot, const practice::Practice& practice);

/// What of a changed foot stands beside a line: the aims, the sole, and what else a reader wants to
/// see move by as much as a digit that is shown.
[[nodiscard]] std::vector<record::ExpectedChange>
worth_showing(const std::vector<Prediction>& predictions, const std::vector<std::string>& aims);

/// Why no amount of this foot may be changed at all: that none of its pictures was read; any foot's
/// stop, which stops the whole case; and the standing limits that this one breaks.
[[nodiscard]] std::vector<std::string>
refusals(const std::vector<Foot>& feet, measure::Limb limb, const practice::Practice& practice);

/// `stops` and what to measure again for them; nothing else is filled.
void find_stops(const Foot& foot,
                const practice::Practice& practice,
                CaseRules case_rules,
                FootPlan& plan);

/// Locks, lines, the change and what to measure again.
void find_lines(const Foot& foot,
                const practice::Practice& practice,
                CaseRules case_rules,
                FootPlan& plan);

} // namespace pritchel::plan
