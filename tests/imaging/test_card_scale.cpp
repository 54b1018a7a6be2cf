#include "imaging/find_card.h"
#include "imaging/plane_fit.h"
#include "imaging/scale.h"

#include <catch2/catch.hpp>
#include <opencv2/calib3d.hpp>

#include <cmath>
#include <random>

#include "card_photo.h"

using namespace pritchel;
using namespace pritchel::imaging;
using namespace pritchel::imaging::test;

namespace {

using Kind = ScaleStatement::Kind;

double lens_of_focal(const CardPhoto& photo) {
  return photo.focal_px * std::hypot(36.0, 24.0) / std::hypot(photo.columns, photo.rows);
}

ScaleStatement said_of(const CardPhoto& photo, const std::vector<CardCorner>& corners) {
  ScaleStatement said{.kind = Kind::card};
  said.card_paper = std::string(key(photo.paper));
  said.card_corners = corners;
  said.card_offset_mm = 0;
  said.lens_35mm = lens_of_focal(photo);
  return said;
}

Result<Calibration>
scale_of(const CardPhoto& photo, const ScaleStatement& said, std::vector<ImagePoint> reach = {}) {
  return calibrate({}, std::nullopt, photo.columns, photo.rows, said, reach);
}

/// Of the card's plane: 100 mm round its middle.
std::vector<ImagePoint> near_card(const CardPhoto& photo) {
  const auto m = board_middle(card(photo.paper));
  return seen(photo, {{m.x - 100, m.y}, {m.x + 100, m.y}, {m.x, m.y - 100}, {m.x, m.y + 100}});
}

bool mentions(const std::vector<std::string>& sentences, const std::string& words) {
  for (const auto& each : sentences)
    if (each.find(words) != std::string::npos)
      return true;
  return false;
}

std::vector<PlanePair> pairs_of(const CardPhoto& photo, double jitter_px, std::mt19937& random) {
  std::normal_distribution<double> noise(0, 1);
  std::vector<PlanePair> pairs;
  for (const auto& each : true_corners(photo)) {
    const auto place = corner(card(photo.paper), each.id);
    pairs.push_back(
        {.in_plane = {place.x, place.y},
         .seen = {each.at.x + jitter_px * noise(random), each.at.y + jitter_px * noise(random)}});
  }
  return pairs;
}

CameraView view_of(const CardPhoto& photo, double k1_unsure) {
  return {.centre = {(photo.columns - 1) / 2.0, (photo.rows - 1) / 2.0},
          .focal_px = photo.focal_px,
          .k1_unsure = k1_unsure,
          .corner_r = std::hypot(photo.columns, photo.rows) / 2 / photo.focal_px};
}

} // namespace

// Truth: a direct linear solution by exact fractions, and OpenCV's: the unit square onto (10,10)
// (30,12) (28,32) (8,28)
TEST_CASE("a fitted plane is the known homography, to nine digits", "[imaging]") {
  const Homography known{17.0588235294118,
                         -2.07843137254902,
                         10,
                         0.823529411764706,
                         17.7254901960784,
                         10,
                         -0.0980392156862745,
                         -0.00980392156862745,
                         1};
  const auto middle = pritchel::apply(known, {0.5, 0.5});
  CHECK(middle.x == Approx(3568.0 / 193).epsilon(1e-12));
  CHECK(middle.y == Approx(3932.0 / 193).epsilon(1e-12));
  std::vector<PlanePair> pairs;
  for (const double x : {0.0, 0.5, 1.0})
    for (const double y : {0.0, 0.5, 1.0})
      pairs.push_back({.in_plane = {x, y}, .seen = pritchel::apply(known, {x, y})});
  const auto fit = fit_plane(pairs, {.centre = {20, 20}, .focal_px = 40});
  REQUIRE(fit);
  const double known_places[][4] = {{0.25, 0.5, 13.62626263, 19.64646465},
                                    {0.5, 0, 19.48453608, 10.94845361},
                                    {2, 1, 52.9382716, 36.98765432}};
  for (const auto& [x, y, u, v] : known_places) {
    const ImagePoint at{x, y};
    CHECK(pritchel::apply(fit->to_picture, at).x == Approx(u).margin(1e-7));
    CHECK(pritchel::apply(fit->to_picture, at).y == Approx(v).margin(1e-7));
  }
  pairs.resize(5);
  CHECK_FALSE(fit_plane(pairs, {.centre = {20, 20}, .focal_px = 40}));
}

