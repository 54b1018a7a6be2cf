#include "imaging/dicom_pixels.h"

#include "base/limits.h"
#include "imaging/dicom_frame.h"
#include "imaging/dicom_item.h"
#include "imaging/jpeg2000.h"
#include "imaging/jpeg_header.h"
#include "imaging/jpeg_ls.h"
#include "imaging/rle.h"

#include <dcmtk/config/osconfig.h>
#include <dcmtk/dcmdata/dcpixel.h>
#include <dcmtk/dcmdata/dctk.h>
#include <fmt/format.h>

#include <array>
#include <cstring>

namespace pritchel::imaging {
namespace {

const std::string again = "export or copy the picture again";

struct Description {
  int columns = 0;
  int rows = 0;
  int frames = 1;
  int bits_allocated = 0;
  int bits_stored = 0;
  PixelSign sign = PixelSign::without_sign;

  [[nodiscard]] std::size_t samples() const {
    return static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows);
  }
  [[nodiscard]] std::size_t bytes() const {
    return samples() * static_cast<std::size_t>(bits_allocated / 8);
  }
};

Result<void> check_is_picture(DcmDataset& data_set, const std::string& name) {
  const std::array floating{DcmTagKey(0x7fe0, 0x0008), DcmTagKey(0x7fe0, 0x0009)};
  for (const auto& tag : floating)
    if (data_set.tagExists(tag))
      return fail(name, "holds floating-point values, not a radiograph");
  if (data_set.tagExists(DCM_PixelData))
    return {};
  const auto modality = dicom::raw_text(data_set, {0x0008, 0x0060});
  if (data_set.tagExists(DCM_Rows))
    return fail(name, "describes a picture but its picture data are missing", again);
  const bool plain = !modality.empty() && modality.size() <= 16 &&
                     modality.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZ") == std::string::npos;
  return fail(name,
              "is DICOM but holds no picture" + (plain ? " (" + modality + ")" : std::string{}),
              "open the radiograph itself");
}

Result<void> check_is_grey(DcmDataset& data_set, const std::string& name) {
  const auto photometric = dicom::raw_text(data_set, {0x0028, 0x0004});
  const int samples = dicom::integer(data_set, {0x0028, 0x0002}).value_or(1);
  if (samples != 1 ||
      (!photometric.empty() && photometric != "MONOCHROME1" && photometric != "MONOCHROME2"))
    return fail(name,
                "is a colour picture, not a greyscale radiograph",
                "export the radiograph itself, or a photo as JPEG");
  if (photometric.empty())
    return fail(name, "does not say whether it is greyscale (Photometric Interpretation)", again);
  return {};
}

Result<void> check_size(const Description& d, const std::string& name) {
  if (d.columns < 1 || d.rows < 1)
    return fail(name, "has no size: its rows or columns are zero or missing", again);
  if (d.columns > limits::picture_side_px || d.rows > limits::picture_side_px ||
      static_cast<std::int64_t>(d.samples()) > limits::picture_pixels)
    return fail(name,
                fmt::format("is {} \u00d7 {} pixels, more than can be opened", d.columns, d.rows),
                fmt::format("export it with sides of at most {}", limits::picture_side_px),
                Trouble::too_large);
  return {};
}

Result<void> check_bits(const Description& d, int high_bit, const std::string& name) {
  if (d.bits_allocated != 8 && d.bits_allocated != 16)
    return fail(name,
                fmt::format("has {} bits a pixel", d.bits_allocated),
                "only 8 and 16 bits allocated can be read");
  if (d.bits_stored < 2 || d.bits_stored > d.bits_allocated || high_bit != d.bits_stored - 1)
    return fail(name,
                fmt::format("contradicts itself: {} bits stored, high bit {}, {} bits allocated",
                            d.bits_stored,
                            high_bit,
                            d.bits_allocated),
                again);
  return {};
}

Result<Description> description(DcmDataset& data_set, const std::string& name) {
  const auto value = [&](std::uint16_t element) {
    return dicom::integer(data_set, {0x0028, element});
  };
  PRITCHEL_CHECK(check_is_picture(data_set, name));
  PRITCHEL_CHECK(check_is_grey(data_set, name));
  const Description d{.columns = value(0x0011).value_or(0),
                      .rows = value(0x0010).value_or(0),
                      .frames = value(0x0008).value_or(1),
                      .bits_allocated = value(0x0100).value_or(0),
                      .bits_stored = value(0x0101).value_or(0),
                      .sign = value(0x0103).value_or(0) == 1 ? PixelSign::with_sign
                                                             : PixelSign::without_sign};
  PRITCHEL_CHECK(check_size(d, name));
  PRITCHEL_CHECK(check_bits(d, value(0x0102).value_or(d.bits_stored - 1), name));
  return d;
}

std::vector<std::uint16_t>
as_samples(const std::uint8_t* bytes, std::size_t count, int bits_allocated) {
  if (bits_allocated == 8)
    return {bytes, bytes + count};
  std::vector<std::uint16_t> samples(count);
  std::memcpy(samples.data(), bytes, 2 * count);
  return samples;
}

Result<std::vector<std::uint16_t>>
uncompressed(DcmDataset& data_set, const Description& d, const std::string& name) {
  const auto cut = fail(name, "is cut short: it has fewer pixels than its size says", again);
  unsigned long count = 0;
  const Uint16* words = nullptr;
  const Uint8* bytes = nullptr;
  DcmElement* element = nullptr;
  if (data_set.findAndGetElement(DCM_PixelData, element).bad() || element->getLength() < d.bytes())
    return cut;
  if (d.bits_allocated == 8) {
    if (data_set.findAndGetUint8Array(DCM_PixelData, bytes, &count).good() && bytes != nullptr &&
        count >= d.samples())
      return as_samples(bytes, d.samples(), 8);
    return cut;
  }
  if (data_set.findAndGetUint16Array(DCM_PixelData, words, &count).good() && words != nullptr &&
      count >= d.samples())
    return std::vector<std::uint16_t>(words, words + d.samples());
  return cut;
}

/// A stream whose own header disagrees would be decoded into a wrong picture, or past its buffer.
Result<void>
check_jpeg(std::span<const std::uint8_t> bytes, const Description& d, const std::string& name) {
  const auto header = read_jpeg_header(bytes);
  if (!header)
    return fail(name, "says it holds JPEG data but holds something else", again);
  if (header->columns != d.columns || header->rows != d.rows || header->components != 1 ||
      (header->bits > 8) != (d.bits_allocated > 8))
    return fail(name, "holds compressed data (JPEG) that contradict its header", again);
  if (!header->complete)
    return fail(name, "is cut short within its picture data (JPEG)", again);
  return {};
}

/// The JPEG processes, by DCMTK's decoders.
Result<std::vector<std::uint16_t>>
decoded_by_dcmtk(DcmDataset& data_set, const Description& d, const std::string& name) {
  DcmElement* element = nullptr;
  auto* pixels = data_set.findAndGetElement(DCM_PixelData, element).good()
                     ? dynamic_cast<DcmPixelData*>(element)
                     : nullptr;
  std::vector<std::uint8_t> buffer(d.bytes() + d.bytes() % 2);
  Uint32 fragment = 0;
  OFString colour;
  if (pixels == nullptr ||
      pixels
          ->getUncompressedFrame(
              &data_set, 0, fragment, buffer.data(), static_cast<Uint32>(buffer.size()), colour)
          .bad())
    return fail(name, "holds damaged or cut picture data", again);
  return as_samples(buffer.data(), d.samples(), d.bits_allocated);
}

enum class Scheme { none, rle, jpeg, jpeg_ls, jpeg_2000, unknown };

Scheme scheme_of(E_TransferSyntax syntax) {
  switch (syntax) {
  case EXS_RLELossless:
    return Scheme::rle;
  case EXS_JPEGProcess1:
  case EXS_JPEGProcess2_4:
  case EXS_JPEGProcess14:
  case EXS_JPEGProcess14SV1:
    return Scheme::jpeg;
  case EXS_JPEGLSLossless:
  case EXS_JPEGLSLossy:
    return Scheme::jpeg_ls;
  case EXS_JPEG2000LosslessOnly:
  case EXS_JPEG2000:
    return Scheme::jpeg_2000;
  default:
    return DcmXfer(syntax).isEncapsulated() ? Scheme::unknown : Scheme::none;
  }
}

bool loses_detail(E_TransferSyntax syntax) {
  return syntax == EXS_JPEGProcess1 || syntax == EXS_JPEGProcess2_4 || syntax == EXS_JPEGLSLossy;
}

Result<GreyFrame>
from_stream(DcmDataset& data_set, Scheme scheme, const Description& d, const std::string& name) {
  const auto bytes = first_frame_bytes(data_set, d.frames);
  if (!bytes)
    return fail(name, "holds damaged picture data", again);
  if (scheme == Scheme::jpeg_2000)
    return decode_jpeg2000(*bytes, d.columns, d.rows, name);
  GreyFrame frame;
  if (scheme == Scheme::jpeg_ls) {
    PRITCHEL_TRY(samples, decode_jpeg_ls(*bytes, d.columns, d.rows, name));
    frame.samples = std::move(samples);
    return frame;
  }
  if (scheme == Scheme::rle) {
    PRITCHEL_TRY(samples, decode_rle(*bytes, d.samples(), d.bits_allocated / 8, name));
    frame.samples = std::move(samples);
    return frame;
  }
  PRITCHEL_CHECK(check_jpeg(*bytes, d, name));
  PRITCHEL_TRY(samples, decoded_by_dcmtk(data_set, d, name));
  frame.samples = std::move(samples);
  return frame;
}

Result<GreyFrame> first_frame(DcmDataset& data_set, const Description& d, const std::string& name) {
  const E_TransferSyntax syntax = data_set.getOriginalXfer();
  const Scheme scheme = scheme_of(syntax);
  if (scheme == Scheme::unknown)
    return fail(name,
                fmt::format("is compressed in a way that can't be read ({})",
                            DcmXfer(syntax).getXferName()),
                "export it uncompressed or as lossless JPEG");
  GreyFrame frame;
  if (scheme == Scheme::none) {
    PRITCHEL_TRY(samples, uncompressed(data_set, d, name));
    frame.samples = std::move(samples);
  } else {
    PRITCHEL_TRY(read, from_stream(data_set, scheme, d, name));
    frame = std::move(read);
  }
  frame.lossy = frame.lossy || loses_detail(syntax);
  return frame;
}

/// Masks to Bits Stored; flipping the sign bit of a two's complement value adds half the range,
/// which is what `offset` takes off again.
void to_offset_samples(StoredPixels& pixels) {
  const auto mask =
      static_cast<std::uint16_t>((1U << static_cast<unsigned>(pixels.bits_stored)) - 1U);
  const auto half = static_cast<std::uint16_t>(1U << static_cast<unsigned>(pixels.bits_stored - 1));
  const auto flip = pixels.sign == PixelSign::with_sign ? half : std::uint16_t{0};
  for (auto& sample : pixels.samples)
    sample = static_cast<std::uint16_t>((sample & mask) ^ flip);
  pixels.offset = -static_cast<int>(flip);
}

} // namespace

Result<StoredPixels> stored_pixels(DcmDataset& data_set, const std::string& name) {
  PRITCHEL_TRY(d, description(data_set, name));
  PRITCHEL_TRY(frame, first_frame(data_set, d, name));
  StoredPixels pixels{.columns = d.columns,
                      .rows = d.rows,
                      .bits_stored = d.bits_stored,
                      .sign = d.sign,
                      .samples = std::move(frame.samples),
                      .lossy = frame.lossy};
  to_offset_samples(pixels);
  return pixels;
}

} // namespace pritchel::imaging
