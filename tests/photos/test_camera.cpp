#include "phantom/random.h"

#include <catch2/catch.hpp>
#include <opencv2/calib3d.hpp>

#include <cmath>

#include "taken.h"

using namespace pritchel::phantom;

namespace {

/// Rows of the camera's turn, as OpenCV wants them.
cv::Matx33d turn_of(const PhotoLens& lens) {
  const auto& a = lens.axes();
  return {a[0].x, a[0].y, a[0].z, a[1].x, a[1].y, a[1].z, a[2].x, a[2].y, a[2].z};
}

} // namespace

// Truth: OpenCV 4.6, cv::projectPoints with k1 alone.
TEST_CASE("the photo's camera projects as OpenCV does") {
  constexpr double arithmetic_px = 1e-6;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Draws draw{seed};
    PhotoCamera camera;
    camera.focal_35mm = draw.between(24, 120);
    camera.k1 = draw.between(-0.08, 0.08);
    camera.position = {draw.between(-800, 800), draw.between(20, 1800), draw.between(900, 5000)};
    camera.yaw_deg = draw.between(-15, 15);
    camera.pitch_deg = draw.between(-20, 10);
    camera.roll_deg = draw.between(-10, 10);
    const PhotoLens lens{camera};
    std::vector<cv::Point3d> points;
    for (int i = 0; i < 20; ++i)
      points.emplace_back(draw.between(-700, 700), draw.between(0, 1500), draw.between(-300, 300));
    const cv::Matx33d turn = turn_of(lens);
    cv::Vec3d axis;
    cv::Rodrigues(turn, axis);
    const cv::Vec3d shift =
        -(turn * cv::Vec3d(camera.position.x, camera.position.y, camera.position.z));
    const double f = focal_px(camera);
    const cv::Matx33d inner{
        f, 0, 0.5 * (camera.columns - 1), 0, f, 0.5 * (camera.rows - 1), 0, 0, 1};
    std::vector<cv::Point2d> expected;
    cv::projectPoints(points, axis, shift, inner, cv::Vec4d(camera.k1, 0, 0, 0), expected);
    for (std::size_t i = 0; i < points.size(); ++i) {
      const auto p = lens.project({points[i].x, points[i].y, points[i].z});
      if (!p)
        continue; // behind the camera, or where the radial term folds back
      CHECK(p->x == Approx(expected[i].x).margin(arithmetic_px));
      CHECK(p->y == Approx(expected[i].y).margin(arithmetic_px));
      const Vec3 ray = lens.ray(p->x, p->y);
      const Vec3 to_point = unit(Vec3{points[i].x, points[i].y, points[i].z} - lens.eye());
      CHECK(length(ray - to_point) < 1e-9);
    }
  }
}

// Truth: geometry. A disc's pixels have their mean at its middle's projection, but for perspective
// (a 25 mm disc at 2.5 m: under 0.05 px), sampling and noise.
TEST_CASE("a dot's pixels lie about its true centre") {
  constexpr double tolerance_px = 0.15;
  PhotoParameters p{.subject = PhotoSubject::fore_side};
  p.camera = framed_camera(p, 3000, 4, 900);
  p.light = Light::overcast;
  p.coat = Coat::black;
  p.noise = 0;
  p.jpeg_quality = 100;
  p.dot_colours = {Rgb{30, 90, 205}, Rgb{30, 90, 205}};
  for (const std::string& id : dot_places(p.subject))
    p.dots.push_back({id, 0});
  const Taken t = taken(p);
  int checked = 0;
  for (const PhotoDot& dot : t.truth.dots) {
    if (dot.sight != PhotoDot::Sight::visible)
      continue;
    double weight = 0;
    double x = 0;
    double y = 0;
    const int reach = static_cast<int>(dot.diameter_px);
    for (int dy = -reach; dy <= reach; ++dy)
      for (int dx = -reach; dx <= reach; ++dx) {
        const int column = static_cast<int>(std::lround(dot.centre.x)) + dx;
        const int row = static_cast<int>(std::lround(dot.centre.y)) + dy;
        const std::uint8_t* rgb =
            &t.picture.rgb[3 * (static_cast<std::size_t>(row) * t.picture.columns + column)];
        const auto linear = [](std::uint8_t v) { return std::pow(v / 255.0, 2.2); };
        const double blueness = std::max(0.0, linear(rgb[2]) - linear(rgb[0]) - 0.02);
        weight += blueness;
        x += blueness * column;
        y += blueness * row;
      }
    REQUIRE(weight > 0);
    INFO(dot.id << ", slant " << dot.slant_deg << ", " << dot.diameter_px << " px");
    CHECK(x / weight == Approx(dot.centre.x).margin(tolerance_px));
    CHECK(y / weight == Approx(dot.centre.y).margin(tolerance_px));
    ++checked;
  }
  CHECK(checked >= 6);
}

TEST_CASE("the same number gives the same photo") {
  PhotoParameters p = random_photo(5, PhotoSubject::foot_side);
  p.camera = framed_camera(p, 1500, 2, 320);
  const auto a = render_photo(p, nullptr);
  const auto b = render_photo(p, nullptr);
  CHECK(a.rgb == b.rgb);
  p.seed = 6;
  CHECK(render_photo(p, nullptr).rgb != a.rgb);
}
