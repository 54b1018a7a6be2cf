#include "serve/try_json.h"

#include "plan/variables.h"
#include "record/json.h"
#include "serve/fit_json.h"
#include "serve/overlay_json.h"
#include "serve/prediction_json.h"

#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using nlohmann::json;

json held_back_json(const std::vector<plan::HeldBack>& held_back) {
  json list = json::array();
  for (const auto& each : held_back)
    list.push_back({{"variable", each.variable},
                    {"wished", each.wished},
                    {"held", each.held},
                    {"sentence", each.sentence}});
  return list;
}

json shoe_tried_json(const plan::ShoeTried& shoe) {
  return {{"refused", shoe.refused}, {"not_given", shoe.not_given}, {"fitting", shoe.fitting}};
}

json picture_json(const job::ChangedPicture& picture) {
  json grips = json::array();
  for (const auto& each : picture.grips)
    grips.push_back({{"variable", each.variable},
                     {"at", {each.at.x, each.at.y}},
                     {"per_unit", {each.per_unit.x, each.per_unit.y}}});
  return {{"digest", picture.digest},
          {"read_by", picture.read_by},
          {"overlay", overlay_json(picture.overlay)},
          {"grips", std::move(grips)}};
}

} // namespace

json try_json(const job::Tried& tried) {
  const auto& what = tried.what;
  json pictures = json::array();
  for (const auto& each : tried.pictures)
    pictures.push_back(picture_json(each));
  return {{"refused", what.refused},
          {"change", change_json(what.change)},
          {"amount", plan::amounts_for_people(what.change)},
          {"shoe", record::to_json(what.change.shoe)},
          {"shoe_tried", shoe_tried_json(what.shoe)},
          {"held_back", held_back_json(what.held_back)},
          {"predictions", predictions_json(what.predictions)},
          {"outlook", tried.outlook ? outlook_json(*tried.outlook) : json(nullptr)},
          {"pictures", std::move(pictures)}};
}

} // namespace pritchel::serve
