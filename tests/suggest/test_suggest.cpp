#include "imaging/load.h"
#include "phantom/random.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>

#include "suggest/model.h"
#include "suggest/models.h"
#include "suggest/suggest.h"
#include "teach/films.h"
#include "teach/judge.h"

using namespace pritchel;
using namespace pritchel::suggest;
using teach::Kind;

namespace {

/// Films of these numbers served nothing but this test: not the learning, not docs/suggestions.md.
constexpr std::uint64_t first_number = 100'000;

teach::Drawn film(phantom::View view, std::uint64_t number) {
  return teach::drawn_film(Kind::unseen, view, first_number + number);
}

/// Drawn once, asked about again and again.
const teach::Drawn& side_film() {
  static const auto drawn = film(phantom::View::lateromedial, 50);
  return drawn;
}

const teach::Drawn& front_film() {
  static const auto drawn = film(phantom::View::dorsopalmar, 50);
  return drawn;
}

std::size_t on_the_foot(const std::vector<Suggestion>& all) {
  return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [](const Suggestion& each) {
    return each.landmark.rfind("marker-", 0) != 0;
  }));
}

std::vector<Suggestion> asked(const imaging::Picture& picture, const Ask& ask) {
  auto found = suggest::suggest(picture, ask);
  REQUIRE(found);
  return std::move(*found);
}

/// How many landmarks of a foot are seen in what is none, taken for either view.
std::size_t seen_in(const imaging::Picture& picture, double mm_per_pixel) {
  std::size_t seen = 0;
  for (const auto view : {measure::View::lateromedial, measure::View::dorsopalmar})
    seen += on_the_foot(
        asked(picture, {.view = view, .toward = Toward::right, .mm_per_pixel = mm_per_pixel}));
  return seen;
}

imaging::Picture flat(int columns, int rows, std::uint16_t grey) {
  imaging::Picture picture{.columns = columns, .rows = rows, .bits_stored = 12};
  picture.samples.assign(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows), grey);
  return picture;
}

imaging::Picture turned_over(imaging::Picture picture) {
  std::reverse(picture.samples.begin(), picture.samples.end());
  return picture;
}

/// So few films say little of 90 % of one landmark: that is asked of all of them together, and of
/// each by docs/suggestions.md over 300.
void check_verdict(const teach::Verdict& verdict) {
  std::size_t shown = 0;
  std::vector<double> all;
  for (const auto& [id, record] : verdict.landmarks) {
    INFO(id);
    shown += record.shown;
    all.insert(all.end(), record.errors_mm.begin(), record.errors_mm.end());
    if (!record.errors_mm.empty())
      CHECK(teach::quantile(record.errors_mm, 0.5) <= 1.0);
  }
  REQUIRE(all.size() >= shown / 2); // silence is no skill
  CHECK(teach::quantile(all, 0.9) <= 2.5);
  CHECK(teach::false_share(verdict) < 0.01);
}

} // namespace

// Truth: the digital feet's own landmarks. Bounds: issue 4 (median 1.0 mm, 90 % within 2.5 mm,
// under 1 % over 5 mm off). Over 300 films a view: docs/suggestions.md.
TEST_CASE("on unseen feet from the side suggestions lie within the bounds", "[suggest]") {
  check_verdict(teach::judged(phantom::View::lateromedial, 0, 32, [](std::uint64_t number) {
    return film(phantom::View::lateromedial, number);
  }));
}

TEST_CASE("on unseen feet from the front suggestions lie within the bounds", "[suggest]") {
  check_verdict(teach::judged(phantom::View::dorsopalmar, 0, 32, [](std::uint64_t number) {
    return film(phantom::View::dorsopalmar, number);
  }));
}

TEST_CASE("a film is read the same way twice, and whichever side the toe is on", "[suggest]") {
  const auto& drawn = side_film();
  const bool left = drawn.facing == phantom::Facing::left;
  const Ask told{.toward = left ? Toward::left : Toward::right, .mm_per_pixel = drawn.mm_per_pixel};
  const Ask untold{.toward = Toward::unknown, .mm_per_pixel = drawn.mm_per_pixel};
  const auto first = asked(drawn.picture, told);
  REQUIRE(on_the_foot(first) > 10);
  for (const auto& again : {asked(drawn.picture, told), asked(drawn.picture, untold)}) {
    REQUIRE(again.size() == first.size());
    for (std::size_t i = 0; i < first.size(); ++i) {
      CHECK(again[i].landmark == first[i].landmark);
      CHECK(again[i].at.x == first[i].at.x);
      CHECK(again[i].at.y == first[i].at.y);
      CHECK(again[i].confidence == first[i].confidence);
    }
  }
}

// Truth: the digital foot's own landmarks; 5 mm is what the issue calls false.
TEST_CASE("without any scale what is proposed is still right", "[suggest]") {
  const auto& drawn = side_film();
  const auto found = asked(drawn.picture, {.toward = Toward::unknown});
  REQUIRE(on_the_foot(found) > 10);
  for (const auto& each : found)
    for (const auto& truth : drawn.truth)
      if (truth.id == each.landmark && each.landmark.rfind("marker-", 0) != 0) {
        INFO(each.landmark);
        CHECK(std::hypot(each.at.x - truth.at.x, each.at.y - truth.at.y) * drawn.mm_per_pixel < 5);
      }
}

