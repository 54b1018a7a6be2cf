#include "drawing/gauge.h"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <utility>

namespace pritchel::drawing {
namespace {

using At = Point<PaperFrame>;

class Gauge {
public:
  Gauge(const GaugeScale& scale, const GaugeBox& box, std::string about)
      : scale_(scale),
        box_(box),
        about_(std::move(about)) {}

  [[nodiscard]] double x(double value) const {
    const double share = (value - scale_.from) / (scale_.to - scale_.from);
    return box_.left_middle.x + box_.width_mm * std::clamp(share, 0.0, 1.0);
  }
  [[nodiscard]] At at(double x_mm, double up) const {
    return {x_mm, box_.left_middle.y - up * box_.height_mm / 2};
  }

  void line(At from, At to, Ink ink) { put(LineItem<PaperFrame>{from, to}, ink); }
  void area(double from, double to, double half, Ink ink) {
    put(AreaItem<PaperFrame>{{at(from, half), at(to, half), at(to, -half), at(from, -half)}}, ink);
  }
  void outline(std::vector<At> points, Ink ink) {
    points.push_back(points.front());
    put(PathItem<PaperFrame>{std::move(points)}, ink);
  }
  [[nodiscard]] Sheet finished() && { return std::move(sheet_); }

private:
  GaugeScale scale_;
  GaugeBox box_;
  std::string about_;
  Sheet sheet_;

  template <class Shape> void put(Shape shape, Ink ink) {
    sheet_.push_back({std::move(shape), ink, about_});
  }
};

void draw_band(Gauge& gauge, const GaugeValues& values, const GaugeScale& scale) {
  gauge.line(gauge.at(gauge.x(scale.from), 0), gauge.at(gauge.x(scale.to), 0), Ink::band);
  if (!values.has_band)
    return;
  gauge.area(gauge.x(values.band_low.value_or(scale.from)),
             gauge.x(values.band_high.value_or(scale.to)),
             0.62,
             Ink::band);
}

void draw_target(Gauge& gauge, double value, double height_mm) {
  const double x = gauge.x(value), half = height_mm * 0.3;
  gauge.outline({gauge.at(x, 0.3), gauge.at(x - half, 1.25), gauge.at(x + half, 1.25)},
                Ink::proposal);
}

void draw_earlier(Gauge& gauge, double value, double height_mm) {
  const double x = gauge.x(value), half = height_mm * 0.11;
  gauge.outline({gauge.at(x - half, 0.75),
                 gauge.at(x + half, 0.75),
                 gauge.at(x + half, -0.75),
                 gauge.at(x - half, -0.75)},
                Ink::faint);
}

void draw_value(Gauge& gauge, const GaugeValues& values, double height_mm) {
  const Ink ink = values.sure ? Ink::text : Ink::faint;
  const double low = gauge.x(values.low), high = gauge.x(values.high), x = gauge.x(*values.value);
  gauge.line(gauge.at(low, 0), gauge.at(high, 0), ink);
  gauge.line(gauge.at(low, 0.3), gauge.at(low, -0.3), ink);
  gauge.line(gauge.at(high, 0.3), gauge.at(high, -0.3), ink);
  const double half = height_mm * 0.07;
  gauge.area(x - half, x + half, 1, ink);
}

} // namespace

GaugeValues gauge_values(const measure::Measurement& measurement, std::optional<double> earlier) {
  GaugeValues values{.earlier = earlier};
  if (measurement.band) {
    values.has_band = true;
    values.band_low = measurement.band->low;
    values.band_high = measurement.band->high;
  }
  if (!measurement.measurable())
    return values;
  values.value = measurement.value;
  values.low = measurement.low();
  values.high = measurement.high();
  values.sure = measurement.status != measure::Status::cannot_tell;
  return values;
}

GaugeScale gauge_scale(const GaugeValues& values) {
  std::vector<double> shown;
  if (values.value)
    shown = {*values.value, values.low, values.high};
  for (const auto& each : {values.earlier, values.target_low, values.target_high})
    if (each)
      shown.push_back(*each);
  if (values.has_band)
    for (const auto& edge : {values.band_low, values.band_high})
      if (edge)
        shown.push_back(*edge);
  if (shown.empty())
    return {};
  const auto [least, most] = std::minmax_element(shown.begin(), shown.end());
  const double span = *most - *least;
  const double margin = span > 0 ? span * 0.15 : std::max(1.0, std::abs(*most) * 0.1);
  return {*least - margin, *most + margin};
}

Sheet gauge(const GaugeValues& values,
            const GaugeScale& scale,
            const GaugeBox& box,
            std::string about) {
  Gauge drawn(scale, box, std::move(about));
  if (!values.value) {
    const double x = box.left_middle.x + box.width_mm / 2;
    drawn.line(drawn.at(x - 1.2, 0), drawn.at(x + 1.2, 0), Ink::faint);
    return std::move(drawn).finished();
  }
  draw_band(drawn, values, scale);
  if (values.earlier)
    draw_earlier(drawn, *values.earlier, box.height_mm);
  draw_value(drawn, values, box.height_mm);
  for (const auto& target : {values.target_low, values.target_high})
    if (target)
      draw_target(drawn, *target, box.height_mm);
  return std::move(drawn).finished();
}

} // namespace pritchel::drawing
