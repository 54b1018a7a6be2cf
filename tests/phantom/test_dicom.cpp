#include "phantom/sample_case.h"
#include "phantom/truth_json.h"
#include "phantom/write_dicom.h"

#include <catch2/catch.hpp>
#include <dcmtk/config/osconfig.h>
#include <dcmtk/dcmdata/dctk.h>
#include <dcmtk/dcmjpeg/djdecode.h>
#include <nlohmann/json.hpp>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <set>

using namespace pritchel::phantom;

namespace {

std::filesystem::path scratch() {
  const auto folder = std::filesystem::temp_directory_path() / "pritchel-test-phantom";
  std::filesystem::create_directories(folder);
  return folder;
}

struct Case {
  FootParameters parameters;
  Shot shot;
  Film film;
};

Case small_case(Side side, View view, Polarity polarity = Polarity::monochrome2) {
  Case c;
  c.parameters = random_foot(11, Limb::fore, side);
  const Foot foot = make_foot(c.parameters);
  c.shot = framed_shot(foot, view, Facing::left, 1.2);
  c.shot.spacing_y_mm = 0.6;
  c.shot.rows *= 2;
  c.shot.centre_row *= 2;
  c.shot.polarity = polarity;
  c.film = make_film(foot, c.shot, Quality::draft);
  return c;
}

std::filesystem::path written(const Case& c, const std::string& name, const DicomOptions& options) {
  const auto path = scratch() / name;
  const auto result = write_dicom(path, c.film, make_foot(c.parameters), c.shot, {}, {}, options);
  REQUIRE(result);
  return path;
}

std::string text_of(DcmItem& item, const DcmTagKey& tag) {
  OFString value;
  return item.findAndGetOFStringArray(tag, value).good() ? value.c_str() : "";
}

bool installed(const char* program) {
  const std::string look = std::string("command -v ") + program + " >/dev/null 2>&1";
  return std::system(look.c_str()) == 0; // NOLINT(cert-env33-c): a fixed command of a test
}

} // namespace

TEST_CASE("the file says which horse, limb, view and spacing it holds") {
  const Case c = small_case(Side::right, View::dorsopalmar);
  const auto path = written(c, "dp.dcm", {.packing = Packing::raw});
  DcmFileFormat file;
  REQUIRE(file.loadFile(path.c_str()).good());
  DcmDataset& data = *file.getDataset();
  CHECK(text_of(data, DCM_SOPClassUID) == UID_DigitalXRayImageStorageForPresentation);
  CHECK(text_of(data, DCM_AnatomicalOrientationType) == "QUADRUPED");
  CHECK(text_of(data, DCM_ImageLaterality) == "R");
  CHECK(text_of(data, DCM_PatientOrientation) == "M\\DI");
  CHECK(text_of(data, DCM_ImagerPixelSpacing) == "0.6\\1.2"); // row spacing first
  CHECK(text_of(data, DCM_PixelSpacing).empty());
  CHECK(text_of(data, DCM_DistanceSourceToDetector) == "700");
  DcmItem* view = nullptr;
  REQUIRE(data.findAndGetSequenceItem(DCM_ViewCodeSequence, view).good());
  CHECK(text_of(*view, DCM_CodeValue) == "441505008");
  const Uint16* pixels = nullptr;
  unsigned long count = 0;
  REQUIRE(data.findAndGetUint16Array(DCM_PixelData, pixels, &count).good());
  REQUIRE(count == c.film.values.size());
  CHECK(std::equal(c.film.values.begin(), c.film.values.end(), pixels));
}

// Truth: DICOM PS3.3 C.7.6.1.1.1: quadruped letters of the row's and the column's direction.
TEST_CASE("patient orientation follows view and facing") {
  const Case c = small_case(Side::left, View::lateromedial);
  for (const auto& [facing, letters] :
       {std::pair{Facing::left, "PA\\DI"}, {Facing::right, "D\\DI"}}) {
    Case turned = c;
    turned.shot.facing = facing;
    DcmFileFormat file;
    REQUIRE(file.loadFile(written(turned, "lm.dcm", {.packing = Packing::raw}).c_str()).good());
    CHECK(text_of(*file.getDataset(), DCM_PatientOrientation) == letters);
  }
}

TEST_CASE("lossless packing and both polarities give the film's values back") {
  DJDecoderRegistration::registerCodecs();
  const Case c = small_case(Side::left, View::lateromedial, Polarity::monochrome1);
  DcmFileFormat file;
  REQUIRE(file.loadFile(written(c, "packed.dcm", {}).c_str()).good());
  DcmDataset& data = *file.getDataset();
  CHECK(data.getOriginalXfer() == EXS_JPEGProcess14SV1);
  REQUIRE(data.chooseRepresentation(EXS_LittleEndianExplicit, nullptr).good());
  const Uint16* pixels = nullptr;
  unsigned long count = 0;
  REQUIRE(data.findAndGetUint16Array(DCM_PixelData, pixels, &count).good());
  REQUIRE(count == c.film.values.size());
  CHECK(text_of(data, DCM_PhotometricInterpretation) == "MONOCHROME1");
  bool same = true;
  for (std::size_t i = 0; i < count; ++i)
    same = same && pixels[i] == (1 << stored_bits) - 1 - c.film.values[i];
  CHECK(same);
  DJDecoderRegistration::cleanup();
}

