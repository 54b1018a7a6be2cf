#include "imaging/encode.h"
#include "imaging/load.h"
#include "imaging/windowing.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <fstream>

#include "manifest.h"

using namespace pritchel;
using namespace pritchel::imaging;

namespace {

using Shape = Window::Shape;

struct Given {
  Shape shape;
  double centre;
  double width;
  double input;
  double output;
};

/// A radiograph of one row: the stored values 0 ... count - 1.
Picture ramp(int count) {
  Picture picture{.kind = PictureKind::radiograph, .columns = count, .rows = 1};
  for (int i = 0; i < count; ++i)
    picture.samples.push_back(static_cast<std::uint16_t>(i));
  return picture;
}

} // namespace

// Truth: DICOM PS3.3 C.11.2.1.2, its formulas and its examples, five decimals
TEST_CASE("windows give the standard's own outputs", "[imaging]") {
  constexpr Given table[] = {{Shape::linear, 2048, 4096, 0, 0},
                             {Shape::linear, 2048, 4096, 1, 0.06227},
                             {Shape::linear, 2048, 4096, 2047, 127.46886},
                             {Shape::linear, 2048, 4096, 2048, 127.53114},
                             {Shape::linear, 2048, 4096, 4094, 254.93773},
                             {Shape::linear, 2048, 4096, 4095, 255},
                             {Shape::linear, 2048, 1, 2047, 0},
                             {Shape::linear, 2048, 1, 2048, 255},
                             {Shape::linear, 0, 100, -50, 0},
                             {Shape::linear, 0, 100, -49, 2.57576},
                             {Shape::linear, 0, 100, 0, 128.78788},
                             {Shape::linear, 0, 100, 48, 252.42424},
                             {Shape::linear, 0, 100, 49, 255},
                             {Shape::linear, 0, 1, -1, 0},
                             {Shape::linear, 0, 1, -0.5, 0},
                             {Shape::linear, 0, 1, 0, 255},
                             {Shape::linear, 128, 256, 1, 1},
                             {Shape::linear, 128, 256, 127, 127},
                             {Shape::linear, 128, 256, 254, 254},
                             {Shape::linear, 50, 350, -124, 0.73066},
                             {Shape::linear, 50, 350, -110, 10.95989},
                             {Shape::linear, 50, 350, 0, 91.33238},
                             {Shape::linear, 50, 350, 100, 164.39828},
                             {Shape::linear, 50, 350, 224, 255},
                             {Shape::linear, 50, 350, 240, 255},
                             {Shape::linear_exact, 2048, 4096, 0, 0},
                             {Shape::linear_exact, 2048, 4096, 1, 0.06226},
                             {Shape::linear_exact, 2048, 4096, 2048, 127.5},
                             {Shape::linear_exact, 2048, 4096, 4095, 254.93774},
                             {Shape::linear_exact, 100, 100, 50, 0},
                             {Shape::linear_exact, 100, 100, 75, 63.75},
                             {Shape::linear_exact, 100, 100, 125, 191.25},
                             {Shape::linear_exact, 100, 100, 150, 255},
                             {Shape::linear_exact, 0, 100, -49, 2.55},
                             {Shape::linear_exact, 0, 100, 49, 252.45},
                             {Shape::sigmoid, 100, 100, 0, 4.58648},
                             {Shape::sigmoid, 100, 100, 50, 30.39675},
                             {Shape::sigmoid, 100, 100, 100, 127.5},
                             {Shape::sigmoid, 100, 100, 125, 186.41994},
                             {Shape::sigmoid, 100, 100, 150, 224.60325},
                             {Shape::sigmoid, 100, 100, 200, 250.41352}};
  // Half of the last printed digit.
  constexpr double rounding = 0.5e-5 + 1e-9;
  for (const auto& [shape, centre, width, input, output] : table) {
    INFO("centre " << centre << " width " << width << " input " << input);
    CHECK(window_output({.centre = centre, .width = width, .shape = shape}, input) ==
          Approx(output).margin(rounding).epsilon(0));
  }
}

