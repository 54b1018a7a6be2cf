/// The table of measurements: value and uncertainty, gauge, reference, last visit. Inside report
/// only.
#pragma once

#include "drawing/gauge.h"
#include "report/layout.h"

#include <map>

namespace pritchel::report {

/// All measurements of a picture. `letters` are those at the constructions on the picture, by id.
void measurement_table(Layout& layout,
                       const PictureSheet& sheet,
                       const std::map<std::string, std::string, std::less<>>& letters);

/// The few that page 1 names: what surely lies outside its band, then what is always asked for. At
/// most `most`.
[[nodiscard]] std::vector<const measure::Measurement*> short_list(const PictureSheet& sheet,
                                                                  std::size_t most);

inline constexpr std::size_t most_findings = 6;

/// One line a measurement, for page 1.
void short_table(Layout& layout, const PictureSheet& sheet);

/// A gauge in a box at the height of a line of text.
void draw_gauge(Layout& layout,
                const drawing::GaugeValues& values,
                PaperPoint top_left,
                double width_mm,
                std::string about);

} // namespace pritchel::report
