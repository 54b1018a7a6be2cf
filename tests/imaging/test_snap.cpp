/// Points, strokes and circles that settle on an edge: on drawn edges, and on films of the digital
/// foot with noise, blur, scatter and edge enhancement. PRITCHEL_TEST_TABLE=1 prints the table of
/// docs/accuracy.md, PRITCHEL_TEST_FEET=n takes n feet instead of three.
#include "geometry/circle.h"
#include "imaging/snap.h"
#include "phantom/exposure.h"
#include "phantom/random.h"
#include "phantom/truth.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>
#include <vector>

using namespace pritchel;
using imaging::Picture;
using imaging::Snapping;

namespace {

constexpr double grey_per_fold = 430; // as the digital foot's film has it

/// A film of `exposure(x, y)`, each pixel the mean of 8 by 8 places, with noise of `noise` greys.
template <class Exposure> Picture drawn(int columns, int rows, double noise, Exposure exposure) {
  Picture picture;
  picture.columns = columns;
  picture.rows = rows;
  constexpr int parts = 8;
  for (int y = 0; y < rows; ++y)
    for (int x = 0; x < columns; ++x) {
      double sum = 0;
      for (int i = 0; i < parts * parts; ++i)
        sum += exposure(x + (i % parts + 0.5) / parts - 0.5, y + (i / parts + 0.5) / parts - 0.5);
      const auto pixel = static_cast<std::uint64_t>(y * columns + x);
      const double grey =
          60 - grey_per_fold * std::log(sum / (parts * parts)) + noise * phantom::normal(3, pixel);
      picture.samples.push_back(static_cast<std::uint16_t>(std::clamp(grey, 0.0, 4095.0)));
    }
  return picture;
}

/// Metal that lets a hundredth through lies below a slanted line; a corner far away is as bright,
/// so that the picture's range is that of a film.
constexpr double edge_slope = 0.17;
double edge_at(double x) {
  return 50.37 + edge_slope * x;
}
Picture slanted_edge(double noise) {
  return drawn(160, 120, noise, [](double x, double y) { return y > edge_at(x) ? 0.01 : 1.0; });
}
double off_edge(const ImagePoint& p) {
  return (p.y - edge_at(p.x)) / std::hypot(1.0, edge_slope);
}

/// Own tolerance: a tenth of a pixel is 0.013 mm, a tenth of what is promised.
constexpr double drawn_px = 0.1;
/// A quarter for a round edge, whose sides are steeper than a pixel is wide: 0.03 mm.
constexpr double round_px = 0.25;

constexpr double scattered_mm = 3; // as issue 4 asks
constexpr double repeats_mm = 0.2; // as issue 4 asks
constexpr double reach_mm = 5;     // as the page sends

/// No further off than a careful hand: the landmark's own placement spread across the edge
/// (templates/protocols), mm.
double spread_mm(const std::string& name) {
  const auto has = [&](const char* part) { return name.find(part) != std::string::npos; };
  return has("ground") ? 0.3 : has("p3-dorsal") ? 0.4 : has("sole") ? 0.8 : 0.5;
}

/// Where a ground wire ends the block's own edges go on, half a millimetre beside it; a hand that
/// follows the wire stays within it.
constexpr double inside_mm = 10;

struct FootFilm {
  Picture picture;
  phantom::Truth truth;
  double facing = 1; ///< +1: toe or lateral to the right
  [[nodiscard]] ImagePoint at(const std::string& id) const {
    for (const auto& each : truth.landmarks)
      if (each.landmark.id == id)
        return {each.pixel.x, each.pixel.y};
    FAIL("the digital foot has no " + id);
    return {};
  }
  [[nodiscard]] double px(double mm) const { return mm / truth.mm_per_pixel_x; }
};

/// Feet that nothing was tuned on: tuned were 101 to 106.
constexpr std::uint64_t first_foot = 401;

FootFilm film_of(std::uint64_t seed, phantom::View view) {
  const auto foot = phantom::make_foot(phantom::random_foot(seed));
  const auto facing = seed % 2 == 0 ? phantom::Facing::left : phantom::Facing::right;
  auto shot = phantom::framed_shot(foot, view, facing);
  shot.seed = seed;
  shot.exposure_ratio = 0.5 + 0.25 * static_cast<double>(seed % 5);
  shot.yaw_deg = static_cast<double>(seed % 3) - 1;
  const auto film = phantom::make_film(foot, shot);
  FootFilm made{.truth = phantom::truth_of(foot, shot),
                .facing = facing == phantom::Facing::right ? 1.0 : -1.0};
  made.picture.columns = film.columns;
  made.picture.rows = film.rows;
  made.picture.samples = film.values;
  return made;
}

int feet() {
  const char* asked = std::getenv("PRITCHEL_TEST_FEET");
  return asked == nullptr ? 3 : std::max(1, std::atoi(asked));
}

ImagePoint scattered(const FootFilm& film, const ImagePoint& about, phantom::Draws& draw) {
  for (;;) {
    const double x = draw.between(-1, 1), y = draw.between(-1, 1);
    if (x * x + y * y <= 1)
      return {about.x + film.px(scattered_mm) * x, about.y + film.px(scattered_mm) * y};
  }
}

/// What one landmark's starts gave, in mm across the edge.
struct Column {
  int starts = 0;
  int refused = 0;
  std::vector<double> from_middle; ///< off the median of its film's own starts
  std::vector<double> from_truth;
};

double quantile(std::vector<double> values, double share) {
  if (values.empty())
    return NAN;
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(share * static_cast<double>(values.size() - 1) + 0.5)];
}

