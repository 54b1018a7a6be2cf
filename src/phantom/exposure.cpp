#include "phantom/exposure.h"

#include "phantom/random.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace pritchel::phantom {

namespace {

constexpr double quanta_per_pixel = 1.8e4; ///< in air at exposure 1, pixel 0.148 mm
constexpr double electronic_quanta = 6;
constexpr double log_units_per_step = 1.0 / 430.0;
constexpr double scatter_spread_mm = 22;

cv::Mat blurred(const cv::Mat& in, double sigma_x_px, double sigma_y_px) {
  cv::Mat out;
  cv::GaussianBlur(
      in, out, {}, std::max(sigma_x_px, 0.01), std::max(sigma_y_px, 0.01), cv::BORDER_REPLICATE);
  return out;
}

cv::Mat primary_of(const Paths& paths) {
  cv::Mat primary(paths.rows, paths.columns, CV_32F);
  std::array<std::array<double, material_count>, energy_count> mu{};
  for (std::size_t e = 0; e < energy_count; ++e)
    for (std::size_t m = 0; m < material_count; ++m)
      mu[e][m] = linear_attenuation_per_mm(static_cast<Material>(m), e);
  for (int row = 0; row < paths.rows; ++row)
    for (int column = 0; column < paths.columns; ++column) {
      const std::size_t i = paths.pixel(column, row);
      std::array<double, material_count> mm{};
      for (std::size_t m = 0; m < material_count; ++m)
        mm[m] = static_cast<double>(paths.mm[m][i]);
      primary.at<float>(row, column) = static_cast<float>(transmission(mm));
    }
  return primary;
}

/// Light leaks in from the tissue's surroundings: strongest under thick parts, none far out in air.
cv::Mat scatter_of(const cv::Mat& primary, const Shot& shot) {
  cv::Mat born(primary.size(), CV_32F);
  for (int row = 0; row < primary.rows; ++row)
    for (int column = 0; column < primary.cols; ++column) {
      const float p = primary.at<float>(row, column);
      born.at<float>(row, column) = 0.30F * std::pow(p, 0.9F) * (1 - p) * (1 - p);
    }
  // At a quarter of the size: scatter has no detail.
  constexpr double shrink = 8;
  cv::Mat small;
  cv::resize(born, small, {}, 1 / shrink, 1 / shrink, cv::INTER_AREA);
  small = blurred(small,
                  scatter_spread_mm / shot.spacing_x_mm / shrink,
                  scatter_spread_mm / shot.spacing_y_mm / shrink);
  cv::Mat scatter;
  cv::resize(small, scatter, primary.size(), 0, 0, cv::INTER_CUBIC);
  return cv::max(scatter, 0.0);
}

double heel_effect(double row_share) {
  return 0.94 + 0.10 * row_share - 0.03 * row_share * row_share;
}

/// Millimetres inside the collimator's shadow edge; negative outside. The blades never sit quite
/// straight on the detector.
double inside_collimator_mm(const Shot& shot, int column, int row) {
  if (shot.collimation == Collimation::open)
    return 1e3;
  const double x = column * shot.spacing_x_mm;
  const double y = row * shot.spacing_y_mm;
  const double right = (shot.columns - 1) * shot.spacing_x_mm - x;
  const double bottom = (shot.rows - 1) * shot.spacing_y_mm - y;
  return std::min({x - 4.6 - 0.008 * y,
                   right - 5.4 + 0.006 * y,
                   y - 4.0 + 0.005 * x,
                   bottom - 4.6 - 0.004 * x});
}

/// Share of the beam that passes: 1 inside, next to nothing outside, soft between.
double collimated(double inside_mm) {
  return 0.006 + 0.994 / (1 + std::exp(-inside_mm / 0.25));
}

void add_quanta(cv::Mat& signal, const Shot& shot) {
  const double pixel = shot.spacing_x_mm * shot.spacing_y_mm / (0.148 * 0.148);
  const double quanta = quanta_per_pixel * shot.exposure_ratio * pixel;
  for (int row = 0; row < signal.rows; ++row)
    for (int column = 0; column < signal.cols; ++column) {
      const auto i =
          static_cast<std::uint64_t>(static_cast<std::int64_t>(row) * signal.cols + column);
      const double expected = static_cast<double>(signal.at<float>(row, column)) * quanta;
      const double spread = std::sqrt(expected + electronic_quanta * electronic_quanta);
      const double counted = expected + spread * normal(shot.seed, i);
      signal.at<float>(row, column) = static_cast<float>(std::max(counted, 1.0) / quanta);
    }
}

cv::Mat signal_at_detector(const cv::Mat& primary, const Shot& shot) {
  cv::Mat signal = primary + scatter_of(primary, shot);
  for (int row = 0; row < signal.rows; ++row)
    for (int column = 0; column < signal.cols; ++column)
      signal.at<float>(row, column) *=
          static_cast<float>(heel_effect(static_cast<double>(row) / signal.rows) *
                             collimated(inside_collimator_mm(shot, column, row)));
  return signal;
}

Film stored(const cv::Mat& depth, const Shot& shot) {
  Film film{.columns = depth.cols,
            .rows = depth.rows,
            .values = {},
            .window_centre = 2048,
            .window_width = 4096};
  film.values.reserve(depth.total());
  constexpr float top = (1 << stored_bits) - 1;
  for (int row = 0; row < depth.rows; ++row)
    for (int column = 0; column < depth.cols; ++column) {
      // Detectors black out what they take for unexposed, a little outside the true edge.
      if (inside_collimator_mm(shot, column, row) < -0.6) {
        film.values.push_back(0);
        continue;
      }
      const float v = 60 + depth.at<float>(row, column) / static_cast<float>(log_units_per_step);
      film.values.push_back(static_cast<std::uint16_t>(std::lround(std::clamp(v, 0.0F, top))));
    }
  return film;
}

/// What a technician would set: air just off black, the densest bone white, metal beyond.
void set_window(Film& film, const Paths& paths) {
  const auto mm = [&](Material m, std::size_t i) {
    return paths.mm[static_cast<std::size_t>(m)][i];
  };
  std::vector<std::uint16_t> bone;
  std::vector<std::uint16_t> soft;
  for (std::size_t i = 0; i < film.values.size(); i += 17) {
    if (mm(Material::iron, i) > 0 || mm(Material::lead, i) > 0)
      continue;
    if (mm(Material::cortical_bone, i) > 1)
      bone.push_back(film.values[i]);
    else if (mm(Material::soft_tissue, i) > 15)
      soft.push_back(film.values[i]);
  }
  if (bone.empty() || soft.empty())
    return;
  std::sort(bone.begin(), bone.end());
  std::sort(soft.begin(), soft.end());
  const double low = soft[soft.size() / 50] - 60.0;
  const double high = bone[bone.size() * 98 / 100] + 90.0;
  film.window_centre = std::round(0.5 * (low + high));
  film.window_width = std::round(high - low);
}

} // namespace

