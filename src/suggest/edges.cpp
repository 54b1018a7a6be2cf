#include "suggest/edges.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace pritchel::suggest {
namespace {

/// Edges are weighed against those within this distance, so that bone counts beside steel.
constexpr double neighbourhood_mm = 6;
/// Slopes well below this, in greys a millimetre, are noise.
constexpr float faint_slope = 0.03F;
constexpr float faint_description = 0.02F;

struct Slopes {
  cv::Mat x;
  cv::Mat y;
  cv::Mat strength; ///< against the neighbourhood
};

cv::Mat blurred(const cv::Mat& in, double sigma) {
  cv::Mat out;
  cv::GaussianBlur(in, out, {}, std::max(sigma, 0.01), 0, cv::BORDER_REPLICATE);
  return out;
}

Slopes slopes_of(const Raster& greys) {
  const cv::Mat values(greys.rows,
                       greys.columns,
                       CV_32F,
                       const_cast<float*>(greys.values.data())); // NOLINT: only read
  Slopes slopes;
  const double a_mm = 1 / (8 * greys.pixel_mm); // Sobel's weights sum to 8
  cv::Sobel(values, slopes.x, CV_32F, 1, 0, 3, a_mm, 0, cv::BORDER_REPLICATE);
  cv::Sobel(values, slopes.y, CV_32F, 0, 1, 3, a_mm, 0, cv::BORDER_REPLICATE);
  cv::Mat length, around;
  cv::magnitude(slopes.x, slopes.y, length);
  cv::sqrt(blurred(length.mul(length), neighbourhood_mm / greys.pixel_mm), around);
  slopes.strength = length / (around + faint_slope);
  return slopes;
}

/// Shared between the two nearest of the directions.
void add_direction(std::array<float, edge_directions>& to, float x, float y, float strength) {
  const float turn = std::atan2(y, x) / (2 * std::numbers::pi_v<float>);
  const float place = (turn < 0 ? turn + 1 : turn) * edge_directions;
  const int low = std::min(static_cast<int>(place), edge_directions - 1);
  const float share = place - static_cast<float>(low);
  to[static_cast<std::size_t>(low)] += strength * (1 - share);
  to[static_cast<std::size_t>((low + 1) % edge_directions)] += strength * share;
}

} // namespace

EdgeMap::EdgeMap(const Sheet& sheet, const Level& level)
    : level_(level) {
  const Raster greys = coarser(sheet.greys(), level.pixel_mm);
  columns_ = greys.columns;
  rows_ = greys.rows;
  const Slopes slopes = slopes_of(greys);
  using Directions = cv::Vec<float, edge_directions>;
  cv::Mat pooled(rows_, columns_, CV_32FC(edge_directions));
  for (int row = 0; row < rows_; ++row)
    for (int column = 0; column < columns_; ++column) {
      std::array<float, edge_directions> here{};
      add_direction(here,
                    slopes.x.at<float>(row, column),
                    slopes.y.at<float>(row, column),
                    slopes.strength.at<float>(row, column));
      pooled.at<Directions>(row, column) = Directions(here.data());
    }
  pooled = blurred(pooled, 0.5 * level.cell_mm / level.pixel_mm);
  const auto* first = pooled.ptr<float>();
  strengths_.assign(first, first + pooled.total() * edge_directions);
}

void EdgeMap::at(const SheetPoint& place, std::span<float> out) const {
  const auto x = static_cast<float>(place.x / level_.pixel_mm);
  const auto y = static_cast<float>(place.y / level_.pixel_mm);
  const auto column = static_cast<int>(std::floor(x)), row = static_cast<int>(std::floor(y));
  if (column < 0 || row < 0 || column + 1 >= columns_ || row + 1 >= rows_) {
    std::fill(out.begin(), out.end(), 0.0F);
    return;
  }
  const float fx = x - static_cast<float>(column), fy = y - static_cast<float>(row);
  const auto stride = static_cast<std::ptrdiff_t>(columns_) * edge_directions;
  const float* a = strengths_.data() + row * stride + column * std::ptrdiff_t{edge_directions};
  const float* b = a + stride;
  for (std::size_t i = 0; i < edge_directions; ++i)
    out[i] = (1 - fy) * ((1 - fx) * a[i] + fx * a[i + edge_directions]) +
             fy * ((1 - fx) * b[i] + fx * b[i + edge_directions]);
}

void EdgeMap::describe(const SheetPoint& place, std::span<float> out) const {
  constexpr double middle = 0.5 * (cells_across - 1);
  std::size_t next = 0;
  for (int row = 0; row < cells_across; ++row)
    for (int column = 0; column < cells_across; ++column, next += edge_directions)
      at(place + SheetVector{(column - middle) * level_.cell_mm, (row - middle) * level_.cell_mm},
         out.subspan(next, edge_directions));
  float squares = faint_description * faint_description;
  for (const float each : out)
    squares += each * each;
  for (float& each : out)
    each /= std::sqrt(squares);
}

} // namespace pritchel::suggest
