#include "drawing/label_places.h"
#include "drawing/overlay.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <variant>

using namespace pritchel;
using namespace pritchel::drawing;

namespace {

constexpr double rounding = 1e-9; // double arithmetic on numbers of a few hundred

/// Case 6 of the worked cases (centre (75, 62), radius 13) and a ground, in mm, on a picture.
measure::Reading joint_reading(double pixel_width, double pixel_height, PictureSide toward) {
  measure::Reading reading{.view = measure::View::lateromedial, .toward = toward};
  reading.calibration = {.origin = ScaleOrigin::marker,
                         .pixel_width_mm = pixel_width,
                         .pixel_height_mm = pixel_height};
  const PlaneMap map(reading.calibration, toward);
  const auto put = [&](const char* id, PlanePoint at) {
    reading.landmarks.push_back({id, map.to_image(at)});
  };
  put("ground-heel", {0, 0});
  put("ground-toe", {150, 0});
  put("p2-distal-condyle-1", {62, 62});
  put("p2-distal-condyle-2", {75, 49});
  put("p2-distal-condyle-3", {87, 57});
  put("p3-tip", {112, 17});
  put("p3-palmar-process", {47, 22});
  return reading;
}

Overlay drawn(const measure::Reading& reading, const std::vector<std::string>& ids) {
  auto options = overlay_options(reading.view, 1000, 1000);
  options.measurements = ids;
  return picture_overlay(reading, measure::measure_reading(reading, {}, {}), options);
}

template <class Shape> std::vector<Shape> all(const Overlay& overlay) {
  std::vector<Shape> found;
  for (const auto& item : overlay)
    if (const auto* shape = std::get_if<Shape>(&item.shape))
      found.push_back(*shape);
  return found;
}

double left_of(const LabelPlace& place, double width) {
  return place.anchor == Anchor::left ? place.at.x : place.at.x - width;
}

} // namespace

// Truth: geometry; circle through (62, 62), (75, 49), (87, 57) has centre (75, 62) and radius 13.
TEST_CASE("a circle becomes an ellipse where pixels are not square", "[drawing]") {
  const auto reading = joint_reading(0.1, 0.2, PictureSide::right);
  const auto circles = all<CircleItem<ImageFrame>>(drawn(reading, {"dip-height"}));
  REQUIRE(circles.size() == 1);
  CHECK(circles[0].centre.x == Approx(750).margin(1e-6));
  CHECK(circles[0].centre.y == Approx(-310).margin(1e-6));
  CHECK(circles[0].radius_x == Approx(130).margin(1e-6));
  CHECK(circles[0].radius_y == Approx(65).margin(1e-6));
}

// Truth: law, mirrored picture: x changes its sign, y stays.
TEST_CASE("turning the toe to the other side mirrors every line", "[drawing]") {
  const auto right = all<LineItem<ImageFrame>>(
      drawn(joint_reading(0.2, 0.2, PictureSide::right), {"palmar-angle"}));
  const auto left = all<LineItem<ImageFrame>>(
      drawn(joint_reading(0.2, 0.2, PictureSide::left), {"palmar-angle"}));
  REQUIRE(right.size() == left.size());
  for (std::size_t i = 0; i + 1 < right.size(); ++i) { // the last is the leader, to its own column
    CHECK(left[i].from.x == Approx(-right[i].from.x).margin(rounding));
    CHECK(left[i].from.y == Approx(right[i].from.y).margin(rounding));
  }
}

// Truth: geometry; the arc of the palmar angle begins on the ground's direction from the tip and
// ends on the line to the palmar process: atan2(5, 65) = 4.399 degrees (worked case 1).
TEST_CASE("the arc of an angle spans the angle that is printed", "[drawing]") {
  const auto reading = joint_reading(0.2, 0.2, PictureSide::right);
  const auto arcs = all<PathItem<ImageFrame>>(drawn(reading, {"palmar-angle"}));
  REQUIRE(arcs.size() == 1);
  const PlaneMap map(reading.calibration, reading.toward);
  const PlanePoint tip{112, 17};
  const auto direction = [&](const ImagePoint& p) {
    const auto v = map.to_plane(p) - tip;
    return std::atan2(v.y, -v.x) * 180 / 3.14159265358979;
  };
  CHECK(direction(arcs[0].points.front()) == Approx(0).margin(1e-6));
  CHECK(direction(arcs[0].points.back()) == Approx(4.399).margin(0.0005)); // source's last digit
}

