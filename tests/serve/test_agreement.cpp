/// Two readers and repeats, asked for over HTTP.
#include <cmath>

#include "running.h"

using namespace pritchel::serve::test;

namespace {

/// The lateromedial landmarks with one of them moved, pixels.
json moved(const std::string& landmark, double x, double y) {
  auto landmarks = side_landmarks();
  landmarks[landmark]["x"] = landmarks[landmark]["x"].get<double>() + x;
  landmarks[landmark]["y"] = landmarks[landmark]["y"].get<double>() + y;
  return landmarks;
}

/// A film that is read by several people, 0.15 mm on the detector, magnified 1.2 times.
struct Film1 {
  Running& running;
  Prepared job;
  std::string readings;

  explicit Film1(Running& with, int seed = 1)
      : running(with),
        job(with, {.seed = seed}),
        readings(job.case_path + "/readings/" + job.digest) {
    running.put(job.picture_path(),
                {{"loading", "weight-bearing"},
                 {"toward", "left"},
                 {"scale", {{"kind", "magnification"}, {"magnification", 1.2}}}});
  }
  json begin(const std::string& reader, const std::string& sight) {
    return running.post(readings + "/turn?reader=" + reader, {{"sight", sight}}).at("reading");
  }
  json save(const std::string& reader, const json& landmarks) {
    const auto path = readings + "?reader=" + reader;
    const auto revision = running.get(path).at("reading").at("revision");
    return running.put(path, {{"revision", revision}, {"landmarks", landmarks}});
  }
  json finish(const std::string& reader) {
    return running.post(readings + "/done?reader=" + reader, json::object()).at("reading");
  }
  void read_blind(const std::string& reader, const json& landmarks) {
    begin(reader, "blind");
    save(reader, landmarks);
    finish(reader);
  }
  json list(const std::string& reader) {
    return running.get(readings + "/all?reader=" + reader).at("readings");
  }
  json agreement(const std::string& reader) {
    return running.get(readings + "/agreement?reader=" + reader).at("agreement");
  }
};

json row(const json& rows, const std::string& id) {
  for (const auto& each : rows)
    if (each.at("id") == id)
      return each;
  return nullptr;
}

constexpr double mm_per_px = 0.15 / 1.2;

} // namespace

TEST_CASE("a blind reading travels to nobody else until both are done", "[serve][blind]") {
  Running running;
  Film1 film(running);
  film.read_blind("Ada", side_landmarks());
  film.begin("Ben", "blind");
  for (const std::string reader : {"Ben", "Cora", ""}) {
    INFO(reader);
    for (const auto& each : film.list(reader))
      if (each.at("reader") == "Ada") {
        CHECK(each.at("seen") == false);
        CHECK(each.at("done") == true);
        CHECK_FALSE(each.contains("landmarks"));
        CHECK_FALSE(each.contains("saved"));
      }
    CHECK(film.agreement(reader).is_null());
  }
  film.save("Ben", side_landmarks());
  CHECK(film.agreement("Ben").is_null());
  film.finish("Ben");
  for (const auto& each : film.list("Cora"))
    CHECK(each.at("landmarks").size() == side_landmarks().size());
  CHECK(film.agreement("Cora").at("between") == "readers");
}

TEST_CASE("a done blind reading refuses to be saved again, and plan and paper do without it",
          "[serve][blind]") {
  Running running;
  Film1 film(running);
  film.read_blind("Ada", side_landmarks());
  const auto frozen = running.get(film.readings + "?reader=Ada").at("reading");
  CHECK(frozen.at("done") != "");
  running.put(film.readings + "?reader=Ada",
              {{"revision", frozen.at("revision")}, {"landmarks", json::object()}},
              409);
  const auto no_reading = running.post(film.job.visit_path + "/plan", {{"made_by", "Fred"}});
  running.post(film.readings + "/pick?reader=Ada", {{"reader", "Ada"}, {"turn", 1}}, 409);

  film.read_blind("Ben", side_landmarks());
  const auto picked =
      running.post(film.readings + "/pick?reader=Ada", {{"reader", "Ada"}, {"turn", 1}})
          .at("readings");
  int working = 0;
  for (const auto& each : picked)
    if (each.at("working") == true) {
      CHECK(each.at("reader") == "Ada");
      ++working;
    }
  CHECK(working == 1);
  const auto with_reading = running.post(film.job.visit_path + "/plan", {{"made_by", "Fred"}});
  CHECK(with_reading.at("plan") != no_reading.at("plan"));
}

