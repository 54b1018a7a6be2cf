/// The look for a burnt-out wall, on drawn films and on films of the digital foot.
#include "imaging/exposure_check.h"
#include "phantom/exposure.h"
#include "phantom/truth.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <string>

using namespace pritchel;

namespace {

/// Air on the left at 100, horn on the right at `horn`, noise of a few counts, edge at column 100.
imaging::Picture drawn(int horn, int noise) {
  imaging::Picture picture;
  picture.columns = picture.rows = 200;
  std::uint32_t state = 7;
  for (int y = 0; y < 200; ++y)
    for (int x = 0; x < 200; ++x) {
      state = state * 1664525U + 1013904223U;
      const int spread = noise == 0 ? 0 : static_cast<int>(state >> 16) % (2 * noise + 1) - noise;
      const int value = (x < 100 ? 100 : horn) + spread;
      picture.samples.push_back(static_cast<std::uint16_t>(y < 5 ? 4000 : value));
    }
  return picture;
}

imaging::EdgeToLook upright_edge() {
  return {.from = {100, 20}, .to = {100, 180}, .inside = {150, 100}, .pixel_mm = 0.2};
}

/// The phantom's detector takes any exposure; a real one ends. Here it ends a fifth above what air
/// gives at exposure 1: more quanta are stored as that. The film's scale: 430 steps to a factor e,
/// air at 60 (phantom/exposure.cpp).
imaging::EdgeLook film_of_foot(double exposure) {
  constexpr double headroom = 1.2;
  const int darkest = static_cast<int>(60 + 430 * std::log(std::max(exposure / headroom, 0.5)));
  const auto foot = phantom::make_foot(phantom::random_foot(5));
  auto shot = phantom::framed_shot(foot, phantom::View::lateromedial, phantom::Facing::left, 0.4);
  shot.exposure_ratio = exposure;
  const auto film = phantom::make_film(foot, shot, phantom::Quality::draft);
  imaging::Picture picture;
  picture.columns = film.columns;
  picture.rows = film.rows;
  for (const int value : film.values)
    picture.samples.push_back(static_cast<std::uint16_t>(std::max(value, darkest)));
  const auto truth = phantom::truth_of(foot, shot);
  const auto at = [&](const std::string& id) {
    for (const auto& each : truth.landmarks)
      if (each.landmark.id == id)
        return ImagePoint{each.pixel.x, each.pixel.y};
    std::abort();
  };
  return imaging::look_at_edge(picture,
                               {.from = at("wall-dorsal-proximal"),
                                .to = at("wall-dorsal-distal"),
                                .inside = at("p3-dorsal-proximal"),
                                .pixel_mm = truth.mm_per_pixel_x});
}

} // namespace

// Truth: the drawing: a step of 200 counts over noise of at most 10
TEST_CASE("a wall that stands out is lost nowhere", "[exposure]") {
  const auto look = imaging::look_at_edge(drawn(300, 10), upright_edge());
  CHECK(look.places == 32);
  CHECK(look.share_lost == 0);
  CHECK(look.step_to_noise > 20);
}

// Truth: the drawing: no step at all
TEST_CASE("a wall as black as the air is lost everywhere", "[exposure]") {
  const auto look = imaging::look_at_edge(drawn(100, 10), upright_edge());
  CHECK(look.share_lost == Approx(1));
  const auto burnt = imaging::look_at_edge(drawn(100, 0), upright_edge());
  CHECK(burnt.share_lost == Approx(1));
  CHECK(burnt.share_at_end == Approx(1));
}

TEST_CASE("an edge outside the picture says nothing", "[exposure]") {
  const auto look = imaging::look_at_edge(
      drawn(300, 10), {.from = {500, 20}, .to = {500, 180}, .inside = {550, 100}});
  CHECK(look.places == 0);
}

// Truth: the digital foot's own wall, exposed as usual, and on a detector driven into its end by
// more and more quanta
TEST_CASE("the wall of the digital foot shows when exposed well and burns out when not",
          "[exposure]") {
  const auto usual = film_of_foot(1);
  INFO("lost " << usual.share_lost << ", step to noise " << usual.step_to_noise);
  CHECK(usual.places > 40);
  CHECK(usual.share_lost < 0.2);
  // The wall's step to the air is lost little by little, then altogether.
  double before = usual.share_lost;
  for (const double exposure : {1.5, 2.5, 6.0}) {
    const auto look = film_of_foot(exposure);
    INFO("exposure " << exposure << ": lost " << look.share_lost);
    CHECK(look.share_lost >= before);
    before = look.share_lost;
  }
  CHECK(before > 0.5);
}
