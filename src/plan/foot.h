/// One foot as rules and limits see it: its readings measured once, and every number asked for by
/// name with its standard uncertainty, or the reason why it isn't known.
#pragma once

#include "geometry/angle.h"
#include "measure/check.h"
#include "measure/uncertainty.h"
#include "plan/change.h"
#include "plan/facts.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::plan {

/// One picture of the foot, measured. `unfit` says why nothing is planned from it; empty when fit.
struct Picture {
  const DatedReading* dated = nullptr;
  std::string unfit = "there is no such picture of this foot";
  bool asked_for = true; ///< should a person be told to take it?
  measure::Propagation propagation;
  measure::Placed<double> placed;
  std::vector<measure::Check> checks; ///< was it fit to measure on?
  std::vector<measure::Measurement> measured;
  double depth_divisor = 1; ///< what depths are divided by before they meet a limit

  [[nodiscard]] bool fit() const { return unfit.empty(); }
};

/// Invariant: pointers outlive the foot; they belong to make_plan's input.
struct Foot {
  measure::Limb limb = measure::Limb::left_fore;
  const CaseFacts* facts = nullptr;
  const FootReadings* readings = nullptr;
  Picture side;
  Picture front;
  Picture front_repeat;
  Picture side_before;
  Picture front_before;
  std::vector<Picture> photos;
  Picture no_photo;                       ///< what is asked of a photo that wasn't taken
  std::optional<Bearing<double>> bearing; ///< of the side view
  std::string no_bearing;                 ///< why not
  const Foot* other = nullptr;            ///< of the pair
};

[[nodiscard]] Foot
foot_of(const FootReadings& readings, const CaseFacts& facts, const practice::Practice& practice);

/// All feet of the input, each knowing the other of its pair.
[[nodiscard]] std::vector<Foot>
feet_of(const PlanInput& input, const CaseFacts& facts, const practice::Practice& practice);

/// nullptr when it isn't among them.
[[nodiscard]] const Foot* find(const std::vector<Foot>& feet, measure::Limb limb);

/// A number, or why there is none. `asked_for`: a person should be told to get it.
struct Quantity {
  bool known = false;
  double value = 0;
  double uncertainty = 0; ///< standard
  std::string reason;
  bool asked_for = true;

  [[nodiscard]] double low() const { return value - measure::coverage_factor * uncertainty; }
  [[nodiscard]] double high() const { return value + measure::coverage_factor * uncertainty; }
};

/// By a measurement's id with what may follow it (practice/rule.h), or a fact of the case. Depths
/// of sole come divided by the picture's depth divisor. Numbers that lean on the stance (the axis,
/// the whole front view) are known only when it is stated that the foot carried weight (rule s14).
[[nodiscard]] Quantity quantity(const Foot& foot, std::string_view id);

/// The picture in which a measurement is taken; nothing for a fact of the case.
[[nodiscard]] const Picture* picture_for(const Foot& foot, std::string_view id);

/// The measurement's id without what follows it.
[[nodiscard]] std::string_view plain_measurement(std::string_view id);

} // namespace pritchel::plan
