#include "job/posture.h"

#include "measure/comparison.h"
#include "record/edit.h"

#include <nlohmann/json.hpp>

#include <map>

namespace pritchel::job {
namespace {

using measure::View;
using nlohmann::json;

/// The measurements of one limb: of every standing picture one after another, and hanging.
struct Limb {
  std::vector<measure::Measurement> standing;
  std::vector<measure::Measurement> hanging;
};

std::map<measure::Limb, Limb> by_limb(const std::vector<MeasuredPicture>& pictures) {
  std::map<measure::Limb, Limb> limbs;
  for (const auto& each : pictures) {
    if (!measure::is_limb(each.entry.view))
      continue;
    auto& limb = limbs[each.entry.limb];
    auto& into = each.entry.view == View::limb_hanging ? limb.hanging : limb.standing;
    into.insert(into.end(), each.measurements.begin(), each.measurements.end());
  }
  return limbs;
}

json said(double value, double standard_uncertainty) {
  return {{"value", value}, {"standard_uncertainty", standard_uncertainty}};
}

json row_json(const measure::Compared& each, measure::Limb limb) {
  const auto& pair = *each.comparison;
  const auto unit = each.first.definition->unit;
  return {{"id", pair.id},
          {"title", measure::worded_for(limb, pair.title)},
          {"what", measure::worded_for(limb, pair.what)},
          {"unit", measure::key(unit)},
          {"decimals", measure::decimals(unit)},
          {"standing", said(each.first.value, each.first.standard_uncertainty)},
          {"hanging", said(each.second.value, each.second.standard_uncertainty)},
          {"gone", said(each.difference, each.standard_uncertainty)}};
}

/// Each further side view of a limb against its first.
json joints_json(const std::vector<MeasuredPicture>& pictures) {
  std::map<measure::Limb, const MeasuredPicture*> firsts;
  json joints = json::array();
  for (const auto& each : pictures) {
    if (each.entry.view != View::lateromedial || each.entry_reading.landmarks.empty())
      continue;
    const auto [first, is_first] = firsts.emplace(each.entry.limb, &each);
    if (is_first)
      continue;
    const auto change = measure::flexion_change(first->second->measurements, each.measurements);
    if (change)
      joints.push_back({{"limb", measure::key(each.entry.limb)},
                        {"from", first->second->entry.digest},
                        {"to", each.entry.digest},
                        {"id", change->comparison->id},
                        {"title", change->comparison->title},
                        {"what", change->comparison->what},
                        {"first", said(change->first.value, change->first.standard_uncertainty)},
                        {"second", said(change->second.value, change->second.standard_uncertainty)},
                        {"more", said(change->difference, change->standard_uncertainty)}});
  }
  return joints;
}

} // namespace

Result<json>
posture_json(const Desk& desk, const std::string& case_id, const std::string& visit_id) {
  PRITCHEL_TRY(value, desk.store.load_case(case_id));
  PRITCHEL_TRY(visit, record::visit_in(value, visit_id));
  PRITCHEL_TRY(pictures, measured_pictures(desk, value, visit));
  json limbs = json::array();
  for (const auto& [limb, seen] : by_limb(pictures)) {
    json rows = json::array();
    for (const auto& each : measure::posture_shares(seen.standing, seen.hanging))
      rows.push_back(row_json(each, limb));
    if (!rows.empty())
      limbs.push_back({{"limb", measure::key(limb)}, {"rows", std::move(rows)}});
  }
  return json{{"limbs", std::move(limbs)}, {"joints", joints_json(pictures)}};
}

} // namespace pritchel::job
