#include "record/edit.h"
#include "record/json.h"
#include "record/measured.h"
#include "serve/answer.h"
#include "serve/measured_json.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

Result<json> with_result(Office& office,
                         const record::Horse& horse,
                         const record::PictureEntry& entry,
                         const record::ReadingEntry& reading) {
  PRITCHEL_TRY(result, measured_json(office, horse, entry, reading, {}));
  return json{{"reading", record::to_json(reading)}, {"result", std::move(result)}};
}

Result<json> give_reading(Office& office, const Request& request) {
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  PRITCHEL_TRY(entry, record::picture_in(value, part(request, 2)));
  PRITCHEL_TRY(reading,
               office.store().reading_by(value.id, entry.digest, asked(request, "reader")));
  return with_result(office, value.horse, entry, reading);
}

Result<json> save_reading(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(reading, record::placed_landmarks_from(body));
  PRITCHEL_TRY(reader, record::reader_from(asked(request, "reader")));
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  PRITCHEL_TRY(entry, record::picture_in(value, part(request, 2)));
  PRITCHEL_CHECK(record::check_places(entry, reading.landmarks));
  reading.reader = reader;
  reading.picture = entry.digest;
  PRITCHEL_TRY(saved, office.store().save_reading(value.id, reading, stamp_of(reader)));
  return with_result(office, value.horse, entry, saved);
}

} // namespace

void add_reading_routes(Routes& routes, Office& office) {
  const auto readings = a_case + "/readings" + a_digest;
  routes.get(readings, [&](const Request& asked_for) { return give_reading(office, asked_for); });
  routes.put(readings, [&](const Request& asked_for) { return save_reading(office, asked_for); });
}

} // namespace pritchel::serve
