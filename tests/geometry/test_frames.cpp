#include "geometry/angle.h"
#include "geometry/calibration.h"
#include "geometry/line.h"

#include <catch2/catch.hpp>

using namespace pritchel;

template <class A, class B>
concept Subtractable = requires(A a, B b) {
  a - b;
};
static_assert(Subtractable<PlanePoint, PlanePoint>);
static_assert(!Subtractable<ImagePoint, PlanePoint>, "frames must not mix");

// Truth: geometry, 3-4-5 triangle
TEST_CASE("distance from a line is positive to its left and turns sign with the line",
          "[geometry]") {
  const Line<double> line{{0, 0}, {4, 3}};
  CHECK(distance_from(line, PlanePoint{-3, 4}) == Approx(5));
  CHECK(distance_from(Line<double>{line.b, line.a}, PlanePoint{-3, 4}) == Approx(-5));
  const auto foot = foot_of_perpendicular(line, PlanePoint{4 - 3, 3 + 4});
  CHECK(foot.x == Approx(4));
  CHECK(foot.y == Approx(3));
}

// Truth: geometry
TEST_CASE("a point and its way along a direction meet the line", "[geometry]") {
  const Line<double> wall{{10, 0}, {0, 10}};
  CHECK(distance_along(PlanePoint{2, 2}, PlaneVector{1, 0}, wall) == Approx(6));
  CHECK(meets(PlaneVector{1, 0}, wall));
  CHECK_FALSE(meets(PlaneVector{-1, 1}, wall));
}

// Truth: law, mirrored picture: the same foot stored either way gives the same plane shape
TEST_CASE("pixels map to the plane and back, whichever way the toe points", "[geometry]") {
  Calibration calibration{
      .origin = ScaleOrigin::marker, .pixel_width_mm = 0.1, .pixel_height_mm = 0.2};
  for (const auto side : {PictureSide::left, PictureSide::right}) {
    const PlaneMap map(calibration, side);
    const ImagePoint p{812.25, 400.5};
    const auto back = map.to_image(map.to_plane(p));
    CHECK(back.x == Approx(p.x));
    CHECK(back.y == Approx(p.y));
  }
  const auto right = PlaneMap(calibration, PictureSide::right).to_plane({300, 800});
  CHECK(right.x == Approx(30));
  CHECK(right.y == Approx(-160));
  const auto left = PlaneMap(calibration, PictureSide::left).to_plane({300, 800});
  CHECK(left.x == Approx(-30));
}

// Truth: geometry
TEST_CASE("differences of slopes wrap into one turn", "[geometry]") {
  CHECK(wrapped_degrees(-212.752) == Approx(147.248));
  CHECK(wrapped_degrees(180.0) == Approx(180));
  CHECK(wrapped_degrees(-180.0) == Approx(180));
}
