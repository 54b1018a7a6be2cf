#include "cli/commands/on_store.h"

#include <fstream>

namespace pritchel::cli {

namespace fs = std::filesystem;

Result<void> write_file(const fs::path& path, const std::vector<char>& bytes) {
  const fs::path temporary = path.string() + ".tmp";
  {
    std::ofstream file(temporary, std::ios::binary);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.flush();
    if (!file)
      return fail(path.string(), "can't be written", "check folder and disk", Trouble::outside);
  }
  std::error_code error;
  fs::rename(temporary, path, error);
  if (error)
    return fail(path.string(), "can't be written: " + error.message(), {}, Trouble::outside);
  return {};
}

Result<std::string> case_or_only_one(record::Store& store, const std::string& id) {
  if (!id.empty())
    return id;
  PRITCHEL_TRY(cases, store.list_cases());
  if (cases.size() == 1)
    return cases.front().id;
  return fail("the store",
              cases.empty() ? "holds no case" : "holds several cases",
              cases.empty() ? "make one on the page" : "name one; `pritchel cases` lists them");
}

} // namespace pritchel::cli
