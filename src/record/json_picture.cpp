#include "base/digest.h"
#include "base/words.h"
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
/// Nobody stands a card farther than this before or behind a limb and calls it the same picture.
constexpr double greatest_offset_mm = 1'000;
constexpr Range offset_range{-greatest_offset_mm, greatest_offset_mm};
/// Farthest camera, mm; and a focal length on 35-mm film.
constexpr double farthest_camera_mm = 50'000;
constexpr double longest_lens_mm = 2'000;
constexpr int most_corners = 200;
constexpr Range in_or_near_picture{-farthest_px, farthest_px};

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

std::vector<double> numbers_at(const Node& node, std::size_t count) {
  std::vector<double> numbers;
  node.each(count, [&](const Node& each) { numbers.push_back(each.number(in_or_near_picture)); });
  if (numbers.size() != count)
    node.complain("must be " + std::to_string(count) + " numbers");
  numbers.resize(count);
  return numbers;
}

imaging::CardCorner corner_at(const Node& node) {
  const auto numbers = numbers_at(node, 3);
  const bool id_is_sane = numbers[0] >= 0 && numbers[0] < most_corners;
  if (!id_is_sane)
    node.complain("must begin with the number of a corner");
  return {.id = id_is_sane ? static_cast<int>(numbers[0]) : 0, .at = {numbers[1], numbers[2]}};
}

std::string card_paper_at(const Node& node) {
  const auto paper = node.text();
  if (!paper.empty() && paper != "a4" && paper != "letter")
    node.complain("must be one of a4, letter");
  return paper;
}

void read_card(const Node& node, imaging::ScaleStatement& scale) {
  scale.card_paper = card_paper_at(node.need("paper"));
  node.need("corners").each(
      most_corners, [&](const Node& each) { scale.card_corners.push_back(corner_at(each)); });
  scale.card_offset_mm = node["offset_mm"].known_number(offset_range);
  scale.card_offset_unsure_mm = node["offset_unsure_mm"].known_number({0, greatest_offset_mm});
  scale.card_stood =
      node["stood"].word(&card_stood_from, "by-eye, along-a-board", scale.card_stood);
  scale.card_bar_mm = node["bar_mm"].number({limits::least_marker_mm, limits::greatest_marker_mm},
                                            scale.card_bar_mm);
  scale.camera_distance_mm = node["camera_distance_mm"].number({0, farthest_camera_mm});
  scale.lens_35mm = node["lens_35mm"].number({0, longest_lens_mm});
}

void read_ball(const Node& node, imaging::ScaleStatement& scale) {
  const auto centre = numbers_at(node.need("centre"), 2);
  scale.ball_centre = {centre[0], centre[1]};
  scale.ball_diameter_px = node.need("diameter_px").number({0, farthest_px});
  scale.ball_unsure_px = node["unsure_px"].number({0, farthest_px});
}

json card_json(const imaging::ScaleStatement& scale) {
  json value{{"kind", key(scale.kind)},
             {"paper", scale.card_paper},
             {"corners", json::array()},
             {"stood", key(scale.card_stood)},
             {"bar_mm", scale.card_bar_mm},
             {"camera_distance_mm", scale.camera_distance_mm},
             {"lens_35mm", scale.lens_35mm}};
  for (const auto& each : scale.card_corners)
    value["corners"].push_back({each.id, each.at.x, each.at.y});
  if (scale.card_offset_mm)
    value["offset_mm"] = *scale.card_offset_mm;
  if (scale.card_offset_unsure_mm)
    value["offset_unsure_mm"] = *scale.card_offset_unsure_mm;
  return value;
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
      "automatic, card, ball, marker, magnification, distances, header, detector-only, none",
      ScaleKind::automatic);
  scale.kind = kind;
  if (kind == ScaleKind::card) {
    read_card(node, scale);
    return scale;
  }
  const bool has_size = kind == ScaleKind::marker || kind == ScaleKind::ball;
  scale.marker_mm = (has_size ? node.need("length_mm") : node["length_mm"])
                        .number({limits::least_marker_mm, limits::greatest_marker_mm});
  scale.marker_tolerance_mm =
      node["tolerance_mm"].number({0, greatest_tolerance_mm}, scale.marker_tolerance_mm);
  scale.marker_out_of_plane_mm =
      node["out_of_plane_mm"].number({0, greatest_tolerance_mm}, scale.marker_out_of_plane_mm);
  scale.marker_offset_mm = node["offset_mm"].number(offset_range);
  scale.camera_distance_mm = node["camera_distance_mm"].number({0, farthest_camera_mm});
  scale.lens_35mm = node["lens_35mm"].number({0, longest_lens_mm});
  if (kind == ScaleKind::ball)
    read_ball(node.need("ball"), scale);
  scale.magnification = needed_by(kind, ScaleKind::magnification, node, "magnification")
                            .number({limits::least_magnification, limits::greatest_magnification});
  scale.source_to_detector_mm = node["source_to_detector_mm"].number({0, farthest_source_mm});
  scale.object_to_detector_mm = needed_by(kind, ScaleKind::distances, node, "object_to_detector_mm")
                                    .number({0, farthest_source_mm});
  return scale;
}

