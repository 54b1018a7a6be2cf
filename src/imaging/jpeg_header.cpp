#include "imaging/jpeg_header.h"

#include <algorithm>
#include <string_view>

namespace pritchel::imaging {
namespace {

using Bytes = std::span<const std::uint8_t>;

constexpr int start_of_scan = 0xDA;
constexpr int end_of_image = 0xD9;

int big_endian_16(Bytes bytes, std::size_t at) {
  return bytes[at] << 8 | bytes[at + 1];
}

/// SOF0...SOF15 without DHT, JPG and DAC, which share the row of codes.
bool is_frame_header(int marker) {
  return marker >= 0xC0 && marker <= 0xCF && marker != 0xC4 && marker != 0xC8 && marker != 0xCC;
}

bool stands_alone(int marker) {
  return marker == 0x01 || (marker >= 0xD0 && marker <= 0xD7);
}

void read_frame_header(Bytes segment, JpegHeader& header) {
  if (segment.size() < 6)
    return;
  header.bits = segment[0];
  header.rows = big_endian_16(segment, 1);
  header.columns = big_endian_16(segment, 3);
  header.components = segment[5];
}

void read_application_segment(Bytes segment, JpegHeader& header) {
  constexpr std::string_view mark("Exif\0\0", 6);
  if (segment.size() > mark.size() && std::equal(mark.begin(), mark.end(), segment.begin()))
    header.exif = segment.subspan(mark.size());
}

/// Entropy-coded data hold no marker but stuffed zeros and restarts; further scans and tables may
/// follow, so the last marker is what counts.
bool ends_after(Bytes bytes, std::size_t at) {
  for (; at + 1 < bytes.size(); ++at)
    if (bytes[at] == 0xFF && bytes[at + 1] == end_of_image)
      return true;
  return false;
}

} // namespace

std::optional<JpegHeader> read_jpeg_header(Bytes bytes) {
  if (bytes.size() < 4 || bytes[0] != 0xFF || bytes[1] != 0xD8)
    return std::nullopt;
  JpegHeader header;
  std::size_t at = 2;
  while (at + 4 <= bytes.size()) {
    if (bytes[at] != 0xFF)
      return std::nullopt;
    const int marker = bytes[at + 1];
    if (marker == 0xFF || stands_alone(marker)) {
      at += marker == 0xFF ? 1 : 2;
      continue;
    }
    const auto length = static_cast<std::size_t>(big_endian_16(bytes, at + 2));
    if (length < 2 || at + 2 + length > bytes.size())
      return std::nullopt;
    const Bytes segment = bytes.subspan(at + 4, length - 2);
    if (is_frame_header(marker))
      read_frame_header(segment, header);
    if (marker == 0xE1)
      read_application_segment(segment, header);
    at += 2 + length;
    if (marker == start_of_scan) {
      header.complete = ends_after(bytes, at);
      return header.columns > 0 ? std::optional{header} : std::nullopt;
    }
  }
  return std::nullopt;
}

} // namespace pritchel::imaging
