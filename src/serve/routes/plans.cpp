#include "record/edit.h"
#include "record/json.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/prediction_json.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

json plan_answer(const record::Plan& plan) {
  return {{"plan", record::to_json(plan)}};
}

Result<json> make_plan(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(who, record::made_by_from(body));
  const auto case_id = part(request, 1), visit = part(request, 2);
  PRITCHEL_TRY(planned, job::make_plan(office.desk(), case_id, visit, stamp_of(who)));
  return planned_json(office, case_id, visit, planned.plan);
}

Result<json> give_plan(Office& office, const Request& request) {
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  PRITCHEL_TRY(visit, record::visit_in(value, part(request, 2)));
  PRITCHEL_TRY(plan, job::newest_plan(office.desk(), value.id, visit.id));
  return plan ? planned_json(office, value.id, visit.id, *plan) : json{{"plan", nullptr}};
}

Result<json> save_decisions(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(version, record::plan_version_from(body));
  PRITCHEL_TRY(known, office.store().plan_of(part(request, 1), part(request, 2), version));
  PRITCHEL_TRY(decided, record::plan_with_decisions(std::move(known), body));
  PRITCHEL_TRY(saved, office.store().save_plan(part(request, 1), decided, stamp_of({})));
  return plan_answer(saved);
}

Result<json> sign(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(version, record::plan_version_from(body));
  PRITCHEL_TRY(revision, record::plan_revision_from(body));
  PRITCHEL_TRY(sign_off, record::sign_off_from(body));
  PRITCHEL_TRY(frozen,
               office.store().sign_plan(part(request, 1),
                                        part(request, 2),
                                        {version, revision},
                                        sign_off,
                                        stamp_of(sign_off.name)));
  return plan_answer(frozen);
}

} // namespace

void add_plan_routes(Routes& routes, Office& office) {
  const auto plan = a_visit + "/plan";
  routes.post(plan, [&](const Request& asked_for) { return make_plan(office, asked_for); });
  routes.get(plan, [&](const Request& asked_for) { return give_plan(office, asked_for); });
  routes.put(plan, [&](const Request& asked_for) { return save_decisions(office, asked_for); });
  routes.post(plan + "/sign", [&](const Request& asked_for) { return sign(office, asked_for); });
}

} // namespace pritchel::serve
