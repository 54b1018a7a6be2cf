#include "job/paper.h"

#include "base/clock.h"
#include "serve/answer.h"
#include "serve/office.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using httplib::Request;

Result<report::Paper> paper_from(const std::string& name) {
  if (name.empty() || name == "A4")
    return report::Paper::a4;
  if (name == "Letter")
    return report::Paper::letter;
  return fail("paper", "must be one of A4, Letter");
}

Result<Bytes> give_paper(Office& office, const Request& request) {
  PRITCHEL_TRY(size, paper_from(asked(request, "paper")));
  const auto id = part(request, 1);
  const auto visit = part(request, 2);
  PRITCHEL_TRY(pdf, job::paper(office.desk(), id, visit, size, utc_now()));
  const auto kept = std::make_shared<const std::vector<char>>(std::move(pdf));
  return Bytes{.owner = kept,
               .bytes = *kept,
               .type = "application/pdf",
               .file_name = id + "-" + visit + ".pdf"};
}

} // namespace

void add_paper_routes(Routes& routes, Office& office) {
  routes.get_bytes(a_visit + "/report\\.pdf",
                   [&](const Request& asked_for) { return give_paper(office, asked_for); });
}

} // namespace pritchel::serve
