#include "imaging/load.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <fstream>

#include "manifest.h"

using namespace pritchel;
using namespace pritchel::imaging;

namespace {

std::filesystem::path made_photos() {
  static const auto folder = [] {
    const auto made = std::filesystem::temp_directory_path() / "pritchel_test_photos";
    // Debian's own Python: another one in front of it on the PATH has no Pillow.
    const std::string command = std::string("/usr/bin/python3 ") + PRITCHEL_SOURCE_DIR +
                                "/tests/imaging/make_photos.py " + made.string();
    REQUIRE(std::system(command.c_str()) == 0);
    return made;
  }();
  return folder;
}

struct Shown {
  int columns = 0;
  int rows = 0;
  std::vector<std::uint8_t> rgb;
};

Shown read_ppm(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::string magic;
  int white = 0;
  Shown shown;
  file >> magic >> shown.columns >> shown.rows >> white;
  REQUIRE(magic == "P6");
  REQUIRE(white == 255);
  file.get();
  shown.rgb.assign(std::istreambuf_iterator<char>(file), {});
  return shown;
}

int greatest_difference(const std::vector<std::uint8_t>& a, const std::vector<std::uint8_t>& b) {
  int greatest = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    greatest = std::max(greatest, std::abs(a[i] - b[i]));
  return greatest;
}

} // namespace

// Truth: Pillow, which decodes each photo and turns it upright by its own reading of Exif
TEST_CASE("photos come out upright in every camera orientation, as Pillow shows them",
          "[imaging]") {
  int checked = 0;
  for (const auto& entry : std::filesystem::directory_iterator(made_photos())) {
    if (entry.path().extension() == ".ppm")
      continue;
    INFO(entry.path().filename().string());
    const auto photo = load_picture_file(entry.path());
    REQUIRE(photo);
    const auto shown = read_ppm(entry.path().string() + ".ppm");
    CHECK(photo->kind == PictureKind::photo);
    REQUIRE(photo->columns == shown.columns);
    REQUIRE(photo->rows == shown.rows);
    REQUIRE(photo->rgb.size() == shown.rgb.size());
    // Two JPEG decoders may round the colour conversion differently by a level or two.
    const int tolerance = entry.path().extension() == ".jpg" ? 3 : 0;
    CHECK(greatest_difference(photo->rgb, shown.rgb) <= tolerance);
    ++checked;
  }
  CHECK(checked == 29);
}

// Truth: the date that make_photos.py wrote into the file
TEST_CASE("a photo tells when it was taken", "[imaging]") {
  const auto photo = load_picture_file(made_photos() / "turned6.jpg");
  REQUIRE(photo);
  CHECK(photo->facts.study_date == "2031-05-17");
}

// Truth: law: part of a photo is not a photo
TEST_CASE("a cut photo is refused at any length and never shown in part", "[imaging]") {
  for (const char* name : {"turned6.jpg", "progressive.jpg", "grey.png", "turned3.tif"}) {
    const auto whole = truth::file_bytes(made_photos() / name);
    for (std::size_t length = 16; length + 16 < whole.size(); length += 61) {
      INFO(name << " cut at " << length);
      const auto photo = load_picture(std::span(whole).first(length), name);
      // A TIFF's directory may stand before its pixels; what was cut behind both is no loss.
      CHECK_FALSE(photo);
    }
  }
}
