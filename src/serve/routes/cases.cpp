#include "record/json.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

#include "job/case_folder.h"

namespace pritchel::serve {
namespace {

using httplib::Request;
using nlohmann::json;

Result<json> list_cases(Office& office) {
  PRITCHEL_TRY(lines, office.store().list_cases());
  json cases = json::array();
  for (const auto& each : lines)
    cases.push_back({{"id", each.id},
                     {"horse", each.horse},
                     {"yard", each.yard},
                     {"newest_visit", each.newest_visit}});
  return json{{"cases", cases}};
}

Result<json> begin_case(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(value, record::case_with_details({}, body));
  PRITCHEL_TRY(added, office.store().add_case(std::move(value), stamp_of({})));
  return record::to_json(added);
}

Result<json> add_sample(Office& office) {
  const auto& folder = office.options().samples;
  if (folder.empty())
    return fail("The sample horse", "did not come with this program", {}, Trouble::not_found);
  PRITCHEL_TRY(taken, job::take_in_case(folder, office.store(), office.templates()));
  office.learn_spreads();
  return record::to_json(taken.value);
}

Result<json> save_case(Office& office, const Request& request) {
  PRITCHEL_TRY(body, body_of(request));
  PRITCHEL_TRY(
      changed,
      office.store().change_case(
          part(request, 1),
          "changed horse, people or history",
          [&](record::Case known) { return record::case_with_details(std::move(known), body); },
          stamp_of({})));
  return record::to_json(changed);
}

Result<json> give_case(Office& office, const Request& request) {
  PRITCHEL_TRY(value, office.store().load_case(part(request, 1)));
  return record::to_json(value);
}

} // namespace

void add_case_routes(Routes& routes, Office& office) {
  routes.get("/api/cases", [&](const Request&) { return list_cases(office); });
  routes.post("/api/cases",
              [&](const Request& asked_for) { return begin_case(office, asked_for); });
  routes.post("/api/sample", [&](const Request&) { return add_sample(office); });
  routes.get(a_case, [&](const Request& asked_for) { return give_case(office, asked_for); });
  routes.put(a_case, [&](const Request& asked_for) { return save_case(office, asked_for); });
}

} // namespace pritchel::serve
