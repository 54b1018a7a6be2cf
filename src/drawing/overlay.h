/// What lies over a picture: landmarks, the construction of each measurement, its value, and the
/// proposal's ghost. Image frame in, image frame out; what is drawn is what was computed.
/// Must not know: how anything is painted.
#pragma once

#include "drawing/display_list.h"
#include "measure/measure.h"
#include "measure/placed.h"
#include "measure/reading.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::drawing {

enum class Labels {
  none,
  values,  ///< "3.2°"
  lettered ///< "a  3.2°": the letter stands beside the row of the table, see letter()
};
enum class Marks { none, placed };

/// A rectangle in pixels.
struct Room {
  double left = 0;
  double top = 0;
  double right = 0;
  double bottom = 0;
};

struct OverlayOptions {
  /// Ids to draw, in the order of their letters; empty draws no construction. See main_set().
  std::vector<std::string> measurements;
  Labels labels = Labels::values;
  Marks marks = Marks::placed;
  double label_height_px = 24; ///< height of a line of text, in picture pixels
  /// Where labels may stand: two columns at its left and right edge. May be wider than the picture:
  /// paper puts them beside it. Without it: inside the picture.
  Room room;
  /// The foot as proposed, plane frame of the reading (mm): drawn dashed in the proposal's ink.
  std::vector<measure::Stroke> ghost;
};

/// Options for a picture of this size: its main set, labels inside the picture.
[[nodiscard]] OverlayOptions overlay_options(measure::View view, int columns, int rows);

/// The measurements whose constructions are shown together by default, in the order of the table.
[[nodiscard]] std::vector<std::string> main_set(measure::View view);

/// Of the main set what could be measured; a length that lacks a scale is stood for by its share,
/// where it has one.
[[nodiscard]] std::vector<std::string>
drawn_set(measure::View view, const std::vector<measure::Measurement>& measurements);

/// Letter of the i-th drawn measurement: a, b, ... z, aa, ab, ...
[[nodiscard]] std::string letter(std::size_t index);

/// "3.2°", "14.9 mm" (with a narrow no-break space), "0.52"; a dash when it is not measurable.
[[nodiscard]] std::string value_for_people(const measure::Measurement& measurement);

/// The changed foot of plan::ghost() as lines: ground, sole, wall, bearing length, pastern axes.
[[nodiscard]] std::vector<measure::Stroke> ghost_strokes(const measure::Placed<double>& changed);

/// Of those lines what the change moves: a line over one that stays would hide it.
[[nodiscard]] std::vector<measure::Stroke> moved_strokes(const measure::Reading& reading,
                                                         const measure::Placed<double>& changed);

/// The changed foot over its own picture: the horn that is cut away as an area, and
/// moved_strokes(), all in the proposal's ink.
[[nodiscard]] Overlay changed_overlay(const measure::Reading& reading,
                                      const measure::Placed<double>& changed);

/// The same lines of the foot as it is, in their own inks.
[[nodiscard]] Overlay before_strokes(const measure::Reading& reading);

/// Laws: labels never overlap each other; a label covers no landmark while a free place exists;
/// the same input gives the same list; mirroring the picture and `toward` mirrors the shapes.
/// Circles become ellipses where pixels aren't square. In a rectified photo every shape is drawn
/// as the camera saw it: circles as short lines, and straight lines too where the lens bends them.
/// Measurements that aren't measurable draw nothing.
[[nodiscard]] Overlay picture_overlay(const measure::Reading& reading,
                                      const std::vector<measure::Measurement>& measurements,
                                      const OverlayOptions& options);

} // namespace pritchel::drawing