json scale_json(const imaging::ScaleStatement& scale) {
  if (scale.kind == ScaleKind::card)
    return card_json(scale);
  json value{{"kind", key(scale.kind)}};
  if (scale.marker_mm > 0) {
    value["length_mm"] = scale.marker_mm;
    value["tolerance_mm"] = scale.marker_tolerance_mm;
    value["out_of_plane_mm"] = scale.marker_out_of_plane_mm;
    value["offset_mm"] = scale.marker_offset_mm;
  }
  if (scale.kind == ScaleKind::ball)
    value["ball"] = {{"centre", {scale.ball_centre.x, scale.ball_centre.y}},
                     {"diameter_px", scale.ball_diameter_px},
                     {"unsure_px", scale.ball_unsure_px}};
  if (scale.camera_distance_mm > 0)
    value["camera_distance_mm"] = scale.camera_distance_mm;
  if (scale.lens_35mm > 0)
    value["lens_35mm"] = scale.lens_35mm;
  if (scale.magnification > 0)
    value["magnification"] = scale.magnification;
  if (scale.source_to_detector_mm > 0)
    value["source_to_detector_mm"] = scale.source_to_detector_mm;
  if (scale.object_to_detector_mm > 0 || scale.kind == ScaleKind::distances)
    value["object_to_detector_mm"] = scale.object_to_detector_mm;
  return value;
}

PictureEntry with_statements(PictureEntry known, const Node& node) {
  const auto view = node["view"].word(&measure::view_from, view_words, known.view);
  if (view != known.view)
    known.protocol.clear();
  known.view = view;
  if (node["protocol"].is_there())
    known.protocol = node["protocol"].is("") ? std::string() : node["protocol"].id();
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
          {"protocol", value.protocol},
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

Result<ScaleDraft> scale_draft_from(const json& value) {
  return read_document(value, [](const Node& node) {
    ScaleDraft draft{.scale = scale_at(node.need("scale"))};
    if (node["landmarks"].is_there())
      draft.reading.landmarks = landmarks_at(node["landmarks"]);
    return draft;
  });
}

Result<std::array<ColourWish, 2>> dot_colours_from(const json& value) {
  return read_document(value, [](const Node& node) {
    std::array<ColourWish, 2> wishes;
    std::size_t count = 0;
    const auto colours = node.need("colours");
    colours.each(wishes.size(), [&](const Node& each) {
      auto& wish = wishes.at(count++);
      if (each["at"].is_there()) {
        const auto at = numbers_at(each["at"], 2);
        wish.at = ImagePoint{at[0], at[1]};
      } else
        wish.name = each.need("name").id();
    });
    if (count != wishes.size())
      colours.complain("must be two colours");
    return wishes;
  });
}

namespace {

constexpr Words<SnapWish::Kind, 3> snap_kinds{{{SnapWish::Kind::point, "point"},
                                               {SnapWish::Kind::line, "line"},
                                               {SnapWish::Kind::circle, "circle"}}};

std::optional<SnapWish::Kind> snap_kind_from(std::string_view word) {
  return meaning(snap_kinds, word);
}

std::vector<ImagePoint> places_at(const Node& node, std::size_t fewest, std::size_t most) {
  std::vector<ImagePoint> places;
  node.each(most, [&](const Node& each) {
    const auto at = numbers_at(each, 2);
    places.push_back({at[0], at[1]});
  });
  if (places.size() < fewest)
    node.complain("must be at least " + std::to_string(fewest) + " places");
  return places;
}

std::vector<ImagePoint> snap_places(const Node& node, SnapWish::Kind kind) {
  constexpr std::size_t longest_stroke = 2000, most_of_circle = 12;
  if (kind == SnapWish::Kind::line)
    return places_at(node.need("stroke"), 2, longest_stroke);
  if (kind == SnapWish::Kind::circle)
    return places_at(node.need("points"), 3, most_of_circle);
  const auto at = numbers_at(node.need("at"), 2);
  return {{at[0], at[1]}};
}

} // namespace

Result<SnapWish> snap_wish_from(const json& value) {
  return read_document(value, [](const Node& node) {
    constexpr double farthest_reach = 400;
    SnapWish wish{.kind = node.need("kind").word(
                      &snap_kind_from, "point, line, circle", SnapWish::Kind::point)};
    wish.points = snap_places(node, wish.kind);
    wish.reach_px = node.need("reach_px").number({3, farthest_reach});
    wish.landmark = node["landmark"].id();
    return wish;
  });
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
