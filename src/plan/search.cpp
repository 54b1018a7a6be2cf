#include "plan/search.h"

#include "plan/predict.h"
#include "plan/variables.h"

#include <algorithm>
#include <cmath>

namespace pritchel::plan {
namespace {

constexpr double rounding = 1e-9;

std::optional<double>
aimed_value(const Foot& foot, const std::string& aim, const record::FootChange& change) {
  const auto* picture = picture_for(foot, aim);
  if (picture == nullptr || !picture->fit() || !quantity(foot, aim).known)
    return std::nullopt;
  const auto moved = after(picture->placed, change);
  if (!moved)
    return std::nullopt;
  const auto plain = plain_measurement(aim);
  auto value = value_on(*moved, plain);
  // What is taken off the number itself (the other foot's) doesn't change with this foot.
  if (value)
    *value += quantity(foot, aim).value - quantity(foot, plain).value;
  if (value && is_against_base(aim))
    *value -= base_shift(change);
  return value;
}

struct Best {
  record::FootChange change;
  double missed = 0;
};

/// Raises one variable step by step while the limits allow it.
void raise(const Foot& foot,
           const practice::Rule& rule,
           const Variable& variable,
           Best& best,
           Found& found) {
  const auto start = best.change;
  const double from = start.*variable.field;
  for (int i = 1; from + i * variable.step <= variable.most + rounding; ++i) {
    auto tried = start;
    tried.*variable.field = from + i * variable.step;
    if (const auto* limit = first_broken(foot, tried)) {
      found.held_by.push_back(limit);
      return;
    }
    const auto missed = missed_by(foot, rule, tried);
    if (!missed)
      return;
    if (*missed < best.missed - rounding)
      best = {tried, *missed};
    if (best.missed <= rounding)
      return;
  }
}

} // namespace

bool is_against_base(std::string_view aim) {
  return aim.find(".against-base") != std::string_view::npos;
}

std::optional<double>
missed_by(const Foot& foot, const practice::Rule& rule, const record::FootChange& change) {
  const auto value = aimed_value(foot, rule.aim_measurement, change);
  if (!value)
    return std::nullopt;
  const double below = rule.aim_low ? *rule.aim_low - *value : 0;
  const double above = rule.aim_high ? *value - *rule.aim_high : 0;
  return std::max({0.0, below, above});
}

Found search(const Foot& foot,
             const practice::Rule& rule,
             const record::FootChange& start,
             const std::set<std::string, std::less<>>& locked) {
  Found found{.change = start};
  const auto missed = missed_by(foot, rule, start);
  if (!missed)
    return found;
  Best best{start, *missed};
  for (const auto& name : rule.variables) {
    const auto* each = variable(name);
    if (best.missed <= rounding || each == nullptr)
      continue;
    if (locked.contains(name))
      found.locked.push_back(name);
    else
      raise(foot, rule, *each, best, found);
  }
  found.change = best.change;
  found.reached = best.missed <= rounding;
  return found;
}

} // namespace pritchel::plan