// Truth: OpenCV's findHomography on the same noisy corners
TEST_CASE("the least-squares plane is OpenCV's", "[imaging]") {
  std::mt19937 random(5);
  const CardPhoto photo{.right = 200, .down = 300, .yaw_deg = 15, .pitch_deg = -8};
  const auto pairs = pairs_of(photo, 0.4, random);
  const auto fit = fit_plane(pairs, view_of(photo, 0));
  REQUIRE(fit);
  std::vector<cv::Point2d> from, to, out;
  for (const auto& each : pairs) {
    from.emplace_back(each.in_plane.x, each.in_plane.y);
    to.emplace_back(each.seen.x, each.seen.y);
  }
  const cv::Mat theirs = cv::findHomography(from, to);
  cv::perspectiveTransform(from, out, theirs);
  constexpr double their_stop = 2e-3; // px; OpenCV holds points as floats
  for (std::size_t i = 0; i < from.size(); ++i) {
    const auto mine = pritchel::apply(fit->to_picture, {from[i].x, from[i].y});
    CHECK(mine.x == Approx(out[i].x).margin(their_stop));
    CHECK(mine.y == Approx(out[i].y).margin(their_stop));
  }
}

// Truth: OpenCV's projectPoints made the corners, its undistortPoints straightens
TEST_CASE("a bending lens is found from the card and taken out as OpenCV does", "[imaging]") {
  std::mt19937 random(6);
  const CardPhoto photo{
      .focal_px = 2500, .k1 = -0.12, .right = 100, .down = 150, .away = 700, .yaw_deg = 10};
  const auto fit = fit_plane(pairs_of(photo, 0.05, random), view_of(photo, 0.01));
  REQUIRE(fit);
  CHECK(fit->distortion == PlaneFit::Distortion::fitted);
  CHECK(fit->k1 == Approx(-0.12).margin(0.006));
  const Lens lens{.centre = view_of(photo, 0).centre, .focal_px = 2500, .k1 = -0.12};
  const cv::Matx33d camera(2500, 0, lens.centre.x, 0, 2500, lens.centre.y, 0, 0, 1);
  std::vector<cv::Point2d> out;
  const std::vector<cv::Point2d> in{{1800, 2500}, {200, 300}};
  cv::undistortPoints(in,
                      out,
                      camera,
                      cv::Vec4d(-0.12, 0, 0, 0),
                      cv::noArray(),
                      camera,
                      {cv::TermCriteria::COUNT | cv::TermCriteria::EPS, 100, 1e-10});
  for (std::size_t i = 0; i < in.size(); ++i)
    CHECK(distance(straightened(lens, {in[i].x, in[i].y}), ImagePoint{out[i].x, out[i].y}) < 1e-3);
  const CardPhoto straight{};
  const auto none = fit_plane(pairs_of(straight, 0.1, random), view_of(straight, 0.01));
  REQUIRE(none);
  CHECK(none->distortion == PlaneFit::Distortion::unknown);
}

// Truth: JCGM 101:2008, Monte Carlo: 2,000 draws of the corners
TEST_CASE("the stated uncertainty of a map is the scatter of maps from jittered corners",
          "[imaging]") {
  std::mt19937 random(7);
  const CardPhoto photo{.right = 250, .down = 400, .yaw_deg = 6, .pitch_deg = 4};
  constexpr int draws = 2000;
  constexpr double jitter_px = 0.25;
  const auto m = board_middle(card(photo.paper));
  const auto at_card = seen(photo, {{m.x, m.y}}).front();
  for (const auto& away : {CardPoint{m.x + 90, m.y - 90}, CardPoint{m.x - 300, m.y - 700}}) {
    const auto place = seen(photo, {away}).front();
    double sum = 0, squares = 0, stated = 0;
    for (int i = 0; i < draws; ++i) {
      const auto fit = fit_plane(pairs_of(photo, jitter_px, random), view_of(photo, 0));
      REQUIRE(fit);
      const auto long_by = [&](const Homography& h) {
        return distance(pritchel::apply(*inverse(h), place), pritchel::apply(*inverse(h), at_card));
      };
      const double here = long_by(fit->to_picture);
      sum += here;
      squares += here * here;
      for (const auto& moved : fit->one_sigma)
        stated += std::pow(long_by(moved.to_picture) - here, 2) / draws;
    }
    const double scatter = std::sqrt(squares / draws - std::pow(sum / draws, 2));
    INFO(scatter << " mm, stated " << std::sqrt(stated));
    CHECK(std::sqrt(stated) == Approx(scatter).epsilon(0.1));
  }
}

