#include "drawing/overlay.h"

#include "base/text.h"
#include "drawing/label_places.h"
#include "measure/uncertainty.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>
#include <utility>

namespace pritchel::drawing {
namespace {

using measure::Construction;
using measure::Measurement;
using measure::Tissue;

Ink ink_of(Tissue tissue) {
  switch (tissue) {
  case Tissue::bone:
    return Ink::bone;
  case Tissue::hoof:
    return Ink::hoof;
  case Tissue::ground:
    return Ink::ground;
  case Tissue::span:
    break;
  }
  return Ink::span;
}

bool starts_with_any(std::string_view id, std::initializer_list<std::string_view> stems) {
  return std::any_of(
      stems.begin(), stems.end(), [&](auto stem) { return id.substr(0, stem.size()) == stem; });
}

Ink ink_of_landmark(std::string_view id) {
  if (starts_with_any(
          id, {"ground", "breakover", "marker", "block", "shoe", "foot-plane", "plumb", "travel"}))
    return Ink::ground;
  if (starts_with_any(
          id, {"wall", "sole", "coron", "hairline", "heel", "bulb", "toe", "frog", "white-line"}))
    return Ink::hoof;
  return Ink::bone;
}

std::string how_word(measure::Placement how) {
  switch (how) {
  case measure::Placement::suggested:
    return "suggested";
  case measure::Placement::confirmed:
    return "confirmed";
  case measure::Placement::snapped:
    return "snapped";
  case measure::Placement::on_dot:
    return "on-dot";
  case measure::Placement::by_hand:
    break;
  }
  return "by-hand";
}

LineItem<ImageFrame> line(const measure::Stroke& stroke, const PlaneMap& map) {
  return {map.to_image(stroke.from), map.to_image(stroke.to)};
}

/// A straight line of the plane as a lens bends it.
PathItem<ImageFrame> bent(const measure::Stroke& stroke, const PlaneMap& map) {
  constexpr int steps = 16;
  PathItem<ImageFrame> path;
  path.points.reserve(steps + 1);
  for (int i = 0; i <= steps; ++i)
    path.points.push_back(
        map.to_image(stroke.from + (stroke.to - stroke.from) * (static_cast<double>(i) / steps)));
  return path;
}

/// A circle of the plane as a picture that wasn't taken square-on shows it.
PathItem<ImageFrame> seen_round(const measure::Round& round, const PlaneMap& map) {
  constexpr int steps = 48;
  PathItem<ImageFrame> path;
  path.points.reserve(steps + 1);
  for (int i = 0; i <= steps; ++i) {
    const double angle = 2 * std::numbers::pi * i / steps;
    path.points.push_back(map.to_image(round.centre + PlaneVector{round.radius * std::cos(angle),
                                                                  round.radius * std::sin(angle)}));
  }
  return path;
}

/// A narrow angle needs a long arc to be seen at all; no arc leaves the lines it belongs to.
double arc_radius(double sweep, double longest, double foot_width) {
  constexpr double narrow_rad = 0.35;
  return std::min(longest * 0.85, foot_width * (std::abs(sweep) < narrow_rad ? 0.30 : 0.12));
}

PathItem<ImageFrame>
arc(const measure::Opening& opening, double longest, double foot_width, const PlaneMap& map) {
  const double start = std::atan2(opening.first.y, opening.first.x);
  const double sweep =
      std::atan2(cross(opening.first, opening.second), dot(opening.first, opening.second));
  const double radius = arc_radius(sweep, longest, foot_width);
  constexpr int steps = 24;
  PathItem<ImageFrame> path;
  path.points.reserve(steps + 1);
  for (int i = 0; i <= steps; ++i) {
    const double angle = start + sweep * i / steps;
    path.points.push_back(map.to_image(
        opening.vertex + PlaneVector{radius * std::cos(angle), radius * std::sin(angle)}));
  }
  return path;
}

class Painter {
public:
  Painter(const measure::Reading& reading, const OverlayOptions& options)
      : reading_(reading),
        options_(options),
        map_(reading.calibration, reading.toward) {
    double left = 0, right = 0;
    for (const auto& landmark : reading.landmarks) {
      const double x = map_.to_plane(landmark.at).x;
      left = landmark.id == reading.landmarks.front().id ? x : std::min(left, x);
      right = landmark.id == reading.landmarks.front().id ? x : std::max(right, x);
    }
    foot_width_ = right - left;
  }