void add(Column& column, const std::vector<double>& off_truth) {
  const double middle = quantile(off_truth, 0.5);
  for (const double off : off_truth) {
    column.from_middle.push_back(std::abs(off - middle));
    column.from_truth.push_back(std::abs(off));
  }
}

constexpr int starts = 16;

struct OnLine {
  std::string id;
  std::string from; ///< the edge's true direction
  std::string to;
  Vector<ImageFrame> bright; ///< with the toe to the right
};

Snapping meant(const FootFilm& film, const Vector<ImageFrame>& bright) {
  return {.reach_px = film.px(reach_mm),
          .bright = Vector<ImageFrame>{film.facing * bright.x, bright.y}};
}

/// Both ends of a line, or where a hand follows it.
std::pair<ImagePoint, ImagePoint> ends_of(const FootFilm& film, const OnLine& line) {
  const auto from = film.at(line.from), to = film.at(line.to);
  const double inside = line.id.rfind("ground", 0) == 0 ? film.px(inside_mm) : 0;
  return {from + unit(to - from) * inside, to - unit(to - from) * inside};
}

void point_column(Column& column, const FootFilm& film, const OnLine& line) {
  const auto [from, to] = ends_of(film, line);
  const auto along = unit(to - from);
  const auto truth = line.id == line.from ? from : line.id == line.to ? to : film.at(line.id);
  phantom::Draws draw(11);
  std::vector<double> off;
  for (int i = 0; i < starts; ++i) {
    ++column.starts;
    const auto at =
        imaging::snap_point(film.picture, scattered(film, truth, draw), meant(film, line.bright));
    if (at)
      off.push_back(cross(along, *at - truth) * film.truth.mm_per_pixel_x);
    else
      ++column.refused;
  }
  add(column, off);
}

void stroke_column(Column& column, const FootFilm& film, const OnLine& line) {
  const auto [from, to] = ends_of(film, line);
  const auto along = unit(to - from);
  phantom::Draws draw(12);
  std::vector<double> begins, ends;
  for (int i = 0; i < starts; ++i) {
    const auto a = scattered(film, from, draw), b = scattered(film, to, draw);
    std::vector<ImagePoint> stroke;
    constexpr int points = 24;
    for (int k = 0; k <= points; ++k) {
      const auto on = a + (b - a) * (static_cast<double>(k) / points);
      stroke.push_back({on.x + draw.between(-4, 4), on.y + draw.between(-4, 4)});
    }
    ++column.starts;
    const auto seen = imaging::snap_line(film.picture, stroke, meant(film, line.bright));
    if (!seen) {
      ++column.refused;
      continue;
    }
    begins.push_back(cross(along, seen->from - from) * film.truth.mm_per_pixel_x);
    ends.push_back(cross(along, seen->to - from) * film.truth.mm_per_pixel_x);
  }
  add(column, begins);
  add(column, ends);
}

Circle<double> circle_through(const std::vector<ImagePoint>& points) {
  std::vector<PlanePoint> plain;
  for (const auto& p : points)
    plain.push_back({p.x, p.y});
  return fit_circle(std::span<const PlanePoint>(plain)).value();
}

