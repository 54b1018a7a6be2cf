#include "suggest/sheet.h"

#include "imaging/scale.h"
#include "imaging/value_raster.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace pritchel::suggest {
namespace {

constexpr double finest_mm = 0.4;

/// Where a raster's pixels lie in another: place there = first + step * index here.
struct Grid {
  double first_x = 0;
  double step_x = 1;
  double step_y = 1;
};

cv::Mat sampled(const cv::Mat& fine, const Grid& grid, int columns, int rows) {
  constexpr double share_of_step = 0.45; // keeps what a coarse pixel can't show out of it
  const auto sigma = [](double step) {
    return std::max(0.01, share_of_step * std::sqrt(std::max(0.0, step * step - 1)));
  };
  cv::Mat smooth = fine, out;
  if (std::abs(grid.step_x) > 1 || grid.step_y > 1)
    cv::GaussianBlur(
        fine, smooth, {}, sigma(std::abs(grid.step_x)), sigma(grid.step_y), cv::BORDER_REPLICATE);
  const cv::Matx23d place{grid.step_x, 0, grid.first_x, 0, grid.step_y, 0};
  cv::warpAffine(smooth,
                 out,
                 place,
                 {columns, rows},
                 cv::INTER_LINEAR | cv::WARP_INVERSE_MAP,
                 cv::BORDER_REPLICATE);
  return out;
}

void spread_greys(std::vector<float>& values) {
  constexpr double darkest = 0.01, brightest = 0.99;
  constexpr float least = -0.2F, most = 1.5F; // of metal and burnt-out air
  auto sorted = values;
  const auto quantile = [&](double share) {
    const auto at =
        sorted.begin() + static_cast<long>(share * static_cast<double>(sorted.size() - 1));
    std::nth_element(sorted.begin(), at, sorted.end());
    return *at;
  };
  const float low = quantile(darkest);
  const float range = std::max(quantile(brightest) - low, 1e-6F);
  for (auto& each : values)
    each = std::clamp((each - low) / range, least, most);
}

Raster raster_of(const cv::Mat& values, double pixel_mm) {
  return {.columns = values.cols,
          .rows = values.rows,
          .pixel_mm = pixel_mm,
          .values = {values.begin<float>(), values.end<float>()}};
}

int count_of(double length_mm, double pixel_mm) {
  return std::max(1, static_cast<int>(length_mm / pixel_mm) + 1);
}

} // namespace

Sheet::Sheet(const imaging::Picture& radiograph, Toward toward, double mm_per_pixel)
    : pixel_width_mm_(mm_per_pixel),
      pixel_height_mm_(mm_per_pixel *
                       imaging::pixel_aspect_ratio(radiograph.spacing, radiograph.pixel_aspect)),
      last_column_(radiograph.columns - 1),
      mirrored_(toward == Toward::left),
      width_mm_(last_column_ * pixel_width_mm_),
      height_mm_((radiograph.rows - 1) * pixel_height_mm_) {
  const double step = finest_mm / pixel_width_mm_;
  const Grid grid{.first_x = mirrored_ ? last_column_ : 0,
                  .step_x = mirrored_ ? -step : step,
                  .step_y = finest_mm / pixel_height_mm_};
  greys_ = raster_of(sampled(imaging::value_raster(radiograph),
                             grid,
                             count_of(width_mm_, finest_mm),
                             count_of(height_mm_, finest_mm)),
                     finest_mm);
  spread_greys(greys_.values);
}

ImagePoint Sheet::to_picture(const SheetPoint& at) const {
  const double column = at.x / pixel_width_mm_;
  return {mirrored_ ? last_column_ - column : column, at.y / pixel_height_mm_};
}

SheetPoint Sheet::from_picture(const ImagePoint& at) const {
  return {(mirrored_ ? last_column_ - at.x : at.x) * pixel_width_mm_, at.y * pixel_height_mm_};
}

bool Sheet::holds(const SheetPoint& at, double margin_mm) const {
  return at.x >= margin_mm && at.y >= margin_mm && at.x <= width_mm_ - margin_mm &&
         at.y <= height_mm_ - margin_mm;
}

Raster coarser(const Raster& fine, double pixel_mm) {
  const cv::Mat from(fine.rows,
                     fine.columns,
                     CV_32F,
                     const_cast<float*>(fine.values.data())); // NOLINT: only read
  const double step = pixel_mm / fine.pixel_mm;
  return raster_of(sampled(from,
                           {.step_x = step, .step_y = step},
                           count_of((fine.columns - 1) * fine.pixel_mm, pixel_mm),
                           count_of((fine.rows - 1) * fine.pixel_mm, pixel_mm)),
                   pixel_mm);
}

} // namespace pritchel::suggest