TEST_CASE("another turn begins empty and the first one can still be asked for", "[serve][blind]") {
  Running running;
  Film1 film(running);
  film.save("Ada", side_landmarks());
  const auto second = film.begin("Ada", "blind");
  CHECK(second.at("turn") == 2);
  CHECK(second.at("landmarks").empty());
  CHECK(running.get(film.readings + "?reader=Ada").at("reading").at("turn") == 2);
  running.get(film.readings + "?reader=Ada&turn=1", 404); // in the middle of a blind one
  film.save("Ada", moved("p3-tip", 0, 4));
  film.finish("Ada");
  const auto first = running.get(film.readings + "?reader=Ada&turn=1").at("reading");
  CHECK(first.at("turn") == 1);
  CHECK(first.at("landmarks").size() == side_landmarks().size());
  running.get(film.readings + "?reader=Ada&turn=3", 404);
  running.get(film.readings + "?reader=Ada&turn=one", 400);
  CHECK(film.agreement("Ada").at("between") == "turns");
  CHECK(film.agreement("Ben").is_null());
}

// Truth: by hand. Ben's tip lies 8 px lower: 8 * 0.125 mm = 1 mm; the palmar angle of Ada is that
// of docs/formats/examples/reading.json, atan(28.5 / 413.5), that of Ben atan(36.5 / 413.5) over
// the level ground.
TEST_CASE("the picture's agreement gives each point's and each number's difference",
          "[serve][agreement]") {
  Running running;
  Film1 film(running);
  film.read_blind("Ada", side_landmarks());
  film.read_blind("Ben", moved("p3-tip", 0, 8));
  const auto found = film.agreement("Ada");
  CHECK(found.at("first").at("reader") == "Ada");
  CHECK(found.at("unit") == "mm");
  const auto tip = row(found.at("landmarks"), "p3-tip");
  CHECK(tip.at("distance").get<double>() == Approx(8 * mm_per_px));
  CHECK(tip.at("across").get<double>() == Approx(-8 * mm_per_px));
  CHECK(row(found.at("landmarks"), "breakover").at("distance").get<double>() == Approx(0));
  const auto angle = row(found.at("measurements"), "palmar-angle");
  const double degrees = 180 / std::acos(-1.0);
  CHECK(angle.at("difference").get<double>() ==
        Approx((std::atan2(28.5, 413.5) - std::atan2(36.5, 413.5)) * degrees));
  CHECK(angle.at("pairs") == 1);
  CHECK_FALSE(angle.contains("limits"));
  CHECK_FALSE(angle.contains("icc"));
}

// Truth: by hand. Each of five films is read three times, the tip 0, +8 and -8 px lower: its sum of
// squares is 128 px^2 on two degrees of freedom, so 8 px = 1 mm down and 0 sideways; the tip's
// spread is round: sqrt((1 + 0) / 2), on 2 * 10 degrees widened by sqrt(20 / 18).
TEST_CASE("after ten repeats on five films the practice's own spread is in use",
          "[serve][agreement]") {
  Running running;
  const auto read_thrice = [&](int seed) {
    Film1 film(running, seed);
    film.save("Ada", side_landmarks());
    film.read_blind("Ada", moved("p3-tip", 0, 8));
    film.read_blind("Ada", moved("p3-tip", 0, -8));
    return film;
  };
  auto film = read_thrice(1);
  const auto uncertainty = [&] {
    return measurement(running.post(film.job.measure_path(), {{"landmarks", side_landmarks()}})
                           .at("result"),
                       "palmar-angle")
        .at("standard_uncertainty")
        .get<double>();
  };
  for (int seed = 2; seed <= 4; ++seed)
    read_thrice(seed);
  const double with_default = uncertainty();
  auto tip = row(running.get("/api/agreement").at("landmarks"), "p3-tip");
  CHECK(tip.at("uses") == "default");
  CHECK(tip.at("turns").at("repeats") == 8);

  read_thrice(5);
  tip = row(running.get("/api/agreement").at("landmarks"), "p3-tip");
  CHECK(tip.at("uses") == "own");
  CHECK(tip.at("turns").at("repeats") == 10);
  CHECK(tip.at("turns").at("pictures") == 5);
  CHECK(tip.at("spread").at("across_mm").get<double>() == Approx(std::sqrt(0.5 * 20 / 18)));
  const double with_own = uncertainty();
  CHECK(with_own != Approx(with_default).epsilon(0.01));
  const auto result =
      running.post(film.job.measure_path(), {{"landmarks", side_landmarks()}}).at("result");
  CHECK(result.at("spread").get<std::string>().find("this practice's own") != std::string::npos);
  const auto angle = measurement(result, "palmar-angle");
  CHECK(angle.at("smallest_detectable_change").get<double>() ==
        Approx(1.96 * std::sqrt(2.0) * with_own));
  // Learnt from the store, not remembered: the same after a restart.
  running.restart();
  CHECK(uncertainty() == Approx(with_own));
}

