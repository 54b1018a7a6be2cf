#include "imaging/value_raster.h"

#include "imaging/windowing.h"

#include <opencv2/imgproc.hpp>

#include <cmath>
#include <vector>

namespace pritchel::imaging {
namespace {

cv::Mat luminance(const Picture& photo, const cv::Rect& part) {
  const cv::Mat rgb(photo.rows,
                    photo.columns,
                    CV_8UC3,
                    const_cast<std::uint8_t*>(photo.rgb.data())); // NOLINT: only read
  cv::Mat grey, raster;
  cv::cvtColor(rgb(part), grey, cv::COLOR_RGB2GRAY);
  grey.convertTo(raster, CV_32F);
  return raster;
}

std::vector<float> values_of_samples(const Picture& radiograph) {
  std::vector<float> table(65'536);
  const double sign = radiograph.inverse ? -1 : 1;
  for (std::size_t i = 0; i < table.size(); ++i)
    table[i] = static_cast<float>(sign * rescaled_value(radiograph, static_cast<std::uint16_t>(i)));
  return table;
}

} // namespace

cv::Mat value_raster(const Picture& picture) {
  return value_raster(picture, {0, 0, picture.columns, picture.rows});
}

cv::Mat value_raster(const Picture& picture, const cv::Rect& part) {
  if (picture.kind == PictureKind::photo)
    return luminance(picture, part);
  const auto table = values_of_samples(picture);
  cv::Mat raster(part.size(), CV_32F);
  for (int y = 0; y < part.height; ++y) {
    auto sample = picture.samples.begin() +
                  static_cast<std::ptrdiff_t>(part.y + y) * picture.columns + part.x;
    for (int x = 0; x < part.width; ++x)
      raster.at<float>(y, x) = table[*sample++];
  }
  return raster;
}

std::optional<double> value_at(const cv::Mat& raster, const ImagePoint& at) {
  const int x = static_cast<int>(std::floor(at.x)), y = static_cast<int>(std::floor(at.y));
  if (!std::isfinite(at.x) || !std::isfinite(at.y) || x < 0 || y < 0 || x + 1 >= raster.cols ||
      y + 1 >= raster.rows)
    return std::nullopt;
  const double fx = at.x - x, fy = at.y - y;
  const auto v = [&](int dx, int dy) {
    return static_cast<double>(raster.at<float>(y + dy, x + dx));
  };
  return (1 - fy) * ((1 - fx) * v(0, 0) + fx * v(1, 0)) + fy * ((1 - fx) * v(0, 1) + fx * v(1, 1));
}

} // namespace pritchel::imaging
