#include "imaging/scale.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace pritchel;
using namespace pritchel::imaging;

namespace {

using Kind = ScaleStatement::Kind;

constexpr int columns = 1500;
constexpr int rows = 1800;

Spacing imager(double mm) {
  Spacing spacing;
  spacing.imager_pixel_spacing = PixelSize{.row_mm = mm, .column_mm = mm};
  return spacing;
}

Result<Calibration> scale_of(const Spacing& spacing, const ScaleStatement& said) {
  return calibrate(spacing, std::nullopt, columns, rows, said);
}

ScaleStatement marker(double mm, ImagePoint a, ImagePoint b) {
  return {.kind = Kind::marker, .marker_mm = mm, .marker_1 = a, .marker_2 = b};
}

ScaleStatement distances(double source, double object) {
  return {
      .kind = Kind::distances, .source_to_detector_mm = source, .object_to_detector_mm = object};
}

} // namespace

// Truth: geometry of the beam, M = SID/(SID - OID); 0.148 mm over 700/630
TEST_CASE("tape-measured distances give the spacing in the foot's plane", "[imaging]") {
  const auto scale = scale_of(imager(0.148), distances(700, 70));
  REQUIRE(scale);
  CHECK(scale->origin == ScaleOrigin::measured_distances);
  CHECK(scale->pixel_width_mm == Approx(0.13320).margin(1e-6));
  CHECK(500 * scale->pixel_width_mm == Approx(66.6).margin(0.001));
  CHECK(scale->relative_uncertainty == Approx(10.0 / 630));
  CHECK(scale->nominal_pixel_mm == Approx(0.148));
}

// Truth: geometry of the beam, M for six pairs of distances, six decimals
TEST_CASE("the magnification of distances is that of plane geometry", "[imaging]") {
  const double table[][3] = {{700, 50, 1.076923},
                             {700, 70, 1.111111},
                             {700, 80, 1.129032},
                             {700, 100, 1.166667},
                             {1000, 60, 1.063830},
                             {1000, 100, 1.111111}};
  for (const auto& [source, object, magnification] : table) {
    const auto scale = scale_of(imager(0.2), distances(source, object));
    REQUIRE(scale);
    CHECK(0.2 / scale->pixel_width_mm == Approx(magnification).margin(1e-6));
  }
}

// Truth: geometry, 50 mm over 375.4 px = 0.13319 mm
TEST_CASE("a marker in the plane of interest gives the scale", "[imaging]") {
  auto said = marker(50, {100, 200}, {475.4, 200});
  const auto scale = scale_of(imager(0.148), said);
  REQUIRE(scale);
  CHECK(scale->origin == ScaleOrigin::marker);
  CHECK(scale->pixel_width_mm == Approx(0.13319).margin(0.5e-5));
  CHECK(scale->pixel_height_mm == Approx(scale->pixel_width_mm));
  // Edges of 0.2 mm each over 50 mm, size to 0.1 mm, plane to 5 mm at 630 mm, squared and summed.
  CHECK(scale->relative_uncertainty ==
        Approx(std::sqrt(2 * 0.004 * 0.004 + 0.002 * 0.002 + std::pow(5.0 / 630, 2))));
  std::swap(said.marker_1, said.marker_2);
  CHECK(scale_of(imager(0.148), said)->pixel_width_mm == Approx(scale->pixel_width_mm));
  CHECK(scale_conflicts(imager(0.148), *scale).empty());
}

// Truth: geometry, a marker on the slant of a 3-4-5 triangle with pixels twice as high as wide
TEST_CASE("a slanting marker is right on pixels that are not square", "[imaging]") {
  Spacing spacing;
  spacing.pixel_spacing = PixelSize{.row_mm = 0.2, .column_mm = 0.1};
  const auto said = marker(50, {100, 100}, {500, 250}); // 40 mm across, 30 mm down
  const auto scale = scale_of(spacing, said);
  REQUIRE(scale);
  CHECK(scale->pixel_width_mm == Approx(0.1));
  CHECK(scale->pixel_height_mm == Approx(0.2));
  const auto by_ratio = calibrate({}, 2.0, columns, rows, said);
  REQUIRE(by_ratio);
  CHECK(by_ratio->pixel_width_mm == Approx(0.1));
  CHECK(by_ratio->pixel_height_mm == Approx(0.2));
}

