#include <algorithm>
#include <cstring>

#include "running.h"

using namespace pritchel::serve::test;

TEST_CASE("the whole job goes through the requests", "[serve]") {
  Running running;
  const Prepared job(running);

  const auto listed = running.get("/api/cases").at("cases");
  REQUIRE(listed.size() == 1);
  CHECK(listed.at(0).at("horse") == "Old Tom");
  CHECK(listed.at(0).at("newest_visit") == "2026-03-02");

  const auto settings =
      running.put(job.picture_path(),
                  {{"view", "lateromedial"},
                   {"limb", "left-fore"},
                   {"toward", "left"},
                   {"shoeing", "bare"},
                   {"loading", "weight-bearing"},
                   {"hints", {{"marker", {{"letter", "L"}}}}},
                   {"scale", {{"kind", "magnification"}, {"magnification", 1.2}}}});
  CHECK(settings.at("picture").at("hints").at("limb_side") == "left");
  CHECK(settings.at("picture").at("hints").at("marker").at("letter") == "L");

  const auto empty = running.get(job.reading_path());
  CHECK(empty.at("reading").at("revision") == 0);
  CHECK(measurement(empty.at("result"), "palmar-angle").at("status") == "not-measurable");

  const auto saved =
      running.put(job.reading_path(), {{"revision", 0}, {"landmarks", side_landmarks()}});
  CHECK(saved.at("reading").at("revision") == 1);
  CHECK(saved.at("result").at("calibration").at("has_scale") == true);
  CHECK(saved.at("result").at("calibration").at("pixel_mm").at(0).get<double>() ==
        Approx(0.15 / 1.2)); // of the film, over the magnification said above
  CHECK_FALSE(saved.at("result").at("overlay").empty());

  const auto planned = running.post(job.visit_path + "/plan", {{"made_by", "Fred"}});
  CHECK(planned.at("plan").at("version") == 1);
  CHECK(planned.at("plan").at("made_by") == "Fred");
  json decisions = json::array();
  for (std::size_t i = 0; i < planned.at("plan").at("lines").size(); ++i)
    decisions.push_back({{"decision", "accept"}, {"note", ""}});
  const auto decided = running.put(job.visit_path + "/plan",
                                   {{"version", 1}, {"revision", 1}, {"lines", decisions}});
  CHECK(decided.at("plan").at("version") == 1);
  const json sign_off{{"version", 1},
                      {"revision", 2},
                      {"name", "Vera"},
                      {"registration", "V-0000"},
                      {"date", "2026-03-03"},
                      {"note", ""}};
  const auto frozen = running.post(job.visit_path + "/plan/sign", sign_off);
  CHECK(frozen.at("plan").at("sign_off").at("name") == "Vera");
  running.put(
      job.visit_path + "/plan", {{"version", 1}, {"revision", 2}, {"lines", decisions}}, 409);
  running.post(job.visit_path + "/plan/sign", sign_off, 409);

  for (const std::string paper : {"A4", "Letter"}) {
    const auto pdf = running.client().Get(job.visit_path + "/report.pdf?paper=" + paper);
    REQUIRE(pdf);
    CHECK(pdf->status == 200);
    CHECK(pdf->get_header_value("Content-Type") == "application/pdf");
    CHECK(pdf->body.rfind("%PDF", 0) == 0);
  }

  running.restart();
  CHECK(running.get(job.reading_path()).at("reading") == saved.at("reading"));
  CHECK(running.get(job.visit_path + "/plan").at("plan") == frozen.at("plan"));
}

TEST_CASE("a best fit is refused with its reason, and nothing is kept", "[serve]") {
  Running running;
  const Prepared job(running);
  const json endless{{"measurement", "palmar-angle"}, {"counts_as_one", 2}};
  json wanted = endless;
  wanted["low"] = 3;
  const auto asked = [](const json& aim) {
    return json{{"limb", "left-fore"}, {"aims", json::array({aim})}, {"means", "trim"}};
  };
  running.post(job.visit_path + "/fit", asked(endless), 400);
  // Nobody has read the picture.
  const auto fit = running.post(job.visit_path + "/fit", asked(wanted)).at("fit");
  CHECK_FALSE(fit.at("refused").empty());
  CHECK(fit.at("ways").empty());
  running.post(job.visit_path + "/fit/take", asked(wanted), 409);
  CHECK(running.get(job.visit_path + "/plan").at("plan").is_null());
}

// Truth: geometry of docs/formats/examples/reading.json: from the tip (640, 1030) the palmar
// process (1053.5, 1001.5) lies 413.5 px behind and 28.5 px higher over a level ground: atan(28.5 /
// 413.5)
TEST_CASE("a draft is measured without being saved", "[serve]") {
  Running running;
  const Prepared job(running);
  running.put(job.picture_path(), {{"loading", "weight-bearing"}, {"toward", "left"}});
  const auto result =
      running.post(job.case_path + "/measure/" + job.digest, {{"landmarks", side_landmarks()}})
          .at("result");
  const auto palmar = measurement(result, "palmar-angle");
  REQUIRE(palmar.at("status") != "not-measurable");
  CHECK(palmar.at("value").get<double>() == Approx(3.9428).margin(1e-3));
  CHECK(palmar.at("low").get<double>() < palmar.at("value").get<double>());
  CHECK(running.get(job.reading_path()).at("reading").at("revision") == 0);

  const auto one = running.post(job.case_path + "/measure/" + job.digest,
                                {{"landmarks", side_landmarks()}, {"about", "palmar-angle"}});
  for (const auto& item : one.at("result").at("overlay"))
    if (item.at("kind") == "line")
      CHECK(item.at("about") == "palmar-angle");
  running.post(job.case_path + "/measure/" + job.digest,
               {{"landmarks", side_landmarks()}, {"about", "no-such"}},
               400);
}

