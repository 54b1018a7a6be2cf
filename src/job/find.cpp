#include "job/find.h"

#include "imaging/find_card.h"
#include "imaging/find_dots.h"
#include "imaging/find_marker.h"
#include "record/measured.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>

#include "job/result_json.h"
#include "suggest/suggest.h"

namespace pritchel::job {
namespace {

using nlohmann::json;

json place(const ImagePoint& at) {
  return {{"x", at.x}, {"y", at.y}};
}

const measure::Landmark* landmark(const record::ReadingEntry& reading, std::string_view id) {
  const auto& all = reading.landmarks;
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const auto& each) { return each.id == id; });
  return at == all.end() ? nullptr : &*at;
}

/// Its colour; its size too where a dot was tapped.
Result<imaging::PickedDot> colour_of(const imaging::Picture& picture,
                                     const record::ColourWish& wish) {
  if (!wish.at) {
    const auto named = imaging::dot_colour(wish.name);
    if (!named)
      return fail("The colour " + wish.name,
                  "is not known",
                  "take orange, yellow, green, blue, pink or white, or tap a dot");
    return imaging::PickedDot{.colour = *named};
  }
  const auto picked = imaging::picked_dot(picture, *wish.at);
  if (!picked)
    return fail("The place you tapped", "is on no dot", "tap the middle of a dot");
  return *picked;
}

Result<imaging::DotColours> colours_of(const imaging::Picture& picture,
                                       const std::array<record::ColourWish, 2>& wishes) {
  imaging::DotColours colours;
  for (std::size_t i = 0; i < wishes.size(); ++i) {
    PRITCHEL_TRY(picked, colour_of(picture, wishes[i]));
    colours.colours[i] = picked.colour;
    colours.diameter_px = std::max(colours.diameter_px, picked.diameter_px);
  }
  return colours;
}

enum class Wanted { required, all };

/// From the top down.
std::vector<imaging::JointPlace> joints_of(const practice::Protocol& protocol, Wanted wanted) {
  std::vector<imaging::JointPlace> joints;
  for (const auto& each : protocol.landmarks)
    if (each.spread.on_dot_mm > 0 && (each.required || wanted == Wanted::all))
      joints.push_back({each.id,
                        each.schematic_x * protocol.schematic_width_mm,
                        each.schematic_y * protocol.schematic_height_mm});
  std::sort(joints.begin(), joints.end(), [](const auto& a, const auto& b) { return a.y < b.y; });
  return joints;
}

/// A person sticks dots on the joints that are asked for, or on all that may have one.
imaging::DotOffer offer_of(const std::vector<imaging::Dot>& dots,
                           const practice::Protocol& protocol) {
  auto offer = imaging::offer_joints(dots, joints_of(protocol, Wanted::required));
  if (offer.reason.empty())
    return offer;
  auto of_all = imaging::offer_joints(dots, joints_of(protocol, Wanted::all));
  return of_all.reason.empty() ? of_all : offer;
}

json dot_json(const imaging::OfferedDot& offered) {
  auto value = place(offered.dot.centre);
  value["diameter_px"] = offered.dot.diameter_px;
  value["colour"] = offered.dot.colour;
  value["confidence"] = offered.dot.confidence;
  if (!offered.joint.empty())
    value["id"] = offered.joint;
  return value;
}

/// 0 where only the detector's own size is known: the suggestions make their own of that.
double about_mm_per_pixel(const imaging::Picture& picture, const record::PictureEntry& entry) {
  const auto calibration = record::calibration_or_none(entry, {}, picture).calibration;
  const bool in_plane = calibration.has_scale() && calibration.origin != ScaleOrigin::detector_only;
  return in_plane ? calibration.pixel_width_mm : 0;
}

/// From the side the picture itself shows where the toe is, until a person has said so.
suggest::Toward toward_of(const record::PictureEntry& entry) {
  if (entry.view == measure::View::lateromedial && entry.sides_checked == measure::SidesChecked::no)
    return suggest::Toward::unknown;
  return entry.toward == PictureSide::left ? suggest::Toward::left : suggest::Toward::right;
}

} // namespace