// Truth: geometry, atan2(10, 65): Pixel Spacing 0.2\0.1 means 0.2 vertically (DICOM PS3.3 10.7.1.3)
TEST_CASE("angles are right on pixels that are not square, with and without a scale", "[imaging]") {
  Spacing spacing;
  spacing.pixel_spacing = PixelSize{.row_mm = 0.2, .column_mm = 0.1};
  for (const auto kind : {Kind::automatic, Kind::none}) {
    const auto scale = scale_of(spacing, {.kind = kind});
    REQUIRE(scale);
    const PlaneMap map(*scale, PictureSide::left);
    const auto along = map.to_plane({300, 800}) - map.to_plane({950, 750});
    CHECK(std::atan2(-along.y, along.x) * 180 / std::acos(-1.0) == Approx(8.746).margin(0.0005));
  }
}

// Truth: DICOM PS3.3 10.7: without a type and equal to Imager Pixel Spacing it is not calibrated
TEST_CASE("Pixel Spacing equal to the detector's is no calibration", "[imaging]") {
  auto spacing = imager(0.15);
  spacing.pixel_spacing = spacing.imager_pixel_spacing;
  const auto scale = scale_of(spacing, {});
  REQUIRE(scale);
  CHECK(scale->origin == ScaleOrigin::detector_only);
  CHECK(scale->pixel_width_mm == Approx(0.15));
  CHECK_FALSE(scale_of(spacing, {.kind = Kind::header}));
}

// Truth: geometry, 17.2 mm over 1.15 = 14.957 mm
TEST_CASE("a depth on the detector's spacing alone is divided before it meets a limit",
          "[imaging]") {
  const auto scale = scale_of(imager(0.2), {});
  REQUIRE(scale);
  CHECK(86 * scale->pixel_width_mm / safety_divisor(scale->origin) ==
        Approx(14.957).margin(0.0005));
  // Own estimate: reads 5 to 15 % too long, root mean square near 10 %.
  CHECK(scale->relative_uncertainty >= 0.05);
  CHECK(scale->relative_uncertainty <= 0.15);
}

// Truth: DICOM PS3.3 10.7 (meaning of the calibration types); the order is common practice, no
// source
TEST_CASE("the header's own corrections are trusted in their order", "[imaging]") {
  auto spacing = imager(0.15);
  spacing.pixel_spacing = PixelSize{.row_mm = 0.135, .column_mm = 0.135};
  CHECK(scale_of(spacing, {})->origin == ScaleOrigin::header_distances); // corrected, unstated how
  spacing.calibration_type = "GEOMETRY";
  CHECK(scale_of(spacing, {})->origin == ScaleOrigin::header_distances);
  spacing.calibration_type = "FIDUCIAL";
  CHECK(scale_of(spacing, {})->origin == ScaleOrigin::header_distances); // nobody says where
  spacing.calibration_description = "ball at the mid-line";
  const auto scale = scale_of(spacing, {});
  CHECK(scale->origin == ScaleOrigin::fiducial_spacing);
  CHECK(scale->pixel_width_mm == Approx(0.135)); // as it is, never divided again
  CHECK(scale_of(spacing, {.kind = Kind::header})->origin == ScaleOrigin::fiducial_spacing);
  CHECK(scale_of(spacing, {.kind = Kind::detector_only})->pixel_width_mm == Approx(0.15));
}

// Truth: law: divided by the magnification once only
TEST_CASE("a spacing already corrected is not divided again", "[imaging]") {
  Spacing spacing;
  spacing.pixel_spacing = PixelSize{.row_mm = 0.135, .column_mm = 0.135};
  spacing.calibration_type = "GEOMETRY";
  const auto scale = scale_of(spacing, {.kind = Kind::magnification, .magnification = 1.1});
  REQUIRE_FALSE(scale);
  CHECK(scale.error().problem.find("already corrected") != std::string::npos);
  spacing.imager_pixel_spacing = PixelSize{.row_mm = 0.15, .column_mm = 0.15};
  const auto divided = scale_of(spacing, {.kind = Kind::magnification, .magnification = 1.1});
  REQUIRE(divided);
  CHECK(divided->pixel_width_mm == Approx(0.15 / 1.1));
}

// Truth: OutOfBoundsOverlay.dcm's header: 0.085 mm, 650 and 623 mm, magnification 650/623
TEST_CASE("the header's magnification counts from 1.02 to 1.30 only", "[imaging]") {
  auto spacing = imager(0.085);
  spacing.distance_source_to_detector_mm = 650;
  spacing.distance_source_to_patient_mm = 623;
  spacing.magnification_factor = 1.0433386837881;
  const auto scale = scale_of(spacing, {});
  CHECK(scale->origin == ScaleOrigin::header_distances);
  CHECK(scale->pixel_width_mm == Approx(0.085 * 623 / 650));
  for (const double factor : {1.0, 1.019, 1.31, 0.0, -1.0}) {
    spacing.magnification_factor = factor;
    CHECK(scale_of(spacing, {})->origin == ScaleOrigin::detector_only);
  }
}