// Truth: DICOM PS3.3 10.7: Pixel Spacing is in the patient, Imager Pixel Spacing at the detector;
// their quotient is the magnification 700 / 630.
TEST_CASE("each way of stating the scale writes the attributes it should") {
  const Case c = small_case(Side::left, View::lateromedial);
  const auto read = [&](SpacingNote note) {
    DcmFileFormat file;
    REQUIRE(file.loadFile(written(c, "note.dcm", {.spacing = note}).c_str()).good());
    DcmDataset& d = *file.getDataset();
    return std::array{text_of(d, DCM_ImagerPixelSpacing),
                      text_of(d, DCM_PixelSpacing),
                      text_of(d, DCM_PixelSpacingCalibrationType)};
  };
  using Three = std::array<std::string, 3>;
  CHECK(read(SpacingNote::none) == Three{"", "", ""});
  CHECK(read(SpacingNote::equal_pixel) == Three{"0.6\\1.2", "0.6\\1.2", ""});
  CHECK(read(SpacingNote::untyped) == Three{"0.6\\1.2", "0.54\\1.08", ""});
  CHECK(read(SpacingNote::fiducial) == Three{"0.6\\1.2", "0.54\\1.08", "FIDUCIAL"});
  CHECK(read(SpacingNote::geometry) == Three{"0.6\\1.2", "0.54\\1.08", "GEOMETRY"});
}

// Truth: dciodvfy (dicom3tools), an independent checker of the standard's object definitions.
TEST_CASE("an independent checker finds no error in the files") {
  if (!installed("dciodvfy")) {
    WARN("skipped: dciodvfy is not installed");
    return;
  }
  for (const View view : {View::lateromedial, View::dorsopalmar})
    for (const SpacingNote note : {SpacingNote::detector_only, SpacingNote::fiducial}) {
      const auto path = written(small_case(Side::left, view), "check.dcm", {.spacing = note});
      const std::string command = "dciodvfy " + path.string() + " 2>&1 | grep -q '^Error'";
      CHECK(std::system(command.c_str()) != 0); // NOLINT(cert-env33-c): a fixed command of a test
    }
}

TEST_CASE("identifiers depend on seed and purpose alone and have the form of 2.25") {
  CHECK(identifier(1, "study") == identifier(1, "study"));
  std::set<std::string> seen;
  for (std::uint64_t seed = 0; seed < 50; ++seed)
    for (const char* purpose : {"study", "series L LM", "series L DP"}) {
      const std::string uid = identifier(seed, purpose);
      CHECK(uid.rfind("2.25.", 0) == 0);
      CHECK(uid.size() <= 64);
      CHECK(uid.find_first_not_of("0123456789.") == std::string::npos);
      seen.insert(uid);
    }
  CHECK(seen.size() == 150);
}

TEST_CASE("the sample case is two visits of both fore feet from two sides, each picture its own") {
  const auto pictures = sample_case();
  REQUIRE(pictures.size() == 8);
  std::set<std::string> names;
  for (const SamplePicture& p : pictures)
    names.insert(p.name);
  CHECK(names.size() == 8);
}

TEST_CASE("truth and reading are JSON that names the same landmarks, near each other") {
  const SamplePicture picture = sample_case().front();
  const Foot foot = make_foot(picture.foot);
  const auto truth = nlohmann::json::parse(truth_json(foot, picture.shot, "a.dcm"));
  const auto reading = nlohmann::json::parse(
      reading_json(foot, picture.shot, "a.dcm", {.name = "Ada Example", .made = "", .seed = 3}));
  CHECK(reading["format"] == "pritchel-reading");
  CHECK(reading["limb"] == "left-fore");
  CHECK(reading["landmarks"].size() > 25);
  constexpr double farthest_px = 100; // 13 mm: four deviations of the loosest landmark and a little
  for (const auto& [id, at] : reading["landmarks"].items()) {
    INFO(id);
    REQUIRE(truth["landmarks"].contains(id));
    CHECK(std::abs(at[0].get<double>() - truth["landmarks"][id]["px"][0].get<double>()) <
          farthest_px);
    CHECK(std::abs(at[1].get<double>() - truth["landmarks"][id]["px"][1].get<double>()) <
          farthest_px);
  }
}
