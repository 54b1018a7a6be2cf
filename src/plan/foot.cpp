#include "plan/foot.h"

#include "measure/checks.h"
#include "measure/comparison.h"
#include "measure/sides.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::plan {
namespace {

using measure::View;

std::string unfit_reason(const measure::Reading& reading) {
  const bool is_lifted = reading.view == View::limb_hanging || reading.view == View::sole;
  if (reading.loading == measure::Loading::not_loaded && !is_lifted)
    return "the foot didn't carry the horse's weight";
  if (reading.sides_checked == measure::SidesChecked::no)
    if (const auto found = measure::contradictions(reading); !found.empty())
      return "the statements about sides contradict each other: " + found.front();
  return {};
}

Picture picture_of(const DatedReading& dated, const practice::Practice& practice) {
  Picture picture;
  const auto& reading = dated.reading;
  const auto spreads = practice::spreads(practice::protocol(practice, reading.view, reading.limb));
  picture.dated = &dated;
  picture.unfit = unfit_reason(reading);
  picture.propagation = measure::propagation(reading, spreads);
  picture.placed = measure::placed(reading);
  picture.checks = measure::check_reading(reading, spreads);
  picture.measured = measure::measure_reading(reading, spreads, practice.bands, picture.checks);
  picture.depth_divisor =
      safety_divisor(reading.calibration.origin) * std::max(1.0, dated.scale_conflict);
  return picture;
}

Picture picture_of(const std::optional<DatedReading>& dated,
                   View view,
                   const practice::Practice& practice) {
  return dated && dated->reading.view == view ? picture_of(*dated, practice) : Picture{};
}

Quantity unknown(std::string reason, bool asked_for = true) {
  return {.reason = std::move(reason), .asked_for = asked_for};
}

bool leans_on_stance(const measure::Definition& definition) {
  constexpr std::array<std::string_view, 5> axis{
      "p1-angle", "p2-angle", "hpa-deviation", "pip-deviation", "dip-deviation"};
  return definition.view == View::dorsopalmar ||
         std::find(axis.begin(), axis.end(), definition.id) != axis.end();
}

bool is_depth(std::string_view id) {
  return id.substr(0, 10) == "sole-depth";
}

/// The reason with the landmarks that are missing, so that a person can act on it.
std::string why_not(const measure::Measurement& measurement) {
  std::string text = measurement.reason;
  for (std::size_t i = 0; i < measurement.missing.size(); ++i)
    text += (i == 0 ? ": " : ", ") + measurement.missing[i];
  return text;
}

Quantity measured_on(const Picture& picture, std::string_view id) {
  if (!picture.fit())
    return unknown(picture.unfit, picture.asked_for);
  const auto* found = measure::find(picture.measured, id);
  if (found == nullptr)
    return unknown("the program doesn't measure it");
  if (!found->measurable())
    return unknown(why_not(*found));
  if (leans_on_stance(*found->definition) &&
      picture.dated->reading.loading != measure::Loading::weight_bearing)
    return unknown("it isn't stated that the foot carried the horse's weight");
  const double divisor = is_depth(id) ? picture.depth_divisor : 1;
  return {.known = true,
          .value = found->value / divisor,
          .uncertainty = found->standard_uncertainty / divisor};
}

/// The difference of two results of independent readings.
Quantity apart_by(const Quantity& now, const Quantity& then) {
  if (!now.known)
    return now;
  if (!then.known)
    return unknown(then.reason, false);
  return {.known = true,
          .value = now.value - then.value,
          .uncertainty = std::hypot(now.uncertainty, then.uncertainty)};
}

/// What the earlier height of the coronary band over the bone would read with the foot turned as it
/// is now: a turned foot changes this number without anything having sunk.
Quantity displacement_turned(const Foot& foot, const Quantity& then) {
  const auto now_angle = measured_on(foot.side, "palmar-angle");
  const auto then_angle = measured_on(foot.side_before, "palmar-angle");
  if (!then.known || !now_angle.known || !then_angle.known)
    return unknown("the palmar angle isn't known at both visits", false);
  const auto& placed = foot.side_before.placed;
  const auto ground = measure::ground_of(placed);
  const auto apart = placed["coronary-band"] - placed["extensor-process"];
  const double turn = from_degrees(now_angle.value - then_angle.value);
  Quantity turned = then;
  turned.value = dot(apart, ground.n) * std::cos(turn) - dot(apart, ground.u) * std::sin(turn);
  return turned;
}

Quantity rise_of(const Foot& foot, std::string_view id, const Quantity& now) {
  const auto* definition = measure::definition(id);
  const auto& before =
      definition->view == View::lateromedial ? foot.side_before : foot.front_before;
  auto then = measured_on(before, id);
  if (id == "coronary-extensor-distance")
    then = displacement_turned(foot, then);
  return apart_by(now, then);
}

Quantity less_other_foot(const Foot& foot, std::string_view id, const Quantity& now) {
  if (foot.other == nullptr)
    return unknown("there is no picture of the other foot", false);
  return apart_by(now, measured_on(*picture_for(*foot.other, id), id));
}

/// Two numbers of one picture: errors they share cancel.
Quantity difference_on(const Picture& picture, std::string_view id, std::string_view less) {
  const auto a = measured_on(picture, id), b = measured_on(picture, less);
  if (!a.known || !b.known)
    return a.known ? b : a;
  const auto first = measure::evaluate(*measure::definition(id), picture.propagation.placed);
  const auto second = measure::evaluate(*measure::definition(less), picture.propagation.placed);
  const measure::Gradient difference = first->value - second->value;
  return {.known = true,
          .value = difference.value,
          .uncertainty = measure::standard_uncertainty(difference, picture.propagation)};
}

Quantity with_size(Quantity quantity) {
  quantity.value = std::abs(quantity.value);
  return quantity;
}

/// Of what the standing limb is off its line, the share that is gone when it hangs, per cent. Two
/// pictures, read independently; known only where the standing limb is surely off its line.
Quantity gone_hanging(const Foot& foot, std::string_view id, const Quantity& standing) {
  if (!standing.known)
    return standing;
  const auto pairs = measure::comparisons();
  const auto pair =
      std::find_if(pairs.begin(), pairs.end(), [&](const auto& each) { return each.first == id; });
  if (pair == pairs.end() || with_size(standing).low() <= 0)
    return unknown("the limb doesn't surely stand off its line", false);
  const auto hanging = measured_on(*picture_for(foot, pair->second), pair->second);
  if (!hanging.known)
    return unknown("there is no picture of the limb hanging on which it is measured", false);
  const double stays = hanging.value / standing.value;
  return {.known = true,
          .value = 100 * (1 - stays),
          .uncertainty = 100 * std::hypot(hanging.uncertainty, stays * standing.uncertainty) /
                         std::abs(standing.value)};
}

Quantity
followed(const Foot& foot, std::string_view id, std::string_view suffix, const Quantity& now) {
  if (suffix == "value") {
    Quantity certain = now;
    certain.uncertainty = 0;
    return certain;
  }
  if (suffix == "rise")
    return rise_of(foot, id, now);
  if (suffix == "shift")
    return with_size(rise_of(foot, id, now));
  if (suffix == "less-other-foot")
    return less_other_foot(foot, id, now);
  if (suffix == "apart")
    return measure::is_left(foot.limb) ? with_size(less_other_foot(foot, id, now))
                                       : unknown("said with the left foot", false);
  if (suffix == "size")
    return with_size(now);
  if (suffix == "gone-hanging")
    return gone_hanging(foot, id, now);
  if (suffix == "against-base")
    return now; // the base begins at the foot's middle: what is worn isn't measured
  if (suffix == "repeat") {
    auto repeat = measured_on(foot.front_repeat, id);
    if (foot.front_repeat.dated == nullptr)
      repeat.reason = "it needs a second dorsopalmar picture, with the foot lifted and set down "
                      "between the two";
    return repeat;
  }
  if (suffix.substr(0, practice::less_measurement.size()) == practice::less_measurement)
    return difference_on(
        *picture_for(foot, id), id, suffix.substr(practice::less_measurement.size()));
  return unknown("the program doesn't measure it");
}

measure::Limb other_of_pair(measure::Limb limb) {
  switch (limb) {
  case measure::Limb::left_fore:
    return measure::Limb::right_fore;
  case measure::Limb::right_fore:
    return measure::Limb::left_fore;
  case measure::Limb::left_hind:
    return measure::Limb::right_hind;
  case measure::Limb::right_hind:
    break;
  }
  return measure::Limb::left_hind;
}

Quantity wedge_worn_before(const Foot& foot) {
  const auto wedge = difference_on(foot.side_before, "palmar-angle", "palmar-angle-foot");
  if (!wedge.known)
    return unknown(wedge.reason, false);
  return {.known = true, .value = wedge.low() > 0 ? 1.0 : 0.0};
}

double front_pictures(const Foot& foot) {
  return (foot.front.dated != nullptr ? 1 : 0) + (foot.front_repeat.dated != nullptr ? 1 : 0);
}

Quantity fact(const Foot& foot, std::string_view id) {
  if (id == "wedge-worn-before")
    return wedge_worn_before(foot);
  if (id == "front-pictures")
    return {.known = true, .value = front_pictures(foot)};
  const auto value = id == "days-since-picture" && foot.side.dated != nullptr
                         ? days_since_picture(*foot.facts, foot.side.dated->taken)
                         : case_fact(*foot.facts, id);
  if (!value)
    return unknown("the record doesn't say");
  return {.known = true, .value = *value};
}

} // namespace

