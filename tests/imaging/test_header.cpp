#include "imaging/load.h"
#include "imaging/windowing.h"

#include <catch2/catch.hpp>

#include <cstdlib>

#include "manifest.h"

using namespace pritchel;
using namespace pritchel::imaging;

namespace {

/// MR_small.dcm with attributes set by dcmodify (DCMTK's own tool).
Picture modified(const std::vector<std::string>& settings) {
  const auto copy = std::filesystem::temp_directory_path() / "pritchel_test_header.dcm";
  std::filesystem::copy_file(truth::kept_files().folder / "MR_small.dcm",
                             copy,
                             std::filesystem::copy_options::overwrite_existing);
  std::string command = "dcmodify -q -nb -imt";
  for (const auto& setting : settings)
    command += " -i '" + setting + "'";
  REQUIRE(std::system((command + " " + copy.string()).c_str()) == 0);
  const auto picture = load_picture_file(copy);
  if (!picture)
    FAIL(picture.error().sentence());
  return *picture;
}

} // namespace

// Truth: what dcmodify was told to write; tags and meanings of DICOM PS3.6, PS3.3 C.8.11
TEST_CASE("what a header says of the horse and the view is found", "[imaging]") {
  const auto facts = modified({"(0010,0010)=Example^Horse",
                               "(0010,2201)=Equus caballus",
                               "(0010,2292)=Warmblood",
                               "(0010,2297)=Owner^Invented",
                               "(0010,0030)=20190402",
                               "(0008,0020)=20310229",
                               "(0020,0060)=L",
                               "(0020,0062)=R",
                               "(0020,0020)=PA\\DI",
                               "(0018,5101)=LM",
                               "(0018,0015)=HOOF",
                               "(0054,0220)[0].(0008,0100)=399352003",
                               "(0054,0220)[0].(0008,0104)=Lateromedial",
                               "(0008,2218)[0].(0008,0100)=419176008",
                               "(0008,2218)[0].(0008,0104)=Forefoot",
                               "(0028,2110)=01"})
                         .facts;
  CHECK(facts.patient_name == "Example^Horse");
  CHECK(facts.species == "Equus caballus");
  CHECK(facts.breed == "Warmblood");
  CHECK(facts.responsible_person == "Owner^Invented");
  CHECK(facts.birth_date == "2019-04-02");
  CHECK(facts.study_date.empty()); // 29 February 2031 is no date
  CHECK(facts.laterality == 'R');  // of the image, before that of the series
  CHECK(facts.orientation_row == "PA");
  CHECK(facts.orientation_column == "DI");
  CHECK(facts.view_position == "LM");
  CHECK(facts.body_part == "HOOF");
  CHECK(facts.view_code == "399352003");
  CHECK(facts.view_meaning == "Lateromedial");
  CHECK(facts.anatomic_region_code == "419176008");
  CHECK(facts.anatomic_region == "Forefoot");
  CHECK(facts.lossy);
  CHECK(modified({"(0020,0060)=L"}).facts.laterality == 'L');
  CHECK_FALSE(modified({"(0020,0060)=U"}).facts.laterality);
}

// Truth: what dcmodify was told to write
TEST_CASE("each spacing attribute is kept apart", "[imaging]") {
  const auto picture = modified({"(0028,0030)=0.2\\0.1",
                                 "(0028,0A02)=FIDUCIAL",
                                 "(0028,0A04)=ball at the mid-line",
                                 "(0018,1164)=0.3\\0.15",
                                 "(0018,2010)=0.4\\0.2",
                                 "(0018,7022)=0.07\\0.08",
                                 "(0018,1110)=700.5",
                                 "(0018,1111)=+650",
                                 "(0018,1114)=1.1",
                                 "(0028,0034)=4\\3"});
  const auto& spacing = picture.spacing;
  REQUIRE(spacing.pixel_spacing);
  CHECK(spacing.pixel_spacing->row_mm == 0.2);
  CHECK(spacing.pixel_spacing->column_mm == 0.1);
  CHECK(spacing.calibration_type == "FIDUCIAL");
  CHECK(spacing.calibration_description == "ball at the mid-line");
  CHECK(spacing.imager_pixel_spacing->row_mm == 0.3);
  CHECK(spacing.nominal_scanned_spacing->column_mm == 0.2);
  CHECK(spacing.detector_element_spacing->column_mm == 0.08);
  CHECK(spacing.distance_source_to_detector_mm == 700.5);
  CHECK(spacing.distance_source_to_patient_mm == 650);
  CHECK(spacing.magnification_factor == 1.1);
  CHECK(spacing.capture == Spacing::Capture::direct);
  CHECK(*picture.pixel_aspect == Approx(4.0 / 3));
  const auto scan = modified({"(0008,0016)=1.2.840.10008.5.1.4.1.1.7", "(0028,0030)=nonsense"});
  CHECK(scan.spacing.capture == Spacing::Capture::secondary);
  CHECK_FALSE(scan.spacing.pixel_spacing);
  CHECK(scan.notes.size() == 1);
}

// Truth: what dcmodify was told to write
TEST_CASE("windows, tables and padding of a header are found, unusable windows left out",
          "[imaging]") {
  const auto picture = modified({"(0028,1050)=600\\5\\700",
                                 "(0028,1051)=1600\\0\\900",
                                 "(0028,1055)=SOFT\\BROKEN\\BONE",
                                 "(0028,1056)=SIGMOID",
                                 "(0028,0120)=63536",
                                 "(0028,0004)=MONOCHROME1"});
  REQUIRE(picture.windows.size() == 2);
  CHECK(picture.windows[0].name == "SOFT");
  CHECK(picture.windows[1].name == "BONE");
  CHECK(picture.windows[1].centre == 700);
  CHECK(picture.windows[1].width == 900);
  CHECK(picture.windows[1].shape == Window::Shape::sigmoid);
  CHECK(picture.inverse);
  REQUIRE(picture.padding);
  CHECK(picture.padding->first == -2000); // signed pixels: 63,536 is -2,000
  CHECK(picture.offset == -32768);
}

// Truth: what dcmodify was told to write; DICOM PS3.3 C.11.2.1.1
TEST_CASE("a VOI lookup table of a header is read", "[imaging]") {
  const auto picture = modified({"(0028,3010)[0].(0028,3002)=3\\600\\16",
                                 "(0028,3010)[0].(0028,3003)=STEPS",
                                 "(0028,3010)[0].(0028,3006)=0\\8080\\ffff"});
  REQUIRE(picture.voi_lut);
  CHECK(picture.voi_lut->first_input == 600);
  CHECK(picture.voi_lut->bits == 16);
  CHECK(picture.voi_lut->entries == std::vector<std::uint16_t>{0, 0x8080, 0xffff});
  CHECK(picture.voi_lut->name == "STEPS");
}

/// Run by the case below in a process of its own, where the dictionary is out of reach.
TEST_CASE("without its dictionary DICOM is refused by name", "[.][without_dictionary]") {
  const auto picture = load_picture_file(truth::kept_files().folder / "MR_small.dcm");
  REQUIRE_FALSE(picture);
  CHECK(picture.error().thing == "The DICOM dictionary");
  CHECK(picture.error().trouble == Trouble::outside);
}

// Truth: law: a broken installation is told, not a wrong picture shown
TEST_CASE("a missing DICOM dictionary is told as such", "[imaging]") {
  const auto self = std::filesystem::read_symlink("/proc/self/exe").string();
  const std::string command =
      "DCMDICTPATH=/no/such/dictionary.dic " + self + " '[without_dictionary]' > /dev/null";
  CHECK(std::system(command.c_str()) == 0);
}
