#include <cmath>

#include "photo.h"
#include "running.h"

using namespace pritchel;
using namespace pritchel::serve::test;

namespace {

std::string sentence(const json& answer) {
  return answer.at("error").get<std::string>();
}

/// A case with a photo beside the film.
struct WithPhoto : Prepared {
  std::string photo;

  WithPhoto(Running& running, const CardPhoto& made)
      : Prepared(running, {.columns = 60, .rows = 40}),
        photo(running.upload(visit_path + "/pictures?name=limb.png", made.bytes())
                  .at("picture")
                  .at("digest")) {}

  [[nodiscard]] std::string find(const std::string& what) const {
    return case_path + "/find/" + photo + "/" + what;
  }
  [[nodiscard]] std::string entry() const { return visit_path + "/pictures/" + photo; }
};

json corners_of(const json& seen) {
  json corners = json::array();
  for (const auto& each : seen.at("corners"))
    corners.push_back({each.at("id"), each.at("x"), each.at("y")});
  return corners;
}

} // namespace

// Truth: the card's layout at 3 pixels a millimetre; 0.3 px stands for what 8-bit greys allow.
TEST_CASE("the card in a photo is found over HTTP, tried and kept as its scale", "[serve]") {
  Running running;
  const CardPhoto made;
  const WithPhoto job(running, made);
  const auto seen = running.post(job.find("card"), json::object());
  CHECK(seen.at("paper") == "a4");
  const auto& card = imaging::card(imaging::CardPaper::a4);
  REQUIRE(seen.at("corners").size() >= 30);
  for (const auto& each : seen.at("corners")) {
    const auto at = made.seen(imaging::corner(card, each.at("id")));
    CHECK(std::abs(each.at("x").get<double>() - at.x) < 0.3);
    CHECK(std::abs(each.at("y").get<double>() - at.y) < 0.3);
  }

  json scale{{"kind", "card"},
             {"paper", "a4"},
             {"corners", corners_of(seen)},
             {"camera_distance_mm", 4000}};
  const auto path = job.case_path + "/scale/" + job.photo;
  const auto unsaid = running.post(path, {{"scale", scale}}).at("calibration");
  CHECK(unsaid.at("has_scale") == true);
  CHECK_FALSE(unsaid.at("cautions").empty()); // nobody said how far in front the card stood
  scale["offset_mm"] = 0;
  scale["stood"] = "along-a-board";
  const auto said = running.post(path, {{"scale", scale}}).at("calibration");
  INFO(unsaid << said);
  CHECK(said.at("cautions").size() < unsaid.at("cautions").size());

  const auto kept = running
                        .put(job.entry(),
                             {{"view", "limb-side"},
                              {"protocol", "fore-limb-side"},
                              {"limb", "left-fore"},
                              {"scale", scale}})
                        .at("picture");
  CHECK(kept.at("protocol") == "fore-limb-side");
  CHECK(kept.at("view") == "limb-side");
  CHECK(kept.at("scale").at("corners") == scale.at("corners"));
  CHECK(kept.at("scale").at("offset_mm") == 0);
  running.restart();
  const auto again = running.get(job.case_path).at("visits").at(0).at("pictures").at(1);
  CHECK(again == kept);
}

// Truth: the shadow of a ball of radius 40 px drawn at 203.3, 151.7 (film.h); half a pixel for a
// centre blurred by one, and for the diameter two of the standard uncertainties stated with it.
TEST_CASE("a ball on a radiograph is found over HTTP", "[serve]") {
  Running running;
  const Prepared job(
      running, {.columns = 600, .rows = 500, .disc_x = 203.3, .disc_y = 151.7, .disc_radius = 40});
  const auto balls =
      running.post(job.case_path + "/find/" + job.digest + "/balls", json::object()).at("balls");
  INFO(balls);
  REQUIRE(balls.size() == 1);
  CHECK(std::abs(balls[0].at("x").get<double>() - 203.3) < 0.5);
  CHECK(std::abs(balls[0].at("y").get<double>() - 151.7) < 0.5);
  const double unsure = balls[0].at("unsure_px");
  CHECK(unsure < 1);
  CHECK(std::abs(balls[0].at("diameter_px").get<double>() - 80) < 2 * unsure);

  const json scale{{"kind", "ball"},
                   {"length_mm", 25},
                   {"ball",
                    {{"centre", {balls[0].at("x"), balls[0].at("y")}},
                     {"diameter_px", balls[0].at("diameter_px")},
                     {"unsure_px", balls[0].at("unsure_px")}}}};
  const auto said =
      running.post(job.case_path + "/scale/" + job.digest, {{"scale", scale}}).at("calibration");
  CHECK(said.at("has_scale") == true);
  const auto kept = running.put(job.picture_path(), {{"scale", scale}}).at("picture");
  CHECK(kept.at("scale").at("ball") == scale.at("ball"));
}

