#include "imaging/dicom_file.h"

#include "imaging/character_sets.h"
#include "imaging/dicom_item.h"
#include "imaging/dicom_pixels.h"
#include "imaging/dicom_spacing.h"
#include "imaging/header_facts.h"
#include "imaging/windowing.h"

#include <dcmtk/config/osconfig.h>
#include <dcmtk/dcmdata/dcistrmb.h>
#include <dcmtk/dcmdata/dctk.h>
#include <dcmtk/dcmjpeg/djdecode.h>
#include <dcmtk/oflog/oflog.h>

#include <algorithm>
#include <cmath>
#include <exception>

namespace pritchel::imaging {
namespace {

using dicom::Tag;

/// Once a process: DCMTK kept silent, its decoders known. False when its dictionary is missing,
/// without which even good files read wrongly.
bool toolkit_ready() {
  static const bool ready = [] {
    OFLog::configure(OFLogger::OFF_LOG_LEVEL);
    DJDecoderRegistration::registerCodecs();
    // Elements written with VR "unknown" are read as what the dictionary says they are.
    dcmEnableUnknownVRConversion.set(OFTrue);
    return dcmDataDict.isDictionaryLoaded() == OFTrue;
  }();
  return ready;
}

bool begins_element(std::span<const char> bytes, std::size_t low, std::size_t high) {
  const auto group = static_cast<unsigned char>(bytes[low]);
  return bytes[high] == 0 && bytes[high + 2] == 0 && (group == 0x02 || group == 0x08);
}

OFCondition read(DcmFileFormat& file, std::span<const char> bytes) {
  DcmInputBufferStream stream;
  stream.setBuffer(bytes.data(), static_cast<offile_off_t>(bytes.size()));
  stream.setEos();
  file.transferInit();
  const OFCondition outcome = file.read(stream, EXS_Unknown, EGL_noChange);
  file.transferEnd();
  return outcome;
}

/// Eight-bit entries may be packed two to a word, the first in the low byte.
void unpack_bytes(LookupTable& table) {
  std::vector<std::uint16_t> entries;
  for (const auto word : table.entries) {
    entries.push_back(word & 0xFFU);
    entries.push_back(static_cast<std::uint16_t>(word >> 8U));
  }
  table.entries = std::move(entries);
}

std::optional<LookupTable> picture_table(DcmItem& item, Tag sequence, PixelSign sign) {
  const auto raw = dicom::lookup_table(item, sequence);
  if (!raw)
    return std::nullopt;
  // 0 entries mean 65,536; a first input above 32,767 is a negative one read as unsigned.
  const std::size_t length = raw->length == 0 ? 65536 : raw->length;
  const int first = raw->first_input;
  LookupTable table{.first_input =
                        sign == PixelSign::with_sign && first > 32767 ? first - 65536 : first,
                    .bits = raw->bits,
                    .entries = raw->words,
                    .name = to_utf8(raw->explanation, dicom::raw_text(item, {0x0008, 0x0005}))};
  if (table.bits < 8 || table.bits > 16)
    return std::nullopt;
  if (table.bits == 8 && length > 1 && table.entries.size() == (length + 1) / 2)
    unpack_bytes(table);
  if (table.entries.size() < length)
    return std::nullopt;
  table.entries.resize(length);
  return table;
}

Window::Shape window_shape(DcmItem& item) {
  const auto function = dicom::raw_text(item, {0x0028, 0x1056});
  if (function == "SIGMOID")
    return Window::Shape::sigmoid;
  return function == "LINEAR_EXACT" ? Window::Shape::linear_exact : Window::Shape::linear;
}

std::vector<Window> header_windows(DcmItem& item, const std::string& character_set) {
  const auto centres = dicom::numbers(item, {0x0028, 0x1050});
  const auto widths = dicom::numbers(item, {0x0028, 0x1051});
  const auto names = dicom::values(dicom::raw_text(item, {0x0028, 0x1055}));
  std::vector<Window> windows;
  for (std::size_t i = 0; i < std::min(centres.size(), widths.size()); ++i) {
    const Window window{.centre = centres[i],
                        .width = widths[i],
                        .shape = window_shape(item),
                        .name = i < names.size() ? to_utf8(names[i], character_set) : ""};
    if (is_usable(window))
      windows.push_back(window);
  }
  return windows;
}

void read_rescale(DcmItem& data_set, PixelSign sign, Picture& picture) {
  picture.modality_lut = picture_table(data_set, {0x0028, 0x3000}, sign);
  DcmItem& item = dicom::frame_macro(data_set, {0x0028, 0x9145});
  const auto slope = dicom::number(item, {0x0028, 0x1053});
  const auto intercept = dicom::number(item, {0x0028, 0x1052});
  if (slope && intercept && *slope != 0) {
    picture.rescale_slope = *slope;
    picture.rescale_intercept = *intercept;
  }
}

void read_display(DcmItem& data_set, PixelSign sign, Picture& picture) {
  read_rescale(data_set, sign, picture);
  picture.windows = header_windows(dicom::frame_macro(data_set, {0x0028, 0x9132}),
                                   dicom::raw_text(data_set, {0x0008, 0x0005}));
  picture.voi_lut = picture_table(data_set, {0x0028, 0x3010}, sign);
  const auto value = dicom::integer(data_set, {0x0028, 0x0120});
  const auto limit = dicom::integer(data_set, {0x0028, 0x0121});
  if (!value)
    return;
  const auto stored = [&](int v) {
    return sign == PixelSign::with_sign && v > 32767 ? v - 65536 : v;
  };
  const int a = stored(*value);
  const int b = stored(limit.value_or(*value));
  picture.padding = PaddingRange{.first = std::min(a, b), .last = std::max(a, b)};
}

void add_notes(DcmItem& data_set, Picture& picture) {
  const int frames = dicom::integer(data_set, {0x0028, 0x0008}).value_or(1);
  if (frames > 1)
    picture.notes.push_back("The file holds " + std::to_string(frames) +
                            " frames; the first is shown.");
  if (picture.facts.lossy)
    picture.notes.emplace_back("The picture was compressed with possible loss of fine detail.");
  if (picture.spacing.capture == Spacing::Capture::secondary)
    picture.notes.emplace_back(
        "The picture is a screen capture or scan: its own spacing is not to be trusted.");
}

Result<Picture> picture_of(DcmDataset& data_set, const std::string& name) {
  PRITCHEL_TRY(pixels, stored_pixels(data_set, name));
  Picture picture{.kind = PictureKind::radiograph,
                  .columns = pixels.columns,
                  .rows = pixels.rows,
                  .samples = std::move(pixels.samples),
                  .offset = pixels.offset,
                  .bits_stored = pixels.bits_stored,
                  .inverse = dicom::raw_text(data_set, {0x0028, 0x0004}) == "MONOCHROME1"};
  read_display(data_set, pixels.sign, picture);
  picture.facts = header_facts(data_set);
  picture.facts.lossy = pixels.lossy || dicom::raw_text(data_set, {0x0028, 0x2110}) == "01";
  picture.spacing = header_spacing(data_set);
  picture.pixel_aspect = header_pixel_aspect(data_set);
  add_notes(data_set, picture);
  return picture;
}

Result<Picture> read_picture(std::span<const char> bytes, const std::string& name) {
  DcmFileFormat file;
  if (const auto outcome = read(file, bytes); outcome.bad())
    return fail(name,
                "is damaged or cut short and cannot be read as DICOM",
                "export or copy the file again");
  DcmMetaInfo* meta = file.getMetaInfo();
  if (meta != nullptr && dicom::raw_text(*meta, {0x0002, 0x0002}) == "1.2.840.10008.1.3.10")
    return fail(name,
                "is a directory of pictures (DICOMDIR), not a picture",
                "open one of the files that it names");
  DcmDataset* data_set = file.getDataset();
  if (data_set == nullptr || data_set->card() == 0)
    return fail(name, "holds no DICOM data set", "export or copy the file again");
  return picture_of(*data_set, name);
}

} // namespace

bool is_dicom_file(std::span<const char> bytes) {
  const std::string_view prefix = "DICM";
  return bytes.size() >= 132 && std::equal(prefix.begin(), prefix.end(), bytes.begin() + 128);
}

bool may_be_bare_dicom(std::span<const char> bytes) {
  return bytes.size() >= 8 && (begins_element(bytes, 0, 1) || begins_element(bytes, 1, 0));
}

Result<Picture> load_dicom(std::span<const char> bytes, const std::string& name) {
  if (!toolkit_ready())
    return fail("The DICOM dictionary",
                "could not be loaded, so DICOM files cannot be read",
                "unset DCMDICTPATH or install the package libdcmtk17",
                Trouble::outside);
  try {
    return read_picture(bytes, name);
  } catch (const std::exception&) {
    return fail(name, "is damaged: its header asks for more memory than there is");
  }
}

} // namespace pritchel::imaging
