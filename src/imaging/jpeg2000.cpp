#include "imaging/jpeg2000.h"

#include <openjpeg.h>

#include <algorithm>
#include <cstring>
#include <memory>

namespace pritchel::imaging {
namespace {

struct Source {
  std::span<const std::uint8_t> bytes;
  std::size_t position = 0;
};

OPJ_SIZE_T read_some(void* to, OPJ_SIZE_T wanted, void* user) {
  auto& source = *static_cast<Source*>(user);
  const auto count = std::min<std::size_t>(wanted, source.bytes.size() - source.position);
  if (count == 0)
    return static_cast<OPJ_SIZE_T>(-1);
  std::memcpy(to, source.bytes.data() + source.position, count);
  source.position += count;
  return count;
}

OPJ_OFF_T skip_some(OPJ_OFF_T wanted, void* user) {
  auto& source = *static_cast<Source*>(user);
  const auto left = static_cast<OPJ_OFF_T>(source.bytes.size() - source.position);
  const auto count = std::clamp<OPJ_OFF_T>(wanted, 0, left);
  source.position += static_cast<std::size_t>(count);
  return count == 0 && wanted != 0 ? -1 : count;
}

OPJ_BOOL seek_to(OPJ_OFF_T position, void* user) {
  auto& source = *static_cast<Source*>(user);
  if (position < 0 || static_cast<std::size_t>(position) > source.bytes.size())
    return OPJ_FALSE;
  source.position = static_cast<std::size_t>(position);
  return OPJ_TRUE;
}

void keep_quiet(const char* /*message*/, void* /*user*/) {}

using Codec = std::unique_ptr<opj_codec_t, decltype(&opj_destroy_codec)>;
using Stream = std::unique_ptr<opj_stream_t, decltype(&opj_stream_destroy)>;
using Image = std::unique_ptr<opj_image_t, decltype(&opj_image_destroy)>;

Stream stream_of(Source& source) {
  Stream stream(opj_stream_default_create(OPJ_TRUE), &opj_stream_destroy);
  opj_stream_set_user_data(stream.get(), &source, nullptr);
  opj_stream_set_user_data_length(stream.get(), source.bytes.size());
  opj_stream_set_read_function(stream.get(), read_some);
  opj_stream_set_skip_function(stream.get(), skip_some);
  opj_stream_set_seek_function(stream.get(), seek_to);
  return stream;
}

Codec codec_for(std::span<const std::uint8_t> bytes) {
  const bool jp2 = bytes.size() > 4 && bytes[0] == 0 && bytes[3] == 12;
  Codec codec(opj_create_decompress(jp2 ? OPJ_CODEC_JP2 : OPJ_CODEC_J2K), &opj_destroy_codec);
  opj_set_error_handler(codec.get(), keep_quiet, nullptr);
  opj_set_warning_handler(codec.get(), keep_quiet, nullptr);
  opj_set_info_handler(codec.get(), keep_quiet, nullptr);
  return codec;
}

bool fits(const opj_image_t& image, int columns, int rows) {
  if (image.numcomps != 1)
    return false;
  const auto& grey = image.comps[0];
  return grey.w == static_cast<OPJ_UINT32>(columns) && grey.h == static_cast<OPJ_UINT32>(rows) &&
         grey.prec >= 1 && grey.prec <= 16;
}

/// Reversible wavelets lose nothing of themselves; a truncated reversible stream isn't told apart.
bool is_irreversible(opj_codec_t* codec) {
  opj_codestream_info_v2_t* info = opj_get_cstr_info(codec);
  const bool irreversible = info == nullptr || info->m_default_tile_info.tccp_info == nullptr ||
                            info->m_default_tile_info.tccp_info[0].qmfbid == 0;
  opj_destroy_cstr_info(&info);
  return irreversible;
}

} // namespace

Result<GreyFrame> decode_jpeg2000(std::span<const std::uint8_t> bytes,
                                  int columns,
                                  int rows,
                                  const std::string& name) {
  Source source{.bytes = bytes};
  const Codec codec = codec_for(bytes);
  const Stream stream = stream_of(source);
  opj_dparameters_t parameters{};
  opj_set_default_decoder_parameters(&parameters);
  opj_image_t* raw = nullptr;
  const bool header = opj_setup_decoder(codec.get(), &parameters) == OPJ_TRUE &&
                      opj_read_header(stream.get(), codec.get(), &raw) == OPJ_TRUE;
  const Image image(raw, &opj_image_destroy);
  if (!header || !image)
    return fail(name, "holds damaged picture data (JPEG 2000)", "export the picture again");
  if (!fits(*image, columns, rows))
    return fail(name,
                "holds compressed data (JPEG 2000) that contradict its header",
                "export the picture again");
  if (opj_decode(codec.get(), stream.get(), image.get()) != OPJ_TRUE ||
      !fits(*image, columns, rows) || image->comps[0].data == nullptr)
    return fail(name, "holds damaged or cut picture data (JPEG 2000)", "export the picture again");
  GreyFrame frame{.samples = {}, .lossy = is_irreversible(codec.get())};
  const auto count = static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows);
  frame.samples.resize(count);
  std::transform(image->comps[0].data,
                 image->comps[0].data + count,
                 frame.samples.begin(),
                 [](OPJ_INT32 value) { return static_cast<std::uint16_t>(value); });
  return frame;
}

} // namespace pritchel::imaging
