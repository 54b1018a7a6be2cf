#include "job/agreement_json.h"

#include "measure/detectable.h"
#include "record/json.h"
#include "record/sight.h"
#include "record/words.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <utility>

namespace pritchel::job {
namespace {

using nlohmann::json;

json interval_json(const agreement::Interval& interval) {
  return {interval.low, interval.high};
}

json limits_json(const agreement::Limits& limits) {
  return {{"bias", limits.bias},
          {"sd", limits.sd},
          {"lower", limits.lower},
          {"upper", limits.upper},
          {"bias_interval", interval_json(limits.bias_interval)},
          {"lower_interval", interval_json(limits.lower_interval)},
          {"upper_interval", interval_json(limits.upper_interval)}};
}

json icc_json(const agreement::Icc& icc) {
  return {{"value", icc.value}, {"interval", interval_json(icc.interval)}};
}

json iccs_json(const agreement::Iccs& all) {
  return {{"1,1", icc_json(all.one_1)},
          {"2,1", icc_json(all.two_1)},
          {"3,1", icc_json(all.three_1)},
          {"1,k", icc_json(all.one_k)},
          {"2,k", icc_json(all.two_k)},
          {"3,k", icc_json(all.three_k)}};
}

json named(const measure::Definition& definition, measure::Limb limb) {
  return {{"id", definition.id},
          {"title", measure::worded_for(limb, definition.title)},
          {"unit", measure::key(definition.unit)},
          {"decimals", measure::decimals(definition.unit)}};
}

/// What all pairs of two readers say; only the number of pairs while they are too few.
void add_agreement(json& to, const NumberAgreement& number) {
  to["pairs"] = number.pairs;
  if (number.limits)
    to["limits"] = limits_json(*number.limits);
  if (number.icc)
    to["icc"] = iccs_json(*number.icc);
  if (number.squares)
    to["sem"] = {{"agreement", agreement::sem_agreement(*number.squares)},
                 {"consistency", agreement::sem_consistency(*number.squares)}};
}

json number_json(const NumberAgreement& number) {
  auto result = named(*number.definition, measure::Limb::left_fore);
  add_agreement(result, number);
  return result;
}

json named(const practice::Practice& practice,
           const std::string& protocol,
           const std::string& landmark) {
  const auto* known = practice::protocol_by_id(practice, protocol);
  return {{"protocol", protocol},
          {"id", landmark},
          {"title",
           known != nullptr ? practice::landmark_title(*known, landmark, measure::Limb::left_fore)
                            : landmark}};
}

json landmark_json(const LandmarkAgreement& each, const practice::Practice& practice) {
  auto result = named(practice, each.protocol, each.landmark);
  result["pairs"] = each.pairs;
  if (each.across)
    result["across"] = limits_json(*each.across);
  if (each.along)
    result["along"] = limits_json(*each.along);
  return result;
}

json readers_json(const ReaderAgreement& readers, const practice::Practice& practice) {
  json result{{"first", readers.first},
              {"second", readers.second},
              {"measurements", json::array()},
              {"landmarks", json::array()}};
  for (const auto& each : readers.numbers)
    result["measurements"].push_back(number_json(each));
  for (const auto& each : readers.landmarks)
    result["landmarks"].push_back(landmark_json(each, practice));
  return result;
}

json repeat_json(const NumberRepeat& repeat) {
  auto result = named(*repeat.definition, measure::Limb::left_fore);
  result["repeats"] = repeat.pool.repeats();
  result["pictures"] = repeat.pool.things();
  result["within_sd"] = repeat.pool.sd();
  result["smallest_detectable_change"] = measure::smallest_detectable_change(repeat.pool.sd());
  return result;
}

json spread_json(double across_mm, double along_mm) {
  return {{"across_mm", across_mm}, {"along_mm", along_mm}};
}

json pooled_json(const agreement::Scatter& scatter) {
  auto result = spread_json(scatter.across.sd(), scatter.along.sd());
  result["repeats"] = scatter.across.repeats();
  result["pictures"] = scatter.across.things();
  return result;
}

json repeat_json(const LandmarkRepeat& repeat, const practice::Practice& practice) {
  auto result = named(practice, repeat.protocol, repeat.landmark);
  result["turns"] = pooled_json(repeat.turns);
  result["readers"] = pooled_json(repeat.readers);
  result["uses"] = repeat.own ? "own" : "default";
  const auto* protocol = practice::protocol_by_id(practice, repeat.protocol);
  const auto* guide = protocol != nullptr ? practice::guide(*protocol, repeat.landmark) : nullptr;
  if (repeat.own)
    result["spread"] = spread_json(repeat.own->spread.across_mm, repeat.own->spread.along_mm);
  else if (guide != nullptr)
    result["spread"] = spread_json(guide->spread.across_mm, guide->spread.along_mm);
  return result;
}

/// Whether two placings lie further apart than the spread in use lets 95 % of pairs lie, in either
/// direction.
bool is_wide(const agreement::Offset& offset, const measure::Spread& spread) {
  return std::abs(offset.across_mm) > measure::smallest_detectable_change(spread.across_mm) ||
         std::abs(offset.along_mm) > measure::smallest_detectable_change(spread.along_mm);
}

json point_json(const PictureAgreement& pair,
                const practice::LandmarkGuide& guide,
                measure::Limb limb,
                const RepeatedPicture& picture) {
  json result{{"id", guide.id}, {"title", measure::worded_for(limb, guide.title)}};
  const auto split =
      agreement::offset(pair.first->placed, pair.second->placed, guide.spread, guide.id);
  if (!split)
    return result;
  result["across"] = split->across_mm;
  result["along"] = split->along_mm;
  result["distance"] = std::hypot(split->across_mm, split->along_mm);
  if (picture.has_scale)
    result["wide"] = is_wide(*split, guide.spread);
  return result;
}

bool is_placed(const Turn& turn, const std::string& landmark) {
  return turn.placed.has(landmark);
}

json points_json(const PictureAgreement& pair,
                 const RepeatedPicture& picture,
                 measure::Limb limb,
                 const practice::Practice& practice) {
  json points = json::array();
  const auto* protocol = practice::protocol_by_id(practice, picture.protocol);
  if (protocol == nullptr)
    return points;
  for (const auto& guide : protocol->landmarks) {
    const bool first = is_placed(*pair.first, guide.id);
    const bool second = is_placed(*pair.second, guide.id);
    if (!first && !second)
      continue;
    auto row = point_json(pair, guide, limb, picture);
    if (!first || !second)
      row["only"] = first ? pair.first->reader : pair.second->reader;
    points.push_back(std::move(row));
  }
  return points;
}

json number_json(const measure::Definition& definition,
                 const ReadValue& a,
                 const ReadValue& b,
                 measure::Limb limb) {
  auto row = named(definition, limb);
  const double change = measure::smallest_detectable_change(
      std::hypot(a.standard_uncertainty, b.standard_uncertainty) / std::sqrt(2.0));
  row["first"] = a.value;
  row["second"] = b.value;
  row["difference"] = a.value - b.value;
  row["smallest_detectable_change"] = change;
  row["wide"] = std::abs(a.value - b.value) > change;
  return row;
}

json numbers_json(const PictureAgreement& pair, measure::Limb limb, const PracticeAgreement& all) {
  json numbers = json::array();
  for (const auto& definition : measure::definitions()) {
    const auto a = pair.first->values.find(definition.id);
    const auto b = pair.second->values.find(definition.id);
    if (a == pair.first->values.end() || b == pair.second->values.end())
      continue;
    auto row = number_json(definition, a->second, b->second, limb);
    const auto* between =
        number_between(all, pair.first->reader, pair.second->reader, definition.id);
    row["pairs"] = 0;
    if (between != nullptr)
      add_agreement(row, *between);
    numbers.push_back(std::move(row));
  }
  return numbers;
}

json turn_json(const Turn& turn) {
  return {{"reader", turn.reader}, {"turn", turn.turn}};
}

} // namespace

json agreement_json(const PracticeAgreement& all, const practice::Practice& practice) {
  json result{{"format", "pritchel-agreement"},
              {"version", 1},
              {"pictures", all.pictures},
              {"fewest_pairs", fewest_pairs},
              {"fewest_repeats", agreement::fewest_repeats},
              {"fewest_pictures", agreement::fewest_pictures},
              {"readers", json::array()},
              {"repeats", json::array()},
              {"landmarks", json::array()}};
  for (const auto& each : all.readers)
    result["readers"].push_back(readers_json(each, practice));
  for (const auto& each : all.repeats)
    result["repeats"].push_back(repeat_json(each));
  for (const auto& each : all.landmarks)
    result["landmarks"].push_back(repeat_json(each, practice));
  return result;
}

json agreement_json(const PictureAgreement& pair,
                    const RepeatedPicture& picture,
                    measure::Limb limb,
                    const PracticeAgreement& all,
                    const practice::Practice& practice) {
  return {{"between", pair.by_two ? "readers" : "turns"},
          {"first", turn_json(*pair.first)},
          {"second", turn_json(*pair.second)},
          {"unit", picture.has_scale ? "mm" : "px"},
          {"fewest_pairs", fewest_pairs},
          {"landmarks", points_json(pair, picture, limb, practice)},
          {"measurements", numbers_json(pair, limb, all)}};
}

json readings_json(const std::vector<record::ReadingEntry>& all, const std::string& reader) {
  json readings = json::array();
  const auto* working = record::working_reading(all);
  for (const auto& each : all) {
    const bool seen = record::may_see(reader, each, all);
    json one{{"reader", each.reader},
             {"turn", each.turn},
             {"sight", record::key(each.sight)},
             {"done", !each.done.empty()},
             {"seen", seen}};
    if (seen) {
      one["saved"] = each.saved;
      one["revision"] = each.revision;
      one["working"] = &each == working;
      one["revealed"] = record::is_revealed(each, all);
      one["landmarks"] = record::to_json(each.landmarks);
    }
    readings.push_back(std::move(one));
  }
  // Where a hidden one stood in the order of saving would tell when it was saved.
  const auto hidden = std::stable_partition(
      readings.begin(), readings.end(), [](const json& each) { return each.at("seen") == true; });
  std::sort(hidden, readings.end(), [](const json& a, const json& b) {
    return std::pair(a.at("reader"), a.at("turn")) < std::pair(b.at("reader"), b.at("turn"));
  });
  return readings;
}

} // namespace pritchel::job