Film expose(const Paths& paths, const Shot& shot) {
  const cv::Mat primary = primary_of(paths);
  cv::Mat signal = signal_at_detector(primary, shot);
  const double penumbra = shot.focal_spot_mm * shot.plane_to_detector_mm /
                          (shot.source_to_detector_mm - shot.plane_to_detector_mm);
  const double before_mm = std::hypot(0.35 * penumbra, shot.motion_mm);
  signal = blurred(signal, before_mm / shot.spacing_x_mm, before_mm / shot.spacing_y_mm);
  add_quanta(signal, shot);
  constexpr double detector_mm = 0.13; // blurs the quanta too: noise isn't white on a real panel
  signal = blurred(signal, detector_mm / shot.spacing_x_mm, detector_mm / shot.spacing_y_mm);
  cv::Mat depth;
  cv::log(cv::max(signal, 1e-6), depth);
  depth = -depth;
  const cv::Mat smooth = blurred(depth, 1.3 / shot.spacing_x_mm, 1.3 / shot.spacing_y_mm);
  depth = depth + 0.35 * (depth - smooth);
  Film film = stored(depth, shot);
  set_window(film, paths);
  return film;
}

Film make_film(const Foot& foot, const Shot& shot, Quality quality) {
  return expose(trace(scene(foot, shot), shot, quality, foot.parameters.grain), shot);
}

} // namespace pritchel::phantom
