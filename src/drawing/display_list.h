/// What to paint, once, for page and paper: shapes with an ink role, never colours or fonts.
/// Frame F is ImageFrame for what lies over a picture, or PaperFrame for what stands on its own.
/// Must not know: Cairo, JSON, HTTP.
#pragma once

#include "geometry/frames.h"

#include <string>
#include <variant>
#include <vector>

namespace pritchel::drawing {

/// Millimetres on paper, x right, y down.
struct PaperFrame {};

/// The role of a mark; drawing/ink.h says how each role looks (hue, dash, weight).
enum class Ink {
  bone,
  hoof,
  ground,
  span,     ///< a measured length
  proposal, ///< the changed foot: always dashed
  stop,     ///< "stop and ask the vet" only
  text,
  faint,
  band ///< reference band: neutral, pale
};

template <class F> struct LineItem {
  Point<F> from;
  Point<F> to;
};
template <class F> struct CircleItem {
  Point<F> centre;
  double radius_x = 0; ///< in the frame's unit; differs from radius_y where pixels aren't square
  double radius_y = 0;
};
/// An open path, for arcs of angles and outlines.
template <class F> struct PathItem { std::vector<Point<F>> points; };
template <class F> struct AreaItem { std::vector<Point<F>> points; };
/// A landmark: an open mark with an empty middle. `how` is by-hand, suggested, confirmed, snapped,
/// on-dot or computed.
template <class F> struct MarkItem {
  Point<F> at;
  std::string how;
};
enum class Anchor { left, middle, right };
template <class F> struct LabelItem {
  Point<F> at;
  std::string text;
  Anchor anchor = Anchor::left;
};

template <class F> struct Item {
  std::variant<LineItem<F>, CircleItem<F>, PathItem<F>, AreaItem<F>, MarkItem<F>, LabelItem<F>>
      shape;
  Ink ink = Ink::text;
  std::string about; ///< id of the measurement or landmark it belongs to; touching one lights both
};

template <class F> using DisplayList = std::vector<Item<F>>;

using Overlay = DisplayList<ImageFrame>;
using Sheet = DisplayList<PaperFrame>;

} // namespace pritchel::drawing
