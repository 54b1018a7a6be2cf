/// The lines of a plan for a foot of which a person took a way (plan/fit.h). Internal to the plan
/// floor.
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

} // namespace pritchel::plan
