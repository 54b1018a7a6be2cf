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

Result<json> measure(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(draft, record::draft_from(body));
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  PRITCHEL_TRY(entry, record::picture_in(value, part(request, 2)));
  PRITCHEL_CHECK(record::check_places(entry, draft.reading.landmarks));
  PRITCHEL_TRY(result, measured_json(office, value.horse, entry, draft.reading, draft.about));
  return json{{"result", std::move(result)}};
}

} // namespace

void add_measure_routes(Routes& routes, Office& office) {
  routes.post(a_case + "/measure" + a_digest,
              [&](const Request& asked_for) { return measure(office, asked_for); });
}

} // namespace pritchel::serve
