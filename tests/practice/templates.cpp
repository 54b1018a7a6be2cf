#include "templates.h"

#include <unistd.h>

#include <fstream>

namespace templates {
namespace fs = std::filesystem;

nlohmann::json json_of(const fs::path& file) {
  std::ifstream stream(file);
  return nlohmann::json::parse(stream);
}

Copy::Copy() {
  std::string name = (fs::temp_directory_path() / "pritchel-templates-XXXXXX").string();
  folder_ = mkdtemp(name.data());
  fs::copy(shipped(), folder_, fs::copy_options::recursive);
}

Copy::~Copy() {
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void Copy::change(const std::string& file,
                  const std::function<void(nlohmann::json&)>& change) const {
  auto json = json_of(folder_ / file);
  change(json);
  write(file, json.dump());
}

void Copy::write(const std::string& file, const std::string& text) const {
  std::ofstream(folder_ / file) << text;
}

} // namespace templates
