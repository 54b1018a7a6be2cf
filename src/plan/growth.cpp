#include "plan/growth.h"

#include "base/text.h"
#include "plan/facts.h"
#include "plan/sagittal_change.h"

#include <algorithm>
#include <cmath>

namespace pritchel::plan {

using measure::Attempt;
using measure::because;
using measure::Gradient;
using measure::Placed;

namespace {

/// Slope of a straight line through zero, and its standard error.
struct Slope {
  double value = 0;
  double error = 0;
};

Slope slope_of(const std::vector<GrowthInterval>& intervals, double GrowthInterval::*amount) {
  double xx = 0, xy = 0, residuals = 0;
  for (const auto& each : intervals) {
    xx += each.weeks * each.weeks;
    xy += each.weeks * each.*amount;
  }
  const double slope = xy / xx;
  for (const auto& each : intervals)
    residuals += std::pow(each.*amount - slope * each.weeks, 2);
  return {slope, std::sqrt(residuals / static_cast<double>(intervals.size() - 1) / xx)};
}

template <class T>
[[nodiscard]] sagittal::Trimmed<T>
grown_foot(const Bearing<T>& b, const T& toe_mm, const T& heel_mm) {
  using std::atan2;
  using std::cos;
  using std::sin;
  using std::sqrt;
  const T cosine = 1.0 / sqrt(1.0 + b.heel_tangent * b.heel_tangent);
  sagittal::Trimmed<T> foot;
  foot.toe = b.toe - b.wall * toe_mm;
  foot.heel = b.heel + (b.u - b.n * b.heel_tangent) * (heel_mm * cosine);
  foot.u = unit(foot.toe - foot.heel);
  foot.n = left_normal(foot.u);
  foot.turn = atan2(dot(foot.u, b.n), dot(foot.u, b.u));
  const T wedge = from_degrees(b.worn_wedge_deg);
  const auto along = sagittal::turned(foot.u, T(cos(wedge)), T(sin(wedge)));
  foot.ground = {foot.toe - foot.n * b.worn_thickness, along, left_normal(along)};
  return foot;
}

bool is_surely_outside(measure::Status status) {
  return status == measure::Status::below || status == measure::Status::above;
}

} // namespace

Growth growth_at_age(std::optional<double> years) {
  constexpr double foal = 1, yearling = 2, aged = 20;
  Growth growth;
  if (!years)
    return growth;
  const double factor = *years < foal ? 1.7 : *years < yearling ? 1.3 : *years >= aged ? 0.7 : 1;
  for (double Growth::*each : {&Growth::toe_mm,
                               &Growth::heel_mm,
                               &Growth::toe_uncertainty_mm,
                               &Growth::heel_uncertainty_mm})
    growth.*each *= factor;
  return growth;
}

std::vector<GrowthInterval> intervals_of(std::vector<DatedHoof> readings) {
  std::erase_if(readings, [](const DatedHoof& each) {
    return !is_date(each.taken) || !is_date(each.last_trim);
  });
  std::stable_sort(readings.begin(), readings.end(), [](const auto& a, const auto& b) {
    return a.taken < b.taken;
  });
  std::vector<GrowthInterval> intervals;
  for (std::size_t i = 1; i < readings.size(); ++i) {
    const auto &from = readings[i - 1], &to = readings[i];
    // A trim on the day of the first reading came before it only if that reading says so itself.
    const bool same_horn = to.last_trim == from.last_trim || to.last_trim < from.taken;
    const double weeks = days_between(from.taken, to.taken) / 7.0;
    if (same_horn && to.scale == from.scale && weeks > 0)
      intervals.push_back(
          {weeks, to.hoof_angle_deg - from.hoof_angle_deg, to.toe_length_mm - from.toe_length_mm});
  }
  return intervals;
}

std::optional<Growth> own_growth(const std::vector<GrowthInterval>& intervals,
                                 const Bearing<double>& bearing) {
  constexpr std::size_t least_intervals = 3;
  constexpr double most_mm_per_week = 6;
  if (intervals.size() < least_intervals)
    return std::nullopt;
  const auto toe = slope_of(intervals, &GrowthInterval::toe_growth_mm);
  const auto angle = slope_of(intervals, &GrowthInterval::angle_change_deg);
  if (toe.value - 2 * toe.error <= 0 || toe.value > most_mm_per_week)
    return std::nullopt;
  const double toe_down = dot(bearing.wall, bearing.n); // sin of the hoof's angle
  const double heel_down = std::sin(std::atan(bearing.heel_tangent));
  const double fall_mm = std::tan(from_degrees(-angle.value)) * bearing.span;
  const double fall_error = from_degrees(angle.error) * bearing.span;
  // What of the fall's doubt the toe's rate doesn't explain is the heels'.
  const double rest = std::pow(fall_error, 2) - std::pow(toe_down * toe.error, 2);
  return Growth{.toe_mm = toe.value,
                .heel_mm = (toe.value * toe_down - fall_mm) / heel_down,
                .toe_uncertainty_mm = toe.error,
                .heel_uncertainty_mm = std::sqrt(std::max(0.0, rest)) / heel_down,
                .own_intervals = static_cast<int>(intervals.size())};
}

template <class T>
Attempt<Placed<T>>
grown(const Placed<T>& placed, const T& toe_mm, const T& heel_mm, const JointShares& shares) {
  if (placed.view != measure::View::lateromedial)
    return because("growth is foreseen in the side view only");
  if (placed.shoeing != measure::Shoeing::shod)
    return because("a bare foot wears as it grows, and how much isn't known");
  if (value_of(toe_mm) == 0 && value_of(heel_mm) == 0)
    return placed;
  const auto bearing = sagittal::bearing_of(placed);
  if (!bearing)
    return because(bearing.error());
  const auto foot = grown_foot(*bearing, toe_mm, heel_mm);
  const auto before = measure::ground_of(placed);
  Placed<T> moved = placed;
  sagittal::move_ground(moved, foot, *bearing);
  // The shoe is nailed at the toe and rides forward with it.
  for (const char* id : {"breakover", "shoe-heel-end"})
    if (moved.has(id))
      moved.put(id,
                sagittal::carried(moved[id], bearing->toe, foot.toe, before, foot.ground, T(0.0)));
  const GroundLine<T> plane{foot.heel, foot.u, foot.n};
  for (const char* id : {"foot-plane-heel", "foot-plane-toe"})
    moved.put(id, plane.below(moved[id]));
  sagittal::turn_pasterns(moved, foot.turn, shares);
  return moved;
}

Attempt<Review> review_of(const measure::Reading& reading,
                          const measure::Spreads& spreads,
                          const record::FootChange& change,
                          const measure::Bands& bands,
                          const Growth& growth,
                          int longest_weeks) {
  const auto fresh = predict_week(reading, spreads, change, bands, 0, growth);
  if (!fresh)
    return because(fresh.error());
  const auto was_outside = [&](const Prediction& later) {
    return std::any_of(fresh->begin(), fresh->end(), [&](const Prediction& each) {
      return each.definition == later.definition && is_surely_outside(each.status_after);
    });
  };
  for (int week = 1; week < longest_weeks; ++week) {
    const auto then = predict_week(reading, spreads, change, bands, week, growth);
    if (!then)
      return because(then.error());
    for (const auto& each : *then)
      if (is_surely_outside(each.status_after) && !was_outside(each))
        return Review{week, std::string(each.definition->id)};
  }
  return Review{longest_weeks, {}};
}

template Attempt<Placed<double>>
grown(const Placed<double>&, const double&, const double&, const JointShares&);
template Attempt<Placed<Gradient>>
grown(const Placed<Gradient>&, const Gradient&, const Gradient&, const JointShares&);

} // namespace pritchel::plan
