#include "record/edit.h"
#include "record/json.h"
#include "record/measured.h"
#include "record/sight.h"
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

/// The turn that is asked for, else the reader's newest one.
Result<record::ReadingEntry> turn_of(Office& office,
                                     const Request& request,
                                     const std::string& case_id,
                                     const std::string& picture) {
  const auto reader = asked(request, "reader");
  PRITCHEL_TRY(turn, record::turn_from(asked(request, "turn")));
  PRITCHEL_TRY(newest, office.store().reading_by(case_id, picture, reader));
  if (turn == 0 || turn == newest.turn)
    return newest;
  PRITCHEL_TRY(all, office.store().readings_of(case_id, picture));
  for (const auto& each : record::seen_by(reader, all))
    if (each.reader == reader && each.turn == turn)
      return each;
  return fail("This turn", "is not there, or hidden while you read blind", {}, Trouble::not_found);
}

Result<json> give_reading(Office& office, const Request& request) {
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  PRITCHEL_TRY(entry, record::picture_in(value, part(request, 2)));
  PRITCHEL_TRY(reading, turn_of(office, request, value.id, entry.digest));
  return with_result(office, value.horse, entry, reading);
}

Result<json> save_reading(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(reading, record::placed_landmarks_from(body));
  PRITCHEL_TRY(reader, record::reader_from(asked(request, "reader")));
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  PRITCHEL_TRY(entry, record::picture_in(value, part(request, 2)));
  PRITCHEL_CHECK(record::check_places(entry, reading.landmarks));
  PRITCHEL_TRY(known, turn_of(office, request, value.id, entry.digest));
  reading.reader = reader;
  reading.turn = known.turn;
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