// An adult riding horse's range must never stand beside another animal's number.
TEST_CASE("reference bands are shown for an adult horse and for no pony or yearling", "[serve]") {
  Running running;
  const Prepared job(running);
  const auto bands_with = [&](const json& horse) {
    running.put(job.case_path, {{"horse", horse}});
    const auto result = running.post(job.case_path + "/measure/" + job.digest,
                                     {{"landmarks", side_landmarks()}, {"about", ""}});
    const auto& all = result.at("result").at("measurements");
    return std::count_if(
        all.begin(), all.end(), [](const json& each) { return each.contains("band"); });
  };
  CHECK(bands_with({{"name", "Old Tom"}, {"species", "horse"}, {"age_years", 9}}) > 0);
  CHECK(bands_with({{"name", "Old Tom"}, {"species", "pony"}, {"age_years", 9}}) == 0);
  CHECK(bands_with({{"name", "Old Tom"}, {"species", "horse"}, {"age_years", 1}}) == 0);
}

TEST_CASE("a save over somebody else's is a conflict and changes nothing", "[serve]") {
  Running running;
  const Prepared job(running);
  const auto points = side_landmarks();
  running.put(job.reading_path(), {{"revision", 0}, {"landmarks", points}});
  running.put(job.reading_path(), {{"revision", 0}, {"landmarks", json::object()}}, 409);
  CHECK(running.get(job.reading_path()).at("reading").at("landmarks").size() == points.size());
}

TEST_CASE("samples are the film's stored values", "[serve]") {
  Running running;
  const FilmSettings settings{.columns = 70, .rows = 50};
  const Prepared job(running, settings);
  const auto header = running.get("/api/pictures/" + job.digest);
  CHECK(header.at("kind") == "radiograph");
  CHECK(header.at("columns") == 70);
  const auto samples = running.client().Get("/api/pictures/" + job.digest + "/samples");
  REQUIRE(samples);
  REQUIRE(samples->body.size() == 70U * 50 * 2);
  CHECK(samples->get_header_value("Cache-Control").find("immutable") != std::string::npos);
  const auto* bytes = reinterpret_cast<const unsigned char*>(samples->body.data());
  const int offset = header.at("offset");
  for (const auto& [x, y] : {std::pair{0, 0}, {69, 0}, {3, 17}, {69, 49}}) {
    const auto at = 2 * (static_cast<std::size_t>(y) * 70 + static_cast<std::size_t>(x));
    CHECK(offset + bytes[at] + 256 * bytes[at + 1] == Film::value(settings, x, y));
  }
  const auto thumbnail = running.client().Get("/api/pictures/" + job.digest + "/thumbnail.jpg");
  REQUIRE(thumbnail);
  CHECK(thumbnail->get_header_value("Content-Type") == "image/jpeg");
  CHECK(thumbnail->body.rfind("\xff\xd8", 0) == 0);
  CHECK(running.client().Get("/api/pictures/" + job.digest + "/image.jpg")->status == 404);
}

TEST_CASE("what the header says fills the entry in", "[serve]") {
  Running running;
  const Prepared job(running,
                     {.columns = 60, .rows = 40, .laterality = "R", .view_position = "DP"});
  const auto entry = running.get(job.case_path).at("visits").at(0).at("pictures").at(0);
  CHECK(entry.at("view") == "dorsopalmar");
  CHECK(entry.at("limb") == "right-fore");
  CHECK(entry.at("taken") == "2026-03-02");
  CHECK(entry.at("file_name") == "left fore.dcm");
}

TEST_CASE("the same picture comes once and belongs to one visit", "[serve]") {
  Running running;
  const FilmSettings film{.columns = 60, .rows = 40};
  const Prepared job(running, film);
  running.upload(job.visit_path + "/pictures?name=again.dcm", Film::bytes(film));
  CHECK(running.get(job.case_path).at("visits").at(0).at("pictures").size() == 1);
  const auto value = running.post(job.case_path + "/visits", {{"date", "2026-04-13"}});
  const auto other =
      job.case_path + "/visits/" + value.at("visits").at(1).at("id").get<std::string>();
  running.upload(other + "/pictures?name=again.dcm", Film::bytes(film), 409);
  CHECK(running.remove(job.picture_path()).at("visits").at(0).at("pictures").empty());
  running.upload(other + "/pictures?name=again.dcm", Film::bytes(film));
}

TEST_CASE("visits stay in order of date whatever comes first", "[serve]") {
  Running running;
  const Prepared job(running, {.columns = 60, .rows = 40});
  const auto value = running.post(job.case_path + "/visits", {{"date", "2025-12-01"}});
  CHECK(value.at("visits").at(0).at("date") == "2025-12-01");
  const auto moved = running.put(job.visit_path, {{"date", "2025-11-01"}, {"last_trim", ""}});
  CHECK(moved.at("visits").at(0).at("date") == "2025-11-01");
  CHECK(moved.at("visits").at(0).at("pictures").size() == 1);
}
