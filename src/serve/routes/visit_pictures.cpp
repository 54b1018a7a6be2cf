#include "record/edit.h"
#include "record/from_header.h"
#include "record/json.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

#include "job/intake.h"

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

Result<json> add_picture(Office& office, const Request& request) {
  PRITCHEL_TRY(name, record::file_name_from(asked(request, "name")));
  PRITCHEL_TRY(entry,
               job::take_in_picture(office.desk(),
                                    part(request, 1),
                                    part(request, 2),
                                    name,
                                    {request.body.data(), request.body.size()},
                                    stamp_of({})));
  return json{{"picture", record::to_json(entry)}};
}

Result<json> save_settings(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  const auto visit = part(request, 2);
  const auto digest = part(request, 3);
  PRITCHEL_TRY(picture, office.picture(digest));
  PRITCHEL_TRY(changed,
               office.store().change_case(
                   part(request, 1),
                   "changed what is said about a picture of " + visit,
                   [&](record::Case known) -> Result<record::Case> {
                     PRITCHEL_TRY(entry, record::picture_in(known, visit, digest));
                     PRITCHEL_TRY(said, record::entry_with_settings(std::move(entry), body));
                     return record::with_picture(
                         std::move(known),
                         visit,
                         record::with_header_hints(std::move(said), picture->facts));
                   },
                   stamp_of({})));
  PRITCHEL_TRY(saved, record::picture_in(changed, visit, digest));
  return json{{"picture", record::to_json(saved)}};
}

Result<json> remove_picture(Office& office, const Request& request) {
  PRITCHEL_TRY(changed,
               office.store().change_case(
                   part(request, 1),
                   "took a picture out of " + part(request, 2),
                   [&](record::Case known) {
                     return record::without_picture(
                         std::move(known), part(request, 2), part(request, 3));
                   },
                   stamp_of({})));
  return record::to_json(changed);
}

} // namespace

void add_visit_picture_routes(Routes& routes, Office& office) {
  const auto pictures = a_visit + "/pictures";
  routes.post(pictures, [&](const Request& asked_for) { return add_picture(office, asked_for); });
  routes.put(pictures + a_digest,
             [&](const Request& asked_for) { return save_settings(office, asked_for); });
  routes.remove(pictures + a_digest,
                [&](const Request& asked_for) { return remove_picture(office, asked_for); });
}

} // namespace pritchel::serve
