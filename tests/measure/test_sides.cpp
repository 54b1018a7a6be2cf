/// Left and right, medial and lateral, toe and heel: every contradiction is told, nothing is ever
/// exchanged silently.
#include "measure/measure.h"
#include "measure/sides.h"

#include <catch2/catch.hpp>

#include <cmath>

#include "feet.h"

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr std::uint64_t seed = 5150;

Reading whole(View view, Limb limb = Limb::left_fore) {
  feet::Random random(seed);
  auto reading = feet::reading(feet::any(view, random));
  reading.limb = limb;
  return reading;
}

int measurable(const Reading& reading) {
  int count = 0;
  for (const auto& each : measure_reading(reading, feet::spreads(), {}))
    count += each.measurable() ? 1 : 0;
  return count;
}

std::string only_sentence(const Reading& reading) {
  const auto found = contradictions(reading);
  REQUIRE(found.size() == 1);
  return found[0];
}

PictureSide other(PictureSide side) {
  return side == PictureSide::left ? PictureSide::right : PictureSide::left;
}

} // namespace

// Truth: law, agreeing statements
TEST_CASE("statements that agree give no contradiction", "[measure]") {
  for (const auto view : {View::lateromedial, View::dorsopalmar})
    for (const auto limb : {Limb::left_fore, Limb::right_fore, Limb::left_hind, Limb::right_hind}) {
      auto reading = whole(view, limb);
      CHECK(contradictions(reading).empty());
      reading.hints = {.left_limb = is_left(limb),
                       .toward = reading.toward,
                       .marker_is_left = is_left(limb),
                       .marker_side = reading.toward};
      CHECK(contradictions(reading).empty());
      CHECK_FALSE(landmarks_swapped(reading));
    }
}

// Truth: the sentences a person must see, word for word
TEST_CASE("each contradiction is told in one sentence", "[measure]") {
  auto reading = whole(View::lateromedial, Limb::right_fore);
  reading.hints.left_limb = true;
  CHECK(only_sentence(reading) ==
        "The picture's header says left limb, the reading says right fore.");
  reading.hints = {.marker_is_left = true};
  CHECK(only_sentence(reading) == "The lead letter says left limb, the reading says right fore.");
  reading.hints = {.toward = PictureSide::right};
  CHECK(only_sentence(reading) ==
        "The picture's header puts the toe on the right, the reading on the left.");
  // In a side view the letter marks no side of the foot.
  reading.hints = {.marker_side = PictureSide::right};
  CHECK(contradictions(reading).empty());

  auto front = whole(View::dorsopalmar, Limb::left_hind);
  front.hints = {.left_limb = false};
  CHECK(only_sentence(front) ==
        "The picture's header says right limb, the reading says left hind.");
  front.hints = {.toward = PictureSide::right};
  CHECK(only_sentence(front) ==
        "The picture's header puts the lateral side on the right, the reading on the left.");
  front.hints = {.marker_side = PictureSide::right};
  CHECK(only_sentence(front) == "The lead letter lies on the right, where letters mark lateral; "
                                "the reading puts lateral on the left.");
}

// Truth: law, three independent statements that are wrong are three sentences
TEST_CASE("contradictions don't hide each other", "[measure]") {
  auto front = whole(View::dorsopalmar, Limb::left_fore);
  front.hints = {.left_limb = false,
                 .toward = PictureSide::right,
                 .marker_is_left = false,
                 .marker_side = PictureSide::right};
  CHECK(contradictions(front).size() == 4);
}

// Truth: law; a front view with a contradiction has no numbers until a person has looked
TEST_CASE("a contradiction stops the front view until a person has checked it", "[measure]") {
  for (const SideHints hints : {SideHints{.left_limb = false},
                                SideHints{.toward = PictureSide::right},
                                SideHints{.marker_is_left = false},
                                SideHints{.marker_side = PictureSide::right}}) {
    auto front = whole(View::dorsopalmar);
    const int all = measurable(front);
    REQUIRE(all > 15);
    front.hints = hints;
    CHECK(measurable(front) == 0);
    const auto stopped = measure_reading(front, feet::spreads(), {});
    CHECK(stopped.front().reason == "the statements about sides contradict each other");
    front.sides_checked = SidesChecked::by_person;
    CHECK(measurable(front) == all);
    CHECK(contradictions(front).size() == 1); // still told
  }
}

// Truth: law, mirrored statement: medial and lateral are never exchanged to make a reading fit
TEST_CASE("medial and lateral are never exchanged silently", "[measure]") {
  auto front = whole(View::dorsopalmar);
  front.toward = other(front.toward);
  CHECK(measurable(front) == 0);
  CHECK(landmarks_swapped(front).value_or("").find("lateral lies on the other side") !=
        std::string::npos);
  CHECK(contradictions(front).size() == 1);
  // Not even a person's word makes lateral lie where medial was placed.
  front.sides_checked = SidesChecked::by_person;
  CHECK(measurable(front) == 0);
}

