/// Best fit: the least change of a foot that brings what a person wants of it into its bands, or as
/// near as the hard limits allow (plan/limits.h), and what stands in the way. Three ways side by
/// side: by the knife, by the shoe, by both. No aim is the program's own, and none is sought that
/// the reading doesn't surely miss. How it works: docs/plan.md.
#pragma once

#include "plan/plan.h"

#include <string>
#include <vector>

namespace pritchel::plan {

/// `change_only` leaves out what stands in the way, conflicts, costs and predictions.
enum class Detail { full, change_only };

struct FitRequest {
  measure::Limb limb = measure::Limb::left_fore;
  std::vector<record::Aim> aims; ///< switched on by a person
  std::vector<record::Means> means{record::Means::trim, record::Means::shoe, record::Means::both};
  Detail detail = Detail::full;
};

/// An aim of which nothing is made, and why: not measured, not predictable, moved by nothing.
struct LeftOut {
  std::string measurement;
  std::string reason; ///< a sentence
  bool impossible = false;
};

enum class AimState {
  reached, ///< sought, and in its band now
  nearer,  ///< sought; nearer to its band than before
  missed,  ///< sought, and no nearer
  kept     ///< not surely outside its band, so that it was only kept from going farther off
};

struct AimOutcome {
  std::string measurement;
  AimState state = AimState::missed;
  double before = 0; ///< in the measurement's unit
  double uncertainty_before = 0;
  double after = 0;
  double missed_by = 0;      ///< in its unit; 0 in the band
  bool beyond_reach = false; ///< no amount of trim or shoe brings it there, whatever the limits
};

/// A limit, a lock of the practice, or an aim that is kept: without it alone (or without it and
/// `with`) the aims would be missed by less.
struct Hindrance {
  std::string id; ///< of the limit; "practice-lock"; or "kept:" and a measurement
  std::string with;
  std::string sentence;         ///< for people, complete
  std::vector<AimOutcome> gain; ///< what would come out; empty where that is never told
};

/// What a way costs, for people.
struct Costs {
  double wall_off_toe_mm = 0; ///< along the wall
  double heel_off_mm = 0;
  double steps = 0; ///< hand-sized steps in all: what the search keeps least
  std::vector<std::string> sentences;
};

struct Way {
  record::Means means = record::Means::both;
  record::FootChange change;
  bool reached = false; ///< every sought aim
  double distance = 0;  ///< root of the sum of squares of what is missed, in what counts as one
  std::vector<AimOutcome> outcomes;
  std::vector<Hindrance> in_the_way; ///< largest gain first; none when reached
  Costs costs;
  std::vector<Prediction> predictions; ///< of every measurement; empty when nothing is changed
};

struct Fit {
  measure::Limb limb = measure::Limb::left_fore;
  std::vector<std::string> refused; ///< why nothing at all is fitted; then nothing else is there
  std::vector<LeftOut> left_out;
  std::vector<std::string> conflicts; ///< aims that pull against one another
  std::vector<Way> ways;              ///< trim, shoe, both; both is left out when it is one of them
  double distance_now = 0;            ///< as Way::distance, of the foot as it is
};

[[nodiscard]] Fit
fit_foot(const PlanInput& input, const practice::Practice& practice, const FitRequest& request);

} // namespace pritchel::plan
