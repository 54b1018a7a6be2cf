/// Points that settle on an edge, over HTTP. Truth: the disc that the film shows, its edge where
/// half the exposure is left; own tolerance of 0.3 px for what rounding to whole greys allows.
#include <cmath>

#include "running.h"

using namespace pritchel;
using namespace pritchel::serve::test;

namespace {

constexpr FilmSettings with_disc() {
  return {.columns = 600, .rows = 500, .disc_x = 300.4, .disc_y = 250.7, .disc_radius = 90};
}

double off_edge(const FilmSettings& film, const json& at) {
  return std::hypot(at.at(0).get<double>() - film.disc_x, at.at(1).get<double>() - film.disc_y) -
         film.disc_radius;
}

struct Job : Prepared {
  Running& running;
  explicit Job(Running& on, const FilmSettings& film)
      : Prepared(on, film),
        running(on) {}
  [[nodiscard]] json snap(const json& wish, int status = 200) {
    return running.post(case_path + "/snap/" + digest, wish, status);
  }
};

constexpr double edge_px = 0.3;

} // namespace

TEST_CASE("a rough point settles on the edge, and stays where no edge is", "[serve]") {
  Running running;
  const auto film = with_disc();
  Job job(running, film);
  const auto near = job.snap({{"kind", "point"}, {"at", {300, 349}}, {"reach_px", 30}});
  CHECK(near.at("how") == "snapped");
  CHECK(std::abs(off_edge(film, near.at("at"))) < edge_px);
  const auto nothing = job.snap({{"kind", "point"}, {"at", {60, 60}}, {"reach_px", 30}});
  CHECK(nothing == json{{"at", nullptr}});
}

TEST_CASE("a landmark's own edge is the one that is bright on its side", "[serve]") {
  Running running;
  const auto film = with_disc();
  Job job(running, film);
  // Below the disc the picture gets brighter upwards: right for the sole, wrong for the ground.
  const json wish{{"kind", "point"}, {"at", {300, 349}}, {"reach_px", 30}};
  auto sole = wish, ground = wish;
  sole["landmark"] = "sole-b";
  ground["landmark"] = "ground-toe";
  CHECK(std::abs(off_edge(film, job.snap(sole).at("at"))) < edge_px);
  CHECK(job.snap(ground).at("at").is_null());
}

TEST_CASE("three rough points settle on the round edge in their order", "[serve]") {
  Running running;
  const auto film = with_disc();
  Job job(running, film);
  const json rough{{208, 262}, {305, 333}, {394, 240}};
  const auto seen = job.snap({{"kind", "circle"}, {"points", rough}, {"reach_px", 30}});
  REQUIRE(seen.at("points").size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(std::abs(off_edge(film, seen.at("points").at(i))) < edge_px);
    CHECK(std::abs(seen.at("points").at(i).at(0).get<double>() - rough.at(i).at(0).get<double>()) <
          12);
  }
}

TEST_CASE("a stroke across no edge gives no line", "[serve]") {
  Running running;
  Job job(running, with_disc());
  const auto line =
      job.snap({{"kind", "line"}, {"stroke", {{40, 40}, {70, 90}, {60, 160}}}, {"reach_px", 30}});
  CHECK(line == json{{"from", nullptr}, {"to", nullptr}});
}

TEST_CASE("a wish to settle that makes no sense is refused by its field", "[serve]") {
  Running running;
  Job job(running, with_disc());
  const auto refused = [&](const json& wish) {
    return job.snap(wish, 400).at("error").get<std::string>();
  };
  const json point{{"kind", "point"}, {"at", {300, 349}}, {"reach_px", 30}};
  auto changed = point;
  changed["kind"] = "curve";
  CHECK(refused(changed).find("kind") != std::string::npos);
  changed = point;
  changed["reach_px"] = 1e6;
  CHECK(refused(changed).find("reach_px") != std::string::npos);
  changed = point;
  changed["at"] = {1};
  CHECK(refused(changed).find("at") != std::string::npos);
  CHECK(refused({{"kind", "circle"}, {"points", {{1, 2}, {3, 4}}}, {"reach_px", 30}})
            .find("points") != std::string::npos);
}