TEST_CASE("what is not measurable draws nothing", "[drawing]") {
  const auto overlay = drawn(joint_reading(0.2, 0.2, PictureSide::right), {"hoof-angle"});
  CHECK(all<LineItem<ImageFrame>>(overlay).empty());
  CHECK(all<LabelItem<ImageFrame>>(overlay).empty());
  CHECK(all<MarkItem<ImageFrame>>(overlay).size() == 7);
}

TEST_CASE("the proposal is drawn in its own ink and no other line is", "[drawing]") {
  auto options = overlay_options(measure::View::lateromedial, 1000, 1000);
  options.ghost = {{{0, 0}, {100, 0}, measure::Tissue::ground}};
  const auto reading = joint_reading(0.2, 0.2, PictureSide::right);
  const auto overlay = picture_overlay(reading, measure::measure_reading(reading, {}, {}), options);
  int ghosts = 0;
  for (const auto& item : overlay)
    ghosts += item.ink == Ink::proposal ? 1 : 0;
  CHECK(ghosts == 1);
}

TEST_CASE("letters go from a to z and on", "[drawing]") {
  CHECK(letter(0) == "a");
  CHECK(letter(25) == "z");
  CHECK(letter(26) == "aa");
  CHECK(letter(51) == "az");
  CHECK(letter(52) == "ba");
}

// Truth: law, boxes of places computed again from their anchors; 200 random pictures.
TEST_CASE("labels never overlap each other and stay in their room", "[drawing]") {
  std::mt19937 random(20260504);
  std::uniform_real_distribution<double> anywhere(100, 900);
  std::uniform_int_distribution<int> how_many(0, 24);
  const Room room{10, 10, 990, 990};
  const double height = 20;
  for (int round = 0; round < 200; ++round) {
    std::vector<LabelWish> wishes;
    for (int i = how_many(random); i > 0; --i)
      wishes.push_back({{anywhere(random), anywhere(random)}, 90});
    const auto places = label_places(wishes, {}, room, height);
    REQUIRE(places.size() == wishes.size());
    for (std::size_t i = 0; i < places.size(); ++i) {
      CHECK(places[i].at.y - height / 2 >= room.top);
      CHECK(places[i].at.y + height / 2 <= room.bottom);
      for (std::size_t j = i + 1; j < places.size(); ++j) {
        const bool apart_across =
            std::abs(left_of(places[i], 90) - left_of(places[j], 90)) >= 90 - rounding;
        const bool apart_down = std::abs(places[i].at.y - places[j].at.y) >= height;
        CHECK((apart_across || apart_down));
      }
    }
  }
}

// Truth: law; the foot reaches to the left edge, the right column is free.
TEST_CASE("labels keep clear of the foot while there is room", "[drawing]") {
  const Room room{0, 0, 1000, 1000};
  const std::vector<ImagePoint> foot{{5, 5}, {5, 995}, {600, 5}, {600, 995}};
  std::vector<LabelWish> wishes;
  for (int i = 0; i < 12; ++i)
    wishes.push_back({{100.0, 80.0 * i + 20}, 80});
  for (const auto& place : label_places(wishes, foot, room, 20))
    CHECK(place.anchor == Anchor::right);
}

TEST_CASE("the same wishes give the same places", "[drawing]") {
  const std::vector<LabelWish> wishes{{{300, 300}, 80}, {{310, 305}, 80}, {{700, 300}, 80}};
  const auto once = label_places(wishes, {}, {0, 0, 1000, 1000}, 20);
  const auto again = label_places(wishes, {}, {0, 0, 1000, 1000}, 20);
  for (std::size_t i = 0; i < wishes.size(); ++i) {
    CHECK(once[i].at.x == again[i].at.x);
    CHECK(once[i].at.y == again[i].at.y);
  }
}