// Truth: law, each pair alone gives an exchange away
TEST_CASE("one exchanged pair of the front view is enough to stop it", "[measure]") {
  for (const std::string stem : {"ground-",
                                 "dip-p2-",
                                 "dip-p3-",
                                 "p3-articular-",
                                 "p3-distal-border-",
                                 "coronet-",
                                 "wall-ground-",
                                 "wall-proximal-"}) {
    auto front = whole(View::dorsopalmar);
    for (auto& landmark : front.landmarks) {
      if (landmark.id == stem + "medial")
        landmark.id = stem + "lateral";
      else if (landmark.id == stem + "lateral")
        landmark.id = stem + "medial";
    }
    INFO(stem);
    const auto reason = landmarks_swapped(front).value_or("");
    CHECK(reason.find(stem + "medial") != std::string::npos);
    CHECK(measurable(front) == 0);
  }
}

// Truth: law, mirrored statement
TEST_CASE("a toe on the wrong side stops the side view", "[measure]") {
  auto reading = whole(View::lateromedial);
  reading.toward = other(reading.toward);
  CHECK(measurable(reading) == 0);
  const auto sentence = only_sentence(reading);
  CHECK(sentence.find("the toe lies on the other side") != std::string::npos);
}

// Truth: law, picture turned by 180 degrees, the toe then stated where it is seen: every slope
// would turn its sign
TEST_CASE("a foot that stands on its head is refused in both views", "[measure]") {
  for (const auto view : {View::lateromedial, View::dorsopalmar}) {
    auto turned = whole(view);
    for (auto& landmark : turned.landmarks)
      landmark.at = {2000 - landmark.at.x, 2000 - landmark.at.y};
    turned.toward = other(turned.toward);
    CHECK(measurable(turned) == 0);
    CHECK(landmarks_swapped(turned).value_or("").find("stands on its head") != std::string::npos);
  }
}

// Truth: law; the side view's angles don't depend on left or right, so a wrong limb is told but
// stops nothing
TEST_CASE("a wrong limb is told in the side view and changes no number", "[measure]") {
  auto reading = whole(View::lateromedial, Limb::right_fore);
  const int all = measurable(reading);
  reading.hints.left_limb = true;
  CHECK(contradictions(reading).size() == 1);
  CHECK(measurable(reading) == all);
}

// Truth: law, bands never carry over from fore to hind
TEST_CASE("a band of fore feet is never held against a hind foot", "[measure]") {
  const Bands bands = {{.measurement = "palmar-angle", .low = 2, .high = 10}};
  const auto fore = measure_reading(whole(View::lateromedial), feet::spreads(), bands);
  CHECK(find(fore, "palmar-angle")->band);
  const auto hind =
      measure_reading(whole(View::lateromedial, Limb::left_hind), feet::spreads(), bands);
  CHECK_FALSE(find(hind, "palmar-angle")->band);
  CHECK(find(hind, "palmar-angle")->status == Status::no_band);
}

// Truth: law, interval arithmetic: 6 +- 2 * 0.9 lies in 2..10, 3 +- 1.8 crosses 2, 0 +- 1.8 lies
// below
TEST_CASE("a status is given only when the whole interval agrees", "[measure]") {
  const Band both{.measurement = "palmar-angle", .low = 2, .high = 10};
  CHECK(status_of(6, 0.9, both) == Status::within);
  CHECK(status_of(3, 0.9, both) == Status::cannot_tell);
  CHECK(status_of(0, 0.9, both) == Status::below);
  CHECK(status_of(9, 0.9, both) == Status::cannot_tell);
  CHECK(status_of(12, 0.9, both) == Status::above);
  CHECK(status_of(6, 5, both) == Status::cannot_tell);
  CHECK(status_of(6, 0.9, std::nullopt) == Status::no_band);
  const Band floor{.measurement = "sole-depth-tip", .low = 15};
  CHECK(status_of(17, 0.9, floor) == Status::within);
  CHECK(status_of(16, 0.9, floor) == Status::cannot_tell);
  CHECK(status_of(13, 0.9, floor) == Status::below);
}

// Truth: the trade's words: palmar of a fore foot is plantar of a hind one
TEST_CASE("hind feet are spoken of as plantar", "[measure]") {
  CHECK(worded_for(Limb::left_hind, "Palmar angle, palmar process, MC3") ==
        "Plantar angle, plantar process, MT3");
  CHECK(worded_for(Limb::left_fore, "Palmar angle") == "Palmar angle");
  CHECK(for_people(View::dorsopalmar, Limb::right_hind) == "dorsoplantar");
  CHECK(for_people(View::dorsopalmar, Limb::right_fore) == "dorsopalmar");
  CHECK(for_people(Limb::right_hind) == "right hind");
}

// Truth: law, every word of the file formats is read back as what it was written for
TEST_CASE("the words of the file formats go there and back", "[measure]") {
  for (const auto view : {View::lateromedial, View::dorsopalmar})
    CHECK(view_from(key(view)) == view);
  for (const auto limb : {Limb::left_fore, Limb::right_fore, Limb::left_hind, Limb::right_hind})
    CHECK(limb_from(key(limb)) == limb);
  for (const auto shoeing : {Shoeing::bare, Shoeing::shod})
    CHECK(shoeing_from(key(shoeing)) == shoeing);
  for (const auto loading : {Loading::weight_bearing, Loading::not_loaded, Loading::not_stated})
    CHECK(loading_from(key(loading)) == loading);
  CHECK_FALSE(view_from("oblique"));
  CHECK_FALSE(limb_from("left fore"));
  CHECK_FALSE(limb_from(""));
}
