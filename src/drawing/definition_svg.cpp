#include "drawing/definition_svg.h"

#include "base/svg.h"
#include "drawing/ink.h"
#include "drawing/overlay.h"

#include <fmt/core.h>

#include <algorithm>
#include <limits>
#include <variant>

namespace pritchel::drawing {
namespace {

/// Shown size: wide enough for the lines of a foot, small enough for a table.
constexpr double shown_width_px = 220;
constexpr double most_height_px = 300;

struct Part {
  double left = 0;
  double top = 0;
  double width = 0;
  double height = 0;
};

class Bounds {
public:
  void hold(const ImagePoint& p) {
    left_ = std::min(left_, p.x), right_ = std::max(right_, p.x);
    top_ = std::min(top_, p.y), bottom_ = std::max(bottom_, p.y);
  }
  void hold(const LineItem<ImageFrame>& line) {
    hold(line.from);
    hold(line.to);
  }
  void hold(const CircleItem<ImageFrame>& circle) {
    const Vector<ImageFrame> reach{circle.radius_x, circle.radius_y};
    hold(circle.centre - reach);
    hold(circle.centre + reach);
  }
  void hold(const PathItem<ImageFrame>& path) {
    for (const auto& p : path.points)
      hold(p);
  }
  void hold(const AreaItem<ImageFrame>& area) {
    for (const auto& p : area.points)
      hold(p);
  }
  void hold(const MarkItem<ImageFrame>& mark) { hold(mark.at); }
  void hold(const LabelItem<ImageFrame>& label) { hold(label.at); }

  /// With air around it, never a sliver, within the whole drawing where that is large enough.
  [[nodiscard]] Part part(const Schematic& whole) const {
    const double longest = std::max(right_ - left_, bottom_ - top_);
    const double margin = std::max(0.12 * longest, 0.03 * whole.width);
    const double least = std::max(0.55 * longest, 0.3 * whole.width) + 2 * margin;
    Part part{.width = std::max(right_ - left_ + 2 * margin, least),
              .height = std::max(bottom_ - top_ + 2 * margin, least)};
    part.width = std::max(part.width, part.height * shown_width_px / most_height_px);
    part.left = placed((left_ + right_) / 2, part.width, whole.width);
    part.top = placed((top_ + bottom_) / 2, part.height, whole.height);
    return part;
  }

private:
  double left_ = std::numeric_limits<double>::infinity();
  double right_ = -std::numeric_limits<double>::infinity();
  double top_ = std::numeric_limits<double>::infinity();
  double bottom_ = -std::numeric_limits<double>::infinity();

  /// Begin of a stretch round `middle`, pushed inside the whole while it fits there.
  static double placed(double middle, double length, double whole) {
    if (length >= whole)
      return (whole - length) / 2;
    return std::clamp(middle - length / 2, 0.0, whole - length);
  }
};

std::string colour(Rgb rgb) {
  return fmt::format("#{:06x}", rgb);
}

class Writer {
public:
  explicit Writer(double unit_per_px)
      : unit_(unit_per_px) {}

  void operator()(const LineItem<ImageFrame>& line) {
    add(fmt::format(
        "M{:.1f} {:.1f}L{:.1f} {:.1f}", line.from.x, line.from.y, line.to.x, line.to.y));
  }
  void operator()(const PathItem<ImageFrame>& path) {
    std::string d;
    for (const auto& p : path.points)
      d += fmt::format("{}{:.1f} {:.1f}", d.empty() ? "M" : "L", p.x, p.y);
    add(d);
  }
  void operator()(const CircleItem<ImageFrame>& circle) {
    text += fmt::format(R"(<ellipse cx="{:.1f}" cy="{:.1f}" rx="{:.1f}" ry="{:.1f}" style="{}"/>)",
                        circle.centre.x,
                        circle.centre.y,
                        circle.radius_x,
                        circle.radius_y,
                        style()) +
            "\n";
  }
  void operator()(const MarkItem<ImageFrame>& mark) {
    constexpr double radius_px = 3.2;
    text +=
        fmt::format(
            R"(<circle cx="{:.1f}" cy="{:.1f}" r="{:.1f}" style="fill:#fff;stroke:{};stroke-width:{:.2f}"/>)",
            mark.at.x,
            mark.at.y,
            (mark.how == "computed" ? 0.7 : 1) * radius_px * unit_,
            colour(look(ink).on_paper),
            1.3 * unit_) +
        "\n";
  }
  void operator()(const AreaItem<ImageFrame>&) {}
  void operator()(const LabelItem<ImageFrame>&) {}