// Truth: DICOM PS3.3 C.8.11.7: to the table or support, not to the bone
TEST_CASE("Distance Source to Patient never sets the scale", "[imaging]") {
  auto spacing = imager(0.15);
  spacing.distance_source_to_detector_mm = 700;
  spacing.distance_source_to_patient_mm = 630;
  CHECK(scale_of(spacing, {})->pixel_width_mm == Approx(0.15));
  // The header's source-to-detector distance serves where the person gave only the foot's.
  CHECK(scale_of(spacing, distances(0, 70))->pixel_width_mm == Approx(0.15 * 630 / 700));
}

// Truth: law
TEST_CASE("a screen capture's spacing is not trusted, nothing gives no scale", "[imaging]") {
  Spacing spacing;
  spacing.pixel_spacing = PixelSize{.row_mm = 0.2, .column_mm = 0.2};
  CHECK(scale_of(spacing, {})->origin == ScaleOrigin::detector_only);
  spacing.capture = Spacing::Capture::secondary;
  const auto scale = scale_of(spacing, {});
  REQUIRE(scale);
  CHECK_FALSE(scale->has_scale());
  CHECK_FALSE(scale_of(spacing, {.kind = Kind::detector_only}));
  CHECK_FALSE(scale_of(spacing, distances(700, 70)));

  const auto nothing = calibrate({}, 1.5, columns, rows, {});
  REQUIRE(nothing);
  CHECK_FALSE(nothing->has_scale());
  CHECK(nothing->pixel_height_mm / nothing->pixel_width_mm == Approx(1.5));
  CHECK(nothing->nominal_pixel_mm == Approx(250.0 / rows));
}

// Truth: law
TEST_CASE("sources that differ by more than three per cent are told, never averaged", "[imaging]") {
  auto spacing = imager(0.15);
  spacing.magnification_factor = 1.10;
  const auto near = scale_of(spacing, marker(50, {0, 100}, {50 / (0.15 / 1.12), 100}));
  CHECK(scale_conflicts(spacing, *near).empty());
  const auto far = scale_of(spacing, marker(50, {0, 100}, {50 / (0.15 / 1.15), 100}));
  CHECK(far->pixel_width_mm == Approx(0.15 / 1.15));
  CHECK(scale_conflicts(spacing, *far).size() == 1);
  // A marker that makes the foot smaller than its shadow at the detector cannot be.
  const auto shrunk = scale_of(imager(0.15), marker(50, {0, 100}, {50 / 0.16, 100}));
  CHECK(scale_conflicts(imager(0.15), *shrunk).size() == 1);
  CHECK(scale_conflicts(imager(0.15), Calibration{}).empty());
}

// Truth: law: what cannot be is refused in a sentence
TEST_CASE("absurd spacings and statements are refused", "[imaging]") {
  const double nan = std::nan("");
  for (const double mm : {0.0, -0.1, 0.001, 33.3, nan, HUGE_VAL}) {
    INFO(mm);
    CHECK_FALSE(scale_of(imager(mm), {}));
    CHECK_FALSE(scale_of(imager(mm), distances(700, 70)));
    CHECK(scale_of(imager(mm), {.kind = Kind::none}));
    CHECK(scale_of(imager(mm), marker(50, {100, 100}, {475, 100})));
  }
  const auto good = imager(0.15);
  for (const double m : {0.9, 2.1, 0.0, nan})
    CHECK_FALSE(scale_of(good, {.kind = Kind::magnification, .magnification = m}));
  CHECK_FALSE(scale_of(good, distances(700, 700)));
  CHECK_FALSE(scale_of(good, distances(700, -1)));
  CHECK_FALSE(scale_of(good, distances(0, 70)));
  CHECK_FALSE(scale_of(good, distances(nan, nan)));
  for (const double mm : {0.0, 1.9, 501.0, nan})
    CHECK_FALSE(scale_of(good, marker(mm, {100, 100}, {475, 100})));
  CHECK_FALSE(scale_of(good, marker(50, {100, 100}, {100, 100})));
  CHECK_FALSE(scale_of(good, marker(50, {100, 100}, {1600, 100}))); // outside the picture
  CHECK_FALSE(scale_of(good, marker(50, {nan, 100}, {475, 100})));
  CHECK_FALSE(scale_of(good, marker(500, {100, 100}, {106, 100}))); // 83 mm a pixel
}
