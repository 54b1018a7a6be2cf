#include "job/snap.h"

#include "record/edit.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

Result<json> snap(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(wish, record::snap_wish_from(body));
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  PRITCHEL_TRY(entry, record::picture_in(value, part(request, 2)));
  PRITCHEL_TRY(picture, office.picture(entry.digest));
  const auto practice = office.practice();
  return job::snapped(*picture, entry, *practice, wish);
}

} // namespace

void add_snap_routes(Routes& routes, Office& office) {
  routes.post(a_case + "/snap" + a_digest,
              [&](const Request& request) { return snap(office, request); });
}

} // namespace pritchel::serve
