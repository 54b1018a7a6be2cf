#include "plan/predict.h"

#include "geometry/angle.h"
#include "measure/checks.h"
#include "measure/uncertainty.h"
#include "plan/growth.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string_view>

namespace pritchel::plan {
namespace {

using measure::Attempt;
using measure::because;
using measure::Gradient;
using measure::Propagation;

constexpr std::size_t first_hand_input = measure::first_other_input;

struct HandInput {
  Gradient Amounts<Gradient>::*amount;
  double standard_uncertainty;
};

/// What the hand does in this view, and how surely: both ends of a cut as soon as either is cut.
std::vector<HandInput> hand_inputs(measure::View view, const record::FootChange& change) {
  std::vector<HandInput> inputs;
  const auto add = [&](bool done, Gradient Amounts<Gradient>::*amount, double spread) {
    if (done)
      inputs.push_back({amount, spread});
  };
  if (view == measure::View::dorsopalmar) {
    const bool cut = change.trim_medial_mm != 0 || change.trim_lateral_mm != 0;
    add(cut, &Amounts<Gradient>::trim_medial, hand::trim_mm);
    add(cut, &Amounts<Gradient>::trim_lateral, hand::trim_mm);
    add(change.dress_medial_mm != 0, &Amounts<Gradient>::dress_medial, hand::dressing_mm);
    add(change.dress_lateral_mm != 0, &Amounts<Gradient>::dress_lateral, hand::dressing_mm);
    add(change.ml_wedge_deg != 0, &Amounts<Gradient>::ml_wedge_deg, hand::wedge_deg);
    return inputs;
  }
  const bool cut = change.trim_toe_mm != 0 || change.trim_heel_mm != 0;
  add(cut, &Amounts<Gradient>::trim_toe, hand::trim_mm);
  add(cut, &Amounts<Gradient>::trim_heel, hand::trim_mm);
  add(change.wedge_deg != 0, &Amounts<Gradient>::wedge_deg, hand::wedge_deg);
  add(change.breakover_back_mm != 0, &Amounts<Gradient>::breakover_back, hand::along_mm);
  add(change.branch_longer_mm != 0, &Amounts<Gradient>::branch_longer, hand::along_mm);
  add(change.dress_toe_mm != 0, &Amounts<Gradient>::dress_toe, hand::dressing_mm);
  return inputs;
}

/// `inputs`: standard uncertainties of what is done or grows, in the order of their derivatives.
double hand_variance(const Gradient& result, const std::vector<double>& inputs) {
  double sum = 0;
  for (std::size_t i = 0; i < inputs.size(); ++i) {
    const double part = result.partial[first_hand_input + i] * inputs[i];
    sum += part * part;
  }
  return sum;
}

/// Spread of a joint's share of the turn between horses, per degree (from the published +- over 30
/// degrees; its meaning between horses wasn't checked). Doubled for hind limbs: no data (own
/// estimate).
double share_uncertainty(std::string_view measurement, measure::Limb limb) {
  constexpr std::array<std::pair<std::string_view, double>, 5> shares{
      {{"dip-deviation", coffin_spread},
       {"p2-angle", coffin_spread},
       {"pip-deviation", pastern_spread},
       {"p1-angle", long_pastern_spread},
       {"hpa-deviation", long_pastern_spread}}};
  for (const auto& [id, share] : shares)
    if (id == measurement)
      return measure::is_hind(limb) ? 2 * share : share;
  return 0;
}

/// The turn of the foot in degrees: what p3-dorsal-angle gains; 0 in the front view.
double turn_of(const measure::Placed<Gradient>& before, const record::FootChange& change) {
  if (before.view == measure::View::dorsopalmar)
    return 0;
  const auto bearing = bearing_of(before);
  const double cut = bearing ? in_degrees(std::atan((change.trim_toe_mm - change.trim_heel_mm) /
                                                    value_of(bearing->span)))
                             : 0;
  return cut + change.wedge_deg;
}

/// A landmark of the sole: how far it lies above the cut, and what a millimetre off it there takes
/// off the depth.
struct Clearance {
  Gradient above;
  double weight = 1;
};

/// For sole-depth-tip the two landmarks of its line, for sole-depth-palmar its own; none where no
/// cut is made or the points aren't placed.
std::vector<Clearance> clearances(const measure::Placed<Gradient>& placed,
                                  const Amounts<Gradient>& amounts,
                                  std::string_view depth) {
  const auto bearing = bearing_of(placed);
  if (!bearing || (amounts.trim_toe.value == 0 && amounts.trim_heel.value == 0))
    return {};
  const auto above = [&](const Point<PlaneFrame, Gradient>& sole) {
    return bearing->y(sole) - cut_height(*bearing, amounts, bearing->x(sole));
  };
  if (depth == "sole-depth-palmar")
    return {{above(placed.has("sole-under-palmar") ? placed["sole-under-palmar"] : bearing->heel)}};
  const auto &a = placed["sole-a"], &b = placed["sole-b"], &tip = placed["p3-tip"];
  const auto under = foot_of_perpendicular(Line<Gradient>{b, a}, tip);
  const double share = value_of(dot(under - b, a - b) / dot(a - b, a - b));
  return {{above(a), std::abs(share)}, {above(b), std::abs(1 - share)}};
}

/// Mean square of the sole that is taken by chance by a cut meant to clear it, when the clearance
/// is spread normally: E[max(0, spread Z - clear)^2].
double chance_cut_squared(double clear, double spread) {
  const double z = clear / spread;
  const double beyond = 0.5 * std::erfc(z / std::numbers::sqrt2);
  const double density = std::exp(-z * z / 2) / std::sqrt(2 * std::numbers::pi);
  return std::max(0.0, (clear * clear + spread * spread) * beyond - clear * spread * density);
}

double sum_of_squares(double a, double b) {
  return a * a + b * b;
}

struct Work {
  Amounts<Gradient> amounts;
  const measure::Reading& reading;
  const measure::Bands& bands;
  const record::FootChange& change;
  Propagation before;
  Propagation after;
  measure::Placed<Gradient> fresh; ///< after the change, before any growth
  std::vector<double> hand = {};   ///< and growth
  int week = 0;
  double turn = 0;
  std::vector<measure::Placed<double>> otherwise = {}; ///< after, by the other published shares
};

/// A cut that just clears the sole is predicted to leave its depth alone, and first order would
/// call that certain. It isn't: the hand and the reading may be off by more than the clearance.
double chance_cut_variance(const measure::Definition& definition, const Work& work) {
  if (definition.id != "sole-depth-tip" && definition.id != "sole-depth-palmar")
    return 0;
  // Cuts at the two ends go together: their spreads are added, not their squares.
  double spread = 0;
  for (const auto& [above, weight] : clearances(work.before.placed, work.amounts, definition.id)) {
    const double variance =
        measure::covariance(above, above, work.before) + hand_variance(above, work.hand);
    if (above.value >= 0 && variance > 0)
      spread += weight * std::sqrt(chance_cut_squared(above.value, std::sqrt(variance)));
  }
  return spread * spread;
}

std::optional<SharesRange>
range_of(const measure::Definition& definition, double value, const Work& work) {
  constexpr double worth_saying = 1e-6;
  SharesRange range{value, value};
  for (const auto& each : work.otherwise)
    if (const auto other = value_on(each, definition.id)) {
      range.low = std::min(range.low, *other);
      range.high = std::max(range.high, *other);
    }
  return range.high - range.low > worth_saying ? std::optional(range) : std::nullopt;
}

std::optional<Prediction> prediction_of(const measure::Definition& definition, const Work& work) {
  const auto before = measure::measure_placed(definition, work.before, work.reading, work.bands);
  const auto after = measure::measure_placed(definition, work.after, work.reading, work.bands);
  if (!before.measurable() || !after.measurable())
    return std::nullopt;
  const auto then = measure::evaluate(definition, work.before.placed)->value;
  const auto now = measure::evaluate(definition, work.after.placed)->value;
  const double change = after.value - before.value;
  const double planned = measure::evaluate(definition, work.fresh)->value.value - then.value;
  const double model = sum_of_squares(
      model_share * planned, share_uncertainty(definition.id, work.reading.limb) * work.turn);
  const double hand = hand_variance(now, work.hand) + chance_cut_variance(definition, work);
  const Gradient difference = now - then;
  const double of_change = measure::covariance(difference, difference, work.before);
  const double of_after = measure::covariance(now, now, work.before);
  Prediction result{.limb = work.reading.limb,
                    .definition = &definition,
                    .before = before.value,
                    .after = after.value,
                    .change = change,
                    .uncertainty_of_change = std::sqrt(of_change + hand + model),
                    .uncertainty_before = before.standard_uncertainty,
                    .uncertainty_after = std::sqrt(of_after + hand + model)};
  result.status_after = measure::status_of(result.after, result.uncertainty_after, before.band);
  result.range_after = range_of(definition, after.value, work);
  result.week = work.week;
  return result;
}

std::vector<measure::Placed<double>> by_other_shares(const measure::Reading& reading,
                                                     const record::FootChange& change,
                                                     double toe_mm,
                                                     double heel_mm) {
  std::vector<measure::Placed<double>> all;
  const auto before = measure::placed(reading);
  for (const auto& shares : other_shares)
    if (auto moved = after(before, change, shares)) {
      if (toe_mm != 0 || heel_mm != 0)
        moved = grown(*moved, toe_mm, heel_mm, shares);
      if (moved)
        all.push_back(std::move(*moved));
    }
  return all;
}

double pitch_deg(const Bearing<Gradient>& from, const Bearing<Gradient>& to) {
  return in_degrees(std::atan2(value_of(cross(from.u, to.u)), value_of(dot(from.u, to.u))));
}

Attempt<Work> work_of(const measure::Reading& reading,
                      const measure::Spreads& spreads,
                      const record::FootChange& change,
                      const measure::Bands& bands,
                      int week,
                      const Growth& growth) {
  Work work{.reading = reading,
            .bands = bands,
            .change = change,
            .before = measure::propagation(reading, spreads),
            .week = week};
  auto amounts = amounts_of<Gradient>(change);
  const auto add = [&](Gradient& input, double derivative, double uncertainty) {
    input.partial[first_hand_input + work.hand.size()] = derivative;
    work.hand.push_back(uncertainty);
  };
  for (const auto& each : hand_inputs(reading.view, change))
    add(amounts.*each.amount, 1, each.standard_uncertainty);
  work.amounts = amounts;
  auto moved = after(work.before.placed, amounts);
  work.turn = turn_of(work.before.placed, change);
  if (!moved)
    return because(moved.error());
  work.fresh = *moved;
  Gradient toe(week * growth.toe_mm), heel(week * growth.heel_mm);
  if (week > 0) {
    add(toe, week, growth.toe_uncertainty_mm);
    add(heel, week, growth.heel_uncertainty_mm);
    moved = grown(work.fresh, toe, heel);
    if (!moved)
      return because(moved.error());
    const auto fresh = bearing_of(work.fresh), old = bearing_of(*moved);
    if (fresh && old)
      work.turn += pitch_deg(*fresh, *old);
  }
  work.after = {.placed = std::move(*moved),
                .landmarks = work.before.landmarks,
                .scale_relative_uncertainty = work.before.scale_relative_uncertainty};
  work.otherwise = by_other_shares(reading, change, toe.value, heel.value);
  return work;
}

Attempt<std::vector<Prediction>> predictions_of(const Work& work, const measure::Spreads& spreads) {
  const auto checks = measure::check_reading(work.reading, spreads);
  std::vector<Prediction> predictions;
  for (const auto& definition : measure::definitions())
    if (definition.view == work.reading.view && is_predictable(definition.id) &&
        measure::refusing(checks, definition.id) == nullptr)
      if (auto prediction = prediction_of(definition, work))
        predictions.push_back(*prediction);
  return predictions;
}

} // namespace

std::optional<double> value_on(const measure::Placed<double>& placed,
                               std::string_view measurement) {
  const auto* definition = measure::definition(measurement);
  if (definition == nullptr || definition->view != placed.view)
    return std::nullopt;
  for (const auto id : definition->needs)
    if (!placed.has(id))
      return std::nullopt;
  const auto drawn = measure::evaluate(*definition, placed);
  if (!drawn || !std::isfinite(drawn->value))
    return std::nullopt;
  return drawn->value;
}

Attempt<std::vector<Prediction>> predict(const measure::Reading& reading,
                                         const measure::Spreads& spreads,
                                         const record::FootChange& change,
                                         const measure::Bands& bands) {
  return predict_week(reading, spreads, change, bands, 0, usual_growth);
}

Attempt<std::vector<Prediction>> predict_week(const measure::Reading& reading,
                                              const measure::Spreads& spreads,
                                              const record::FootChange& change,
                                              const measure::Bands& bands,
                                              int week,
                                              const Growth& growth) {
  const auto work = work_of(reading, spreads, change, bands, week, growth);
  if (!work)
    return because(work.error());
  return predictions_of(*work, spreads);
}

std::vector<Prediction> predictions_of(const Foot& foot,
                                       const record::FootChange& change,
                                       const practice::Practice& practice) {
  std::vector<Prediction> all;
  for (const auto* picture : {&foot.side, &foot.front}) {
    if (!picture->fit())
      continue;
    const auto& reading = picture->dated->reading;
    const auto spreads = practice::spreads(practice::protocol(practice, reading.view));
    if (const auto found = predict(reading, spreads, change, practice.bands))
      all.insert(all.end(), found->begin(), found->end());
  }
  return all;
}

Attempt<measure::Placed<double>> ghost(const measure::Reading& reading,
                                       const record::FootChange& change) {
  return after(measure::placed(reading), change);
}

} // namespace pritchel::plan
