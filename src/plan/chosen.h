/// The lines of a plan for a foot whose amounts a person chose: a way of the best fit (plan/fit.h),
/// or amounts set by hand (plan/what_if.h). Internal to the plan floor.
#pragma once

#include "plan/propose.h"

namespace pritchel::plan {

/// Works the way out again from its aims and puts its lines where the rules' proposals stood; notes
/// of the rules stay. `taken` gets what stood in the way. Nothing happens where nothing may be
/// fitted.
void take_way(const Foot& foot,
              const PlanInput& input,
              const practice::Practice& practice,
              record::TakenWay& taken,
              FootPlan& plan);

/// Holds the amounts within the limits and puts their lines where the rules' proposals stood.
/// Nothing happens while a standing limit is broken.
void take_hand_change(const Foot& foot,
                      const HandChange& set,
                      const practice::Practice& practice,
                      FootPlan& plan);

} // namespace pritchel::plan
