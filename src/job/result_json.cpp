#include "job/result_json.h"

#include "measure/detectable.h"
#include "measure/sides.h"

#include <nlohmann/json.hpp>

#include "job/checks_json.h"

namespace pritchel::job {
namespace {

using nlohmann::json;

std::string_view key(measure::Standing standing) {
  switch (standing) {
  case measure::Standing::published:
    return "published";
  case measure::Standing::own_practice:
    return "own-practice";
  case measure::Standing::trade_rule:
    break;
  }
  return "trade-rule";
}

std::string citation(const practice::Practice& practice, const std::string& source) {
  const auto known = practice.sources.find(source);
  return known == practice.sources.end() ? source : known->second;
}

json band_json(const measure::Band& band, const practice::Practice& practice) {
  json result{{"population", band.population},
              {"standing", key(band.standing)},
              {"source", citation(practice, band.source)}};
  if (band.low)
    result["low"] = *band.low;
  if (band.high)
    result["high"] = *band.high;
  return result;
}

json measurement_json(const measure::Measurement& each,
                      measure::Limb limb,
                      const practice::Practice& practice) {
  const auto& definition = *each.definition;
  json result{{"id", definition.id},
              {"title", measure::worded_for(limb, definition.title)},
              {"unit", measure::key(definition.unit)},
              {"decimals", measure::decimals(definition.unit)},
              {"status", measure::key(each.status)}};
  if (each.measurable()) {
    result["value"] = each.value;
    result["standard_uncertainty"] = each.standard_uncertainty;
    result["smallest_detectable_change"] = measure::smallest_detectable_change(each);
    result["low"] = each.low();
    result["high"] = each.high();
  } else {
    result["reason"] = each.reason;
    result["missing"] = each.missing;
  }
  if (each.band)
    result["band"] = band_json(*each.band, practice);
  if (!each.cautions.empty())
    result["cautions"] = each.cautions;
  return result;
}

} // namespace

json calibration_json(const record::Scaled& scaled) {
  const auto& calibration = scaled.calibration;
  json result{{"has_scale", calibration.has_scale()},
              {"sentence", calibration.sentence},
              {"relative_uncertainty", calibration.relative_uncertainty},
              {"cautions", calibration.cautions},
              {"conflicts", scaled.conflicts}};
  if (calibration.has_scale())
    result["pixel_mm"] = {calibration.pixel_width_mm, calibration.pixel_height_mm};
  return result;
}

json result_json(const MeasuredPicture& found, const practice::Practice& practice) {
  json result{{"calibration", calibration_json(found.scaled)},
              {"checks", checks_json(found.checks, found.entry.limb)},
              {"contradictions", measure::contradictions(found.reading)},
              {"spread", practice::spread_sentence(protocol_of(found.entry, practice))},
              {"measurements", json::array()}};
  for (const auto& each : found.measurements)
    result["measurements"].push_back(measurement_json(each, found.entry.limb, practice));
  return result;
}

} // namespace pritchel::job
