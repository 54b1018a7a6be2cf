/// A proposal rule as a practice writes it (templates/rules): when, what, how much at most, why.
/// Data only: the plan floor interprets it.
#pragma once

#include <optional>
#include <string>
#include <vector>

namespace pritchel::practice {

/// "surely" compares the value's far end of the 95 % interval; "value" the value itself (used by
/// safety rules at the cautious end as `at_least` / `at_most` say).
enum class Comparison {
  surely_below, ///< value + 2u < limit
  surely_above, ///< value - 2u > limit
  maybe_below,  ///< value - 2u < limit: the cautious end, for floors
  maybe_above   ///< value + 2u > limit: the cautious end, for ceilings
};

struct Condition {
  std::string measurement; ///< id, or a case fact such as "lameness-aaep", "age-years"
  Comparison comparison = Comparison::surely_below;
  double limit = 0;
};

enum class RuleKind {
  stop,    ///< no plan from the program; the vet first
  lock,    ///< one kind of change stays at zero
  propose, ///< an amount is sought
  note     ///< shown, nothing is done
};

struct Rule {
  std::string id;
  RuleKind kind = RuleKind::note;
  std::string view; ///< key of the view whose reading it looks at
  bool for_fore = true;
  bool for_hind = true;
  std::vector<Condition> when;         ///< all must hold
  std::vector<std::string> locks;      ///< names of FootChange fields held at zero (lock)
  std::vector<std::string> variables;  ///< FootChange fields that may be used, in order (propose)
  std::string aim_measurement;         ///< measurement to bring back (propose)
  std::optional<double> aim_low;       ///< the least change that reaches this is proposed
  std::optional<double> aim_high;
  std::string what;    ///< words; {toe}, {heel}, ... stand for the amounts found
  std::string why;
  std::string caution;
  std::string watch;
  std::string source;  ///< key in sources, or "common-practice"
};

/// Something a person ticks that stops everything ("bounding pulse").
struct RedFlag {
  std::string id;
  std::string words;
};

} // namespace pritchel::practice