// Truth: the shadow of a ball of radius 40 px drawn at 203.3, 151.7 (film.h); a pixel and a half
// for an edge blurred by one.
TEST_CASE("what a radiograph shows is proposed over HTTP, on a photo nothing", "[serve]") {
  Running running;
  const Prepared film(
      running, {.columns = 600, .rows = 500, .disc_x = 203.3, .disc_y = 151.7, .disc_radius = 40});
  const auto on_film =
      running.post(film.case_path + "/find/" + film.digest + "/landmarks", json::object())
          .at("suggestions");
  INFO(on_film);
  REQUIRE(on_film.size() == 2);
  for (const auto& each : on_film) {
    const double x = each.at("x"), y = each.at("y");
    CHECK(each.at("id").get<std::string>().rfind("marker-", 0) == 0);
    CHECK(std::abs(std::hypot(x - 203.3, y - 151.7) - 40) < 1.5);
    CHECK(each.at("confidence") <= 1);
  }
  const WithPhoto job(running, {.pixels_a_mm = 0.5, .columns = 300, .rows = 300});
  CHECK(running.post(job.find("landmarks"), json::object()).at("suggestions").empty());
}

TEST_CASE("what can't be found or followed is one sentence and changes nothing", "[serve]") {
  Running running;
  const CardPhoto small{.pixels_a_mm = 0.5, .columns = 300, .rows = 300};
  const WithPhoto job(running, small);
  const auto before = running.get(job.case_path);
  const auto film = job.case_path + "/find/" + job.digest;
  CHECK_FALSE(sentence(running.post(job.find("card"), json::object(), 400)).empty());
  CHECK(sentence(running.post(film + "/card", json::object(), 400)) ==
        "The picture is a radiograph; the printed card is looked for in photos.");
  CHECK(sentence(running.post(job.find("balls"), json::object(), 400)) ==
        "The picture is a photo; marker balls are looked for on radiographs.");
  CHECK(sentence(running.post(film + "/ends", {{"landmarks", json::object()}}, 400)) ==
        "The two ends aren't placed; place marker-1 and marker-2 first.");
  running.post(film + "/ends", json::object(), 400);
  running.post(job.case_path + "/find/" + std::string(64, '0') + "/card", json::object(), 404);
  running.post("/api/cases/nobody/find/" + job.photo + "/card", json::object(), 404);
  running.post(job.find("everything"), json::object(), 404);

  const auto scale = job.case_path + "/scale/" + job.photo;
  const auto refused = [&](const json& said) {
    return sentence(running.post(scale, {{"scale", said}}, 400));
  };
  CHECK(refused({{"kind", "guess"}}).rfind("scale.kind must be one of", 0) == 0);
  CHECK(refused({{"kind", "card"}}) == "scale.paper is missing.");
  CHECK(refused({{"kind", "card"}, {"paper", "a3"}, {"corners", json::array()}}) ==
        "scale.paper must be one of a4, letter.");
  CHECK(refused({{"kind", "card"}, {"paper", "a4"}, {"corners", {{1, 2}}}}) ==
        "scale.corners[0] must be 3 numbers.");
  CHECK_FALSE(refused({{"kind", "card"}, {"paper", "a4"}, {"corners", json::array()}}).empty());
  CHECK(refused({{"kind", "ball"}, {"length_mm", 25}}) == "scale.ball is missing.");
  CHECK_FALSE(refused({{"kind", "marker"}, {"length_mm", 100}}).empty()); // no ends placed
  running.post(scale, json::object(), 400);
  running.put(job.entry(), {{"protocol", "Not An Id"}}, 400);
  CHECK(running.get(job.case_path) == before);
}

TEST_CASE("a picture's protocol goes when its view changes without one", "[serve]") {
  Running running;
  const WithPhoto job(running, {.pixels_a_mm = 0.5, .columns = 200, .rows = 200});
  running.put(job.entry(),
              {{"view", "limb-behind"}, {"protocol", "hind-limb-behind"}, {"limb", "left-hind"}});
  CHECK(running.put(job.entry(), {{"shoeing", "shod"}}).at("picture").at("protocol") ==
        "hind-limb-behind");
  CHECK(running.put(job.entry(), {{"view", "sole"}}).at("picture").at("protocol") == "");
}