TEST_CASE("shoe landmarks are proposed on shod feet alone, sides only where they are known",
          "[suggest]") {
  for (const auto& each : asked(side_film().picture, {.toward = Toward::unknown})) {
    CHECK(each.landmark != "shoe-heel-end");
    CHECK(each.landmark.rfind("foot-plane", 0) != 0);
  }
  for (const auto& each : asked(front_film().picture, {.view = measure::View::dorsopalmar})) {
    CHECK(each.landmark.find("-medial") == std::string::npos);
    CHECK(each.landmark.find("-lateral") == std::string::npos);
  }
}

// Truth: a disc drawn by formula, its grey 3000 within 30 pixels of 120.5, 90.25 and falling to 800
// over two pixels; half a pixel for an edge as soft as that.
TEST_CASE("the ends of a marker ball are proposed, the lower first, without a foot", "[suggest]") {
  constexpr double x = 120.5, y = 90.25, radius = 30;
  auto picture = flat(400, 300, 800);
  for (int row = 0; row < picture.rows; ++row)
    for (int column = 0; column < picture.columns; ++column) {
      const double inside =
          std::clamp(0.5 * (radius + 1 - std::hypot(column - x, row - y)), 0., 1.);
      picture.samples[static_cast<std::size_t>(row * picture.columns + column)] =
          static_cast<std::uint16_t>(800 + 2200 * inside);
    }
  const auto found = asked(picture, {});
  REQUIRE(found.size() == 2);
  CHECK(found[0].landmark == "marker-1");
  CHECK(found[1].landmark == "marker-2");
  CHECK(found[0].at.y > found[1].at.y);
  const auto middle = midpoint(found[0].at, found[1].at);
  CHECK(std::hypot(middle.x - x, middle.y - y) < 0.5);
  // The ball finder takes half of the exposure, not half of the grey, for the edge.
  CHECK(std::abs(0.5 * distance(found[0].at, found[1].at) - radius) < 1);
}

TEST_CASE("on a picture that shows no foot nothing of a foot is proposed", "[suggest]") {
  CHECK(seen_in(flat(500, 450, 1000), 0.4) == 0);
  CHECK(seen_in(flat(1, 1, 7), 0.4) == 0);
  CHECK(seen_in(flat(500, 450, 1000), 1e-9) == 0);
  auto noise = flat(500, 450, 0);
  for (std::size_t i = 0; i < noise.samples.size(); ++i)
    noise.samples[i] = static_cast<std::uint16_t>(4095 * phantom::even(3, i));
  CHECK(seen_in(noise, 0.4) == 0);
  CHECK(seen_in(noise, 0) == 0);
}

TEST_CASE("upside down, or taken for the other view, a film gets almost no suggestions",
          "[suggest]") {
  constexpr std::size_t almost_none = 2;
  const auto& side = side_film();
  const auto& front = front_film();
  CHECK(seen_in(turned_over(side.picture), side.mm_per_pixel) <= almost_none);
  CHECK(seen_in(turned_over(front.picture), front.mm_per_pixel) <= almost_none);
  CHECK(on_the_foot(asked(side.picture,
                          {.view = measure::View::dorsopalmar,
                           .toward = Toward::right,
                           .mm_per_pixel = side.mm_per_pixel})) <= almost_none);
  CHECK(on_the_foot(asked(front.picture, {.mm_per_pixel = front.mm_per_pixel})) <= almost_none);
}

TEST_CASE("a photo gets no suggestions", "[suggest]") {
  auto photo = flat(300, 300, 9);
  photo.kind = imaging::PictureKind::photo;
  photo.samples.clear();
  photo.rgb.assign(300 * 300 * 3, 90);
  CHECK(asked(photo, {}).empty());
  CHECK(asked(flat(300, 300, 9), {.view = measure::View::sole}).empty());
}

// Truth: none of these files shows a horse's foot.
TEST_CASE("open pictures of something else get almost no suggestions", "[suggest]") {
  const auto folder = std::filesystem::path(PRITCHEL_SOURCE_DIR) / "../shared/data/dicom/files";
  if (!std::filesystem::exists(folder)) {
    WARN("skipped: the open pictures aren't beside the repository");
    return;
  }
  std::size_t pictures = 0, seen = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const auto picture = imaging::load_picture_file(entry.path());
    if (!picture || picture->kind != imaging::PictureKind::radiograph)
      continue;
    ++pictures;
    const auto here = seen_in(*picture, 0);
    if (here > 0)
      WARN(entry.path().filename() << ": " << here);
    seen += here;
  }
  REQUIRE(pictures > 10);
  CHECK(seen <= pictures / 10);
}

TEST_CASE("a damaged model is refused", "[suggest]") {
  const auto* model = model_of(measure::View::lateromedial);
  REQUIRE(model != nullptr);
  REQUIRE(model_of(measure::View::dorsopalmar) != nullptr);
  CHECK(model_of(measure::View::sole) == nullptr);
  auto bytes = written(*model);
  CHECK(read_model(bytes));
  CHECK_FALSE(read_model({}));
  for (const std::size_t size : {std::size_t{5}, std::size_t{300}, bytes.size() - 1})
    CHECK_FALSE(read_model(std::span(bytes).first(size)));
  bytes[0] ^= 1;
  CHECK_FALSE(read_model(bytes));
}
