#include "imaging/encode.h"

#include "imaging/scale.h"
#include "imaging/windowing.h"

#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

using Bytes = std::vector<std::uint8_t>;

/// A view on the pixels; OpenCV wants them mutable and does not change them.
cv::Mat as_matrix(std::span<const std::uint8_t> pixels, int columns, int rows, Channels channels) {
  return {
      rows,
      columns,
      CV_8UC(static_cast<int>(channels)),
      const_cast<std::uint8_t*>(pixels.data())}; // NOLINT(cppcoreguidelines-pro-type-const-cast)
}

bool fits(std::span<const std::uint8_t> pixels, int columns, int rows, Channels channels) {
  return columns > 0 && rows > 0 &&
         pixels.size() == static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows) *
                              static_cast<std::size_t>(channels);
}

Result<Bytes> encode(const cv::Mat& raster, const char* kind, const std::vector<int>& options) {
  try {
    cv::Mat stored = raster;
    if (raster.channels() == 3)
      cv::cvtColor(raster, stored, cv::COLOR_RGB2BGR);
    Bytes bytes;
    if (cv::imencode(kind, stored, bytes, options))
      return bytes;
  } catch (const cv::Exception&) {
    // Said below.
  }
  return fail("The picture", "could not be written as an image", {}, Trouble::outside);
}

cv::Size true_shape(const Picture& picture, int longest_side) {
  const double aspect = pixel_aspect_ratio(picture.spacing, picture.pixel_aspect);
  // The denser direction is kept, the other one shrunk: nothing is enlarged.
  const double width = picture.columns * std::min(1.0, 1.0 / aspect);
  const double height = picture.rows * std::min(1.0, aspect);
  const double shrink = std::min(1.0, longest_side / std::max(width, height));
  return {std::max(1, static_cast<int>(std::lround(width * shrink))),
          std::max(1, static_cast<int>(std::lround(height * shrink)))};
}

} // namespace

Result<Bytes>
encode_png(std::span<const std::uint8_t> pixels, int columns, int rows, Channels channels) {
  if (!fits(pixels, columns, rows, channels))
    return fail("The picture", "does not have the pixels its size says", {}, Trouble::outside);
  return encode(as_matrix(pixels, columns, rows, channels), ".png", {});
}

Result<Bytes> encode_jpeg(
    std::span<const std::uint8_t> pixels, int columns, int rows, Channels channels, int quality) {
  if (!fits(pixels, columns, rows, channels))
    return fail("The picture", "does not have the pixels its size says", {}, Trouble::outside);
  return encode(as_matrix(pixels, columns, rows, channels),
                ".jpg",
                {cv::IMWRITE_JPEG_QUALITY, std::clamp(quality, 1, 100)});
}

Result<Bytes> thumbnail_jpeg(const Picture& picture, int longest_side) {
  const bool photo = picture.kind == PictureKind::photo;
  const Bytes pixels = photo ? picture.rgb : render_grey(picture, default_window(picture));
  const auto channels = photo ? Channels::rgb : Channels::grey;
  if (!fits(pixels, picture.columns, picture.rows, channels) || longest_side < 1)
    return fail("The picture", "has no pixels to show", {}, Trouble::outside);
  try {
    cv::Mat small;
    cv::resize(as_matrix(pixels, picture.columns, picture.rows, channels),
               small,
               true_shape(picture, longest_side),
               0,
               0,
               cv::INTER_AREA);
    return encode(small, ".jpg", {cv::IMWRITE_JPEG_QUALITY, 88});
  } catch (const cv::Exception&) {
    return fail("The picture", "could not be made smaller", {}, Trouble::outside);
  }
}

} // namespace pritchel::imaging