// Truth: plane geometry of a pinhole camera; the corners are OpenCV's projection
TEST_CASE("exact corners give exact lengths, the camera's place and the picture's upright",
          "[imaging]") {
  const CardPhoto photo{.right = 150, .down = 250, .away = 1800, .yaw_deg = 12, .roll_deg = 20};
  const auto scale = scale_of(photo, said_of(photo, true_corners(photo)), near_card(photo));
  REQUIRE(scale);
  CHECK(scale->origin == ScaleOrigin::card);
  const auto& map = *scale->rectification;
  const auto ends = seen(photo, {{0, 0}, {210, 297}, {-400, -900}});
  const auto mm = [&](std::size_t i) { return square_on(map.map, map.lens, ends[i]); };
  CHECK(distance(mm(0), mm(1)) == Approx(std::hypot(210, 297)).epsilon(1e-6));
  CHECK(distance(mm(0), mm(2)) == Approx(std::hypot(400, 900)).epsilon(1e-6));
  const auto m = seen(photo, {board_middle(card(photo.paper))}).front();
  const auto down = square_on(map.map, map.lens, {m.x, m.y + 0.5}) -
                    square_on(map.map, map.lens, {m.x, m.y - 0.5});
  CHECK(std::atan2(down.x, down.y) == Approx(0).margin(1e-6));
  CHECK(scale->sentence.find("35 of its 35 corners") != std::string::npos);
  CHECK(scale->sentence.find("1.8 m") != std::string::npos);
  CHECK(scale->sentence.find("12.0\u00b0 from square") != std::string::npos);
}

// Truth: plane geometry: object nearer to the camera than the card by d at D reads too long by
// d/(D - d): 60 mm at 1,500 mm 4.1667 %, 60 mm behind -3.8462 %, 60 mm at 3,000 mm 2.0408 %
TEST_CASE("a card out of the plane of interest is corrected by its stated offset", "[imaging]") {
  const double table[][3] = {{1500, -60, 0.041667}, {1500, 60, -0.038462}, {3000, -60, 0.020408}};
  for (const auto& [away, offset, too_long] : table) {
    const CardPhoto photo{.away = away};
    auto said = said_of(photo, true_corners(photo));
    const auto card_plane = scale_of(photo, said);
    said.card_offset_mm = offset;
    const auto corrected = scale_of(photo, said);
    REQUIRE(corrected);
    CHECK(card_plane->pixel_width_mm / corrected->pixel_width_mm - 1 ==
          Approx(too_long).margin(1e-5));
    CHECK(corrected->relative_uncertainty >= 10 / (away + 60));
    said.card_offset_mm.reset();
    CHECK(mentions(scale_of(photo, said)->cautions, "Nobody said"));
    CHECK(scale_of(photo, said)->relative_uncertainty > corrected->relative_uncertainty);
  }
}

// Truth: plane geometry: a card turned by t shortens by 1 - cos t; 2 % at 11.5 degrees
TEST_CASE("a turned, small or bent card is told, a good one is not", "[imaging]") {
  const CardPhoto good{.away = 2500};
  auto said = said_of(good, true_corners(good));
  said.card_stood = ScaleStatement::CardStood::along_a_board;
  const auto fine = scale_of(good, said, near_card(good));
  REQUIRE(fine);
  CHECK(fine->cautions.empty());
  const CardPhoto turned{.away = 2500, .yaw_deg = 11.5};
  CHECK(
      mentions(scale_of(turned, said_of(turned, true_corners(turned)), near_card(turned))->cautions,
               "from square"));
  std::mt19937 random(8);
  std::normal_distribution<double> noise(0, 0.4);
  const CardPhoto small{.columns = 900, .rows = 1200, .focal_px = 900, .down = 500, .away = 2500};
  auto jittered = true_corners(small);
  for (auto& each : jittered)
    each.at = {each.at.x + noise(random), each.at.y + noise(random)};
  CHECK(mentions(scale_of(small, said_of(small, jittered))->cautions, "too small"));
  auto bent = true_corners(good);
  for (auto& each : bent)
    each.at.y += 2.0 * std::pow((each.id % 5 - 2) / 2.0, 2);
  CHECK(mentions(scale_of(good, said_of(good, bent))->cautions, "bent"));
}