Foot foot_of(const FootReadings& readings,
             const CaseFacts& facts,
             const practice::Practice& practice) {
  Foot foot{.limb = readings.limb, .facts = &facts, .readings = &readings};
  foot.side = picture_of(readings.lateromedial, View::lateromedial, practice);
  foot.front = picture_of(readings.dorsopalmar, View::dorsopalmar, practice);
  foot.front_repeat = picture_of(readings.dorsopalmar_repeat, View::dorsopalmar, practice);
  foot.side_before = picture_of(readings.lateromedial_before, View::lateromedial, practice);
  foot.front_before = picture_of(readings.dorsopalmar_before, View::dorsopalmar, practice);
  for (const auto& each : readings.photos)
    foot.photos.push_back(picture_of(each, practice));
  foot.no_photo.asked_for = false;
  if (foot.side.dated == nullptr) {
    foot.no_bearing = foot.side.unfit;
    return foot;
  }
  if (auto bearing = bearing_of(foot.side.placed))
    foot.bearing = *bearing;
  else
    foot.no_bearing = bearing.error();
  return foot;
}

const Foot* find(const std::vector<Foot>& feet, measure::Limb limb) {
  const auto at =
      std::find_if(feet.begin(), feet.end(), [&](const Foot& each) { return each.limb == limb; });
  return at == feet.end() ? nullptr : &*at;
}

