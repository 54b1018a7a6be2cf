#include "serve/prediction_json.h"

#include "record/edit.h"
#include "record/json.h"

#include <nlohmann/json.hpp>

#include "job/foresee.h"

namespace pritchel::serve {

namespace {

using nlohmann::json;

json shares_json(const plan::JointShares& shares) {
  return {{"coffin", shares.coffin},
          {"pastern", shares.pastern},
          {"long_pastern", shares.long_pastern},
          {"source", shares.source},
          {"what", shares.what}};
}

json shares_used() {
  json value{{"used", shares_json(plan::standing_shares)}, {"others", json::array()}};
  for (const auto& each : plan::other_shares)
    value["others"].push_back(shares_json(each));
  return value;
}

json growth_json(const plan::Growth& growth) {
  return {{"toe_mm_per_week", growth.toe_mm},
          {"heel_mm_per_week", growth.heel_mm},
          {"toe_uncertainty", growth.toe_uncertainty_mm},
          {"heel_uncertainty", growth.heel_uncertainty_mm},
          {"own_intervals", growth.own_intervals}};
}

json ratio_json(const std::optional<plan::ArmRatio>& ratio, std::string_view words) {
  return ratio ? json{{"ratio", ratio->ratio},
                      {"low", ratio->low},
                      {"high", ratio->high},
                      {"words", words}}
               : json{};
}

json review_json(const std::optional<plan::Review>& review) {
  return review ? json{{"week", review->week}, {"measurement", review->measurement}} : json{};
}

} // namespace

json outlook_json(const plan::Outlook& outlook) {
  return {{"limb", measure::key(outlook.limb)},
          {"week", outlook.week},
          {"predictions", predictions_json(outlook.in_week)},
          {"no_growth", outlook.no_growth},
          {"growth", growth_json(outlook.growth)},
          {"review", review_json(outlook.review)},
          {"mid_stance", ratio_json(outlook.arms.mid_stance, plan::mid_stance_words)},
          {"no_mid_stance", outlook.arms.no_mid_stance},
          {"breakover", ratio_json(outlook.arms.breakover, plan::breakover_words)},
          {"base_shift_mm", outlook.base_shift_mm},
          {"joint_shares", shares_used()}};
}

json outlooks_json(const std::vector<plan::Outlook>& outlooks) {
  json list = json::array();
  for (const auto& each : outlooks)
    list.push_back(outlook_json(each));
  return list;
}

nlohmann::json predictions_json(const std::vector<plan::Prediction>& predictions) {
  nlohmann::json list = nlohmann::json::array();
  for (const auto& each : predictions)
    list.push_back(
        {{"limb", measure::key(each.limb)},
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
         {"status_after", measure::key(each.status_after)},
         {"range_after",
          each.range_after ? json{{"low", each.range_after->low}, {"high", each.range_after->high}}
                           : json{}}});
  return list;
}

Result<json> planned_json(Office& office,
                          const std::string& case_id,
                          const std::string& visit_id,
                          const record::Plan& plan) {
  PRITCHEL_TRY(value, office.store().load_case(case_id));
  PRITCHEL_TRY(visit, record::visit_in(value, visit_id));
  const auto desk = office.desk();
  PRITCHEL_TRY(pictures, job::measured_pictures(desk, value, visit));
  PRITCHEL_TRY(ahead, job::foreseen(desk, value, visit, pictures, plan));
  return json{{"plan", record::to_json(plan)},
              {"predictions", predictions_json(ahead.predictions)},
              {"outlooks", outlooks_json(ahead.outlooks)}};
}

} // namespace pritchel::serve
