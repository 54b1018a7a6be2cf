#include "serve/answer.h"
#include "serve/content_type.h"
#include "serve/folder_files.h"
#include "serve/guard.h"
#include "serve/office.h"
#include "serve/page_files.h"
#include "serve/routes/routes.h"

#include <httplib.h>
#include <nlohmann/json.hpp>

namespace pritchel::serve {
namespace {

using httplib::Request;

Result<Bytes> packed_file(const std::string& name) {
  for (const auto& each : packed_page())
    if (each.name == name)
      return Bytes{.owner = nullptr, .bytes = each.bytes, .type = content_type(name)};
  return fail("/" + name, "is not there", {}, Trouble::not_found);
}

Result<Bytes> page_file(const Office& office, const std::string& name) {
  const auto wanted = name.empty() ? "index.html" : name;
  const auto& folder = office.options().page;
  return folder.empty() ? packed_file(wanted) : file_in(folder, wanted);
}

Result<Bytes> drawing(const Office& office, const std::string& name) {
  PRITCHEL_TRY(file, file_in(office.options().templates / "protocols", name));
  file.policy = drawing_policy;
  return file;
}

} // namespace

void add_page_routes(Routes& routes, Office& office) {
  routes.get_bytes("/templates/protocols/([A-Za-z0-9_-]+\\.svg)",
                   [&](const Request& asked_for) { return drawing(office, part(asked_for, 1)); });
  routes.get_bytes("/([A-Za-z0-9._/-]*)",
                   [&](const Request& asked_for) { return page_file(office, part(asked_for, 1)); });
}

} // namespace pritchel::serve
