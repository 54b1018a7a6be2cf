#include "plan/limit_tests.h"
#include "plan/predict.h"

#include <algorithm>
#include <cmath>

namespace pritchel::plan::limit {

namespace {

/// Spread of the cut's height at x when each end is kept to hand::trim_mm.
double cut_uncertainty(const Trial& t, double x) {
  const double share = x / t.foot.bearing->span;
  return hand::trim_mm * std::hypot(share, 1 - share);
}

// ---- depths of sole ----

/// Cut and cup (height of the sole over the bearing line) under the bone's tip.
struct AtTip {
  double cut = 0;
  double cup = 0;
  double uncertainty = 0; ///< of the depth left: reading and hand together
};

AtTip at_tip(const Trial& t) {
  const auto& placed = t.foot.side.placed;
  const auto& bearing = *t.foot.bearing;
  const auto& tip = placed["p3-tip"];
  const Line<double> sole{placed["sole-b"], placed["sole-a"]};
  const auto under = tip - bearing.n * distance_along(tip, -bearing.n, sole);
  const double x = bearing.x(tip);
  return {.cut = cut_height(bearing, amounts_of<double>(t.change), x),
          .cup = bearing.y(under) / t.foot.side.depth_divisor,
          .uncertainty =
              std::hypot(cut_uncertainty(t, x), quantity(t.foot, "sole-depth-tip").uncertainty)};
}

constexpr double sole_floor_mm = 15;

bool only_wall_is_cut_at_tip(const Trial& t) {
  const auto tip = at_tip(t);
  return tip.cut + twice * tip.uncertainty <= tip.cup + rounding;
}

} // namespace

bool sole_is_locked(const Trial& t) {
  const auto depth = quantity(t.foot, "sole-depth-tip");
  return !depth.known || depth.low() < sole_floor_mm;
}

bool thin_sole_is_left_alone(const Trial& t) {
  if (!sole_is_locked(t))
    return true;
  if (t.change.trim_toe_mm != 0 || t.change.dress_toe_mm != 0)
    return false;
  return t.change.trim_heel_mm == 0 || only_wall_is_cut_at_tip(t);
}

bool sole_stays_above_floor(const Trial& t) {
  if (!cuts_from_below(t.change) || sole_is_locked(t) || only_wall_is_cut_at_tip(t))
    return true;
  const auto tip = at_tip(t);
  const double now = quantity(t.foot, "sole-depth-tip").value;
  const double divisor = t.foot.side.depth_divisor;
  const double moved = value_on(*t.side_after, "sole-depth-tip").value_or(0) / divisor;
  const double left = std::min(moved, now - std::max(0.0, tip.cut - tip.cup));
  return left - twice * tip.uncertainty >= sole_floor_mm - rounding;
}

namespace {

/// A cut of less than this at the palmar processes is a cut that turns on the heels (the hand's own
/// spread; own estimate).
constexpr double hinge_mm = 1.0;
constexpr double side_floor_mm = 10;

} // namespace

bool palmar_sole_is_left(const Trial& t) {
  if (!cuts_from_below(t.change))
    return true;
  const auto& bearing = *t.foot.bearing;
  const auto& placed = t.foot.side.placed;
  const double x = bearing.x(placed["p3-palmar-process"]);
  const double cut = cut_height(bearing, amounts_of<double>(t.change), x);
  const auto depth = quantity(t.foot, "sole-depth-palmar");
  if (t.change.trim_heel_mm == 0 && cut <= hinge_mm)
    return true;
  if (!depth.known)
    return false;
  const double cup = bearing.y(placed["sole-under-palmar"]) / t.foot.side.depth_divisor;
  const double doubt = twice * std::hypot(depth.uncertainty, cut_uncertainty(t, x));
  return cut + doubt <= cup + rounding ||
         depth.value - std::max(0.0, cut - cup) - doubt >= side_floor_mm - rounding;
}

namespace {

/// Depth and cup under one side of the bone in the front view, from points that are placed only
/// when that sole is seen.
bool side_sole_is_left(const Trial& t, const std::string& side, double cut) {
  constexpr double depth_uncertainty_mm = 2.0; // own estimate
  const auto& placed = t.foot.front.placed;
  const std::string sole = "sole-" + side, border = "p3-distal-border-" + side;
  if (!placed.has(sole) || !placed.has(border))
    return false;
  const auto ground = measure::ground_of(placed);
  const double divisor = t.foot.front.depth_divisor;
  const double depth = (ground.height(placed[border]) - ground.height(placed[sole])) / divisor;
  const double cup = ground.height(placed[sole]) / divisor;
  const double doubt = twice * std::hypot(depth_uncertainty_mm, hand::trim_mm);
  return cut + doubt <= cup + rounding ||
         depth - std::max(0.0, cut - cup) - doubt >= side_floor_mm - rounding;
}

} // namespace

/// The cut at the bone's border is less than at the wall: the wall's cut is the strict side.
bool sole_at_sides_is_left(const Trial& t) {
  const auto& c = t.change;
  return (c.trim_medial_mm == 0 || side_sole_is_left(t, "medial", c.trim_medial_mm)) &&
         (c.trim_lateral_mm == 0 || side_sole_is_left(t, "lateral", c.trim_lateral_mm));
}

} // namespace pritchel::plan::limit
