#include "plan/fit_grid.h"

#include "plan/predict.h"
#include "plan/variables.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>
#include <tuple>
#include <utility>

namespace pritchel::plan {
namespace {

using record::FootChange;
using record::Means;

constexpr double rounding = 1e-9;

/// A little beyond every limit, so that it can be told what each keeps out.
struct Axis {
  double FootChange::*field;
  double end;
};
using Axes = std::array<Axis, 3>;
constexpr Axes side_axes{
    {{&FootChange::trim_toe_mm, 10}, {&FootChange::trim_heel_mm, 4}, {&FootChange::wedge_deg, 6}}};
constexpr Axes front_axes{{{&FootChange::trim_medial_mm, 4},
                           {&FootChange::trim_lateral_mm, 4},
                           {&FootChange::ml_wedge_deg, 2}}};
constexpr double breakover_end_mm = 12, branch_end_mm = 12;

double step_of(double FootChange::*field) {
  const auto all = variables();
  return std::find_if(all.begin(), all.end(), [&](const auto& each) { return each.field == field; })
      ->step;
}

std::vector<double> amounts(double FootChange::*field, double end) {
  std::vector<double> all;
  for (int i = 0; i * step_of(field) <= end + rounding; ++i)
    all.push_back(i * step_of(field));
  return all;
}

bool uses_knife(const FootChange& c) {
  return c.trim_toe_mm != 0 || c.trim_heel_mm != 0 || c.trim_medial_mm != 0 ||
         c.trim_lateral_mm != 0;
}

bool is_by(Means means, const FootChange& change) {
  switch (means) {
  case Means::trim:
    return !changes_shoe(change);
  case Means::shoe:
    return !uses_knife(change);
  case Means::both:
    break;
  }
  return true;
}

bool uses_locked(const FootChange& change, const std::set<std::string, std::less<>>& locked) {
  return std::any_of(variables().begin(), variables().end(), [&](const Variable& each) {
    return change.*each.field != 0 && locked.contains(each.name);
  });
}

/// What decides between answers that are equally near. A wedge asks most of other parts, so it is
/// counted before all else.
using Effort = std::tuple<double, double, std::vector<double>>;
Effort effort_of(const FootChange& change) {
  Effort effort{change.wedge_deg + change.ml_wedge_deg, 0, {}};
  for (const auto& each : variables()) {
    std::get<1>(effort) += change.*each.field / each.step;
    std::get<2>(effort).push_back(change.*each.field);
  }
  return effort;
}

} // namespace

double missed(const record::Aim& aim, double value) {
  const double below = aim.low ? *aim.low - value : 0;
  const double above = aim.high ? value - *aim.high : 0;
  const double off = std::max({0.0, below, above});
  return off <= rounding ? 0 : off / aim.counts_as_one;
}

AimState state_of_sought(const record::Aim& aim, double before, double after) {
  const double off = missed(aim, after);
  return off == 0                    ? AimState::reached
         : off < missed(aim, before) ? AimState::nearer
                                     : AimState::missed;
}

Obstacles lock_obstacle() {
  return Obstacles{1} << limits().size();
}

Obstacles guard_obstacle(std::size_t aim) {
  return Obstacles{1} << (limits().size() + 1 + aim);
}

FitGrid::FitGrid(const Foot& foot,
                 measure::View view,
                 std::vector<SoughtAim> aims,
                 std::set<std::string, std::less<>> locked)
    : foot_(foot),
      view_(view),
      aims_(std::move(aims)),
      locked_(std::move(locked)),
      moved_by_shoe_(aims_.size(), false) {
  find_what_the_shoe_moves();
  fill_outer();
}

Obstacles FitGrid::guards_broken(const std::vector<double>& values) const {
  Obstacles broken = 0;
  for (std::size_t i = 0; i < aims_.size(); ++i) {
    const auto& each = aims_[i];
    if (each.role == SoughtAim::Role::guarded &&
        missed(*each.aim, values[i]) > missed(*each.aim, each.before) + rounding)
      broken |= guard_obstacle(i);
  }
  return broken;
}

/// A point whose change can't be computed has no values and is never used.
FitPoint FitGrid::point_at(const FootChange& change) const {
  FitPoint point{.change = change};
  const auto trial = trial_of(foot_, change);
  measure::Placed<double> moved;
  if (view_ == measure::View::lateromedial) {
    if (!trial.side_after)
      return point;
    moved = *trial.side_after;
  } else {
    auto front = after(foot_.front.placed, change);
    if (!front)
      return point;
    moved = std::move(*front);
  }
  for (const auto& each : aims_) {
    const auto value = value_on(moved, each.aim->measurement);
    if (!value) {
      point.values.clear();
      return point;
    }
    point.values.push_back(*value);
  }
  point.obstacles = broken_limits(trial) | guards_broken(point.values);
  if (uses_locked(change, locked_))
    point.obstacles |= lock_obstacle();
  return point;
}

void FitGrid::find_what_the_shoe_moves() {
  if (view_ != measure::View::lateromedial)
    return;
  const auto still = point_at({.limb = foot_.limb});
  const auto back = point_at({.limb = foot_.limb, .breakover_back_mm = 1});
  const auto longer = point_at({.limb = foot_.limb, .branch_longer_mm = 1});
  const auto differs = [&](const FitPoint& other, std::size_t i) {
    return !still.values.empty() && !other.values.empty() &&
           std::abs(other.values[i] - still.values[i]) > 1e-6;
  };
  for (std::size_t i = 0; i < aims_.size(); ++i) {
    breakover_matters_ = breakover_matters_ || differs(back, i);
    branches_matter_ = branches_matter_ || differs(longer, i);
    moved_by_shoe_[i] = differs(back, i) || differs(longer, i);
  }
}

void FitGrid::fill_outer() {
  const auto& axes = view_ == measure::View::lateromedial ? side_axes : front_axes;
  FootChange change{.limb = foot_.limb};
  for (const double first : amounts(axes[0].field, axes[0].end))
    for (const double second : amounts(axes[1].field, axes[1].end))
      for (const double third : amounts(axes[2].field, axes[2].end)) {
        change.*axes[0].field = first;
        change.*axes[1].field = second;
        change.*axes[2].field = third;
        if (auto point = point_at(change); !point.values.empty())
          outer_.push_back({.point = std::move(point), .inner = {}});
      }
}

const std::vector<FitPoint>& FitGrid::inner_of(Outer& outer) {
  if (!outer.inner.empty())
    return outer.inner;
  auto change = outer.point.change;
  for (const double back : amounts(&FootChange::breakover_back_mm, breakover_end_mm)) {
    change.breakover_back_mm = back;
    for (const double longer : amounts(&FootChange::branch_longer_mm, branch_end_mm)) {
      change.branch_longer_mm = longer;
      if (auto point = back == 0 && longer == 0 ? outer.point : point_at(change);
          !point.values.empty())
        outer.inner.push_back(std::move(point));
      if (!branches_matter_)
        break;
    }
    if (!breakover_matters_)
      break;
  }
  return outer.inner;
}

double FitGrid::distance(const FitPoint& point, const Counted& counted) const {
  double sum = 0;
  for (std::size_t i = 0; i < aims_.size(); ++i)
    if (counted[i] && aims_[i].role == SoughtAim::Role::sought)
      sum += std::pow(missed(*aims_[i].aim, point.values[i]), 2);
  return std::sqrt(sum);
}

/// What no moving of the shoe can better.
double FitGrid::least_distance(const Outer& outer, const Counted& counted) const {
  auto fixed = counted;
  for (std::size_t i = 0; i < aims_.size(); ++i)
    fixed[i] = counted[i] && !moved_by_shoe_[i];
  return distance(outer.point, fixed);
}

/// Setting breakover back and branches longer never mends a limit: where they count at all
/// (breakover-visit, roll-sole, branch-reach) more of them is the worse. A guard it may mend.
Obstacles FitGrid::lasting(const Outer& outer) const {
  Obstacles lasting = outer.point.obstacles;
  for (std::size_t i = 0; i < aims_.size(); ++i)
    if (moved_by_shoe_[i])
      lasting &= ~guard_obstacle(i);
  return lasting;
}

FitPoint FitGrid::nearest(Means means, Obstacles ignored, const Counted& counted) {
  for (std::size_t i = 0; i < aims_.size(); ++i)
    if (!counted[i])
      ignored |= guard_obstacle(i);
  std::vector<double> bounds;
  for (const auto& each : outer_)
    bounds.push_back(least_distance(each, counted));
  std::vector<std::size_t> order(outer_.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(
      order.begin(), order.end(), [&](auto a, auto b) { return bounds[a] < bounds[b]; });

  double best = std::numeric_limits<double>::infinity();
  std::vector<std::pair<double, FitPoint>> near;
  const auto consider = [&](const FitPoint& point) {
    if ((point.obstacles & ~ignored) != 0 || !is_by(means, point.change))
      return;
    const double off = distance(point, counted);
    best = std::min(best, off);
    if (off <= best + equally_near)
      near.emplace_back(off, point);
  };
  for (const auto index : order) {
    auto& outer = outer_[index];
    if (bounds[index] > best + equally_near)
      break;
    if ((lasting(outer) & ~ignored) != 0 || !is_by(means, outer.point.change))
      continue;
    if (means == Means::trim)
      consider(outer.point);
    else
      for (const auto& point : inner_of(outer))
        consider(point);
  }
  const double reach = best == 0 ? 0 : best + equally_near;
  std::erase_if(near, [&](const auto& each) { return each.first > reach; });
  const auto least = std::min_element(near.begin(), near.end(), [](const auto& a, const auto& b) {
    return effort_of(a.second.change) < effort_of(b.second.change);
  });
  return least->second;
}

Obstacles FitGrid::obstacles(Means means) const {
  Obstacles all = 0;
  for (const auto& each : outer_) {
    if (is_by(means, each.point.change))
      all |= each.point.obstacles;
    for (const auto& point : each.inner)
      if (is_by(means, point.change))
        all |= point.obstacles;
  }
  return all;
}

FitGrid::Range FitGrid::reach(std::size_t aim) {
  Range range{aims_[aim].before, aims_[aim].before};
  const auto take = [&](const FitPoint& point) {
    range.low = std::min(range.low, point.values[aim]);
    range.high = std::max(range.high, point.values[aim]);
  };
  for (auto& each : outer_) {
    take(each.point);
    if (!moved_by_shoe_[aim])
      continue;
    // Both are monotone in what the shoe is moved by, so the ends of the range are at its ends.
    auto change = each.point.change;
    for (const double back : {0.0, breakover_end_mm})
      for (const double longer : {0.0, branch_end_mm}) {
        change.breakover_back_mm = back;
        change.branch_longer_mm = longer;
        if (const auto point = point_at(change); !point.values.empty())
          take(point);
      }
  }
  return range;
}

} // namespace pritchel::plan
