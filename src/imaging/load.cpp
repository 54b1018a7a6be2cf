#include "imaging/load.h"

#include "base/limits.h"
#include "imaging/dicom_file.h"
#include "imaging/photo_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <system_error>
#include <vector>

namespace pritchel::imaging {
namespace {

/// Other kinds of file that people offer as a picture, by their first bytes at an offset.
struct Impostor {
  std::size_t at;
  std::string_view mark;
  std::string_view kind;
  std::string_view way_out;
};

constexpr std::array impostors{
    Impostor{0, "%PDF", "a PDF document", "export the picture itself"},
    Impostor{0, "PK\x03\x04", "a ZIP archive", "unpack it and open the pictures in it"},
    Impostor{0, "\x1F\x8B", "compressed (gzip)", "unpack it first"},
    Impostor{4, "ftyphei", "an HEIC photo", "save it as JPEG"},
    Impostor{4, "ftypmif", "an HEIC photo", "save it as JPEG"},
    Impostor{8, "WEBP", "a WebP picture", "save it as JPEG or PNG"},
    Impostor{0, "GIF8", "a GIF picture", "save it as PNG"},
    Impostor{0, "BM", "a BMP picture", "save it as PNG"},
};

bool looks_like_text(std::span<const char> bytes) {
  const auto head = bytes.first(std::min<std::size_t>(bytes.size(), 512));
  return std::all_of(head.begin(), head.end(), [](char c) {
    return static_cast<unsigned char>(c) >= 0x20 || c == '\n' || c == '\r' || c == '\t';
  });
}

tl::unexpected<Error> refuse_unknown(std::span<const char> bytes, const std::string& name) {
  if (bytes.empty())
    return fail(name, "is empty", "copy the file again");
  for (const auto& other : impostors)
    if (bytes.size() >= other.at + other.mark.size() &&
        std::equal(other.mark.begin(),
                   other.mark.end(),
                   bytes.begin() + static_cast<std::ptrdiff_t>(other.at)))
      return fail(
          name, fmt::format("is {}, not a picture file", other.kind), std::string(other.way_out));
  if (looks_like_text(bytes))
    return fail(name, "is a text file, not a picture", "choose the picture itself");
  return fail(
      name, "is neither DICOM nor a JPEG, PNG or TIFF picture", "export it as one of these");
}

tl::unexpected<Error> refuse_size(const std::string& name) {
  constexpr std::uintmax_t megabyte = 1024UL * 1024UL;
  return fail(name,
              "is larger than can be opened",
              fmt::format("at most {} MB", limits::picture_file_bytes / megabyte),
              Trouble::too_large);
}

} // namespace

Result<Picture> load_picture(std::span<const char> bytes, const std::string& name) {
  if (bytes.size() > limits::picture_file_bytes)
    return refuse_size(name);
  // DICOM first: its free preamble may carry a TIFF header.
  if (is_dicom_file(bytes))
    return load_dicom(bytes, name);
  if (const auto format = photo_format(bytes))
    return load_photo(bytes, *format, name);
  if (may_be_bare_dicom(bytes))
    return load_dicom(bytes, name);
  return refuse_unknown(bytes, name);
}

Result<Picture> load_picture_file(const std::filesystem::path& path) {
  const std::string name = path.filename().string();
  std::error_code problem;
  const auto size = std::filesystem::file_size(path, problem);
  if (problem)
    return fail(name, "cannot be found or opened", "check the path", Trouble::not_found);
  if (size > limits::picture_file_bytes)
    return refuse_size(name);
  std::ifstream file(path, std::ios::binary);
  std::vector<char> bytes(size);
  if (!file.read(bytes.data(), static_cast<std::streamsize>(size)))
    return fail(name, "cannot be read", "check the disk", Trouble::outside);
  return load_picture(bytes, name);
}

} // namespace pritchel::imaging
