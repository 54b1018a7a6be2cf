#include "serve/folder_files.h"

#include "base/file.h"
#include "base/limits.h"
#include "serve/content_type.h"

#include <algorithm>
#include <cctype>
#include <memory>
#include <system_error>

namespace pritchel::serve {
namespace {

bool is_plain(char c) {
  return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '.' || c == '-' || c == '_';
}

bool is_inside(const std::filesystem::path& folder, const std::filesystem::path& file) {
  std::error_code error;
  const auto real_folder = std::filesystem::canonical(folder, error);
  const auto real_file = std::filesystem::canonical(file, error);
  if (error)
    return false;
  return std::mismatch(real_folder.begin(), real_folder.end(), real_file.begin(), real_file.end())
             .first == real_folder.end();
}

} // namespace

bool is_plain_path(std::string_view path) {
  bool begins = true;
  for (const char c : path) {
    if (c == '/' ? begins : !is_plain(c) || (begins && c == '.'))
      return false;
    begins = c == '/';
  }
  return !begins;
}

Result<Bytes> file_in(const std::filesystem::path& folder, const std::string& name) {
  if (!is_plain_path(name) || !is_inside(folder, folder / name))
    return fail(name, "is not there", {}, Trouble::not_found);
  PRITCHEL_TRY(text, read_file(folder / name, limits::json_file_bytes));
  const auto kept = std::make_shared<const std::string>(std::move(text));
  return Bytes{.owner = kept, .bytes = *kept, .type = content_type(name)};
}

} // namespace pritchel::serve