// Truth: law: what cannot be is refused in a sentence
TEST_CASE("absurd statements about a card are refused", "[imaging]") {
  const CardPhoto photo{};
  const auto good = said_of(photo, true_corners(photo));
  REQUIRE(scale_of(photo, good));
  const auto refused = [&](auto change) {
    auto said = good;
    change(said);
    return !scale_of(photo, said);
  };
  CHECK(refused([](auto& s) { s.card_paper = "A3"; }));
  CHECK(refused([](auto& s) { s.card_corners.resize(11); }));
  CHECK(refused([](auto& s) { s.card_corners[3].id = 35; }));
  CHECK(refused([](auto& s) { s.card_corners[3].id = 4; }));
  CHECK(refused([](auto& s) { s.card_corners[3].at.x = std::nan(""); }));
  CHECK(refused([](auto& s) { s.card_corners[3].at.x = -10; }));
  CHECK(refused([](auto& s) { s.card_offset_mm = 1e6; }));
  CHECK(refused([](auto& s) { s.card_bar_mm = 50; }));
  CHECK(refused([](auto& s) { s.camera_distance_mm = -5; }));
  CHECK(refused([](auto& s) {
    for (auto& each : s.card_corners)
      each.at = {1000.0 + each.id, 1000.0 + each.id};
  }));
}

// Truth: the painted photos' own geometry, projected by OpenCV
TEST_CASE("the card is found by itself to a fraction of a pixel", "[imaging]") {
  constexpr double usual_rms = 0.2; // px, at blur 0.8 px and noise of 3 levels
  for (const auto& photo : {
           CardPhoto{.columns = 1500, .rows = 2000, .focal_px = 2000},
           CardPhoto{.columns = 1500, .rows = 2000, .focal_px = 2000, .yaw_deg = 35},
           CardPhoto{.columns = 1500, .rows = 2000, .focal_px = 1800, .yaw_deg = 5, .roll_deg = 40},
           CardPhoto{.columns = 1500, .rows = 2000, .focal_px = 1500, .k1 = -0.1, .away = 900},
           CardPhoto{.paper = CardPaper::letter, .columns = 1200, .rows = 1600, .focal_px = 1200},
       }) {
    const auto found = find_card(painted(photo));
    REQUIRE(found);
    CHECK(found->paper == photo.paper);
    CHECK(found->corners.size() >= 33);
    const auto truth = true_corners(photo);
    double squares = 0;
    for (const auto& each : found->corners) {
      const double off = distance(each.at, truth[static_cast<std::size_t>(each.id)].at);
      CHECK(off < 0.6);
      squares += off * off;
    }
    CHECK(std::sqrt(squares / static_cast<double>(found->corners.size())) < usual_rms);
  }
}

// Truth: law: none rather than a false one
TEST_CASE("no card, too little of one or a radiograph gives a sentence", "[imaging]") {
  CardPhoto photo{.columns = 1000, .rows = 1200, .focal_px = 1200, .away = 1500};
  auto picture = painted(photo);
  for (int y = 0; y < picture.rows; ++y) // all but a strip is covered
    for (int x = 0; x < picture.columns; ++x)
      if (x > 470)
        std::fill_n(picture.rgb.begin() + 3L * (static_cast<long>(y) * picture.columns + x), 3, 90);
  const auto strip = find_card(picture);
  REQUIRE_FALSE(strip);
  photo.right = 9000;
  const auto none = find_card(painted(photo));
  REQUIRE_FALSE(none);
  CHECK(none.error().sentence().find("isn't seen") != std::string::npos);
  CHECK_FALSE(find_card(Picture{}));
}