  Ink ink = Ink::text;
  std::string text;

private:
  double unit_;

  void add(const std::string& d) {
    text += fmt::format(R"(<path d="{}" style="{}"/>)", d, style()) + "\n";
  }

  /// A style, not attributes: the schematic's own rules for paths would win over those.
  [[nodiscard]] std::string style() const {
    constexpr double weight_px = 1.9;
    std::string dash;
    for (const double length : look(ink).dash)
      if (length > 0)
        dash += fmt::format("{}{:.1f}", dash.empty() ? "" : ",", length * weight_px * 0.6 * unit_);
    return fmt::format(
        "fill:none;stroke:{};stroke-width:{:.2f};stroke-opacity:1;stroke-dasharray:{}",
        colour(look(ink).on_paper),
        weight_px * unit_,
        dash.empty() ? "none" : dash);
  }
};

std::string without_indents(std::string_view text) {
  std::string out;
  bool at_start = true;
  for (const char c : text) {
    if (at_start && (c == ' ' || c == '\n'))
      continue;
    at_start = c == '\n';
    out += c;
  }
  return out;
}

void cut(std::string& text, std::string_view from, std::string_view to) {
  const auto begin = text.find(from);
  const auto end = text.find(to, begin == std::string::npos ? 0 : begin);
  if (begin != std::string::npos && end != std::string::npos)
    text.erase(begin, end + to.size() - begin);
}

} // namespace

Schematic schematic(std::string_view svg) {
  const auto begin = svg.find("<svg");
  const auto close = svg.find('>', begin == std::string_view::npos ? 0 : begin);
  const auto end = svg.rfind("</svg>");
  if (begin == std::string_view::npos || close == std::string_view::npos ||
      end == std::string_view::npos || end < close)
    return {};
  const auto size = svg_size(svg);
  if (!size)
    return {};
  Schematic found{
      without_indents(svg.substr(close + 1, end - close - 1)), size->width, size->height};
  cut(found.inside, "<title", "</title>\n");
  return found;
}

std::string definition_svg(const Schematic& schematic,
                           const measure::Reading& reading,
                           const measure::Measurement& measurement) {
  const std::string id(measurement.definition->id);
  auto options = overlay_options(
      reading.view, static_cast<int>(schematic.width), static_cast<int>(schematic.height));
  options.measurements = {id};
  options.labels = Labels::none;
  const auto overlay = picture_overlay(reading, {measurement}, options);
  Bounds bounds;
  for (const auto& item : overlay)
    std::visit([&](const auto& shape) { bounds.hold(shape); }, item.shape);
  const auto part = bounds.part(schematic);
  const double unit = part.width / shown_width_px;
  Writer writer(unit);
  for (const auto& item : overlay) {
    writer.ink = item.ink;
    std::visit([&](const auto& shape) { writer(shape); }, item.shape);
  }
  return fmt::format(
             R"(<svg xmlns="http://www.w3.org/2000/svg" width="{:.0f}" height="{:.0f}" viewBox="{:.1f} {:.1f} {:.1f} {:.1f}" role="img">)",
             shown_width_px,
             part.height / unit,
             part.left,
             part.top,
             part.width,
             part.height) +
         fmt::format(
             "\n<title>{}</title>\n"
             R"(<rect x="{:.1f}" y="{:.1f}" width="{:.1f}" height="{:.1f}" style="fill:#fff;stroke:none"/>)"
             "\n",
             measurement.definition->title,
             part.left,
             part.top,
             part.width,
             part.height) +
         "<g style=\"color:#a9a499\">\n" + schematic.inside + "</g>\n" + writer.text + "</svg>\n";
}

} // namespace pritchel::drawing
