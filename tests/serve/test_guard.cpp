#include "running.h"

using namespace pritchel::serve::test;

namespace {

int status(Running& running, const httplib::Headers& headers) {
  const auto answer = running.client().Get("/api/cases", headers);
  REQUIRE(answer);
  return answer->status;
}

} // namespace

TEST_CASE("a name pointed at this computer is refused", "[serve][guard]") {
  Running running;
  const auto port = std::to_string(running.port());
  CHECK(status(running, {{"Host", "127.0.0.1:" + port}}) == 200);
  CHECK(status(running, {{"Host", "localhost:" + port}}) == 200);
  CHECK(status(running, {{"Host", "[::1]:" + port}}) == 200);
  for (const std::string host :
       {"evil.example", "evil.example:80", "127.0.0.1.evil.example", "", "10.0.0.7"})
    CHECK(status(running, {{"Host", host}}) == 403);
}

TEST_CASE("a request from another site is refused and does nothing", "[serve][guard]") {
  Running running;
  const auto own = "127.0.0.1:" + std::to_string(running.port());
  const auto post = [&](const std::string& origin) {
    return running.client()
        .Post("/api/cases",
              {{"Host", own}, {"Origin", origin}},
              "{\"horse\": {\"name\": \"X\"}}",
              "text/plain")
        ->status;
  };
  CHECK(post("https://evil.example") == 403);
  CHECK(post("null") == 403);
  CHECK(post("http://127.0.0.1:1") == 403);
  CHECK(running.get("/api/cases").at("cases").empty());
  CHECK(post("http://" + own) == 200);
}

TEST_CASE("the body of a refused request is not taken for a request of its own", "[serve][guard]") {
  Running running;
  const auto own = "127.0.0.1:" + std::to_string(running.port());
  const std::string inner = "{\"horse\": {\"name\": \"Smuggled\"}}";
  const std::string body =
      "POST /api/cases HTTP/1.1\r\nHost: " + own +
      "\r\nContent-Type: application/json\r\nContent-Length: " + std::to_string(inner.size()) +
      "\r\n\r\n" + inner;
  const httplib::Headers foreign{{"Host", own}, {"Origin", "https://evil.example"}};
  CHECK(running.client().Post("/api/cases", foreign, body, "text/plain")->status == 403);
  CHECK(running.client().Post("/nowhere", foreign, body, "text/plain")->status == 404);
  CHECK(running.client().Post("/main.js", foreign, body, "text/plain")->status == 404);
  CHECK(running.get("/api/cases").at("cases").empty());
}

TEST_CASE("packed bodies are refused", "[serve][guard]") {
  Running running;
  const auto answer =
      running.client().Post("/api/cases", {{"Content-Encoding", "gzip"}}, "x", "application/json");
  REQUIRE(answer);
  CHECK(answer->status >= 400);
  CHECK(answer->status < 500);
}
