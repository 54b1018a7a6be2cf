#include "record/json.h"
#include "record/json_parts.h"
#include "record/words.h"

#include <fmt/format.h>

#include <charconv>
#include <limits>

namespace pritchel::record {
namespace {

using nlohmann::json;

constexpr int most_turns = 1000;
constexpr int most_revisions = std::numeric_limits<int>::max() - 1;

measure::Landmark landmark_at(const std::string& id, const Node& node) {
  constexpr Range anywhere{-farthest_px, farthest_px};
  if (!is_id(id))
    node.complain("is no landmark id", "ids are lower-case letters, digits and hyphens");
  if (node.is_array()) {
    std::vector<double> xy;
    node.each(2, [&](const Node& each) { xy.push_back(each.number(anywhere)); });
    if (xy.size() != 2)
      node.complain("must be two numbers, [x, y]");
    xy.resize(2);
    return {.id = id, .at = {xy[0], xy[1]}};
  }
  return {.id = id,
          .at = {node.need("x").number(anywhere), node.need("y").number(anywhere)},
          .how = node["how"].word(&placement_from,
                                  "by-hand, suggested, confirmed, snapped, on-dot",
                                  measure::Placement::by_hand)};
}

ReadingEntry reading_at(const Node& node) {
  ReadingEntry reading;
  reading.picture = node["picture"].text();
  reading.reader = node["reader"].text();
  reading.turn = node["turn"].integer(1, most_turns, 1);
  reading.sight = node["sight"].word(&sight_from, "open, blind", Sight::open);
  reading.saved = node["saved"].moment();
  reading.done = node["done"].moment();
  reading.picked = node["picked"].moment();
  reading.revision = node["revision"].integer(0, most_revisions);
  reading.landmarks = landmarks_at(node.need("landmarks"));
  return reading;
}

} // namespace

std::vector<measure::Landmark> landmarks_at(const Node& node) {
  std::vector<measure::Landmark> landmarks;
  node.each_member(limits::landmarks_in_reading, [&](const std::string& id, const Node& each) {
    landmarks.push_back(landmark_at(id, each));
  });
  return landmarks;
}

json to_json(const std::vector<measure::Landmark>& value) {
  json points = json::object();
  for (const auto& each : value)
    points[each.id] = {{"x", each.at.x}, {"y", each.at.y}, {"how", key(each.how)}};
  return points;
}

json to_json(const ReadingEntry& value) {
  return {{"picture", value.picture},
          {"reader", value.reader},
          {"turn", value.turn},
          {"sight", key(value.sight)},
          {"saved", value.saved},
          {"done", value.done},
          {"picked", value.picked},
          {"revision", value.revision},
          {"landmarks", to_json(value.landmarks)}};
}

Result<ReadingEntry> reading_from(const json& value) {
  return read_document(value, &reading_at);
}

Result<Sight> sight_of(const json& value) {
  return read_document(value, [](const Node& node) {
    return node.need("sight").word(&sight_from, "open, blind", Sight::open);
  });
}

Result<ReadingEntry> picked_from(const json& value) {
  return read_document(value, [](const Node& node) {
    return ReadingEntry{.reader = node.need("reader").text(),
                        .turn = node.need("turn").integer(1, most_turns, 1)};
  });
}

Result<int> turn_from(const std::string& text) {
  int turn = 0;
  const auto* end = text.data() + text.size();
  const auto [at, error] = std::from_chars(text.data(), end, turn);
  if (!text.empty() && (error != std::errc{} || at != end || turn < 1 || turn > most_turns))
    return fail("turn", fmt::format("must be a whole number from 1 to {}", most_turns));
  return turn;
}

Result<std::int64_t> change_from(const std::string& text) {
  std::int64_t change = 0;
  const auto* end = text.data() + text.size();
  const auto [at, error] = std::from_chars(text.data(), end, change);
  if (!text.empty() && (error != std::errc{} || at != end || change < 0))
    return fail("since", "must be a whole number, 0 or more");
  return change;
}

Result<Draft> draft_from(const json& value) {
  return read_document(value, [](const Node& node) {
    return Draft{.reading = {.landmarks = landmarks_at(node.need("landmarks"))},
                 .about = node["about"].text()};
  });
}

Result<ReadingEntry> placed_landmarks_from(const json& value) {
  return read_document(value, [](const Node& node) {
    return ReadingEntry{.revision = node["revision"].integer(0, most_revisions),
                        .landmarks = landmarks_at(node.need("landmarks"))};
  });
}

} // namespace pritchel::record
