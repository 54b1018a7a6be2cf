#include "record/edit.h"
#include "record/json.h"
#include "serve/answer.h"
#include "serve/fit_json.h"
#include "serve/office.h"
#include "serve/prediction_json.h"
#include "serve/routes/routes.h"
#include "serve/try_json.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

#include "job/choose.h"

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

Result<json> give_fit(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(asked, record::asked_fit_from(body));
  PRITCHEL_TRY(
      found, job::best_fit(office.desk(), part(request, 1), part(request, 2), asked, stamp_of({})));
  return json{{"fit", fit_json(found)}};
}

Result<json> take_way(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(asked, record::asked_fit_from(body));
  PRITCHEL_TRY(who, record::made_by_from(body));
  const auto case_id = part(request, 1), visit = part(request, 2);
  PRITCHEL_TRY(planned, job::take_way(office.desk(), case_id, visit, asked, stamp_of(who)));
  return planned_json(office, case_id, visit, planned.plan);
}

Result<json> try_change(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(asked, record::asked_try_from(body));
  PRITCHEL_TRY(
      tried, job::what_if(office.desk(), part(request, 1), part(request, 2), asked, stamp_of({})));
  return json{{"try", try_json(tried)}};
}

Result<json> take_change(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(asked, record::asked_try_from(body));
  PRITCHEL_TRY(who, record::made_by_from(body));
  const auto case_id = part(request, 1), visit = part(request, 2);
  PRITCHEL_TRY(planned,
               job::take_by_hand(office.desk(), case_id, visit, asked.wished, stamp_of(who)));
  return planned_json(office, case_id, visit, planned.plan);
}

} // namespace

void add_fit_routes(Routes& routes, Office& office) {
  const auto fit = a_visit + "/fit";
  routes.post(fit, [&](const Request& asked_for) { return give_fit(office, asked_for); });
  routes.post(fit + "/take", [&](const Request& asked_for) { return take_way(office, asked_for); });
  const auto by_hand = a_visit + "/try";
  routes.post(by_hand, [&](const Request& asked_for) { return try_change(office, asked_for); });
  routes.post(by_hand + "/take",
              [&](const Request& asked_for) { return take_change(office, asked_for); });
}

} // namespace pritchel::serve
