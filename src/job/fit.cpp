#include "job/fit.h"

#include "job/foresee.h"

namespace pritchel::job {

Result<FitFound> best_fit(const Desk& desk,
                          const std::string& case_id,
                          const std::string& visit,
                          const record::AskedFit& asked,
                          const record::Stamp& stamp) {
  PRITCHEL_TRY(ground, plan_ground(desk, case_id, visit));
  PRITCHEL_TRY(growth, growth_of(desk, ground, asked.limb));
  const auto input = plan_input(ground, stamp);
  const plan::FitRequest request{.limb = asked.limb, .aims = asked.aims};
  FitFound found{.fit = plan::fit_foot(input, desk.practice, request), .stages = {}};
  for (const auto& way : found.fit.ways)
    found.stages.push_back(plan::stages_of(input, desk.practice, request, way.means, growth));
  return found;
}

} // namespace pritchel::job