Result<json> found_card(const imaging::Picture& picture) {
  if (picture.kind != imaging::PictureKind::photo)
    return fail("The picture", "is a radiograph", "the printed card is looked for in photos");
  PRITCHEL_TRY(seen, imaging::find_card(picture));
  json corners = json::array();
  for (const auto& each : seen.corners) {
    auto corner = place(each.at);
    corner["id"] = each.id;
    corners.push_back(std::move(corner));
  }
  json card{{"paper", imaging::key(seen.paper)}, {"corners", std::move(corners)}};
  if (picture.facts.lens_35mm > 0)
    card["lens_35mm"] = picture.facts.lens_35mm;
  return card;
}

Result<json> found_balls(const imaging::Picture& picture) {
  if (picture.kind != imaging::PictureKind::radiograph)
    return fail("The picture", "is a photo", "marker balls are looked for on radiographs");
  json balls = json::array();
  for (const auto& each : imaging::find_balls(picture)) {
    auto ball = place(each.centre);
    ball["diameter_px"] = each.diameter_px;
    ball["unsure_px"] = each.unsure_px;
    balls.push_back(std::move(ball));
  }
  return json{{"balls", std::move(balls)}};
}

Result<json> found_landmarks(const imaging::Picture& picture, const record::PictureEntry& entry) {
  PRITCHEL_TRY(proposed,
               suggest::suggest(picture,
                                {.view = entry.view,
                                 .toward = toward_of(entry),
                                 .shoeing = entry.shoeing,
                                 .mm_per_pixel = about_mm_per_pixel(picture, entry)}));
  json suggestions = json::array();
  for (const auto& each : proposed) {
    auto suggestion = place(each.at);
    suggestion["id"] = each.landmark;
    suggestion["confidence"] = each.confidence;
    suggestions.push_back(std::move(suggestion));
  }
  return json{{"suggestions", std::move(suggestions)}};
}

Result<json> refined_ends(const imaging::Picture& picture, const record::ReadingEntry& reading) {
  const auto* first = landmark(reading, record::marker_landmarks[0]);
  const auto* second = landmark(reading, record::marker_landmarks[1]);
  if (first == nullptr || second == nullptr)
    return fail("The two ends", "aren't placed", "place marker-1 and marker-2 first");
  const auto seen = imaging::refine_bar_ends(picture, first->at, second->at);
  if (!seen)
    return fail("No clear edge",
                "lies near both ends",
                "move the points nearer to them, or leave them where you placed them");
  const std::vector<measure::Landmark> ends{
      {.id = first->id, .at = seen->end_1, .how = measure::Placement::snapped},
      {.id = second->id, .at = seen->end_2, .how = measure::Placement::snapped}};
  return json{{"landmarks", record::to_json(ends)}};
}

Result<json> found_dots(const imaging::Picture& picture,
                        const practice::Protocol& protocol,
                        const std::array<record::ColourWish, 2>& wishes) {
  if (picture.kind != imaging::PictureKind::photo)
    return fail("The picture", "is a radiograph", "stick-on dots are looked for in photos");
  if (joints_of(protocol, Wanted::all).empty())
    return fail(
        protocol.title, "asks for no point that a dot may mark", "place its points by hand");
  PRITCHEL_TRY(colours, colours_of(picture, wishes));
  const auto dots = imaging::find_dots(picture, colours);
  if (dots.empty())
    return fail("No dot of these colours", "is seen", "tap one dot of each colour in the picture");
  const auto offer = offer_of(dots, protocol);
  json list = json::array();
  for (const auto& each : offer.dots)
    list.push_back(dot_json(each));
  return json{{"dots", std::move(list)}, {"sentence", offer.reason}};
}

Result<json> tried_scale(const imaging::Picture& picture,
                         record::PictureEntry entry,
                         const imaging::ScaleStatement& scale,
                         const record::ReadingEntry& reading) {
  entry.scale = scale;
  PRITCHEL_TRY(scaled, record::calibration_of(entry, reading, picture));
  return json{{"calibration", calibration_json(scaled)}};
}

} // namespace pritchel::job