std::vector<Foot>
feet_of(const PlanInput& input, const CaseFacts& facts, const practice::Practice& practice) {
  std::vector<Foot> feet;
  feet.reserve(input.feet.size());
  for (const auto& each : input.feet)
    feet.push_back(foot_of(each, facts, practice));
  for (auto& foot : feet)
    for (const auto& each : feet)
      if (each.limb == other_of_pair(foot.limb))
        foot.other = &each;
  return feet;
}

std::string_view plain_measurement(std::string_view id) {
  return id.substr(0, id.find('.'));
}

const Picture* picture_for(const Foot& foot, std::string_view id) {
  const auto* definition = measure::definition(plain_measurement(id));
  if (definition == nullptr)
    return nullptr;
  if (definition->view == View::lateromedial)
    return &foot.side;
  if (definition->view == View::dorsopalmar)
    return &foot.front;
  const auto at = std::find_if(foot.photos.begin(), foot.photos.end(), [&](const auto& each) {
    return each.dated->reading.view == definition->view;
  });
  return at == foot.photos.end() ? &foot.no_photo : &*at;
}

Quantity quantity(const Foot& foot, std::string_view id) {
  const auto plain = plain_measurement(id);
  const auto* picture = picture_for(foot, plain);
  if (picture == nullptr)
    return fact(foot, id);
  Quantity result = measured_on(*picture, plain);
  for (auto point = id.find('.'); point != std::string_view::npos;) {
    id.remove_prefix(point + 1);
    point = id.find('.');
    result = followed(foot, plain, id.substr(0, point), result);
  }
  return result;
}

} // namespace pritchel::plan