TEST_CASE("every protocol says what it shows and how its landmarks are wanted", "[serve]") {
  Running running;
  const auto practice = running.get("/api/practice");
  for (const auto& protocol : practice.at("protocols")) {
    INFO(protocol.at("id"));
    const auto view = protocol.at("view").get<std::string>();
    const bool film = view == "lateromedial" || view == "dorsopalmar";
    CHECK((protocol.at("shows") == "radiograph") == film);
    CHECK((protocol.at("shows") == "limb") == (view.rfind("limb-", 0) == 0));
    for (const auto& guide : protocol.at("landmarks"))
      CHECK((guide.at("group") == "main" || guide.at("required") == false));
  }
}

TEST_CASE("an unconfirmed offer of the program makes no number", "[serve]") {
  Running running;
  const Prepared job(running);
  auto landmarks = side_landmarks();
  const auto sure = running.post(job.measure_path(), {{"landmarks", landmarks}}).at("result");
  CHECK(measurement(sure, "palmar-angle").contains("value"));
  landmarks["p3-tip"]["how"] = "suggested";
  const auto offered = running.post(job.measure_path(), {{"landmarks", landmarks}}).at("result");
  const auto angle = measurement(offered, "palmar-angle");
  CHECK_FALSE(angle.contains("value"));
  CHECK(angle.at("missing") == json::array({"p3-tip"}));
}

// Truth: law, what a limb measures in the same two places differs by nothing.
TEST_CASE("a limb read standing and hanging is compared, a limb without both is not", "[serve]") {
  Running running;
  const CardPhoto first{.pixels_a_mm = 0.5, .columns = 1000, .rows = 1100};
  const WithPhoto job(running, first);
  CHECK(running.get(job.visit_path + "/postures").at("limbs").empty());
  const auto hanging =
      running
          .upload(job.visit_path + "/pictures?name=hanging.png",
                  CardPhoto{.pixels_a_mm = 0.6, .columns = 1000, .rows = 1100}.bytes())
          .at("picture")
          .at("digest")
          .get<std::string>();
  const auto settle = [&](const std::string& digest,
                          const std::string& view,
                          const std::string& loading) {
    running.put(job.visit_path + "/pictures/" + digest,
                {{"view", view}, {"limb", "left-fore"}, {"toward", "left"}, {"loading", loading}});
  };
  settle(job.photo, "limb-behind", "weight-bearing");
  settle(hanging, "limb-hanging", "not-loaded");
  json limb = json::object();
  const auto place = [&](const std::string& id, double x, double y) {
    limb[id] = {{"x", x}, {"y", y}, {"how", "by-hand"}};
  };
  place("ground-medial", 800, 1000);
  place("ground-lateral", 200, 1000);
  place("plumb-top", 100, 100);
  place("plumb-bottom", 100, 1000);
  place("radius-mid-proximal", 520, 100);
  place("carpus-mid", 500, 400);
  place("cannon-mid-proximal", 505, 450);
  place("cannon-mid-distal", 495, 700);
  place("fetlock-mid", 500, 750);
  place("pastern-mid", 510, 850);
  place("bulb-mid", 520, 930);
  place("heel-buttress-medial", 560, 960);
  place("heel-buttress-lateral", 470, 950);
  place("heel-ground-medial", 560, 985);
  place("heel-ground-lateral", 470, 985);
  place("toe-mid", 515, 990);
  place("foot-mid", 515, 960);
  for (const auto& digest : {job.photo, hanging})
    running.put(job.case_path + "/readings/" + digest + "?reader=Ada",
                {{"revision", 0}, {"landmarks", limb}});
  const auto limbs = running.get(job.visit_path + "/postures").at("limbs");
  REQUIRE(limbs.size() == 1);
  CHECK(limbs[0].at("limb") == "left-fore");
  REQUIRE_FALSE(limbs[0].at("rows").empty());
  for (const auto& row : limbs[0].at("rows")) {
    INFO(row);
    const double standing = row.at("standing").at("value");
    const double in_air = row.at("hanging").at("value");
    CHECK(row.at("gone").at("value").get<double>() == Approx(standing - in_air).margin(1e-9));
    CHECK(row.at("gone").at("standard_uncertainty").get<double>() >=
          row.at("standing").at("standard_uncertainty").get<double>());
  }
  running.get(job.case_path + "/visits/visit-9/postures", 404);
}

