#include "imaging/load.h"

#include <catch2/catch.hpp>

#include <random>

#include "manifest.h"

using namespace pritchel;
using namespace pritchel::imaging;

namespace {

/// One small file of each way to encode.
constexpr const char* small_files[] = {"MR_small.dcm",
                                       "MR_small_implicit.dcm",
                                       "MR_small_bigendian.dcm",
                                       "MR_small_RLE.dcm",
                                       "MR_small_jpeg_ls_lossless.dcm",
                                       "JPEG2000.dcm",
                                       "JPEG-lossy.dcm",
                                       "image_dfl.dcm",
                                       "image_dfl_jpeg_baseline.dcm",
                                       "JLSL_08_07_0_1F.dcm",
                                       "emri_small_jpeg_2k_lossless.dcm"};

std::vector<char> kept(const char* name) {
  return truth::file_bytes(truth::kept_files().folder / name);
}

/// Whatever came out, it must be whole: a picture that keeps its invariants, or one sentence.
void check_sound(const Result<Picture>& outcome) {
  if (!outcome) {
    CHECK_FALSE(outcome.error().problem.empty());
    return;
  }
  CHECK(outcome->columns > 0);
  CHECK(outcome->rows > 0);
  CHECK(outcome->samples.size() ==
        static_cast<std::size_t>(outcome->columns) * static_cast<std::size_t>(outcome->rows));
}

} // namespace

// Truth: law: part of a picture is not a picture
TEST_CASE("a DICOM file cut at any length is refused", "[imaging]") {
  for (const char* name : small_files) {
    const auto whole = kept(name);
    REQUIRE(load_picture(whole, name));
    const std::size_t step = 1 + whole.size() / 90;
    for (std::size_t length = 0; length + 200 < whole.size(); length += step) {
      INFO(name << " cut at " << length << " of " << whole.size());
      CHECK_FALSE(load_picture(std::span(whole).first(length), name));
    }
  }
}

// Truth: law: any bytes give a sound picture or a sentence
TEST_CASE("a DICOM file with bytes turned over gives a sound picture or one sentence",
          "[imaging]") {
  constexpr unsigned seed = 20310517;
  std::mt19937 random(seed);
  for (const char* name : small_files) {
    const auto whole = kept(name);
    for (int round = 0; round < 150; ++round) {
      auto bent = whole;
      // Half of the rounds hit the header, where sizes and tags stand.
      const std::size_t reach =
          round % 2 == 0 ? std::min<std::size_t>(bent.size(), 2000) : bent.size();
      for (int hit = 0; hit < 4; ++hit)
        bent[random() % reach] = static_cast<char>(random());
      INFO(name << " round " << round << " seed " << seed);
      check_sound(load_picture(bent, name));
    }
  }
}

// Truth: law
TEST_CASE("other files under a picture's name are refused by what they are", "[imaging]") {
  const auto problem = [](std::string_view bytes) {
    const auto outcome = load_picture(std::span(bytes.data(), bytes.size()), "film.dcm");
    REQUIRE_FALSE(outcome);
    return outcome.error().problem;
  };
  CHECK(problem("") == "is empty");
  CHECK(problem("Dear vet, enclosed please find the film.\n") == "is a text file, not a picture");
  CHECK(problem("%PDF-1.7\n%\x80\x81") == "is a PDF document, not a picture file");
  CHECK(problem(std::string_view("PK\x03\x04\x00\x00\x00\x00", 8)) ==
        "is a ZIP archive, not a picture file");
  CHECK(problem(std::string_view("\x00\x01\x02\x03\x04\x05\x06\x07\x08\x09", 10)) ==
        "is neither DICOM nor a JPEG, PNG or TIFF picture");
}

// Truth: law
TEST_CASE("a missing file is said to be missing", "[imaging]") {
  const auto outcome = load_picture_file("no-such-folder/no-such-film.dcm");
  REQUIRE_FALSE(outcome);
  CHECK(outcome.error().trouble == Trouble::not_found);
  const auto folder = load_picture_file(PRITCHEL_SOURCE_DIR);
  CHECK_FALSE(folder);
}
