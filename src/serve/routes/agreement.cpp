#include "record/edit.h"
#include "record/json.h"
#include "record/sight.h"
#include "serve/answer.h"
#include "serve/measured_json.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

#include "job/agreement_json.h"

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

/// A case, one of its pictures and all the picture's readings.
struct Read {
  record::Case value;
  record::PictureEntry entry;
  std::vector<record::ReadingEntry> readings;
};

Result<Read> read_of(Office& office, const Request& request) {
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  PRITCHEL_TRY(entry, record::picture_in(value, part(request, 2)));
  PRITCHEL_TRY(readings, office.store().readings_of(value.id, entry.digest));
  return Read{std::move(value), std::move(entry), std::move(readings)};
}

Result<json> list(Office& office, const Request& request) {
  PRITCHEL_TRY(read, read_of(office, request));
  return json{{"readings", job::readings_json(read.readings, asked(request, "reader"))}};
}

Result<json> with_result(Office& office, const Read& read, const record::ReadingEntry& reading) {
  PRITCHEL_TRY(result, measured_json(office, read.value.horse, read.entry, reading, {}));
  return json{{"reading", record::to_json(reading)}, {"result", std::move(result)}};
}

Result<json> begin(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(sight, record::sight_of(body));
  PRITCHEL_TRY(reader, record::reader_from(asked(request, "reader")));
  PRITCHEL_TRY(read, read_of(office, request));
  PRITCHEL_TRY(
      begun,
      office.store().begin_turn(read.value.id, read.entry.digest, reader, sight, stamp_of(reader)));
  office.learn_spreads();
  return with_result(office, read, begun);
}

Result<json> finish(Office& office, const Request& request) {
  PRITCHEL_TRY(reader, record::reader_from(asked(request, "reader")));
  PRITCHEL_TRY(read, read_of(office, request));
  PRITCHEL_TRY(
      done,
      office.store().finish_reading(read.value.id, read.entry.digest, reader, stamp_of(reader)));
  office.learn_spreads();
  return with_result(office, read, done);
}

Result<json> pick(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(picked, record::picked_from(body));
  PRITCHEL_TRY(read, read_of(office, request));
  PRITCHEL_CHECK(office.store().pick_reading(read.value.id,
                                             read.entry.digest,
                                             picked.reader,
                                             picked.turn,
                                             stamp_of(asked(request, "reader"))));
  return list(office, request);
}

Result<json> of_picture(Office& office, const Request& request) {
  const auto reader = asked(request, "reader");
  PRITCHEL_TRY(read, read_of(office, request));
  const auto seen = record::seen_by(reader, read.readings);
  PRITCHEL_TRY(picture, office.picture(read.entry.digest));
  const auto practice = office.practice();
  const auto repeated = job::repeated_picture(read.value, read.entry, seen, picture, *practice);
  const auto pair = job::pair_of(repeated, reader);
  if (!pair)
    return json{{"agreement", nullptr}};
  PRITCHEL_TRY(pictures, office.repeated_pictures({}));
  const auto all = job::agreement_of(pictures, office.templates());
  return json{{"agreement", job::agreement_json(*pair, repeated, read.entry.limb, all, *practice)}};
}

Result<json> of_practice(Office& office, const Request& request) {
  PRITCHEL_TRY(pictures, office.repeated_pictures(asked(request, "case")));
  return job::agreement_json(job::agreement_of(pictures, office.templates()), office.templates());
}

} // namespace

void add_agreement_routes(Routes& routes, Office& office) {
  const auto readings = a_case + "/readings" + a_digest;
  routes.get(readings + "/all", [&](const Request& r) { return list(office, r); });
  routes.post(readings + "/turn", [&](const Request& r) { return begin(office, r); });
  routes.post(readings + "/done", [&](const Request& r) { return finish(office, r); });
  routes.post(readings + "/pick", [&](const Request& r) { return pick(office, r); });
  routes.get(readings + "/agreement", [&](const Request& r) { return of_picture(office, r); });
  routes.get("/api/agreement", [&](const Request& r) { return of_practice(office, r); });
}

} // namespace pritchel::serve