  void construction(const Construction& drawn, const std::string& about) {
    for (const auto& stroke : drawn.strokes)
      put_stroke(stroke, ink_of(stroke.tissue), about);
    for (const auto& round : drawn.rounds)
      put_round(round, about);
    double longest = 0;
    for (const auto& stroke : drawn.strokes)
      longest = std::max(longest, distance(stroke.from, stroke.to));
    for (const auto& opening : drawn.openings)
      put(arc(opening, longest, foot_width_, map_), Ink::span, about);
    for (const auto& point : drawn.computed)
      put(MarkItem<ImageFrame>{map_.to_image(point), "computed"}, Ink::bone, about);
  }

  void ghost() {
    for (const auto& stroke : options_.ghost)
      put_stroke(stroke, Ink::proposal, "proposal");
  }

  void marks() {
    for (const auto& landmark : reading_.landmarks)
      put(MarkItem<ImageFrame>{landmark.at, how_word(landmark.how)},
          ink_of_landmark(landmark.id),
          landmark.id);
  }

  void labels(const std::vector<std::pair<const Measurement*, std::string>>& texts) {
    std::vector<LabelWish> wishes;
    wishes.reserve(texts.size());
    for (const auto& [measurement, text] : texts)
      wishes.push_back({map_.to_image(measurement->construction.label_at), width_of(text)});
    std::vector<ImagePoint> keep_clear;
    keep_clear.reserve(reading_.landmarks.size());
    for (const auto& landmark : reading_.landmarks)
      keep_clear.push_back(landmark.at);
    const auto places = label_places(wishes, keep_clear, options_.room, options_.label_height_px);
    for (std::size_t i = 0; i < texts.size(); ++i) {
      const std::string about(texts[i].first->definition->id);
      put(LineItem<ImageFrame>{places[i].leader_from, wishes[i].belongs_to}, Ink::faint, about);
      put(LabelItem<ImageFrame>{places[i].at, texts[i].second, places[i].anchor}, Ink::text, about);
    }
  }

  [[nodiscard]] Overlay finished() && { return std::move(items_); }

private:
  const measure::Reading& reading_;
  const OverlayOptions& options_;
  PlaneMap map_;
  double foot_width_ = 0; ///< plane units
  Overlay items_;

  template <class Shape> void put(Shape shape, Ink ink, std::string about) {
    items_.push_back({std::move(shape), ink, std::move(about)});
  }

  void put_stroke(const measure::Stroke& stroke, Ink ink, const std::string& about) {
    const auto& rectification = reading_.calibration.rectification;
    if (rectification && rectification->lens)
      put(bent(stroke, map_), ink, about);
    else
      put(line(stroke, map_), ink, about);
  }

  void put_round(const measure::Round& round, const std::string& about) {
    const auto& pixel = reading_.calibration;
    if (pixel.rectification)
      put(seen_round(round, map_), ink_of(round.tissue), about);
    else
      put(CircleItem<ImageFrame>{map_.to_image(round.centre),
                                 round.radius / pixel.pixel_width_mm,
                                 round.radius / pixel.pixel_height_mm},
          ink_of(round.tissue),
          about);
  }

