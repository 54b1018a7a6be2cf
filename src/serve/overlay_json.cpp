#include "serve/overlay_json.h"

#include "drawing/ink.h"

#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using nlohmann::json;
using Frame = ImageFrame;

json point(const ImagePoint& p) {
  return {p.x, p.y};
}

json points(const std::vector<ImagePoint>& all) {
  json list = json::array();
  for (const auto& each : all)
    list.push_back(point(each));
  return list;
}

std::string_view word(drawing::Anchor anchor) {
  switch (anchor) {
  case drawing::Anchor::middle:
    return "middle";
  case drawing::Anchor::right:
    return "right";
  case drawing::Anchor::left:
    break;
  }
  return "left";
}

json shape(const drawing::LineItem<Frame>& line) {
  return {{"kind", "line"}, {"from", point(line.from)}, {"to", point(line.to)}};
}
json shape(const drawing::CircleItem<Frame>& circle) {
  return {{"kind", "circle"},
          {"centre", point(circle.centre)},
          {"radius", {circle.radius_x, circle.radius_y}}};
}
json shape(const drawing::PathItem<Frame>& path) {
  return {{"kind", "path"}, {"points", points(path.points)}};
}
json shape(const drawing::AreaItem<Frame>& area) {
  return {{"kind", "area"}, {"points", points(area.points)}};
}
json shape(const drawing::MarkItem<Frame>& mark) {
  return {{"kind", "mark"}, {"at", point(mark.at)}, {"how", mark.how}};
}
json shape(const drawing::LabelItem<Frame>& label) {
  return {{"kind", "label"},
          {"at", point(label.at)},
          {"text", label.text},
          {"anchor", word(label.anchor)}};
}

} // namespace

json overlay_json(const drawing::Overlay& overlay) {
  json list = json::array();
  for (const auto& item : overlay) {
    json each = std::visit([](const auto& what) { return shape(what); }, item.shape);
    each["ink"] = drawing::name(item.ink);
    each["about"] = item.about;
    list.push_back(std::move(each));
  }
  return list;
}

} // namespace pritchel::serve
