#include "imaging/find_marker.h"
#include "imaging/load.h"
#include "imaging/scale.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <random>

using namespace pritchel;
using namespace pritchel::imaging;

namespace {

using Kind = ScaleStatement::Kind;

Picture radiograph_of(const cv::Mat& values) {
  Picture picture{.kind = PictureKind::radiograph, .columns = values.cols, .rows = values.rows};
  for (int y = 0; y < values.rows; ++y)
    for (int x = 0; x < values.cols; ++x)
      picture.samples.push_back(static_cast<std::uint16_t>(
          std::clamp(std::lround(static_cast<double>(values.at<float>(y, x))), 0L, 65535L)));
  return picture;
}

struct Shadow {
  ImagePoint centre{300.3, 260.7};
  double radius = 60;
  double stretch = 1; ///< along x
};

/// Steel's path through the ball, seen through a logarithm that ends at the noise of the detector.
cv::Mat ball_shadow(const Shadow& ball, double blur_px, double noise) {
  constexpr double steel_per_px = 0.4, floor = 0.003;
  cv::Mat beam(520, 640, CV_32F);
  for (int y = 0; y < beam.rows; ++y)
    for (int x = 0; x < beam.cols; ++x) {
      double sum = 0;
      constexpr int fine = 5;
      for (int i = 0; i < fine * fine; ++i) {
        const double px = (x - 0.4 + 0.2 * (i % fine) - ball.centre.x) / ball.stretch;
        const double py = y - 0.4 + 0.2 * (i / fine) - ball.centre.y;
        const double left = ball.radius * ball.radius - px * px - py * py;
        sum += left > 0 ? std::exp(-steel_per_px * 2 * std::sqrt(left)) : 1;
      }
      beam.at<float>(y, x) = static_cast<float>(sum / (fine * fine) + floor);
    }
  cv::GaussianBlur(beam, beam, {0, 0}, blur_px);
  std::mt19937 random(3);
  std::normal_distribution<double> grain(0, noise);
  for (auto it = beam.begin<float>(); it != beam.end<float>(); ++it)
    *it = static_cast<float>(1000 - 500 * std::log(static_cast<double>(*it)) + grain(random));
  return beam;
}

} // namespace

// Truth: the path of a ray through a sphere, 2 sqrt(R^2 - r^2), and Beer and Lambert's law
TEST_CASE("a marker ball is found with a diameter that its uncertainty covers", "[imaging]") {
  for (const double radius : {20.0, 60.0, 95.0})
    for (const double blur : {0.5, 1.0}) {
      const Shadow ball{.radius = radius};
      const auto found = find_balls(radiograph_of(ball_shadow(ball, blur, 12)));
      INFO(radius << " px, blur " << blur);
      REQUIRE(found.size() == 1);
      CHECK(distance(found[0].centre, ball.centre) < 0.1);
      INFO(found[0].diameter_px << " +- " << found[0].unsure_px);
      CHECK(std::abs(found[0].diameter_px - 2 * radius) < 2 * found[0].unsure_px);
      CHECK(found[0].unsure_px < 0.02 * radius + 1.2);
    }
}

// Truth: geometry: off the central ray a ball's shadow is stretched along the ray's slope
TEST_CASE("the short side of a stretched shadow is the ball's diameter", "[imaging]") {
  const Shadow ball{.radius = 80, .stretch = 1.03};
  const auto found = find_balls(radiograph_of(ball_shadow(ball, 0.6, 10)));
  REQUIRE(found.size() == 1);
  CHECK(found[0].diameter_px == Approx(160).margin(2 * found[0].unsure_px));
  CHECK(found[0].diameter_px < 162);
}

// Truth: law: none rather than a false one
TEST_CASE("no ball is seen in noise, in a soft round shadow, in a square or in a photo",
          "[imaging]") {
  CHECK(find_balls(radiograph_of(ball_shadow({.radius = 0.01}, 1, 30))).empty());
  CHECK(find_balls(radiograph_of(ball_shadow({.radius = 60}, 14, 10))).empty());
  cv::Mat square(400, 400, CV_32F, cv::Scalar(1000));
  square(cv::Rect(150, 150, 100, 100)).setTo(4000);
  CHECK(find_balls(radiograph_of(square)).empty());
  Picture photo{.kind = PictureKind::photo, .columns = 50, .rows = 50};
  photo.rgb.assign(std::size_t{3} * 50 * 50, 128);
  CHECK(find_balls(photo).empty());
}

