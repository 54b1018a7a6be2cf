/// The gauge: uncertainty drawn, not buried. A short horizontal scale with the reference band as a
/// pale bar, the value as a tick, its 95 % interval as a whisker, the last visit as a hollow tick,
/// the target as an open triangle. Page and paper draw the same.
/// Sure, unsure and unknown look different: full ink; half ink and "can't tell"; a dash.
#pragma once

#include "drawing/display_list.h"
#include "measure/measure.h"

#include <optional>

namespace pritchel::drawing {

struct GaugeValues {
  std::optional<double> value; ///< none: unknown, a dash is drawn
  double low = 0;              ///< 95 % interval, same unit
  double high = 0;
  std::optional<double> band_low; ///< none: open, the bar runs to the gauge's edge
  std::optional<double> band_high;
  bool has_band = false;
  std::optional<double> earlier; ///< last visit
  std::optional<double> target_low;
  std::optional<double> target_high;
  bool sure = true; ///< false: the interval crosses an edge of the band
};

/// Where the gauge goes, mm on paper; all gauges of a table get one width.
struct GaugeBox {
  Point<PaperFrame> left_middle;
  double width_mm = 40;
  double height_mm = 3.2;
};

/// Values at the left and right end of a gauge.
struct GaugeScale {
  double from = 0;
  double to = 1;
};

[[nodiscard]] GaugeValues gauge_values(const measure::Measurement& measurement,
                                       std::optional<double> earlier = std::nullopt);

/// Holds everything the gauge shows with a margin; the band, when there is one, fills its middle.
/// Law: every shown value lies within the scale.
[[nodiscard]] GaugeScale gauge_scale(const GaugeValues& values);

[[nodiscard]] Sheet
gauge(const GaugeValues& values, const GaugeScale& scale, const GaugeBox& box, std::string about);

} // namespace pritchel::drawing
