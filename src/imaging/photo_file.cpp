#include "imaging/photo_file.h"

#include "base/limits.h"
#include "imaging/exif.h"
#include "imaging/jpeg_header.h"

#include <fmt/format.h>
#include <opencv2/core/utils/logger.hpp>
#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <string_view>
#include <vector>

namespace pritchel::imaging {
namespace {

using Bytes = std::span<const std::uint8_t>;

constexpr std::string_view png_signature("\x89PNG\r\n\x1a\n", 8);

/// What is known before decoding.
struct PhotoHeader {
  std::int64_t columns = 0;
  std::int64_t rows = 0;
  int orientation = 1;
  std::size_t orientation_at = 0; ///< in a TIFF
  std::string taken;
  int lens_35mm = 0;
};

bool begins(std::span<const char> bytes, std::string_view with) {
  return bytes.size() >= with.size() && std::equal(with.begin(), with.end(), bytes.begin());
}

std::int64_t big_endian_32(Bytes bytes, std::size_t at) {
  std::int64_t value = 0;
  for (std::size_t i = 0; i < 4; ++i)
    value = value << 8 | bytes[at + i];
  return value;
}

void read_exif(Bytes tiff, PhotoHeader& header) {
  const auto facts = read_tiff_facts(tiff);
  header.orientation = facts.orientation;
  header.taken = facts.taken;
  header.lens_35mm = facts.lens_35mm;
}

std::optional<PhotoHeader> jpeg_photo_header(Bytes bytes) {
  const auto jpeg = read_jpeg_header(bytes);
  if (!jpeg || !jpeg->complete)
    return std::nullopt;
  PhotoHeader header{.columns = jpeg->columns, .rows = jpeg->rows};
  read_exif(jpeg->exif, header);
  return header;
}

/// Chunks are length, type, data, checksum; a whole file ends with IEND.
/// Source: PNG (ISO/IEC 15948) 5.3, 11.2.2; eXIf from PNG extensions 1.5.
std::optional<PhotoHeader> png_photo_header(Bytes bytes) {
  PhotoHeader header;
  std::size_t at = png_signature.size();
  while (bytes.size() >= at + 12) {
    const auto length = static_cast<std::size_t>(big_endian_32(bytes, at));
    const auto type = std::string(bytes.begin() + static_cast<std::ptrdiff_t>(at + 4),
                                  bytes.begin() + static_cast<std::ptrdiff_t>(at + 8));
    if (length > bytes.size() - at - 12)
      return std::nullopt;
    if (type == "IHDR" && length >= 8) {
      header.columns = big_endian_32(bytes, at + 8);
      header.rows = big_endian_32(bytes, at + 12);
    }
    if (type == "eXIf")
      read_exif(bytes.subspan(at + 8, length), header);
    if (type == "IEND")
      return header.columns > 0 ? std::optional{header} : std::nullopt;
    at += 12 + length;
  }
  return std::nullopt;
}

std::optional<PhotoHeader> photo_header(Bytes bytes, PhotoFormat format) {
  if (format == PhotoFormat::jpeg)
    return jpeg_photo_header(bytes);
  if (format == PhotoFormat::png)
    return png_photo_header(bytes);
  const auto facts = read_tiff_facts(bytes);
  if (facts.columns < 1 || facts.rows < 1 || !facts.complete)
    return std::nullopt;
  return PhotoHeader{.columns = facts.columns,
                     .rows = facts.rows,
                     .orientation = facts.orientation,
                     .orientation_at = facts.orientation_at,
                     .taken = facts.taken,
                     .lens_35mm = facts.lens_35mm};
}

/// OpenCV's TIFF reader turns some orientations by itself, whatever it is asked: it gets a copy
/// that says "upright", so that the turning is done once, here.
std::vector<char> without_orientation(std::span<const char> tiff, std::size_t at) {
  std::vector<char> copy(tiff.begin(), tiff.end());
  const bool big_endian = copy[0] == 'M';
  copy[at] = big_endian ? 0 : 1;
  copy[at + 1] = big_endian ? 1 : 0;
  return copy;
}

/// Exif 2.3, 4.6.4 A, Orientation: where the stored first row and column belong.
cv::Mat upright(const cv::Mat& stored, int orientation) {
  cv::Mat turned = stored;
  if (orientation >= 5)
    cv::transpose(stored, turned);
  cv::Mat out = turned;
  if (orientation == 2 || orientation == 6)
    cv::flip(turned, out, 1);
  else if (orientation == 3 || orientation == 7)
    cv::flip(turned, out, -1);
  else if (orientation == 4 || orientation == 8)
    cv::flip(turned, out, 0);
  return out;
}

cv::Mat decoded(std::span<const char> bytes) {
  cv::utils::logging::setLogLevel(cv::utils::logging::LOG_LEVEL_SILENT);
  const cv::Mat raw(1,
                    static_cast<int>(bytes.size()),
                    CV_8U,
                    const_cast<char*>(bytes.data())); // NOLINT: imdecode only reads
  return cv::imdecode(raw, cv::IMREAD_COLOR | cv::IMREAD_IGNORE_ORIENTATION);
}

cv::Mat stored_pixels(std::span<const char> bytes, const PhotoHeader& header) {
  if (header.orientation_at > 0)
    return decoded(without_orientation(bytes, header.orientation_at));
  return decoded(bytes);
}

Picture photo_of(const cv::Mat& upright_bgr) {
  cv::Mat rgb;
  cv::cvtColor(upright_bgr, rgb, cv::COLOR_BGR2RGB);
  if (!rgb.isContinuous())
    rgb = rgb.clone();
  Picture picture{.kind = PictureKind::photo, .columns = rgb.cols, .rows = rgb.rows};
  picture.bits_stored = 8;
  picture.rgb.assign(rgb.datastart, rgb.dataend);
  return picture;
}

} // namespace

std::optional<PhotoFormat> photo_format(std::span<const char> bytes) {
  if (begins(bytes, "\xFF\xD8\xFF"))
    return PhotoFormat::jpeg;
  if (begins(bytes, png_signature))
    return PhotoFormat::png;
  if (begins(bytes, std::string_view("II*\0", 4)) || begins(bytes, std::string_view("MM\0*", 4)))
    return PhotoFormat::tiff;
  return std::nullopt;
}

Result<Picture>
load_photo(std::span<const char> bytes, PhotoFormat format, const std::string& name) {
  const Bytes raw(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  const auto header = photo_header(raw, format);
  const auto damaged = fail(name, "is a damaged or cut photo", "copy it from the camera again");
  if (!header)
    return damaged;
  if (header->columns > limits::picture_side_px || header->rows > limits::picture_side_px ||
      header->columns * header->rows > limits::picture_pixels)
    return fail(name,
                fmt::format("is {} \u00d7 {} pixels, more than can be opened",
                            header->columns,
                            header->rows),
                fmt::format("save it with sides of at most {}", limits::picture_side_px),
                Trouble::too_large);
  try {
    const cv::Mat stored = stored_pixels(bytes, *header);
    if (stored.empty())
      return damaged;
    auto picture = photo_of(upright(stored, header->orientation));
    picture.facts.study_date = header->taken;
    picture.facts.lens_35mm = header->lens_35mm;
    picture.facts.lossy = format == PhotoFormat::jpeg;
    return picture;
  } catch (const cv::Exception&) {
    return damaged;
  }
}

} // namespace pritchel::imaging
