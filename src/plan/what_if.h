/// What a person tries on a foot by hand before anything is planned: amounts as wished, held where
/// a limit stands, and the grips by which a picture's amounts are dragged. Nothing is kept by it.
#pragma once

#include "plan/plan.h"

#include <string>
#include <string_view>
#include <vector>

namespace pritchel::plan {

struct HeldBack {
  std::string variable;
  double wished = 0;
  double held = 0;
  std::string sentence; ///< of the limit or the practice's lock that stands there
};

/// What the practice's list of shoes says to the change (plan/shoes.h).
struct ShoeTried {
  std::string refused;                ///< why the chosen one isn't taken
  std::vector<std::string> not_given; ///< by the chosen one
  std::vector<std::string> fitting;   ///< ids, plainest first
};

struct WhatIf {
  std::vector<std::string> refused; ///< why nothing at all may be tried; then nothing else is there
  record::FootChange change;        ///< as far as the limits let it, on steps a hand can keep
  std::vector<HeldBack> held_back;
  ShoeTried shoe;
  std::vector<Prediction> predictions; ///< of every view that is fit to plan on
};

/// `moved` names the amount under the hand: where the whole breaks a limit it alone gives way, to
/// the nearest step that keeps all. Where no step of it does, amounts are taken up one after
/// another in the table's order, each as far as it goes. Laws: the change keeps every limit; a
/// change that keeps them all comes back as it is, to a step.
[[nodiscard]] WhatIf what_if(const PlanInput& input,
                             const practice::Practice& practice,
                             const record::FootChange& wished,
                             std::string_view moved);

/// A place on the changed foot that goes along `per_unit` when its amount grows by one mm or
/// degree.
struct Grip {
  std::string_view variable;
  PlanePoint at;
  PlaneVector per_unit;
};

/// Those of the reading's view; an amount that moves none of its landmarks has no grip.
[[nodiscard]] std::vector<Grip> grips_of(const measure::Reading& reading,
                                         const record::FootChange& change);

} // namespace pritchel::plan
