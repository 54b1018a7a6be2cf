#include "imaging/rle.h"

namespace pritchel::imaging {
namespace {

using Bytes = std::span<const std::uint8_t>;

/// G.5: the header is sixteen little-endian numbers, the count of segments and where each begins.
constexpr std::size_t header_bytes = 64;

std::size_t header_entry(Bytes bytes, std::size_t index) {
  std::size_t value = 0;
  for (std::size_t i = 4; i-- > 0;)
    value = value << 8U | bytes[4 * index + i];
  return value;
}

/// G.3.2: shifts each byte of the segment into its sample. False when there are too few.
bool unpack_segment(Bytes segment, std::vector<std::uint16_t>& samples) {
  std::size_t done = 0;
  const auto put = [&](std::uint8_t byte) {
    samples[done] = static_cast<std::uint16_t>(samples[done] << 8U | byte);
    ++done;
  };
  std::size_t at = 0;
  while (done < samples.size() && at < segment.size()) {
    const unsigned control = segment[at++];
    if (control < 128) {
      for (unsigned i = 0; i <= control && done < samples.size() && at < segment.size(); ++i)
        put(segment[at++]);
    } else if (control > 128 && at < segment.size()) {
      for (unsigned i = 0; i < 257 - control && done < samples.size(); ++i)
        put(segment[at]);
      ++at;
    }
  }
  return done == samples.size();
}

} // namespace

Result<std::vector<std::uint16_t>>
decode_rle(Bytes bytes, std::size_t count, int bytes_per_sample, const std::string& name) {
  const auto damaged =
      fail(name, "holds damaged or cut picture data (RLE)", "export the picture again");
  const auto segments = static_cast<std::size_t>(bytes_per_sample);
  if (bytes.size() < header_bytes || header_entry(bytes, 0) != segments)
    return damaged;
  std::vector<std::uint16_t> samples(count, 0);
  for (std::size_t s = 1; s <= segments; ++s) {
    const auto begin = header_entry(bytes, s);
    const auto end = s < segments ? header_entry(bytes, s + 1) : bytes.size();
    if (begin < header_bytes || begin > end || end > bytes.size() ||
        !unpack_segment(bytes.subspan(begin, end - begin), samples))
      return damaged;
  }
  return samples;
}

} // namespace pritchel::imaging
