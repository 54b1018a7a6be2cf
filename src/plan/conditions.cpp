#include "plan/conditions.h"

#include <algorithm>

namespace pritchel::plan {
namespace {

using practice::Comparison;

Holds sure(bool surely, bool by_value) {
  if (surely)
    return Holds::yes;
  return by_value ? Holds::unsure : Holds::no;
}

Holds plain(bool holds) {
  return holds ? Holds::yes : Holds::no;
}

bool is_maybe(Comparison comparison) {
  return comparison == Comparison::maybe_below || comparison == Comparison::maybe_above;
}

/// no beats unknown beats unsure beats yes.
int rank(Holds holds) {
  switch (holds) {
  case Holds::no:
    return 3;
  case Holds::unknown:
    return 2;
  case Holds::unsure:
    return 1;
  case Holds::yes:
    break;
  }
  return 0;
}

} // namespace

Holds holds(const practice::Condition& condition, const Quantity& q) {
  if (!q.known)
    return Holds::unknown;
  switch (condition.comparison) {
  case Comparison::surely_below:
    return sure(q.high() < condition.limit, q.value < condition.limit);
  case Comparison::surely_above:
    return sure(q.low() > condition.limit, q.value > condition.limit);
  case Comparison::maybe_below:
    return plain(q.low() < condition.limit);
  case Comparison::maybe_above:
    break;
  }
  return plain(q.high() > condition.limit);
}

Quantity looked_at(const practice::Condition& condition, const Foot& foot, std::size_t findings) {
  if (condition.measurement == "findings")
    return {.known = true, .value = static_cast<double>(findings)};
  return quantity(foot, condition.measurement);
}

Firing firing_of(const practice::Rule& rule, const Foot& foot, std::size_t findings) {
  Firing firing{.holds = Holds::yes};
  for (const auto& condition : rule.when) {
    auto one = holds(condition, looked_at(condition, foot, findings));
    if (one == Holds::unknown && rule.kind == practice::RuleKind::lock &&
        is_maybe(condition.comparison))
      one = Holds::yes;
    if (one == Holds::unsure || one == Holds::unknown)
      firing.open.push_back(&condition);
    if (rank(one) > rank(firing.holds))
      firing.holds = one;
  }
  return firing;
}

bool is_about_case(const practice::Rule& rule) {
  return std::all_of(rule.when.begin(), rule.when.end(), [](const auto& condition) {
    return is_case_fact(condition.measurement);
  });
}

bool applies_to(const practice::Rule& rule, measure::Limb limb) {
  return measure::is_hind(limb) ? rule.for_hind : rule.for_fore;
}

} // namespace pritchel::plan
