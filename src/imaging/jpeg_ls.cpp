#include "imaging/jpeg_ls.h"

#include <charls/charls.h>

#include <cstring>
#include <exception>

namespace pritchel::imaging {
namespace {

std::vector<std::uint16_t> widened(const std::vector<std::uint8_t>& bytes, int bits) {
  if (bits <= 8)
    return {bytes.begin(), bytes.end()};
  std::vector<std::uint16_t> samples(bytes.size() / 2);
  std::memcpy(samples.data(), bytes.data(), samples.size() * 2);
  return samples;
}

} // namespace

Result<std::vector<std::uint16_t>> decode_jpeg_ls(std::span<const std::uint8_t> bytes,
                                                  int columns,
                                                  int rows,
                                                  const std::string& name) {
  try {
    charls::jpegls_decoder decoder;
    decoder.source(bytes.data(), bytes.size());
    decoder.read_header();
    const auto& info = decoder.frame_info();
    if (info.component_count != 1 || info.width != static_cast<std::uint32_t>(columns) ||
        info.height != static_cast<std::uint32_t>(rows))
      return fail(name,
                  "holds compressed data (JPEG-LS) that contradict its header",
                  "export the picture again");
    std::vector<std::uint8_t> decoded(decoder.destination_size());
    decoder.decode(decoded);
    return widened(decoded, info.bits_per_sample);
  } catch (const std::exception&) {
    return fail(name, "holds damaged or cut picture data (JPEG-LS)", "export the picture again");
  }
}

} // namespace pritchel::imaging