// Truth: DICOM PS3.3 C.11.1.1: output = slope * stored + intercept, before the window
TEST_CASE("the window acts after rescale, MONOCHROME1 turns over after the window", "[imaging]") {
  auto picture = ramp(256);
  picture.offset = -128;
  picture.rescale_slope = 2;
  picture.rescale_intercept = 10;
  CHECK(rescaled_value(picture, 128) == 10);
  CHECK(rescaled_value(picture, 100) == -46);
  const Window window{.centre = 10, .width = 100, .shape = Shape::linear_exact};
  auto table = display_table(picture, window);
  CHECK(table.size() == 65536);
  CHECK(table[128] == 128); // 127.5 rounds up
  CHECK(table[103] == 0);   // value -40, the lower edge
  CHECK(table[153] == 255); // value 60, the upper edge
  picture.inverse = true;
  table = display_table(picture, window);
  CHECK(table[103] == 255);
  CHECK(table[153] == 0);
}

// Truth: DICOM PS3.3 C.11.1.1.1, C.11.2.1.1: below the first input the first entry, beyond the last
// the last; entries scale to the full output
TEST_CASE("a VOI lookup table is applied as it stands and can be stretched", "[imaging]") {
  auto picture = ramp(1000);
  picture.voi_lut =
      LookupTable{.first_input = 600, .bits = 8, .entries = {0, 51, 102, 255}, .name = "BONE"};
  const auto window = default_window(picture);
  CHECK(window.shape == Shape::table);
  CHECK(window.name == "BONE");
  const auto table = display_table(picture, window);
  CHECK(table[0] == 0);
  CHECK(table[600] == 0);
  CHECK(table[601] == 51);
  CHECK(table[602] == 102);
  CHECK(table[603] == 255);
  CHECK(table[60000] == 255);
  const auto wider = display_table(
      picture, {.centre = window.centre, .width = 2 * window.width, .shape = Shape::table});
  CHECK(wider[598] == 0);
  CHECK(wider[602] == 102);
  CHECK(wider[606] == 255);
}

// Truth: DICOM PS3.3 C.11.1.1.1
TEST_CASE("a modality lookup table stands in for the rescale", "[imaging]") {
  auto picture = ramp(8);
  picture.modality_lut = LookupTable{.first_input = 2, .bits = 16, .entries = {100, 300, 900}};
  CHECK(rescaled_value(picture, 0) == 100);
  CHECK(rescaled_value(picture, 3) == 300);
  CHECK(rescaled_value(picture, 7) == 900);
}

// Truth: law: percentiles of a known ramp, padding not counted
TEST_CASE("without a window in the header the values themselves decide", "[imaging]") {
  auto picture = ramp(1000);
  auto window = default_window(picture);
  CHECK(is_usable(window));
  // 1st and 99.5th percentile of 0...999, to one value.
  CHECK(window.centre - window.width / 2 == Approx(9).margin(1));
  CHECK(window.centre + window.width / 2 == Approx(994).margin(1));
  picture.padding = PaddingRange{.first = 0, .last = 499};
  window = default_window(picture);
  CHECK(window.centre - window.width / 2 == Approx(504).margin(1));
  auto flat = ramp(1);
  CHECK(is_usable(default_window(flat)));
  flat.windows.push_back({.centre = 7, .width = 3, .shape = Shape::linear, .name = "FIRST"});
  CHECK(default_window(flat).name == "FIRST");
}

TEST_CASE("windows that cannot be are not usable", "[imaging]") {
  CHECK_FALSE(is_usable({.centre = 0, .width = 0.5, .shape = Shape::linear}));
  CHECK(is_usable({.centre = 0, .width = 0.5, .shape = Shape::linear_exact}));
  CHECK_FALSE(is_usable({.centre = 0, .width = 0, .shape = Shape::sigmoid}));
  CHECK_FALSE(is_usable({.centre = std::nan(""), .width = 1, .shape = Shape::sigmoid}));
}

