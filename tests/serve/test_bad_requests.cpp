#include "running.h"

using namespace pritchel::serve::test;

TEST_CASE("bad requests get a sentence and leave the case unharmed", "[serve]") {
  Running running;
  const Prepared job(running, {.columns = 60, .rows = 40});
  const auto before = running.get(job.case_path);

  const auto sentence = [](const json& answer) { return answer.at("error").get<std::string>(); };
  CHECK(sentence(running.put(job.case_path, {{"horse", {{"age_years", "old"}}}}, 400)) ==
        "horse.age_years must be a number.");
  CHECK(sentence(running.put(job.picture_path(), {{"view", "skyline"}}, 400)) ==
        "view must be one of lateromedial, dorsopalmar, foot-side, foot-front, foot-behind, "
        "foot-above, sole, limb-side, limb-front, limb-behind, limb-hanging.");
  running.put(job.picture_path(), {{"scale", {{"kind", "marker"}}}}, 400);
  running.post(job.case_path + "/visits", {{"date", "2026-02-30"}}, 400);
  running.post(job.case_path + "/visits", json::object(), 400);
  running.put(job.visit_path, {{"last_trim", "2027-01-01"}}, 400);
  running.put(job.reading_path(), {{"revision", 0}}, 400);
  CHECK(sentence(running.put(job.reading_path(),
                             {{"revision", 0}, {"landmarks", {{"p3-tip", {{"x", 1}}}}}},
                             400)) == "landmarks.p3-tip.y is missing.");
  CHECK(sentence(running.put(job.reading_path(),
                             {{"revision", 0}, {"landmarks", {{"p3-tip", {1000, 1}}}}},
                             400))
            .rfind("landmarks.p3-tip.x lies further outside", 0) == 0);
  running.put(job.case_path + "/readings/" + job.digest,
              {{"revision", 0}, {"landmarks", json::object()}},
              400); // nobody said who reads
  running.put(job.visit_path + "/plan", {{"version", 1}, {"lines", json::array()}}, 404);
  running.get(job.visit_path + "/report.pdf?paper=A0", 400);

  CHECK(running.get(job.case_path) == before);
  CHECK(running.get(job.reading_path()).at("reading").at("revision") == 0);
}

TEST_CASE("text that is no JSON is refused", "[serve]") {
  Running running;
  const Prepared job(running, {.columns = 60, .rows = 40});
  for (const std::string body : {"", "{", "{\"horse\": NaN}", "\xff\xfe", "[1,2]", "null", "7"}) {
    const auto answer = running.client().Put(job.case_path, body, "application/json");
    REQUIRE(answer);
    INFO(body << " -> " << answer->body);
    const bool says_nothing = body == "null";
    CHECK(answer->status == (says_nothing ? 200 : 400));
  }
  const std::string long_text(9'000'000, ' ');
  CHECK(running.client().Put(job.case_path, long_text, "application/json")->status == 413);
}

TEST_CASE("files that are no pictures are refused and not kept", "[serve]") {
  Running running;
  const Prepared job(running, {.columns = 60, .rows = 40});
  const auto film = Film::bytes({.columns = 60, .rows = 40, .seed = 2});
  const auto pictures = job.visit_path + "/pictures?name=x.dcm";
  running.upload(pictures, "a text file renamed", 400);
  running.upload(pictures, "", 400);
  running.upload(pictures, film.substr(0, film.size() / 2), 400);
  running.upload(job.case_path + "/visits/visit-9/pictures?name=x.dcm", film, 404);
  running.upload(job.visit_path + "/pictures?name=" + std::string(300, 'x'), film, 400);
  CHECK(running.get(job.case_path).at("visits").at(0).at("pictures").size() == 1);
  const std::filesystem::directory_iterator kept(running.folder() / "store/pictures");
  CHECK(std::distance(begin(kept), end(kept)) == 1);
}

TEST_CASE("what is not there is 404 with a sentence", "[serve]") {
  Running running;
  const Prepared job(running, {.columns = 60, .rows = 40});
  const std::string unknown(64, '0');
  for (const auto& path : {std::string("/api/cases/nobody"),
                           "/api/pictures/" + unknown,
                           "/api/pictures/" + unknown + "/samples",
                           "/api/pictures/" + unknown + "/thumbnail.jpg",
                           job.case_path + "/readings/" + unknown,
                           job.case_path + "/visits/visit-9/plan",
                           job.case_path + "/visits/visit-9/report.pdf",
                           std::string("/api/nothing"),
                           std::string("/nothing.js"),
                           std::string("/templates/protocols/nothing.svg")})
    CHECK_FALSE(running.get(path, 404).at("error").get<std::string>().empty());
  running.remove(job.visit_path + "/pictures/" + unknown, 404);
  running.post("/api/nothing", json::object(), 404);
}

TEST_CASE("no path leads out of the folders", "[serve]") {
  Running running;
  for (const std::string path : {"/../CMakeLists.txt",
                                 "/..%2fCMakeLists.txt",
                                 "/%2e%2e/CMakeLists.txt",
                                 "/templates/protocols/..%2f..%2fsources.json",
                                 "/templates/protocols/../../sources.json",
                                 "/templates/sources.json",
                                 "/api/pictures/..%2f..%2fpritchel.sqlite",
                                 "/api/cases/..%2f..",
                                 "//etc/passwd",
                                 "/etc/passwd"}) {
    const auto answer = running.client().Get(path);
    REQUIRE(answer);
    INFO(path);
    CHECK(answer->status == 404);
  }
}

TEST_CASE("an undecided plan cannot be signed", "[serve]") {
  Running running;
  const Prepared job(running);
  running.put(job.picture_path(),
              {{"loading", "weight-bearing"},
               {"toward", "left"},
               {"scale", {{"kind", "magnification"}, {"magnification", 1.1}}}});
  running.put(job.reading_path(), {{"revision", 0}, {"landmarks", side_landmarks()}});
  const auto plan = running.post(job.visit_path + "/plan", {{"made_by", "Fred"}}).at("plan");
  const json sign_off{{"version", 1},
                      {"revision", 1},
                      {"name", "Vera"},
                      {"registration", "V-0000"},
                      {"date", "2026-03-03"}};
  if (!plan.at("lines").empty())
    running.post(job.visit_path + "/plan/sign", sign_off, 400);
  auto nameless = sign_off;
  nameless.erase("registration");
  running.post(job.visit_path + "/plan/sign", nameless, 400);
  CHECK(running.get(job.visit_path + "/plan").at("plan").at("sign_off").is_null());
}
