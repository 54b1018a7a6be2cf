#include "measure/measure.h"
#include "record/from_header.h"
#include "record/measured.h"

#include <catch2/catch.hpp>

using namespace pritchel;
using namespace pritchel::record;
using measure::Limb;
using measure::View;

namespace {

std::optional<PictureSide> toward(View view, const std::string& row, const std::string& column) {
  return header_hints({.orientation_row = row, .orientation_column = column}, view).toward;
}

} // namespace

// Truth: DICOM PS3.3 C.7.6.1.1.1: the first value is the direction of rows to the right; quadruped
// letters D dorsal, PA palmar, PL plantar, L lateral, M medial, LE left, RT right, DI distal
TEST_CASE("Patient Orientation tells where toe and lateral lie", "[record][header]") {
  CHECK(toward(View::lateromedial, "PA", "DI") == PictureSide::left);
  CHECK(toward(View::lateromedial, "PL", "DI") == PictureSide::left);
  CHECK(toward(View::lateromedial, "D", "DI") == PictureSide::right);
  CHECK(toward(View::lateromedial, "DPR", "DID") == PictureSide::right);
  CHECK(toward(View::dorsopalmar, "M", "DI") == PictureSide::left);
  CHECK(toward(View::dorsopalmar, "L", "DI") == PictureSide::right);
  CHECK(toward(View::dorsopalmar, "L", "PR") == PictureSide::right);
}

TEST_CASE("letters of a biped, of another plane or unknown ones give no hint", "[record][header]") {
  CHECK_FALSE(toward(View::dorsopalmar, "L", "F"));
  CHECK_FALSE(toward(View::lateromedial, "A", "F"));
  CHECK_FALSE(toward(View::dorsopalmar, "LE", "DI"));
  CHECK_FALSE(toward(View::dorsopalmar, "RT", "DI"));
  CHECK_FALSE(toward(View::lateromedial, "DI", "D"));
  CHECK_FALSE(toward(View::lateromedial, "L", "DI"));
  CHECK_FALSE(toward(View::lateromedial, "X", "DI"));
  CHECK_FALSE(toward(View::lateromedial, "", ""));
}

// Truth: DICOM PS3.16 CID 7484 (views) and CID 7482 (regions), SNOMED CT codes
TEST_CASE("an entry is filled in as far as the header speaks", "[record][header]") {
  imaging::Picture picture{.columns = 30, .rows = 20};
  picture.facts = {.study_date = "2026-03-02",
                   .laterality = 'R',
                   .orientation_row = "M",
                   .orientation_column = "DI",
                   .view_code = "399335002",
                   .anatomic_region_code = "416804009"};
  const auto entry = entry_from_header(picture, "tom.dcm", "d");
  CHECK(entry.view == View::dorsopalmar);
  CHECK(entry.limb == Limb::right_hind);
  CHECK(entry.toward == PictureSide::left);
  CHECK(entry.hints.left_limb == false);
  CHECK(entry.hints.toward == PictureSide::left);
  CHECK(entry.taken == "2026-03-02");
  CHECK(entry.columns == 30);
  CHECK(entry.rows == 20);
}

TEST_CASE("View Position is used where there is no code", "[record][header]") {
  const auto view = [](const std::string& code, const std::string& position) {
    imaging::Picture picture;
    picture.facts = {.view_code = code, .view_position = position};
    return entry_from_header(picture, "", "").view;
  };
  CHECK(view("", "DP") == View::dorsopalmar);
  CHECK(view("", "LM") == View::lateromedial);
  CHECK(view("399352003", "DP") == View::lateromedial);
  CHECK(view("441505008", "LM") == View::dorsopalmar);
  CHECK(view("", "") == View::lateromedial);
}

TEST_CASE("a silent header leaves no hints", "[record][header]") {
  const auto entry = entry_from_header(imaging::Picture{}, "", "");
  CHECK_FALSE(entry.hints.left_limb);
  CHECK_FALSE(entry.hints.toward);
  CHECK(entry.taken.empty());
}

TEST_CASE("hints follow the view and keep the lead letter", "[record][header]") {
  PictureEntry entry{.view = View::dorsopalmar};
  entry.hints.marker_is_left = true;
  const imaging::Facts side{.orientation_row = "PA", .orientation_column = "DI"};
  entry.hints.toward = PictureSide::left;
  CHECK_FALSE(with_header_hints(entry, side).hints.toward);
  CHECK(with_header_hints(entry, side).hints.marker_is_left == true);
  entry.view = View::lateromedial;
  CHECK(with_header_hints(entry, side).hints.toward == PictureSide::left);
}

// Truth: geometry, a 50 mm marker over 200 pixels is 0.25 mm a pixel
TEST_CASE("a marker's scale comes from the reading's two marker landmarks", "[record][scale]") {
  PictureEntry entry{.columns = 1000, .rows = 1000};
  entry.scale = {.kind = imaging::ScaleStatement::Kind::marker, .marker_mm = 50};
  imaging::Picture picture{.columns = 1000, .rows = 1000};
  ReadingEntry reading{.landmarks = {{.id = "marker-1", .at = {100, 500}}}};
  const auto without = calibration_of(entry, reading, picture);
  REQUIRE_FALSE(without);
  CHECK_FALSE(calibration_or_none(entry, reading, picture).calibration.has_scale());
  CHECK(calibration_or_none(entry, reading, picture).calibration.sentence.find("marker-2") !=
        std::string::npos);
  reading.landmarks.push_back({.id = "marker-2", .at = {300, 500}});
  const auto scaled = calibration_of(entry, reading, picture);
  REQUIRE(scaled);
  CHECK(scaled->calibration.pixel_width_mm == Approx(0.25).epsilon(1e-12));
}

// Truth: law, where the longer side shows as much as is usual (own estimate, 1500 mm of a limb), an
// angle is as sure without a scale as with the true one.
TEST_CASE("a photo without a scale doubts its angles as a picture of its kind would", "[record]") {
  const imaging::Picture photo{.kind = imaging::PictureKind::photo, .columns = 2000, .rows = 3000};
  const PictureEntry entry{.columns = 2000, .rows = 3000, .view = View::limb_front};
  const ReadingEntry reading{.landmarks = {{.id = "elbow-mid", .at = {1000, 800}},
                                           {.id = "carpus-mid", .at = {1010, 1500}},
                                           {.id = "cannon-mid-proximal", .at = {1010, 1600}},
                                           {.id = "cannon-mid-distal", .at = {1000, 2200}}}};
  const auto doubt = [&](const Calibration& calibration) {
    const auto found = measure::measure_reading(reading_of(entry, reading, calibration), {}, {});
    return measure::find(found, "carpus-frontal")->standard_uncertainty;
  };
  const double with = doubt(
      {.origin = ScaleOrigin::measured_distances, .pixel_width_mm = 0.5, .pixel_height_mm = 0.5});
  REQUIRE(with > 0);
  CHECK(doubt(calibration_or_none(entry, reading, photo).calibration) == Approx(with));
}
