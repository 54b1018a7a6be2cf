#include "imaging/windowing.h"

#include "base/assert.h"

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

constexpr double white = 255.0;
constexpr std::size_t all_samples = 65536;

double linear(const Window& w, double x) {
  const double middle = w.centre - 0.5;
  if (x <= middle - (w.width - 1) / 2)
    return 0;
  if (x > middle + (w.width - 1) / 2)
    return white;
  return ((x - middle) / (w.width - 1) + 0.5) * white;
}

double linear_exact(const Window& w, double x) {
  if (x <= w.centre - w.width / 2)
    return 0;
  if (x > w.centre + w.width / 2)
    return white;
  return ((x - w.centre) / w.width + 0.5) * white;
}

double sigmoid(const Window& w, double x) {
  return white / (1 + std::exp(-4 * (x - w.centre) / w.width));
}

double entry_of(const LookupTable& table, double position) {
  const double last = static_cast<double>(table.entries.size()) - 1;
  return table.entries[static_cast<std::size_t>(std::lround(std::clamp(position, 0.0, last)))];
}

double full_scale(const LookupTable& table) {
  return std::pow(2.0, table.bits) - 1;
}

/// The window whose range is the table's own domain.
Window window_of(const LookupTable& table) {
  const auto length = static_cast<double>(table.entries.size());
  return {.centre = table.first_input + length / 2,
          .width = length,
          .shape = Window::Shape::table,
          .name = table.name};
}

double through_table(const LookupTable& table, const Window& window, double value) {
  const auto length = static_cast<double>(table.entries.size());
  const double position = (value - (window.centre - window.width / 2)) * length / window.width;
  return std::min(white, entry_of(table, position) * white / full_scale(table));
}

bool is_padding(const Picture& picture, int stored) {
  return picture.padding && stored >= picture.padding->first && stored <= picture.padding->last;
}

std::vector<std::size_t> histogram(const Picture& picture) {
  std::vector<std::size_t> counts(all_samples, 0);
  for (const auto sample : picture.samples)
    ++counts[sample];
  for (std::size_t s = 0; s < all_samples; ++s)
    if (is_padding(picture, static_cast<int>(s) + picture.offset))
      counts[s] = 0;
  return counts;
}

/// The smallest sample with at least this share of the counted pixels at or below it.
std::uint16_t percentile(const std::vector<std::size_t>& counts, double share) {
  std::size_t total = 0;
  for (const auto count : counts)
    total += count;
  std::size_t seen = 0;
  for (std::size_t s = 0; s < counts.size(); ++s) {
    seen += counts[s];
    if (seen > 0 && static_cast<double>(seen) >= share * static_cast<double>(total))
      return static_cast<std::uint16_t>(s);
  }
  return 0;
}

Window percentile_window(const Picture& picture) {
  const auto counts = histogram(picture);
  const double a = rescaled_value(picture, percentile(counts, 0.01));
  const double b = rescaled_value(picture, percentile(counts, 0.995));
  return {.centre = (a + b) / 2,
          .width = std::max(std::abs(b - a), 1e-6),
          .shape = Window::Shape::linear_exact,
          .name = "whole range"};
}

} // namespace

double window_output(const Window& window, double value) {
  switch (window.shape) {
  case Window::Shape::linear:
    return linear(window, value);
  case Window::Shape::sigmoid:
    return sigmoid(window, value);
  default:
    return linear_exact(window, value);
  }
}

bool is_usable(const Window& window) {
  const double least = window.shape == Window::Shape::linear ? 1.0 : 1e-9;
  return std::isfinite(window.centre) && std::isfinite(window.width) && window.width >= least;
}

double rescaled_value(const Picture& picture, std::uint16_t sample) {
  const double stored = static_cast<double>(sample) + picture.offset;
  if (picture.modality_lut)
    return entry_of(*picture.modality_lut, stored - picture.modality_lut->first_input);
  return stored * picture.rescale_slope + picture.rescale_intercept;
}

std::vector<std::uint8_t> display_table(const Picture& picture, const Window& window) {
  PRITCHEL_ASSERT(picture.kind == PictureKind::radiograph && is_usable(window));
  const bool by_table = window.shape == Window::Shape::table && picture.voi_lut;
  std::vector<std::uint8_t> table(all_samples);
  for (std::size_t s = 0; s < all_samples; ++s) {
    const double value = rescaled_value(picture, static_cast<std::uint16_t>(s));
    const double grey =
        by_table ? through_table(*picture.voi_lut, window, value) : window_output(window, value);
    table[s] = static_cast<std::uint8_t>(std::lround(picture.inverse ? white - grey : grey));
  }
  return table;
}

Window default_window(const Picture& picture) {
  if (!picture.windows.empty())
    return picture.windows.front();
  if (picture.voi_lut)
    return window_of(*picture.voi_lut);
  return percentile_window(picture);
}

std::vector<std::uint8_t> render_grey(const Picture& picture, const Window& window) {
  const auto table = display_table(picture, window);
  std::vector<std::uint8_t> grey(picture.samples.size());
  std::transform(picture.samples.begin(), picture.samples.end(), grey.begin(), [&](auto sample) {
    return table[sample];
  });
  return grey;
}

} // namespace pritchel::imaging
