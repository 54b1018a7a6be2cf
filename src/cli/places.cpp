#include "cli/commands.h"

namespace pritchel::cli {
namespace {

namespace fs = std::filesystem;

fs::path beside_program() {
  std::error_code ignored;
  const fs::path program = fs::read_symlink("/proc/self/exe", ignored);
  return program.parent_path().parent_path() / "share" / "pritchel";
}

/// The installed folder when it is there, else the one in the source tree.
fs::path found(const fs::path& name) {
  const fs::path installed = beside_program() / name;
  std::error_code ignored;
  return fs::is_directory(installed, ignored) ? installed : fs::path(PRITCHEL_SOURCE_DIR) / name;
}

} // namespace

Places places(const fs::path& templates) {
  return {templates.empty() ? found("templates") : templates, found("sample-images")};
}

} // namespace pritchel::cli
