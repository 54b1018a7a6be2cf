/// A copy of the shipped templates that a test may damage.
#pragma once

#include <nlohmann/json.hpp>

#include <filesystem>
#include <functional>
#include <string>

namespace templates {

[[nodiscard]] inline std::filesystem::path shipped() {
  return std::filesystem::path(PRITCHEL_SOURCE_DIR) / "templates";
}

[[nodiscard]] nlohmann::json json_of(const std::filesystem::path& file);

/// Lives in the temporary folder until the end of the scope.
class Copy {
public:
  Copy();
  ~Copy();
  Copy(const Copy&) = delete;
  Copy& operator=(const Copy&) = delete;

  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }
  void change(const std::string& file, const std::function<void(nlohmann::json&)>& change) const;
  void write(const std::string& file, const std::string& text) const;

private:
  std::filesystem::path folder_;
};

} // namespace templates
