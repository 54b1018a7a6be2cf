#include "base/file.h"
#include "base/limits.h"
#include "base/svg.h"
#include "measure/definitions.h"
#include "practice/node.h"
#include "practice/parts.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

namespace pritchel::practice {
namespace {

/// No landmark is worth placing that a trained reader can't place again within this: what lies
/// deep under the skin of shoulder or pelvis.
constexpr double widest_spread_mm = 30;
/// From a joint drawn large to a whole horse.
constexpr double narrowest_drawing_mm = 20;
constexpr double widest_drawing_mm = 4000;

Result<double> spread_mm(const Node& node, std::string_view field) {
  PRITCHEL_TRY(value, node.number(field));
  if (value <= 0 || value > widest_spread_mm) {
    PRITCHEL_TRY(at, node.at(field));
    return at.wrong("is not a placement spread",
                    fmt::format("give mm above 0 and up to {:.0f}", widest_spread_mm));
  }
  return value;
}

Result<measure::Spread> spread_from(const Node& node) {
  PRITCHEL_CHECK(node.only({"across_mm", "along_mm", "from", "to"}));
  measure::Spread spread;
  PRITCHEL_TRY(across, spread_mm(node, "across_mm"));
  PRITCHEL_TRY(along, spread_mm(node, "along_mm"));
  PRITCHEL_TRY(from, node.text_or("from", ""));
  PRITCHEL_TRY(to, node.text_or("to", ""));
  if (from.empty() != to.empty() || (!from.empty() && from == to))
    return node.wrong("has half a direction", R"(name two landmarks, "from" and "to", or neither)");
  if (from.empty() && across != along)
    return node.wrong("is an ellipse without a direction",
                      R"(name two landmarks, "from" and "to")");
  return measure::Spread{
      .across_mm = across, .along_mm = along, .from = std::move(from), .to = std::move(to)};
}

Result<double> share(const Node& node, std::string_view field) {
  PRITCHEL_TRY(value, node.number(field));
  if (value < 0 || value > 1) {
    PRITCHEL_TRY(at, node.at(field));
    return at.wrong("lies outside the drawing", "give a number from 0 to 1");
  }
  return value;
}

Result<void> read_texts(const Node& node, LandmarkGuide& guide) {
  PRITCHEL_TRY(id, node.text("id"));
  if (!is_id(id))
    return node.wrong(R"(has an "id" that isn't one)",
                      "use lower-case letters, digits and hyphens");
  PRITCHEL_TRY(title, node.text("title"));
  PRITCHEL_TRY(definition, node.text("definition"));
  PRITCHEL_TRY(finding, node.text("finding"));
  PRITCHEL_TRY(mistakes, node.text("mistakes"));
  guide.id = std::move(id);
  guide.title = std::move(title);
  guide.definition = std::move(definition);
  guide.finding = std::move(finding);
  guide.mistakes = std::move(mistakes);
  return {};
}

Result<void> read_spreads(const Node& node, LandmarkGuide& guide) {
  PRITCHEL_TRY(spread_node, node.at("spread"));
  PRITCHEL_TRY(spread, spread_from(spread_node));
  guide.spread = std::move(spread);
  if (!node.has("spread_with_dot"))
    return {};
  PRITCHEL_TRY(dot_node, node.at("spread_with_dot"));
  PRITCHEL_TRY(with_dot, spread_from(dot_node));
  guide.spread.on_dot_mm = std::max(with_dot.across_mm, with_dot.along_mm);
  return {};
}

Result<void> read_asking(const Node& node, LandmarkGuide& guide) {
  PRITCHEL_TRY(required, node.truth_or("required", true));
  PRITCHEL_TRY(only_shod, node.truth_or("only_shod", false));
  PRITCHEL_TRY(word, node.text_or("group", "main"));
  const auto group = group_from(word);
  if (!group)
    return node.wrong(fmt::format(R"(has the group "{}", which doesn't exist)", word),
                      "write main, check or more");
  if (required && *group != Group::main)
    return node.wrong(fmt::format(R"(is required in the group "{}")", word),
                      R"(only landmarks of the group "main" can be required)");
  guide.required = required;
  guide.only_shod = only_shod;
  guide.group = *group;
  return {};
}

struct Way {
  std::string_view word;
  double x;
  double y;
};
constexpr std::array<Way, 8> ways{{{"up", 0, -1},
                                   {"down", 0, 1},
                                   {"left", -1, 0},
                                   {"right", 1, 0},
                                   {"up-left", -1, -1},
                                   {"up-right", 1, -1},
                                   {"down-left", -1, 1},
                                   {"down-right", 1, 1}}};

Result<void> read_bright(const Node& node, SnapGuide& snap) {
  PRITCHEL_TRY(word, node.text("bright"));
  const auto way =
      std::find_if(ways.begin(), ways.end(), [&](const Way& each) { return each.word == word; });
  if (way == ways.end())
    return node.wrong(fmt::format(R"(has the bright side "{}", which doesn't exist)", word),
                      "write up, down, left, right, up-left, up-right, down-left or down-right");
  snap.bright_x = way->x;
  snap.bright_y = way->y;
  return {};
}

Result<void> read_snap(const Node& landmark, LandmarkGuide& guide) {
  if (!landmark.has("snap"))
    return {};
  PRITCHEL_TRY(node, landmark.at("snap"));
  PRITCHEL_CHECK(node.only({"to", "of", "bright"}));
  PRITCHEL_TRY(to, node.text("to"));
  const auto known = snap_from(to);
  if (!known || *known == Snap::none)
    return node.wrong(fmt::format(R"(settles on "{}", which doesn't exist)", to),
                      "write edge, line or circle, or leave it out");
  SnapGuide snap{.to = *known};
  if (snap.to != Snap::edge) {
    PRITCHEL_TRY(of, node.text("of"));
    snap.of = std::move(of);
  }
  if (snap.to != Snap::circle)
    PRITCHEL_CHECK(read_bright(node, snap));
  guide.snap = std::move(snap);
  return {};
}

Result<LandmarkGuide> guide_from(const Node& node) {
  PRITCHEL_CHECK(node.only({"id",
                            "title",
                            "definition",
                            "finding",
                            "mistakes",
                            "required",
                            "only_shod",
                            "group",
                            "snap",
                            "spread",
                            "spread_with_dot",
                            "schematic_x",
                            "schematic_y"}));
  LandmarkGuide guide;
  PRITCHEL_CHECK(read_texts(node, guide));
  PRITCHEL_CHECK(read_asking(node, guide));
  PRITCHEL_CHECK(read_snap(node, guide));
  PRITCHEL_CHECK(read_spreads(node, guide));
  PRITCHEL_TRY(x, share(node, "schematic_x"));
  PRITCHEL_TRY(y, share(node, "schematic_y"));
  guide.schematic_x = x;
  guide.schematic_y = y;
  return guide;
}

Result<measure::View> view_of(const Node& node) {
  PRITCHEL_TRY(word, node.text("view"));
  const auto view = measure::view_from(word);
  if (!view)
    return node.wrong(fmt::format(R"(has the view "{}", which doesn't exist)", word),
                      "see templates/README.md for the eleven views");
  return *view;
}

Result<measure::Legs> legs_of(const Node& node) {
  PRITCHEL_TRY(word, node.text_or("legs", "all"));
  const auto legs = measure::legs_from(word);
  if (!legs)
    return node.wrong(fmt::format(R"(has the legs "{}", which don't exist)", word),
                      "write all, fore or hind");
  return *legs;
}

Result<double> width_of(const Node& node) {
  PRITCHEL_TRY(width, node.number("schematic_width_mm"));
  if (width < narrowest_drawing_mm || width > widest_drawing_mm) {
    PRITCHEL_TRY(at, node.at("schematic_width_mm"));
    return at.wrong(
        "is not the width of a drawing",
        fmt::format("give mm from {:.0f} to {:.0f}", narrowest_drawing_mm, widest_drawing_mm));
  }
  return width;
}

/// Height over width of a drawing.
Result<double> shape_of(const std::filesystem::path& drawing) {
  PRITCHEL_TRY(svg, read_file(drawing, limits::json_file_bytes));
  const auto size = svg_size(svg);
  if (!size)
    return fail(
        drawing.string(), "isn't a drawing to scale", "begin it with viewBox=\"0 0 WIDTH HEIGHT\"");
  return size->height / size->width;
}

Result<std::string> schematic_of(const Node& node, const std::filesystem::path& folder) {
  PRITCHEL_TRY(name, node.text("schematic"));
  PRITCHEL_TRY(at, node.at("schematic"));
  const std::filesystem::path path(name);
  if (path.filename() != path || path.extension() != ".svg")
    return at.wrong("is not the plain name of an SVG file");
  if (!std::filesystem::is_regular_file(folder / path))
    return at.wrong(fmt::format(R"(names "{}", which doesn't lie beside it)", name));
  return name;
}

Result<void> check_directions(const Node& node, const Protocol& protocol) {
  PRITCHEL_TRY(nodes, node.list("landmarks"));
  for (std::size_t i = 0; i < nodes.size(); ++i)
    for (const auto& end : {protocol.landmarks[i].spread.from, protocol.landmarks[i].spread.to})
      if (!end.empty() && guide(protocol, end) == nullptr)
        return nodes[i].wrong(
            fmt::format(R"(has a spread along "{}", a landmark this protocol doesn't have)", end));
  return {};
}

Result<void> read_landmarks(const Node& node, Protocol& protocol) {
  PRITCHEL_TRY(nodes, node.list("landmarks"));
  if (nodes.size() > limits::landmarks_in_reading)
    return node.wrong(fmt::format("has more than {} landmarks", limits::landmarks_in_reading));
  for (const auto& each : nodes) {
    PRITCHEL_TRY(landmark, guide_from(each));
    if (guide(protocol, landmark.id) != nullptr)
      return each.wrong(fmt::format(R"(repeats the landmark "{}")", landmark.id));
    protocol.landmarks.push_back(std::move(landmark));
  }
  return {};
}

Result<void> read_head(const Node& node, const std::filesystem::path& folder, Protocol& protocol) {
  PRITCHEL_TRY(id, node.text("id"));
  if (!is_id(id))
    return node.wrong(R"(has an "id" that isn't one)",
                      "use lower-case letters, digits and hyphens");
  PRITCHEL_TRY(view, view_of(node));
  PRITCHEL_TRY(legs, legs_of(node));
  PRITCHEL_TRY(title, node.text("title"));
  PRITCHEL_TRY(schematic, schematic_of(node, folder));
  PRITCHEL_TRY(width, width_of(node));
  PRITCHEL_TRY(shape, shape_of(folder / schematic));
  protocol.id = std::move(id);
  protocol.view = view;
  protocol.legs = legs;
  protocol.title = std::move(title);
  protocol.schematic = std::move(schematic);
  protocol.schematic_width_mm = width;
  protocol.schematic_height_mm = width * shape;
  return {};
}

Result<Protocol> read_protocol(const std::filesystem::path& file) {
  PRITCHEL_TRY(json, read_document(file, "pritchel-protocol"));
  const Node node(json, file.string());
  PRITCHEL_CHECK(node.only({"format",
                            "version",
                            "id",
                            "view",
                            "legs",
                            "title",
                            "schematic",
                            "schematic_width_mm",
                            "landmarks"}));
  Protocol protocol;
  PRITCHEL_CHECK(read_head(node, file.parent_path(), protocol));
  PRITCHEL_CHECK(read_landmarks(node, protocol));
  PRITCHEL_CHECK(check_directions(node, protocol));
  return protocol;
}

bool asks_for_all(const Protocol& protocol, const measure::Definition& definition) {
  return std::all_of(definition.needs.begin(), definition.needs.end(), [&](auto id) {
    return guide(protocol, id) != nullptr;
  });
}

/// Of the radiographs, which the program can't do without, each measurement must be askable.
Result<void> check_needs(const std::filesystem::path& folder,
                         const std::vector<Protocol>& protocols) {
  for (const auto& definition : measure::definitions())
    if (measure::is_radiograph(definition.view) &&
        std::none_of(protocols.begin(), protocols.end(), [&](const auto& each) {
          return each.view == definition.view && asks_for_all(each, definition);
        }))
      return fail(folder.string(),
                  fmt::format(R"(has no {} protocol with all that "{}" needs: {})",
                              key(definition.view),
                              definition.id,
                              fmt::join(definition.needs.begin(), definition.needs.end(), ", ")));
  return {};
}

} // namespace

Result<std::vector<Protocol>> read_protocols(const std::filesystem::path& folder) {
  PRITCHEL_TRY(files, json_files(folder));
  std::vector<Protocol> protocols;
  const auto any = [&](auto fits) { return std::any_of(protocols.begin(), protocols.end(), fits); };
  for (const auto& file : files) {
    PRITCHEL_TRY(protocol, read_protocol(file));
    if (any([&](const auto& each) { return each.id == protocol.id; }))
      return fail(file.string(),
                  fmt::format(R"(repeats the protocol id "{}" of another file)", protocol.id));
    protocols.push_back(std::move(protocol));
  }
  for (const auto view : {measure::View::lateromedial, measure::View::dorsopalmar})
    if (!any([&](const auto& each) { return each.view == view; }))
      return fail(folder.string(), fmt::format("has no protocol for the {} view", key(view)));
  PRITCHEL_CHECK(check_needs(folder, protocols));
  return protocols;
}

} // namespace pritchel::practice
