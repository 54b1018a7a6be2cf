#include "record/edit.h"
#include "record/json.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

Result<json> add_visit(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(visit, record::visit_with_details({}, body));
  PRITCHEL_TRY(changed,
               office.store().change_case(
                   part(request, 1),
                   "added the visit of " + visit.date,
                   [&](record::Case known) -> Result<record::Case> {
                     return record::with_new_visit(std::move(known), visit);
                   },
                   stamp_of({})));
  return record::to_json(changed);
}

Result<json> save_visit(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  const auto id = part(request, 2);
  PRITCHEL_TRY(changed,
               office.store().change_case(
                   part(request, 1),
                   "changed " + id,
                   [&](record::Case known) -> Result<record::Case> {
                     PRITCHEL_TRY(visit, record::visit_in(known, id));
                     PRITCHEL_TRY(saved, record::visit_with_details(std::move(visit), body));
                     return record::with_visit(std::move(known), saved);
                   },
                   stamp_of({})));
  return record::to_json(changed);
}

} // namespace

void add_visit_routes(Routes& routes, Office& office) {
  routes.post(a_case + "/visits",
              [&](const Request& asked_for) { return add_visit(office, asked_for); });
  routes.put(a_visit, [&](const Request& asked_for) { return save_visit(office, asked_for); });
}

} // namespace pritchel::serve
