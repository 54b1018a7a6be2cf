#include "measure/definitions.h"
#include "plan/variables.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

json landmark_json(const practice::LandmarkGuide& guide) {
  return {{"id", guide.id},
          {"title", guide.title},
          {"definition", guide.definition},
          {"finding", guide.finding},
          {"mistakes", guide.mistakes},
          {"required", guide.required},
          {"only_shod", guide.only_shod},
          {"group", practice::key(guide.group)},
          {"dot", guide.spread.on_dot_mm > 0},
          {"snap", practice::key(guide.snap.to)},
          {"snap_of", guide.snap.of},
          {"schematic_x", guide.schematic_x},
          {"schematic_y", guide.schematic_y}};
}

std::string_view shows(measure::View view) {
  if (measure::is_radiograph(view))
    return "radiograph";
  return measure::is_limb(view) ? "limb" : "foot";
}

json protocol_json(const practice::Protocol& protocol) {
  json landmarks = json::array();
  for (const auto& each : protocol.landmarks)
    landmarks.push_back(landmark_json(each));
  return {{"id", protocol.id},
          {"view", measure::key(protocol.view)},
          {"legs", measure::key(protocol.legs)},
          {"shows", shows(protocol.view)},
          {"from_the_side", measure::is_side_view(protocol.view)},
          {"title", protocol.title},
          {"schematic", protocol.schematic},
          {"landmarks", landmarks}};
}

json definition_json(const measure::Definition& definition) {
  json needs = json::array();
  for (const auto id : definition.needs)
    needs.push_back(id);
  return {{"id", definition.id},
          {"title", definition.title},
          {"view", measure::key(definition.view)},
          {"unit", measure::key(definition.unit)},
          {"what", definition.what},
          {"sign", definition.sign},
          {"legs", measure::key(definition.legs)},
          {"needs", needs}};
}

json end_json(const std::optional<double>& end) {
  return end ? json(*end) : json(nullptr);
}

json aim_json(const practice::OfferedAim& aim, const practice::Practice& practice) {
  const auto source = practice.sources.find(aim.source);
  return {{"measurement", aim.measurement},
          {"for_fore", aim.for_fore},
          {"for_hind", aim.for_hind},
          {"low", end_json(aim.low)},
          {"high", end_json(aim.high)},
          {"counts_as_one", aim.counts_as_one},
          {"why", aim.why},
          {"source", source == practice.sources.end() ? aim.source : source->second}};
}

json span_json(const practice::Span& span) {
  return {{"least", span.least}, {"most", span.most}};
}

json shoe_json(const practice::ShoeKind& shoe) {
  return {{"id", shoe.id},
          {"title", shoe.title},
          {"words", shoe.words},
          {"bar", shoe.bar},
          {"frog_support", shoe.frog_support},
          {"web_mm", span_json(shoe.web_mm)},
          {"roll_rise_mm", span_json(shoe.roll_rise_mm)},
          {"caution", shoe.caution}};
}

json practice_json(const practice::Practice& practice) {
  json protocols = json::array();
  for (const auto& each : practice.protocols)
    protocols.push_back(protocol_json(each));
  json measurements = json::array();
  for (const auto& each : measure::definitions())
    measurements.push_back(definition_json(each));
  json red_flags = json::array();
  for (const auto& each : practice.red_flags)
    red_flags.push_back({{"id", each.id}, {"words", each.words}});
  json aims = json::array();
  for (const auto& each : practice.aims)
    aims.push_back(aim_json(each, practice));
  json shoes = json::array();
  for (const auto& each : practice.shoes)
    shoes.push_back(shoe_json(each));
  json amounts = json::array();
  for (const auto& each : plan::variables())
    amounts.push_back({{"name", each.name}, {"step", each.step}, {"most", each.most}});
  return {{"protocols", protocols},
          {"amounts", amounts},
          {"measurements", measurements},
          {"aims", aims},
          {"shoes", shoes},
          {"red_flags", red_flags},
          {"words", practice.words},
          {"version", PRITCHEL_VERSION}};
}

} // namespace

void add_practice_routes(Routes& routes, Office& office) {
  routes.get("/api/practice",
             [&](const Request&) -> Result<json> { return practice_json(*office.practice()); });
}

} // namespace pritchel::serve
