#include "record/json.h"
#include "record/reading_file.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cstdlib>

#include "folder.h"
#include "samples.h"

using namespace pritchel::record;

namespace {

const std::filesystem::path source = PRITCHEL_SOURCE_DIR;

/// True when Python's jsonschema accepts the document.
bool follows(const std::string& schema, const std::filesystem::path& document) {
  const auto command = "python3 '" + (source / "tests/record/validate.py").string() + "' '" +
                       (source / "docs/formats" / schema).string() + "' '" + document.string() +
                       "'";
  return std::system(command.c_str()) == 0;
}

} // namespace

TEST_CASE("the documented examples follow their schemas", "[record][schema]") {
  CHECK(follows("reading.schema.json", source / "docs/formats/examples/reading.json"));
  CHECK(follows("case.schema.json", source / "docs/formats/examples/case.json"));
}

TEST_CASE("a case that we write follows the schema", "[record][schema]") {
  const test::Folder folder;
  CHECK(
      follows("case.schema.json", folder.write("case.json", to_json(test::sample_case()).dump())));
  CHECK(follows("case.schema.json", folder.write("empty.json", to_json(Case{.id = "new"}).dump())));
}

TEST_CASE("the documented case is read and written again unchanged", "[record][schema]") {
  std::ifstream file(source / "docs/formats/examples/case.json");
  const auto document = nlohmann::json::parse(file);
  const auto read = case_from(document);
  REQUIRE(read);
  CHECK(to_json(*read) == document);
}

TEST_CASE("the schemas refuse what the reader refuses", "[record][schema]") {
  const test::Folder folder;
  auto bad = to_json(test::sample_case());
  bad["visits"][0]["pictures"][0]["view"] = "skyline";
  CHECK_FALSE(follows("case.schema.json", folder.write("bad.json", bad.dump())));
  CHECK_FALSE(follows("reading.schema.json", folder.write("bad2.json", "{}")));
}

TEST_CASE("the sample readings follow the schema and are read", "[record][schema]") {
  std::size_t read = 0;
  for (const auto& each : std::filesystem::recursive_directory_iterator(source / "sample-images")) {
    const auto name = each.path().filename().string();
    if (name.find(".reading.json") == std::string::npos)
      continue;
    INFO(name);
    CHECK(follows("reading.schema.json", each.path()));
    CHECK(load_reading_file(each.path()));
    ++read;
  }
  CHECK(read > 0);
}