  /// A generous estimate: the painter's font is not known here.
  [[nodiscard]] double width_of(std::string_view text) const {
    const auto letters = std::count_if(text.begin(), text.end(), [](char c) {
      return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    });
    const auto& pixel = reading_.calibration;
    return (static_cast<double>(letters) * 0.6 + 0.6) * options_.label_height_px *
           pixel.pixel_height_mm / pixel.pixel_width_mm;
  }
};

/// Which constructions stand together over a picture: each view's own, few enough to be told
/// apart. Fore and hind limbs share a row; a picture has only those of its own legs.
constexpr std::array lateromedial_set{"palmar-angle",
                                      "sole-depth-tip",
                                      "sole-depth-palmar",
                                      "p3-dorsal-angle",
                                      "hoof-angle",
                                      "wall-thickness-proximal",
                                      "wall-thickness-distal",
                                      "coronary-extensor-distance",
                                      "p1-angle",
                                      "breakover-distance",
                                      "cor-heel"};
constexpr std::array dorsopalmar_set{"dip-space-medial",
                                     "dip-space-lateral",
                                     "p3-ml-tilt-articular",
                                     "p2-axis-ml-angle",
                                     "coronet-ml-tilt",
                                     "wall-length-medial",
                                     "wall-length-lateral",
                                     "wall-angle-medial",
                                     "wall-angle-lateral",
                                     "foot-axis-offset"};
constexpr std::array foot_side_set{"photo-hoof-angle",
                                   "photo-heel-angle",
                                   "photo-coronet-angle",
                                   "photo-hpa-deviation",
                                   "photo-toe-length",
                                   "photo-heel-length",
                                   "photo-heel-height",
                                   "heel-bulb-overhang"};
constexpr std::array foot_front_set{"photo-wall-angle-medial",
                                    "photo-wall-angle-lateral",
                                    "photo-coronet-ml-tilt",
                                    "foot-width-medial",
                                    "foot-width-lateral",
                                    "half-width-index"};
constexpr std::array foot_behind_set{"heel-bulb-offset", "foot-heel-division"};
constexpr std::array foot_above_set{"toe-direction"};
constexpr std::array sole_set{"solar-width-medial",
                              "solar-width-lateral",
                              "solar-base-proportion",
                              "solar-length-width",
                              "frog-width-ratio",
                              "heel-width-ratio",
                              "heel-forward-migration"};
constexpr std::array limb_side_set{"shoulder-slope",
                                   "carpus-sagittal",
                                   "fore-load-carpus",
                                   "fore-load-fetlock",
                                   "fore-load-heel",
                                   "fetlock-angle",
                                   "hip-angle",
                                   "stifle-angle",
                                   "hock-angle",
                                   "hind-plumb-hock",
                                   "hind-plumb-fetlock",
                                   "hind-load-heel",
                                   "hind-fetlock-angle",
                                   "limb-pastern-slope",
                                   "limb-hoof-angle",
                                   "limb-heel-angle",
                                   "coronet-line-carpus"};
constexpr std::array limb_front_set{"fore-plumb-carpus",
                                    "fore-plumb-cannon",
                                    "fore-plumb-fetlock",
                                    "fore-plumb-foot",
                                    "carpus-frontal",
                                    "carpus-offset",
                                    "fetlock-frontal",
                                    "foot-to-cannon"};
constexpr std::array limb_behind_set{"hind-plumb-caudal-hock",
                                     "hind-plumb-caudal-cannon",
                                     "hind-plumb-caudal-fetlock",
                                     "hind-plumb-caudal-foot",
                                     "hock-frontal",
                                     "fetlock-frontal-behind",
                                     "heel-division"};
constexpr std::array limb_hanging_set{"hanging-carpus-frontal",
                                      "hanging-fetlock-frontal",
                                      "hanging-foot-to-cannon",
                                      "hanging-heel-line",
                                      "hanging-heel-division"};

std::span<const char* const> set_of(measure::View view) {
  using measure::View;
  switch (view) {
  case View::dorsopalmar:
    return dorsopalmar_set;
  case View::foot_side:
    return foot_side_set;
  case View::foot_front:
    return foot_front_set;
  case View::foot_behind:
    return foot_behind_set;
  case View::foot_above:
    return foot_above_set;
  case View::sole:
    return sole_set;
  case View::limb_side:
    return limb_side_set;
  case View::limb_front:
    return limb_front_set;
  case View::limb_behind:
    return limb_behind_set;
  case View::limb_hanging:
    return limb_hanging_set;
  case View::lateromedial:
    break;
  }
  return lateromedial_set;
}

bool is_measured(const std::vector<Measurement>& measurements, std::string_view id) {
  const auto* found = measure::find(measurements, id);
  return found != nullptr && found->measurable();
}

std::string label_text(const Measurement& measurement, Labels labels, std::size_t index) {
  const auto value = value_for_people(measurement);
  return labels == Labels::lettered ? letter(index) + "\u2002" + value : value;
}

struct OutlineLine {
  std::string_view from;
  std::string_view to;
  Tissue tissue;
  double beyond; ///< drawn beyond both ends by this share of its length
};

constexpr std::array<OutlineLine, 15> outline{{
    {"ground-heel", "ground-toe", Tissue::ground, 0},
    {"ground-medial", "ground-lateral", Tissue::ground, 0},
    {"heel-ground", "breakover", Tissue::ground, 0},
    {"wall-dorsal-proximal", "wall-dorsal-distal", Tissue::hoof, 0.15},
    {"coronary-band", "wall-dorsal-proximal", Tissue::hoof, 0},
    {"wall-dorsal-distal", "breakover", Tissue::hoof, 0},
    {"sole-a", "sole-b", Tissue::hoof, 0},
    {"sole-b", "sole-under-palmar", Tissue::hoof, 0},
    {"p3-tip", "p3-palmar-process", Tissue::bone, 0},
    {"p3-dorsal-proximal", "p3-dorsal-distal", Tissue::bone, 0.1},
    {"p1-axis-distal", "p1-axis-proximal", Tissue::bone, 0.1},
    {"coronet-medial", "wall-ground-medial", Tissue::hoof, 0},
    {"coronet-lateral", "wall-ground-lateral", Tissue::hoof, 0},
    {"wall-ground-medial", "wall-ground-lateral", Tissue::ground, 0},
    {"p3-articular-medial", "p3-articular-lateral", Tissue::bone, 0},
}};

/// The ends of what stands on the ground or on the shoe, by view.
constexpr std::array<std::pair<std::string_view, std::string_view>, 2> bearing_ends{
    {{"heel-ground", "wall-toe-ground"}, {"wall-ground-medial", "wall-ground-lateral"}}};

} // namespace

std::vector<measure::Stroke> ghost_strokes(const measure::Placed<double>& changed) {
  std::vector<measure::Stroke> strokes;
  for (const auto& [from, to, tissue, beyond] : outline)
    if (changed.has(from) && changed.has(to)) {
      const PlaneVector along = changed[to] - changed[from];
      strokes.push_back({changed[from] - along * beyond, changed[to] + along * beyond, tissue});
    }
  return strokes;
}

std::vector<measure::Stroke> moved_strokes(const measure::Reading& reading,
                                           const measure::Placed<double>& changed) {
  constexpr double visible_mm = 0.05;
  const auto now = ghost_strokes(measure::placed(reading));
  auto strokes = ghost_strokes(changed);
  std::erase_if(strokes, [&](const auto& each) {
    return std::any_of(now.begin(), now.end(), [&](const auto& old) {
      return distance(old.from, each.from) < visible_mm && distance(old.to, each.to) < visible_mm;
    });
  });
  return strokes;
}

Overlay changed_overlay(const measure::Reading& reading, const measure::Placed<double>& changed) {
  const PlaneMap map(reading.calibration, reading.toward);
  const auto now = measure::placed(reading);
  Overlay overlay;
  for (const auto& [from, to] : bearing_ends)
    if (now.has(from) && now.has(to) && changed.has(from) && changed.has(to) &&
        (distance(now[from], changed[from]) > 0 || distance(now[to], changed[to]) > 0))
      overlay.push_back({AreaItem<ImageFrame>{{map.to_image(now[from]),
                                               map.to_image(now[to]),
                                               map.to_image(changed[to]),
                                               map.to_image(changed[from])}},
                         Ink::proposal,
                         "cut-away"});
  for (const auto& stroke : moved_strokes(reading, changed))
    overlay.push_back({line(stroke, map), Ink::proposal, "proposal"});
  return overlay;
}

Overlay before_strokes(const measure::Reading& reading) {
  const PlaneMap map(reading.calibration, reading.toward);
  Overlay overlay;
  for (const auto& stroke : ghost_strokes(measure::placed(reading)))
    overlay.push_back({line(stroke, map), ink_of(stroke.tissue), "now"});
  return overlay;
}

std::vector<std::string> main_set(measure::View view) {
  const auto set = set_of(view);
  return {set.begin(), set.end()};
}

std::vector<std::string> drawn_set(measure::View view,
                                   const std::vector<Measurement>& measurements) {
  std::vector<std::string> ids;
  for (const std::string id : set_of(view)) {
    if (is_measured(measurements, id))
      ids.push_back(id);
    else if (is_measured(measurements, id + "-share"))
      ids.push_back(id + "-share");
  }
  return ids;
}

OverlayOptions overlay_options(measure::View view, int columns, int rows) {
  const double height = std::max(columns, rows) / 55.0;
  return {.measurements = main_set(view),
          .label_height_px = height,
          .room = {height, height, columns - 1 - height, rows - 1 - height}};
}

std::string letter(std::size_t index) {
  constexpr std::size_t alphabet = 26;
  std::string text(1, static_cast<char>('a' + index % alphabet));
  return index < alphabet ? text : letter(index / alphabet - 1) + text;
}

std::string value_for_people(const Measurement& measurement) {
  if (!measurement.measurable())
    return "\u2013";
  const auto unit = measurement.definition->unit;
  const auto number = for_people(measurement.value, measure::decimals(unit));
  const std::string symbol(measure::symbol(unit));
  const bool spaced = unit == measure::Unit::millimetres || unit == measure::Unit::per_cent;
  return number + (spaced ? "\u202f" : "") + symbol;
}

Overlay picture_overlay(const measure::Reading& reading,
                        const std::vector<Measurement>& measurements,
                        const OverlayOptions& options) {
  Painter painter(reading, options);
  std::vector<std::pair<const Measurement*, std::string>> texts;
  for (std::size_t i = 0; i < options.measurements.size(); ++i) {
    const auto* found = measure::find(measurements, options.measurements[i]);
    if (found == nullptr || !found->measurable())
      continue;
    painter.construction(found->construction, options.measurements[i]);
    texts.emplace_back(found, label_text(*found, options.labels, i));
  }
  painter.ghost();
  if (options.marks == Marks::placed)
    painter.marks();
  if (options.labels != Labels::none)
    painter.labels(texts);
  return std::move(painter).finished();
}

} // namespace pritchel::drawing
