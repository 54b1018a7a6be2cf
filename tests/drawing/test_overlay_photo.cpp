#include "drawing/overlay.h"

#include <catch2/catch.hpp>
#include <opencv2/calib3d.hpp>
#include <opencv2/core.hpp>

#include <cmath>
#include <variant>

using namespace pritchel;
using namespace pritchel::drawing;

namespace {

constexpr double half_pixel = 0.5;
constexpr double focal_px = 1400;
const ImagePoint centre{800, 600};

/// A plane 2 m before a camera that looks at it askew: square-on millimetres to straight pixels.
cv::Matx33d camera() {
  const cv::Matx33d intrinsic{focal_px, 0, centre.x, 0, focal_px, centre.y, 0, 0, 1};
  cv::Matx33d turned;
  cv::Rodrigues(cv::Vec3d{0.12, -0.2, 0.03}, turned);
  const cv::Matx33d in_plane{turned(0, 0),
                             turned(0, 1),
                             -400,
                             turned(1, 0),
                             turned(1, 1),
                             -300,
                             turned(2, 0),
                             turned(2, 1),
                             2000};
  return intrinsic * in_plane;
}

Homography to_plane() {
  const cv::Matx33d map = camera().inv();
  Homography made{};
  for (int i = 0; i < 9; ++i)
    made[static_cast<std::size_t>(i)] = map.val[i];
  return made;
}

/// Square-on millimetres, x right, y down, to the picture; OpenCV's own functions.
cv::Point2d seen(const PlanePoint& p, PictureSide toward, double k1) {
  const double sign = toward == PictureSide::right ? 1 : -1;
  std::vector<cv::Point2d> from{{sign * p.x, -p.y}}, to;
  cv::perspectiveTransform(from, to, camera());
  if (k1 == 0)
    return to[0];
  const cv::Matx33d intrinsic{focal_px, 0, centre.x, 0, focal_px, centre.y, 0, 0, 1};
  const std::vector<cv::Point3d> ray{
      {(to[0].x - centre.x) / focal_px, (to[0].y - centre.y) / focal_px, 1}};
  std::vector<cv::Point2d> bent;
  cv::projectPoints(
      ray, cv::Vec3d{}, cv::Vec3d{}, intrinsic, cv::Mat(cv::Vec4d{k1, 0, 0, 0}), bent);
  return bent[0];
}

measure::Reading photo_reading(PictureSide toward, double k1) {
  measure::Reading reading{.view = measure::View::lateromedial, .toward = toward};
  reading.calibration = {
      .origin = ScaleOrigin::card, .pixel_width_mm = 1.4, .pixel_height_mm = 1.4};
  reading.calibration.rectification = Rectification{.map = to_plane()};
  if (k1 != 0)
    reading.calibration.rectification->lens = Lens{centre, focal_px, k1};
  const double sign = toward == PictureSide::right ? 1 : -1;
  const auto put = [&](const char* id, PlanePoint at) {
    // Places are given from the plane's middle, 300 mm right of its origin and 300 mm down.
    const auto pixel = seen({at.x + sign * 300, at.y - 300}, toward, k1);
    reading.landmarks.push_back({id, {pixel.x, pixel.y}});
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

void check_near(const ImagePoint& got, const cv::Point2d& wanted) {
  CHECK(std::hypot(got.x - wanted.x, got.y - wanted.y) < half_pixel);
}

Overlay drawn(const measure::Reading& reading, const std::vector<std::string>& ids) {
  auto options = overlay_options(reading.view, 1600, 1200);
  options.measurements = ids;
  options.labels = Labels::none;
  options.marks = Marks::none;
  return picture_overlay(reading, measure::measure_reading(reading, {}, {}), options);
}

} // namespace

// Truth: OpenCV perspectiveTransform; the circle has its centre at (75, 62) and radius 13: case 6
// of the worked cases. The line from there to the ground is square to it, so it ends at (75, 0).
TEST_CASE("constructions lie on a rectified photo where OpenCV puts them", "[drawing]") {
  for (const auto toward : {PictureSide::left, PictureSide::right}) {
    const double sign = toward == PictureSide::right ? 1 : -1;
    const auto at = [&](double x, double y) { return seen({x + sign * 300, y - 300}, toward, 0); };
    const auto overlay = drawn(photo_reading(toward, 0), {"dip-height"});
    bool line_found = false, circle_found = false;
    for (const auto& item : overlay) {
      if (const auto* line = std::get_if<LineItem<ImageFrame>>(&item.shape);
          line != nullptr && item.ink == Ink::span) {
        line_found = true;
        check_near(line->from, at(75, 62));
        check_near(line->to, at(75, 0));
      }
      if (const auto* path = std::get_if<PathItem<ImageFrame>>(&item.shape)) {
        circle_found = true;
        const auto steps = static_cast<double>(path->points.size() - 1);
        for (std::size_t i = 0; i < path->points.size(); ++i) {
          const double angle = 2 * CV_PI * static_cast<double>(i) / steps;
          check_near(path->points[i], at(75 + 13 * std::cos(angle), 62 + 13 * std::sin(angle)));
        }
      }
      CHECK_FALSE(std::holds_alternative<CircleItem<ImageFrame>>(item.shape));
    }
    CHECK(line_found);
    CHECK(circle_found);
  }
}

// Truth: OpenCV projectPoints with one radial term; points of the straight line every sixteenth.
TEST_CASE("a straight line is drawn bent where the lens bends it", "[drawing]") {
  constexpr double k1 = -0.15;
  const auto overlay = drawn(photo_reading(PictureSide::right, k1), {"dip-height"});
  bool found = false;
  for (const auto& item : overlay) {
    const auto* path = std::get_if<PathItem<ImageFrame>>(&item.shape);
    if (path == nullptr || item.ink != Ink::span)
      continue;
    found = true;
    const auto steps = static_cast<double>(path->points.size() - 1);
    for (std::size_t i = 0; i < path->points.size(); ++i)
      check_near(path->points[i],
                 seen({75 + 300, 62 * (1 - static_cast<double>(i) / steps) - 300},
                      PictureSide::right,
                      k1));
  }
  CHECK(found);
}

// Truth: geometry, the arc's ends seen from the tip: on the ground's direction and on the line to
// the palmar process, whatever the camera did: atan2(5, 65) = 4.399 degrees (worked case 1).
TEST_CASE("an arc on a rectified photo spans the angle that is printed", "[drawing]") {
  const auto reading = photo_reading(PictureSide::right, 0);
  const PlaneMap map(reading.calibration, reading.toward);
  int arcs = 0;
  for (const auto& item : drawn(reading, {"palmar-angle"}))
    if (const auto* path = std::get_if<PathItem<ImageFrame>>(&item.shape)) {
      ++arcs;
      const auto direction = [&](const ImagePoint& p) {
        const auto v = map.to_plane(p) - PlanePoint{112 + 300, 17 - 300};
        return std::atan2(v.y, v.x);
      };
      const double spanned =
          std::remainder(direction(path->points.back()) - direction(path->points.front()),
                         2 * CV_PI) *
          180 / CV_PI;
      CHECK(std::abs(spanned) == Approx(4.399).margin(0.01));
    }
  CHECK(arcs == 1);
}

TEST_CASE("every view has a main set of its own measurements", "[drawing]") {
  for (const auto& definition : measure::definitions()) {
    const auto set = main_set(definition.view);
    CHECK_FALSE(set.empty());
    for (const auto& id : set) {
      INFO(id);
      const auto* named = measure::definition(id);
      REQUIRE(named != nullptr);
      CHECK(named->view == definition.view);
    }
  }
}
