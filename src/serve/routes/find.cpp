#include "job/find.h"

#include "record/edit.h"
#include "record/json.h"
#include "record/measured.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

#include "job/posture.h"
#include "job/snap.h"
#include "job/visit.h"

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

struct Looked {
  record::PictureEntry entry;
  std::shared_ptr<const imaging::Picture> picture;
};

/// The picture of the case that the request names.
Result<Looked> looked_at(Office& office, const Request& request) {
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  PRITCHEL_TRY(entry, record::picture_in(value, part(request, 2)));
  PRITCHEL_TRY(picture, office.picture(entry.digest));
  return Looked{.entry = std::move(entry), .picture = std::move(picture)};
}

Result<json> find_card(Office& office, const Request& request) {
  PRITCHEL_TRY(looked, looked_at(office, request));
  return job::found_card(*looked.picture);
}

Result<json> find_balls(Office& office, const Request& request) {
  PRITCHEL_TRY(looked, looked_at(office, request));
  return job::found_balls(*looked.picture);
}

Result<json> find_ends(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(draft, record::draft_from(body));
  PRITCHEL_TRY(looked, looked_at(office, request));
  PRITCHEL_CHECK(record::check_places(looked.entry, draft.reading.landmarks));
  return job::refined_ends(*looked.picture, draft.reading);
}

Result<json> find_dots(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(wishes, record::dot_colours_from(body));
  PRITCHEL_TRY(looked, looked_at(office, request));
  const auto practice = office.practice();
  const auto& [entry, picture] = looked;
  const auto& protocol = job::protocol_of(entry, *practice);
  return job::found_dots(*picture, protocol, wishes);
}

Result<json> find_landmarks(Office& office, const Request& request) {
  PRITCHEL_TRY(looked, looked_at(office, request));
  return job::found_landmarks(*looked.picture, looked.entry);
}

Result<json> snap(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(wish, record::snap_wish_from(body));
  PRITCHEL_TRY(looked, looked_at(office, request));
  const auto practice = office.practice();
  return job::snapped(*looked.picture, looked.entry, *practice, wish);
}

Result<json> try_scale(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(tried, record::scale_draft_from(body));
  PRITCHEL_TRY(looked, looked_at(office, request));
  PRITCHEL_CHECK(record::check_places(looked.entry, tried.reading.landmarks));
  return job::tried_scale(*looked.picture, looked.entry, tried.scale, tried.reading);
}

} // namespace

void add_find_routes(Routes& routes, Office& office) {
  const auto find = a_case + "/find" + a_digest;
  routes.post(find + "/card",
              [&](const Request& asked_for) { return find_card(office, asked_for); });
  routes.post(find + "/balls",
              [&](const Request& asked_for) { return find_balls(office, asked_for); });
  routes.post(find + "/ends",
              [&](const Request& asked_for) { return find_ends(office, asked_for); });
  routes.post(find + "/dots",
              [&](const Request& asked_for) { return find_dots(office, asked_for); });
  routes.post(find + "/landmarks",
              [&](const Request& asked_for) { return find_landmarks(office, asked_for); });
  routes.post(a_case + "/snap" + a_digest,
              [&](const Request& asked_for) { return snap(office, asked_for); });
  routes.post(a_case + "/scale" + a_digest,
              [&](const Request& asked_for) { return try_scale(office, asked_for); });
  routes.get(a_visit + "/postures", [&](const Request& asked_for) {
    return job::posture_json(office.desk(), part(asked_for, 1), part(asked_for, 2));
  });
}

} // namespace pritchel::serve