// Truth: dcm2pnm (DCMTK), another program's rendering of the same file and window
TEST_CASE("a rendered radiograph agrees with another program's to one grey level", "[imaging]") {
  const auto file = truth::kept_files().folder / "MR_small.dcm";
  const auto other = std::filesystem::temp_directory_path() / "pritchel_test_render.pgm";
  const std::string command = "dcm2pnm +Ww 600 1600 " + file.string() + " " + other.string();
  REQUIRE(std::system(command.c_str()) == 0);
  const auto picture = load_picture_file(file);
  REQUIRE(picture);
  REQUIRE(picture->windows.size() == 1);
  CHECK(picture->windows[0].centre == 600);
  CHECK(picture->windows[0].width == 1600);
  const auto grey = render_grey(*picture, default_window(*picture));
  const auto pgm = truth::file_bytes(other);
  REQUIRE(pgm.size() > grey.size());
  const auto* theirs = pgm.data() + (pgm.size() - grey.size());
  int greatest = 0;
  for (std::size_t i = 0; i < grey.size(); ++i)
    greatest = std::max(greatest, std::abs(grey[i] - static_cast<std::uint8_t>(theirs[i])));
  // dcm2pnm rounds its table to integers in another way.
  CHECK(greatest <= 1);
}

// Truth: our own reader of PNG and JPEG, itself held against Pillow in test_photo.cpp
TEST_CASE("pictures survive PNG exactly and JPEG nearly", "[imaging]") {
  std::vector<std::uint8_t> pixels;
  for (int y = 0; y < 20; ++y)
    for (int x = 0; x < 30; ++x)
      pixels.push_back(static_cast<std::uint8_t>(4 * x + 5 * y));
  const auto loaded = [](const Result<std::vector<std::uint8_t>>& file) {
    REQUIRE(file);
    const auto* bytes = reinterpret_cast<const char*>(file->data());
    auto picture = load_picture(std::span(bytes, file->size()), "made");
    REQUIRE(picture);
    return *picture;
  };
  const auto png = loaded(encode_png(pixels, 30, 20, Channels::grey));
  const auto jpeg = loaded(encode_jpeg(pixels, 30, 20, Channels::grey, 95));
  REQUIRE(png.columns == 30);
  REQUIRE(jpeg.rows == 20);
  for (std::size_t i = 0; i < pixels.size(); ++i) {
    CHECK(png.rgb[3 * i] == pixels[i]);
    CHECK(std::abs(jpeg.rgb[3 * i] - pixels[i]) <= 6); // a smooth ramp at quality 95
  }
  CHECK_FALSE(encode_png(pixels, 31, 20, Channels::grey));
}

// Truth: geometry: 100 x 50 pixels, twice as high as wide, show a square
TEST_CASE("a thumbnail is true in shape and never enlarged", "[imaging]") {
  Picture picture{.kind = PictureKind::radiograph, .columns = 100, .rows = 50};
  picture.samples.assign(5000, 7);
  picture.spacing.pixel_spacing = PixelSize{.row_mm = 0.2, .column_mm = 0.1};
  const auto size = [&](int longest) {
    const auto file = thumbnail_jpeg(picture, longest);
    REQUIRE(file);
    const auto* bytes = reinterpret_cast<const char*>(file->data());
    const auto small = load_picture(std::span(bytes, file->size()), "made");
    REQUIRE(small);
    return std::pair{small->columns, small->rows};
  };
  CHECK(size(40) == std::pair{40, 40});
  CHECK(size(1000) == std::pair{50, 50});
  picture.spacing.pixel_spacing.reset();
  CHECK(size(1000) == std::pair{100, 50});
}