/// Points across the true circle; the centre along both axes in `centre`.
void circle_column(Column& points_column, Column& centre, const FootFilm& film) {
  std::vector<ImagePoint> truth;
  for (const char* n : {"1", "2", "3"})
    truth.push_back(film.at(std::string("p2-distal-condyle-") + n));
  const auto circle = circle_through(truth);
  phantom::Draws draw(13);
  std::vector<double> off, x, y;
  for (int i = 0; i < starts; ++i) {
    std::vector<ImagePoint> rough;
    for (const auto& p : truth)
      rough.push_back(scattered(film, p, draw));
    ++points_column.starts;
    ++centre.starts;
    const auto seen =
        imaging::snap_circle(film.picture, rough, {.reach_px = film.px(reach_mm), .bright = {}});
    if (!seen) {
      ++points_column.refused;
      ++centre.refused;
      continue;
    }
    const double mm = film.truth.mm_per_pixel_x;
    for (const auto& p : *seen)
      off.push_back((distance(PlanePoint{p.x, p.y}, circle.centre) - circle.radius) * mm);
    const auto found = circle_through(*seen);
    x.push_back((found.centre.x - circle.centre.x) * mm);
    y.push_back((found.centre.y - circle.centre.y) * mm);
  }
  add(points_column, off);
  add(centre, x);
  add(centre, y);
}

void print(const std::string& name, const Column& c) {
  if (std::getenv("PRITCHEL_TEST_TABLE") != nullptr)
    std::printf("| %s | %d of %d | %.3f | %.3f | %.2f | %.2f | %.2f |\n",
                name.c_str(),
                c.refused,
                c.starts,
                quantile(c.from_middle, 0.5),
                quantile(c.from_middle, 0.95),
                quantile(c.from_truth, 0.5),
                quantile(c.from_truth, 0.95),
                quantile(c.from_truth, 1));
}

void check(const std::string& name, const Column& c) {
  INFO(name);
  CHECK(c.refused * 10 <= c.starts);
  CHECK(quantile(c.from_middle, 0.95) <= repeats_mm);
  CHECK(quantile(c.from_truth, 0.5) <= spread_mm(name));
}

} // namespace

// Truth: the drawing. Where half the exposure is left is where the pixel's mean exposure is half,
// on the line itself.
TEST_CASE("a point settles on a drawn edge to a tenth of a pixel", "[snap]") {
  for (const double noise : {0.0, 12.0}) {
    const auto picture = slanted_edge(noise);
    for (const double away : {-17.0, -4.0, 0.0, 9.0, 21.0}) {
      const auto at = imaging::snap_point(
          picture, {80, edge_at(80) + away}, {.reach_px = 30, .bright = Vector<ImageFrame>{0, 1}});
      REQUIRE(at.has_value());
      CHECK(std::abs(off_edge(*at)) < drawn_px);
    }
  }
}

// Truth: the drawing
TEST_CASE("a stroke becomes the line that it was drawn along", "[snap]") {
  const auto picture = slanted_edge(12);
  const std::vector<ImagePoint> stroke{{20, 48}, {60, 66}, {95, 62}, {140, 81}};
  const auto line = imaging::snap_line(picture, stroke, {.reach_px = 20, .bright = {}});
  REQUIRE(line.has_value());
  CHECK(std::abs(off_edge(line->from)) < drawn_px);
  CHECK(std::abs(off_edge(line->to)) < drawn_px);
  CHECK(distance(line->from, stroke.front()) < 8);
}

// Truth: the drawing: a disc that leaves a quarter of the exposure, blurred by its pixels alone
TEST_CASE("three rough points settle on a disc's edge", "[snap]") {
  const ImagePoint centre{71.3, 64.8};
  const double radius = 38.4;
  const auto picture = drawn(150, 140, 10, [&](double x, double y) {
    return distance(ImagePoint{x, y}, centre) < radius ? 0.25 : 1.0;
  });
  const std::vector<ImagePoint> rough{{35, 75}, {70, 110}, {113, 78}};
  const auto seen = imaging::snap_circle(picture, rough, {.reach_px = 20, .bright = {}});
  REQUIRE(seen.has_value());
  for (const auto& p : *seen)
    CHECK(std::abs(distance(p, centre) - radius) < round_px);
}

