#include "imaging/encode.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

#include <bit>

#include "job/picture_json.h"

namespace pritchel::serve {
namespace {

using httplib::Request;
using imaging::PictureKind;

constexpr int photo_quality = 92;

static_assert(std::endian::native == std::endian::little, "samples travel little-endian");

template <class T> std::span<const char> as_chars(const std::vector<T>& values) {
  return {reinterpret_cast<const char*>(values.data()), values.size() * sizeof(T)};
}

Result<nlohmann::json> give_header(Office& office, const Request& request) {
  PRITCHEL_TRY(picture, office.picture(part(request, 1)));
  return job::picture_json(*picture);
}

Result<Bytes> give_samples(Office& office, const Request& request) {
  PRITCHEL_TRY(picture, office.picture(part(request, 1)));
  if (picture->kind != PictureKind::radiograph)
    return fail("The picture", "is a photo", "ask for image.jpg", Trouble::not_found);
  return Bytes{.owner = picture,
               .bytes = as_chars(picture->samples),
               .type = "application/octet-stream",
               .keeping = Keeping::for_ever};
}

Result<Bytes> give_photo(Office& office, const Request& request) {
  PRITCHEL_TRY(picture, office.picture(part(request, 1)));
  if (picture->kind != PictureKind::photo)
    return fail("The picture", "is a radiograph", "ask for its samples", Trouble::not_found);
  PRITCHEL_TRY(
      encoded,
      imaging::encode_jpeg(
          picture->rgb, picture->columns, picture->rows, imaging::Channels::rgb, photo_quality));
  const auto kept = std::make_shared<const std::vector<std::uint8_t>>(std::move(encoded));
  return Bytes{
      .owner = kept, .bytes = as_chars(*kept), .type = "image/jpeg", .keeping = Keeping::for_ever};
}

Result<Bytes> give_thumbnail(Office& office, const Request& request) {
  PRITCHEL_TRY(kept, office.thumbnail(part(request, 1)));
  return Bytes{
      .owner = kept, .bytes = as_chars(*kept), .type = "image/jpeg", .keeping = Keeping::for_ever};
}

} // namespace

void add_picture_routes(Routes& routes, Office& office) {
  const auto picture = "/api/pictures" + a_digest;
  routes.get(picture, [&](const Request& asked_for) { return give_header(office, asked_for); });
  routes.get_bytes(picture + "/samples",
                   [&](const Request& asked_for) { return give_samples(office, asked_for); });
  routes.get_bytes(picture + "/image\\.jpg",
                   [&](const Request& asked_for) { return give_photo(office, asked_for); });
  routes.get_bytes(picture + "/thumbnail\\.jpg",
                   [&](const Request& asked_for) { return give_thumbnail(office, asked_for); });
}

} // namespace pritchel::serve
