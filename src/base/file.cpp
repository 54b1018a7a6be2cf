#include "base/file.h"

#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <system_error>

namespace pritchel {

Result<std::string> read_file(const std::filesystem::path& path, std::uintmax_t most_bytes) {
  const std::string name = path.filename().string();
  std::error_code error;
  if (!std::filesystem::exists(path, error))
    return fail(path.string(), "is not there", "check the path", Trouble::not_found);
  if (!std::filesystem::is_regular_file(path, error))
    return fail(path.string(), "is not a file");
  const auto size = std::filesystem::file_size(path, error);
  if (error || size > most_bytes)
    return fail(name,
                "is too large",
                fmt::format("{} MB are the limit", most_bytes / 1024 / 1024),
                Trouble::too_large);
  std::ifstream file(path, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(file), {}};
  if (!file)
    return fail(name, "cannot be read", "check that you may read it");
  return bytes;
}

} // namespace pritchel
