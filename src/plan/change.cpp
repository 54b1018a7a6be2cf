#include "plan/change.h"

#include "plan/frontal_change.h"
#include "plan/sagittal_change.h"

#include <algorithm>
#include <array>

namespace pritchel::plan {
namespace {

using measure::Attempt;
using measure::Gradient;
using measure::Placed;

template <class T> bool none(std::initializer_list<T> amounts) {
  return std::all_of(
      amounts.begin(), amounts.end(), [](const T& each) { return value_of(each) == 0; });
}

} // namespace

bool changes_shoe(const record::FootChange& change) {
  return std::any_of(shoe_amounts.begin(), shoe_amounts.end(), [&](const auto field) {
    return change.*field != 0;
  });
}

bool changes_nothing(const record::FootChange& change) {
  return !changes_shoe(change) && none({change.trim_toe_mm,
                                        change.trim_heel_mm,
                                        change.dress_toe_mm,
                                        change.trim_medial_mm,
                                        change.trim_lateral_mm,
                                        change.dress_medial_mm,
                                        change.dress_lateral_mm});
}

bool asks_nothing(const record::FootChange& change) {
  return changes_nothing(change) && change.shoe == record::ShoeFacts{};
}

double base_shift(const record::FootChange& change) {
  return (change.extend_lateral_mm - change.extend_medial_mm) / 2;
}

template <class T> Attempt<Bearing<T>> bearing_of(const Placed<T>& placed) {
  return sagittal::bearing_of(placed);
}

template <class T> T cut_angle_deg(const Bearing<T>& bearing, const Amounts<T>& amounts) {
  using std::atan;
  return in_degrees(atan((amounts.trim_toe - amounts.trim_heel) / bearing.span));
}

template <class T> T cut_height(const Bearing<T>& bearing, const Amounts<T>& amounts, const T& x) {
  return amounts.trim_heel + (amounts.trim_toe - amounts.trim_heel) * x / bearing.span;
}

template <class T> T wall_taken(const Bearing<T>& bearing, const Amounts<T>& amounts) {
  const T rise = (amounts.trim_toe - amounts.trim_heel) / bearing.span;
  return amounts.trim_toe / (dot(bearing.wall, bearing.n) - rise * dot(bearing.wall, bearing.u));
}

template <class T>
Attempt<Placed<T>>
after(const Placed<T>& placed, const Amounts<T>& amounts, const JointShares& shares) {
  if (placed.view == measure::View::dorsopalmar)
    return frontal::moves_nothing(amounts) ? placed : frontal::after(placed, amounts);
  const bool unchanged = none({amounts.trim_toe,
                               amounts.trim_heel,
                               amounts.dress_toe,
                               amounts.shoe_thickness,
                               amounts.pad,
                               amounts.wedge_deg,
                               amounts.breakover_back,
                               amounts.branch_longer});
  return unchanged ? placed : sagittal::after(placed, amounts, shares);
}

bool is_predictable(std::string_view measurement) {
  constexpr std::array<std::string_view, 7> unknown{"p2-axis-ml-angle",
                                                    "dip-space-medial",
                                                    "dip-space-lateral",
                                                    "dip-space-ratio",
                                                    "dip-symmetry-index",
                                                    "dip-ml-deviation",
                                                    "dip-line-angle"};
  return std::find(unknown.begin(), unknown.end(), measurement) == unknown.end();
}

template Attempt<Bearing<double>> bearing_of(const Placed<double>&);
template Attempt<Bearing<Gradient>> bearing_of(const Placed<Gradient>&);
template double cut_angle_deg(const Bearing<double>&, const Amounts<double>&);
template double cut_height(const Bearing<double>&, const Amounts<double>&, const double&);
template Gradient cut_height(const Bearing<Gradient>&, const Amounts<Gradient>&, const Gradient&);
template double wall_taken(const Bearing<double>&, const Amounts<double>&);
template Attempt<Placed<double>>
after(const Placed<double>&, const Amounts<double>&, const JointShares&);
template Attempt<Placed<Gradient>>
after(const Placed<Gradient>&, const Amounts<Gradient>&, const JointShares&);

} // namespace pritchel::plan