// Truth: by hand. On ten films Ben's tip lies 1 to 10 px lower than Ada's: 0.125 to 1.25 mm, so the
// mean of across is -0.6875 mm and its SD 0.125 * sqrt(82.5 / 9); limits at 1.96 SD.
TEST_CASE("ten pairs of two readers give limits of agreement and ICC, nine do not",
          "[serve][agreement]") {
  Running running;
  const auto read_by_two = [&](int seed) {
    Film1 film(running, seed);
    film.read_blind("Ada", side_landmarks());
    film.read_blind("Ben", moved("p3-tip", 0, seed));
  };
  for (int seed = 1; seed <= 9; ++seed)
    read_by_two(seed);
  auto readers = running.get("/api/agreement").at("readers").at(0);
  CHECK(row(readers.at("measurements"), "palmar-angle").at("pairs") == 9);
  CHECK_FALSE(row(readers.at("measurements"), "palmar-angle").contains("limits"));

  read_by_two(10);
  const auto all = running.get("/api/agreement");
  readers = all.at("readers").at(0);
  CHECK(readers.at("first") == "Ada");
  CHECK(readers.at("second") == "Ben");
  const auto across = row(readers.at("landmarks"), "p3-tip").at("across");
  const double sd = mm_per_px * std::sqrt(82.5 / 9);
  CHECK(across.at("bias").get<double>() == Approx(-5.5 * mm_per_px));
  CHECK(across.at("sd").get<double>() == Approx(sd));
  CHECK(across.at("lower").get<double>() == Approx(-5.5 * mm_per_px - 1.96 * sd));
  const auto angle = row(readers.at("measurements"), "palmar-angle");
  CHECK(angle.contains("limits"));
  CHECK(angle.at("icc").at("2,1").contains("value"));
  CHECK(angle.at("sem").contains("agreement"));
  // Two readers are no repeats of one: the spread in use stays the default.
  CHECK(row(all.at("landmarks"), "p3-tip").at("uses") == "default");
  CHECK(row(all.at("landmarks"), "p3-tip").at("readers").at("repeats") == 10);
  const auto schema = std::filesystem::path(PRITCHEL_SOURCE_DIR);
  std::ofstream(running.folder() / "agreement.json") << all.dump();
  CHECK(std::system(("python3 '" + (schema / "tests/record/validate.py").string() + "' '" +
                     (schema / "docs/formats/agreement.schema.json").string() + "' '" +
                     (running.folder() / "agreement.json").string() + "'")
                        .c_str()) == 0);
}

TEST_CASE("requests about readings refuse what they do not know", "[serve][bad]") {
  Running running;
  Film1 film(running);
  running.post(film.readings + "/turn?reader=Ada", {{"sight", "squinting"}}, 400);
  running.post(film.readings + "/turn?reader=Ada", json::object(), 400);
  running.post(film.readings + "/turn?reader=", {{"sight", "blind"}}, 400);
  running.post(film.readings + "/done?reader=Ada", json::object(), 409);
  running.post(film.readings + "/pick?reader=Ada", {{"reader", "Ada"}, {"turn", 1}}, 404);
  running.get(film.job.case_path + "/readings/" + std::string(64, '0') + "/all", 404);
  running.get("/api/agreement?case=nobody", 404);
}
