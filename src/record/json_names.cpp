#include "record/json.h"
#include "record/json_node.h"

namespace pritchel::record {
namespace {

constexpr std::size_t name_bytes = 200;

/// The text, checked as one in a document would be, and no longer than a name.
Result<std::string> name_from(const std::string& text, const std::string& what) {
  auto read = read_document(nlohmann::json(text), [](const Node& node) { return node.text(); });
  if (!read)
    read.error().thing = what;
  else if (read->size() > name_bytes)
    return fail(what, "is too long", "200 bytes are the limit");
  else if (text_of(*read) !=
           nlohmann::json(*read).dump(-1, ' ', false, nlohmann::json::error_handler_t::ignore))
    return fail(what, "is no UTF-8 text");
  return read;
}

} // namespace

Result<std::string> reader_from(const std::string& name) {
  if (name.empty())
    return fail("The reader's name", "is missing", "say who places the points");
  return name_from(name, "The reader's name");
}

Result<std::string> file_name_from(const std::string& name) {
  const auto last = name.substr(name.find_last_of("/\\") + 1);
  return last.empty() ? Result<std::string>("picture") : name_from(last, "The file's name");
}

} // namespace pritchel::record