// Truth: the practice's rule: what is gone when the limb hangs is posture, and holds the sides
TEST_CASE("a plan reads the photos of its foot's limb", "[serve]") {
  Running running;
  const Prepared job(running);
  const auto picture = [&](const std::string& name, const std::string& bytes, const json& entry) {
    const auto digest = running.upload(job.visit_path + "/pictures?name=" + name, bytes)
                            .at("picture")
                            .at("digest")
                            .get<std::string>();
    running.put(job.visit_path + "/pictures/" + digest, entry);
    return digest;
  };
  const auto photo = [&](const std::string& view, double pixels_a_mm) {
    return picture(view + ".png",
                   CardPhoto{.pixels_a_mm = pixels_a_mm, .columns = 1000, .rows = 1100}.bytes(),
                   {{"view", view}, {"limb", "left-fore"}, {"toward", "left"}});
  };
  const auto read = [&](const std::string& digest, const json& landmarks) {
    running.put(job.case_path + "/readings/" + digest + "?reader=Ada",
                {{"revision", 0}, {"landmarks", landmarks}});
  };
  const auto at = [](double x, double y) { return json{{"x", x}, {"y", y}, {"how", "by-hand"}}; };
  const auto holds = [&] {
    const auto plan = running.post(job.visit_path + "/plan", {{"made_by", "Fred"}}).at("plan");
    INFO(plan.at("stops"));
    REQUIRE(plan.at("stops").empty());
    return plan.at("locks").dump().find("No change from side to side") != std::string::npos;
  };
  running.put(job.visit_path + "/pictures/" + job.digest,
              {{"view", "lateromedial"},
               {"limb", "left-fore"},
               {"toward", "left"},
               {"loading", "weight-bearing"}});
  auto side = side_landmarks();
  side.erase("sole-a"); // its sole is too thin for a plan
  read(job.digest, side);
  CHECK_FALSE(holds());
  // The cannon upright, the foot 45 degrees out of its line as it stands, and in it as it hangs.
  json limb{{"cannon-mid-proximal", at(500, 200)},
            {"cannon-mid-distal", at(500, 600)},
            {"fetlock-mid", at(500, 700)},
            {"bulb-mid", at(300, 900)},
            {"foot-mid", at(500, 980)}};
  read(photo("limb-behind", 0.5), limb);
  read(photo("limb-hanging", 0.6), limb);
  CHECK(holds());
}

// Truth: law, the front of the coffin bone turned by 10 degrees about its upper point turns the
// joint by as much.
TEST_CASE("a coffin joint in two side views of a limb is compared, the second less the first",
          "[serve]") {
  Running running;
  const Prepared job(running);
  const auto second =
      running.upload(job.visit_path + "/pictures?name=wedge.dcm", Film::bytes({.seed = 2}))
          .at("picture")
          .at("digest")
          .get<std::string>();
  auto landmarks = side_landmarks();
  const auto read = [&](const std::string& digest) {
    running.put(job.visit_path + "/pictures/" + digest,
                {{"view", "lateromedial"}, {"limb", "left-fore"}, {"toward", "left"}});
    running.put(job.case_path + "/readings/" + digest + "?reader=Ada",
                {{"revision", 0}, {"landmarks", landmarks}});
  };
  read(job.digest);
  CHECK(running.get(job.visit_path + "/postures").at("joints").empty());
  const double x0 = landmarks["p3-dorsal-proximal"]["x"], y0 = landmarks["p3-dorsal-proximal"]["y"];
  const double dx = landmarks["p3-dorsal-distal"]["x"].get<double>() - x0;
  const double dy = landmarks["p3-dorsal-distal"]["y"].get<double>() - y0;
  const double turn = 10 * std::acos(-1) / 180;
  landmarks["p3-dorsal-distal"]["x"] = x0 + dx * std::cos(turn) - dy * std::sin(turn);
  landmarks["p3-dorsal-distal"]["y"] = y0 + dx * std::sin(turn) + dy * std::cos(turn);
  read(second);
  const auto joints = running.get(job.visit_path + "/postures").at("joints");
  REQUIRE(joints.size() == 1);
  const auto value = [&](const char* which) {
    return joints[0].at(which).at("value").get<double>();
  };
  CHECK(joints[0].at("from") == job.digest);
  CHECK(joints[0].at("to") == second);
  CHECK(std::abs(value("more")) == Approx(10));
  CHECK(value("more") == Approx(value("second") - value("first")));
}
