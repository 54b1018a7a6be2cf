#include "base/digest.h"
#include "record/json.h"
#include "record/json_parts.h"
#include "record/words.h"

namespace pritchel::record {
namespace {

using nlohmann::json;
using ScaleKind = imaging::ScaleStatement::Kind;

/// Longest distance from tube to plate that a room can hold, mm.
constexpr double farthest_source_mm = 10'000;
constexpr double greatest_tolerance_mm = 100;

std::optional<bool> left_at(const Node& node) {
  if (!node.is_there())
    return std::nullopt;
  return node.word(&side_from, side_words, PictureSide::left) == PictureSide::left;
}

std::optional<PictureSide> side_at(const Node& node) {
  if (!node.is_there())
    return std::nullopt;
  return node.word(&side_from, side_words, PictureSide::left);
}

std::optional<bool> letter_at(const Node& node) {
  const auto letter = node.text();
  if (letter.empty())
    return std::nullopt;
  if (letter != "L" && letter != "R")
    node.complain(R"(must be "L" or "R")");
  return letter == "L";
}

std::string side_word(bool left) {
  return left ? "left" : "right";
}

json hints_json(const measure::SideHints& hints) {
  json value = json::object();
  if (hints.left_limb)
    value["limb_side"] = side_word(*hints.left_limb);
  if (hints.toward)
    value["toward"] = key(*hints.toward);
  if (hints.marker_is_left)
    value["marker"]["letter"] = *hints.marker_is_left ? "L" : "R";
  if (hints.marker_side)
    value["marker"]["side"] = key(*hints.marker_side);
  return value;
}

measure::SideHints hints_at(const Node& node) {
  measure::SideHints hints{.left_limb = left_at(node["limb_side"]),
                           .toward = side_at(node["toward"])};
  read_side_marker(node["marker"], hints);
  return hints;
}

Node needed_by(ScaleKind kind, ScaleKind wanting, const Node& node, std::string_view field) {
  return kind == wanting ? node.need(field) : node[field];
}

} // namespace

void read_side_marker(const Node& node, measure::SideHints& hints) {
  hints.marker_is_left = letter_at(node["letter"]);
  hints.marker_side = side_at(node["side"]);
}

imaging::ScaleStatement scale_at(const Node& node) {
  imaging::ScaleStatement scale;
  if (!node.is_there())
    return scale;
  const auto kind = node.need("kind").word(
      &scale_kind_from,
      "automatic, marker, magnification, distances, header, detector-only, none",
      ScaleKind::automatic);
  scale.kind = kind;
  scale.marker_mm = needed_by(kind, ScaleKind::marker, node, "length_mm")
                        .number({limits::least_marker_mm, limits::greatest_marker_mm});
  scale.marker_tolerance_mm =
      node["tolerance_mm"].number({0, greatest_tolerance_mm}, scale.marker_tolerance_mm);
  scale.marker_out_of_plane_mm =
      node["out_of_plane_mm"].number({0, greatest_tolerance_mm}, scale.marker_out_of_plane_mm);
  scale.magnification = needed_by(kind, ScaleKind::magnification, node, "magnification")
                            .number({limits::least_magnification, limits::greatest_magnification});
  scale.source_to_detector_mm = node["source_to_detector_mm"].number({0, farthest_source_mm});
  scale.object_to_detector_mm = needed_by(kind, ScaleKind::distances, node, "object_to_detector_mm")
                                    .number({0, farthest_source_mm});
  return scale;
}

json scale_json(const imaging::ScaleStatement& scale) {
  json value{{"kind", key(scale.kind)}};
  if (scale.marker_mm > 0) {
    value["length_mm"] = scale.marker_mm;
    value["tolerance_mm"] = scale.marker_tolerance_mm;
    value["out_of_plane_mm"] = scale.marker_out_of_plane_mm;
  }
  if (scale.magnification > 0)
    value["magnification"] = scale.magnification;
  if (scale.source_to_detector_mm > 0)
    value["source_to_detector_mm"] = scale.source_to_detector_mm;
  if (scale.object_to_detector_mm > 0 || scale.kind == ScaleKind::distances)
    value["object_to_detector_mm"] = scale.object_to_detector_mm;
  return value;
}

PictureEntry with_statements(PictureEntry known, const Node& node) {
  known.view = node["view"].word(&measure::view_from, view_words, known.view);
  known.limb = node["limb"].word(&measure::limb_from, limb_words, known.limb);
  known.toward = node["toward"].word(&side_from, side_words, known.toward);
  known.shoeing = node["shoeing"].word(&measure::shoeing_from, "bare, shod", known.shoeing);
  known.loading = node["loading"].word(
      &measure::loading_from, "weight-bearing, not-loaded, not-stated", known.loading);
  known.sides_checked =
      node["sides_checked"].word(&sides_checked_from, "no, by-person", known.sides_checked);
  return known;
}

PictureEntry picture_entry_at(const Node& node) {
  PictureEntry entry;
  entry.digest = node.need("digest").text();
  if (!entry.digest.empty() && !is_sha256_hex(entry.digest))
    node["digest"].complain("must be a SHA-256, 64 lower-case hexadecimal digits");
  entry.file_name = node["file_name"].text();
  entry.columns = node.need("columns").integer(1, limits::picture_side_px);
  entry.rows = node.need("rows").integer(1, limits::picture_side_px);
  entry.taken = node["taken"].date();
  entry = with_statements(std::move(entry), node);
  entry.hints = hints_at(node["hints"]);
  entry.scale = scale_at(node["scale"]);
  return entry;
}

json to_json(const PictureEntry& value) {
  return {{"digest", value.digest},
          {"file_name", value.file_name},
          {"columns", value.columns},
          {"rows", value.rows},
          {"taken", value.taken},
          {"view", measure::key(value.view)},
          {"limb", measure::key(value.limb)},
          {"toward", key(value.toward)},
          {"shoeing", measure::key(value.shoeing)},
          {"loading", measure::key(value.loading)},
          {"sides_checked", key(value.sides_checked)},
          {"hints", hints_json(value.hints)},
          {"scale", scale_json(value.scale)}};
}

Result<PictureEntry> picture_entry_from(const json& value) {
  return read_document(value, &picture_entry_at);
}

Result<PictureEntry> entry_with_settings(PictureEntry known, const json& settings) {
  const bool says_marker = settings.is_object() && settings.contains("hints") &&
                           settings["hints"].is_object() && settings["hints"].contains("marker");
  return read_document(settings, [&](const Node& node) {
    auto entry = with_statements(known, node);
    if (says_marker)
      read_side_marker(node["hints"]["marker"], entry.hints);
    if (node["scale"].is_there())
      entry.scale = scale_at(node["scale"]);
    return entry;
  });
}

} // namespace pritchel::record