// Truth: the drawing: pixels twice as high as wide
TEST_CASE("pixels that aren't square change nothing", "[snap]") {
  auto picture =
      drawn(160, 80, 5, [](double x, double y) { return 2 * y > edge_at(x) ? 0.1 : 1.0; });
  picture.pixel_aspect = 2.0;
  const auto at = imaging::snap_point(picture, {80, 28}, {.reach_px = 25, .bright = {}});
  REQUIRE(at.has_value());
  // Half a pixel lies between a place counted in pixels of one height and the other.
  CHECK(std::abs(2 * at->y - edge_at(at->x)) < 4 * drawn_px);
}

// Truth: nothing is drawn, or two edges between which nobody could choose
TEST_CASE("nothing settles where no clear edge is", "[snap]") {
  const auto plain = drawn(160, 120, 12, [](double, double) { return 0.5; });
  CHECK_FALSE(imaging::snap_point(plain, {80, 60}, {.reach_px = 30, .bright = {}}));
  const std::vector<ImagePoint> stroke{{20, 50}, {140, 60}};
  CHECK_FALSE(imaging::snap_line(plain, stroke, {.reach_px = 20, .bright = {}}));
  const std::vector<ImagePoint> three{{40, 60}, {80, 90}, {120, 60}};
  CHECK_FALSE(imaging::snap_circle(plain, three, {.reach_px = 20, .bright = {}}));

  const auto twice = drawn(160, 120, 12, [](double, double y) {
    return y < 45 ? 1.0 : y < 75 ? 0.6 : 0.36;
  });
  CHECK_FALSE(
      imaging::snap_point(twice, {80, 60}, {.reach_px = 25, .bright = Vector<ImageFrame>{0, 1}}));

  const auto edge = slanted_edge(12);
  CHECK_FALSE(imaging::snap_point(
      edge, {80, edge_at(80)}, {.reach_px = 30, .bright = Vector<ImageFrame>{0, -1}}));
  CHECK_FALSE(imaging::snap_point(edge, {NAN, 4}, {.reach_px = 30, .bright = {}}));
  CHECK_FALSE(imaging::snap_point(edge, {-900, 4}, {.reach_px = 30, .bright = {}}));
  CHECK_FALSE(imaging::snap_point(edge, {80, 60}, {.reach_px = 1e9, .bright = {}}));
}

// Truth: the digital foot's own geometry and the way its films are taken; limits as issue 4 asks
TEST_CASE("settling repeats within 0.2 mm from starts scattered by 3 mm, and is right", "[snap]") {
  const Vector<ImageFrame> front{-1, 1}, below{0, 1}, above{0, -1};
  const std::vector<OnLine> side{
      {"ground-heel", "ground-heel", "ground-toe", below},
      {"ground-toe", "ground-heel", "ground-toe", below},
      {"p3-dorsal-distal", "p3-dorsal-distal", "p3-dorsal-proximal", front},
      {"p3-dorsal-proximal", "p3-dorsal-distal", "p3-dorsal-proximal", front},
      {"wall-dorsal-distal", "wall-dorsal-distal", "wall-dorsal-proximal", front},
      {"wall-dorsal-mid", "wall-dorsal-distal", "wall-dorsal-proximal", front},
      {"wall-dorsal-proximal", "wall-dorsal-distal", "wall-dorsal-proximal", front},
      {"sole-b", "sole-b", "sole-a", above}};
  const std::vector<OnLine> frontal{{"ground-medial", "ground-medial", "ground-lateral", below},
                                    {"ground-lateral", "ground-medial", "ground-lateral", below}};
  std::map<std::string, Column> columns;
  for (int i = 0; i < feet(); ++i) {
    const auto seed = first_foot + static_cast<std::uint64_t>(i);
    const auto film = film_of(seed, phantom::View::lateromedial);
    for (const auto& each : side)
      point_column(columns[each.id], film, each);
    for (const std::size_t line : {2U, 4U})
      stroke_column(columns["stroke " + side[line].id], film, side[line]);
    circle_column(columns["p2-distal-condyle"], columns["coffin joint centre"], film);
    const auto from_front = film_of(seed, phantom::View::dorsopalmar);
    for (const auto& each : frontal)
      point_column(columns[each.id], from_front, each);
  }
  for (const auto& [name, column] : columns)
    print(name, column);
  for (const auto& [name, column] : columns)
    check(name, column);
}