// Truth: the digital foot's own files: a ball of 25 mm in the plane of interest, its millimetres
TEST_CASE("the ball of every sample film gives the scale that the film was made with",
          "[imaging]") {
  const std::string folder = PRITCHEL_SOURCE_DIR "/sample-images/";
  for (const std::string name : {"2026-03-02-left-fore-lateromedial",
                                 "2026-03-02-left-fore-dorsopalmar",
                                 "2026-04-13-right-fore-lateromedial",
                                 "2026-04-13-right-fore-dorsopalmar"}) {
    INFO(name);
    const auto film = load_picture_file(folder + name + ".dcm");
    REQUIRE(film);
    std::ifstream file(folder + name + ".truth.json");
    const auto truth = nlohmann::json::parse(file);
    const auto found = find_balls(*film);
    REQUIRE(found.size() == 1);
    ScaleStatement said{.kind = Kind::ball, .marker_mm = 25};
    said.marker_tolerance_mm = 0;
    said.marker_out_of_plane_mm = 0;
    said.ball_centre = found[0].centre;
    said.ball_diameter_px = found[0].diameter_px;
    said.ball_unsure_px = found[0].unsure_px;
    const auto scale =
        calibrate(film->spacing, film->pixel_aspect, film->columns, film->rows, said);
    REQUIRE(scale);
    const auto& mm = truth["mm_per_pixel"];
    const double known = mm.is_array() ? mm[0].get<double>() : mm.get<double>();
    INFO(scale->pixel_width_mm << " +- " << scale->relative_uncertainty << " against " << known);
    CHECK(std::abs(scale->pixel_width_mm / known - 1) < 2 * scale->relative_uncertainty);
    CHECK(scale->relative_uncertainty < 0.01);
  }
}

// Truth: geometry: a blurred step's half grey is the step
TEST_CASE("a bar's ends are moved to its edges", "[imaging]") {
  cv::Mat values(300, 500, CV_32F, cv::Scalar(900));
  values(cv::Rect(120, 140, 230, 12)).setTo(3800);
  cv::GaussianBlur(values, values, {0, 0}, 1.2);
  const auto found = refine_bar_ends(radiograph_of(values), {124, 145.5}, {343, 145.5});
  REQUIRE(found);
  CHECK(found->end_1.x == Approx(119.5).margin(0.1));
  CHECK(found->end_2.x == Approx(349.5).margin(0.1));
  CHECK(found->end_1.y == Approx(145.5));
  CHECK(found->unsure_px < 1);
  CHECK_FALSE(refine_bar_ends(radiograph_of(values), {124, 40}, {343, 40}));
  CHECK_FALSE(refine_bar_ends(radiograph_of(values), {124, 145}, {130, 145}));
}

// Truth: geometry of the beam: an object d nearer to the source at D from it is shown D/(D - d) too
// large: 30 mm at 630 mm 4.8 to 5 %
TEST_CASE("a marker's known offset is corrected, an unknown one bounded", "[imaging]") {
  ScaleStatement said{.kind = Kind::marker, .marker_mm = 50};
  said.marker_1 = {100, 200};
  said.marker_2 = {500, 200};
  const auto flat = calibrate({}, std::nullopt, 1500, 1800, said);
  said.marker_offset_mm = 30;
  const auto corrected = calibrate({}, std::nullopt, 1500, 1800, said);
  REQUIRE(corrected);
  CHECK(corrected->pixel_width_mm / flat->pixel_width_mm == Approx(630.0 / 600));
  CHECK(flat->sentence.find("If it lies 5 mm out of the plane of interest, lengths are off by at "
                            "most 0.8 %") != std::string::npos);
  said.marker_offset_mm = 700;
  CHECK_FALSE(calibrate({}, std::nullopt, 1500, 1800, said));
  ScaleStatement ball{.kind = Kind::ball, .marker_mm = 25};
  ball.ball_centre = {300, 300};
  ball.ball_diameter_px = 200;
  ball.ball_unsure_px = 0.5;
  ball.marker_tolerance_mm = 0.05;
  const auto by_ball = calibrate({}, 2.0, 1500, 1800, ball);
  REQUIRE(by_ball);
  CHECK(by_ball->pixel_width_mm == Approx(0.125));
  CHECK(by_ball->pixel_height_mm == Approx(0.25));
  CHECK(
      by_ball->relative_uncertainty ==
      Approx(std::sqrt(std::pow(0.5 / 200, 2) + std::pow(0.05 / 25, 2) + std::pow(5.0 / 630, 2))));
  ball.ball_diameter_px = std::nan("");
  CHECK_FALSE(calibrate({}, std::nullopt, 1500, 1800, ball));
}
