#include <iterator>

#include "running.h"

using namespace pritchel::serve::test;

namespace {

const std::filesystem::path source = PRITCHEL_SOURCE_DIR;

std::string text_in(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

} // namespace

TEST_CASE("the page inside the program is the page of the source tree", "[serve][page]") {
  Running running;
  std::size_t compared = 0;
  for (const auto& each : std::filesystem::recursive_directory_iterator(source / "src/page")) {
    const auto ending = each.path().extension();
    if (ending != ".js" && ending != ".css" && ending != ".html")
      continue;
    const auto name = std::filesystem::relative(each.path(), source / "src/page").string();
    const auto answer = running.client().Get("/" + name);
    REQUIRE(answer);
    INFO(name);
    REQUIRE(answer->status == 200);
    CHECK(answer->body == text_in(each.path()));
    ++compared;
  }
  CHECK(compared > 3);
  CHECK(running.client().Get("/")->body == text_in(source / "src/page/index.html"));
}

TEST_CASE("every answer says what it is and what may not be done with it", "[serve][page]") {
  Running running;
  const auto header = [&](const std::string& path, const std::string& name) {
    const auto answer = running.client().Get(path);
    REQUIRE(answer);
    CHECK(answer->get_header_value_count(name) <= 1);
    return answer->get_header_value(name);
  };
  CHECK(header("/", "Content-Type") == "text/html; charset=utf-8");
  CHECK(header("/main.js", "Content-Type") == "text/javascript; charset=utf-8");
  CHECK(header("/layout.css", "Content-Type") == "text/css; charset=utf-8");
  CHECK(header("/api/cases", "Content-Type") == "application/json; charset=utf-8");
  for (const std::string path : {"/", "/main.js", "/api/cases", "/api/nothing"}) {
    const auto policy = header(path, "Content-Security-Policy");
    CHECK(policy.find("default-src 'none'") == 0);
    CHECK(policy.find("http") == std::string::npos);
    CHECK(policy.find("unsafe") == std::string::npos);
    CHECK(header(path, "X-Content-Type-Options") == "nosniff");
  }
}

TEST_CASE("the protocols' drawings are served", "[serve][page]") {
  Running running;
  const auto practice = running.get("/api/practice");
  REQUIRE(practice.at("protocols").size() >= 11);
  CHECK_FALSE(practice.at("measurements").empty());
  CHECK_FALSE(practice.at("version").get<std::string>().empty());
  for (const auto& protocol : practice.at("protocols")) {
    CHECK_FALSE(protocol.at("landmarks").empty());
    const auto name = protocol.at("schematic").get<std::string>();
    const auto answer = running.client().Get("/templates/protocols/" + name);
    REQUIRE(answer);
    REQUIRE(answer->status == 200);
    CHECK(answer->get_header_value("Content-Type") == "image/svg+xml; charset=utf-8");
    CHECK(answer->body == text_in(source / "templates/protocols" / name));
  }
}

TEST_CASE("a page folder is read from disk, and links do not lead out of it", "[serve][page]") {
  auto name = (std::filesystem::temp_directory_path() / "pritchel-page-XXXXXX").string();
  const std::filesystem::path folder = ::mkdtemp(name.data());
  std::ofstream(folder / "index.html") << "first";
  std::filesystem::create_symlink("/etc/passwd", folder / "out.html");
  {
    Running running(folder);
    CHECK(running.client().Get("/")->body == "first");
    std::ofstream(folder / "index.html") << "second";
    CHECK(running.client().Get("/")->body == "second");
    CHECK(running.client().Get("/out.html")->status == 404);
  }
  std::filesystem::remove_all(folder);
}
