#include "serve/prediction_json.h"

#include <nlohmann/json.hpp>

namespace pritchel::serve {

nlohmann::json predictions_json(const std::vector<plan::Prediction>& predictions) {
  nlohmann::json list = nlohmann::json::array();
  for (const auto& each : predictions)
    list.push_back({{"limb", measure::key(each.limb)},
                    {"measurement", each.definition->id},
                    {"title", measure::worded_for(each.limb, each.definition->title)},
                    {"unit", measure::key(each.definition->unit)},
                    {"decimals", measure::decimals(each.definition->unit)},
                    {"before", each.before},
                    {"after", each.after},
                    {"change", each.change},
                    {"uncertainty_of_change", each.uncertainty_of_change},
                    {"uncertainty_before", each.uncertainty_before},
                    {"uncertainty_after", each.uncertainty_after},
                    {"status_after", measure::key(each.status_after)}});
  return list;
}

} // namespace pritchel::serve
