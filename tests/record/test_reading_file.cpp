#include "record/reading_file.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>
#include <iterator>

#include "folder.h"

using namespace pritchel;
using namespace pritchel::record;
using nlohmann::json;

namespace {

const std::filesystem::path formats = std::filesystem::path(PRITCHEL_SOURCE_DIR) / "docs/formats";

std::string text_in(const std::filesystem::path& path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

json least() {
  return {{"format", "pritchel-reading"},
          {"version", 1},
          {"picture", "tom.dcm"},
          {"view", "lateromedial"},
          {"limb", "left-fore"},
          {"toward", "left"},
          {"landmarks", {{"p3-tip", {640, 1030}}}}};
}

Result<ReadingFile> read(const json& document) {
  return reading_file_from(document.dump(), "r.json", "films");
}

std::string complaint(const json& document) {
  const auto file = read(document);
  return file ? "accepted" : file.error().sentence();
}

} // namespace

// Truth: docs/formats/examples/reading.json, read by eye
TEST_CASE("the documented example is read as it is written", "[record][reading-file]") {
  const auto file = load_reading_file(formats / "examples/reading.json");
  REQUIRE(file);
  CHECK(file->picture.empty());
  CHECK(file->entry.view == measure::View::lateromedial);
  CHECK(file->entry.limb == measure::Limb::left_fore);
  CHECK(file->entry.toward == PictureSide::left);
  CHECK(file->entry.loading == measure::Loading::weight_bearing);
  CHECK(file->entry.hints.marker_is_left == true);
  CHECK(file->entry.hints.marker_side == PictureSide::right);
  CHECK(file->reading.reader == "Ada Example");
  CHECK(file->reading.landmarks.size() == 26);
  const auto loaded = complete(*file);
  REQUIRE(loaded);
  CHECK(loaded->scaled.calibration.has_scale());
  CHECK(loaded->scaled.calibration.pixel_width_mm == 0.15);
  CHECK(loaded->scaled.calibration.relative_uncertainty == 0.02);
}

TEST_CASE("the example in the prose is the example file", "[record][reading-file]") {
  CHECK(text_in(formats / "reading.md").find(text_in(formats / "examples/reading.json")) !=
        std::string::npos);
}

TEST_CASE("the least reading takes the defaults that the prose states", "[record][reading-file]") {
  const auto file = read(least());
  REQUIRE(file);
  CHECK(file->picture == std::filesystem::path("films/tom.dcm"));
  CHECK(file->entry.shoeing == measure::Shoeing::bare);
  CHECK(file->entry.loading == measure::Loading::not_stated);
  CHECK(file->entry.sides_checked == measure::SidesChecked::no);
  CHECK(file->entry.scale.kind == imaging::ScaleStatement::Kind::automatic);
}

TEST_CASE("each bad value of a reading file is named by its path", "[record][reading-file]") {
  const auto with = [](const std::string& pointer, const json& value) {
    auto document = least();
    document[json::json_pointer(pointer)] = value;
    return complaint(document);
  };
  CHECK(with("/landmarks/p3-tip", {{"x", "a"}, {"y", 1}}) ==
        "r.json: landmarks.p3-tip.x must be a number.");
  CHECK(
      with("/view", "skyline") ==
      "r.json: view must be one of lateromedial, dorsopalmar, foot-side, foot-front, foot-behind, "
      "foot-above, sole, limb-side, limb-front, limb-behind, limb-hanging.");
  CHECK(with("/toward", 3) == "r.json: toward must be one of left, right.");
  CHECK(with("/side_marker", {{"letter", "l"}}) ==
        "r.json: side_marker.letter must be \"L\" or \"R\".");
  CHECK(with("/version", 2) ==
        "r.json: version is 2, newer than this program knows (1); use a newer Pritchel.");
  CHECK(with("/calibration", {{"kind", "spacing"}, {"mm_per_pixel", {15, 15}}}) ==
        "r.json: calibration.mm_per_pixel[0] must be 0.01 to 2; it is 15.");
  CHECK(with("/calibration", {{"kind", "spacing"}}).rfind("r.json: calibration.mm_per_pixel", 0) ==
        0);
  CHECK(with("/calibration", {{"kind", "marker"}, {"length_mm", 25}})
            .rfind("r.json: landmarks.marker-1 is missing", 0) == 0);
  for (const auto field : {"format", "version", "view", "limb", "toward", "landmarks"}) {
    auto document = least();
    document.erase(field);
    CHECK(complaint(document).rfind(std::string("r.json: ") + field + " is missing", 0) == 0);
  }
}

TEST_CASE("a reading without a picture needs a scale of its own and the size",
          "[record][reading-file]") {
  auto document = least();
  document.erase("picture");
  CHECK(complaint(document).rfind("r.json: picture is missing, and this calibration needs", 0) ==
        0);
  document["calibration"] = {{"kind", "none"}};
  CHECK(complaint(document) ==
        "r.json: picture is missing; without it columns and rows must be there.");
  document["columns"] = 1600;
  document["rows"] = 1300;
  REQUIRE(complaint(document) == "accepted");
  const auto loaded = complete(*read(document));
  REQUIRE(loaded);
  CHECK_FALSE(loaded->scaled.calibration.has_scale());
  document["landmarks"]["p3-tip"] = {640, 2601};
  const auto outside = complete(*read(document));
  REQUIRE_FALSE(outside);
  CHECK(outside.error().thing == "landmarks.p3-tip.y");
}

// Truth: law, DICOM's order of spacing: row (height) first, column (width) second
TEST_CASE("a stated spacing is height then width", "[record][reading-file]") {
  auto document = least();
  document.erase("picture");
  document.update({{"columns", 1600},
                   {"rows", 1300},
                   {"calibration", {{"kind", "spacing"}, {"mm_per_pixel", {0.2, 0.1}}}}});
  const auto loaded = complete(*read(document));
  REQUIRE(loaded);
  CHECK(loaded->scaled.calibration.pixel_height_mm == 0.2);
  CHECK(loaded->scaled.calibration.pixel_width_mm == 0.1);
  CHECK(loaded->scaled.calibration.relative_uncertainty == 0.03);
}

TEST_CASE("files that are absent, renamed or cut give one sentence", "[record][reading-file]") {
  const test::Folder folder;
  const auto absent = load_reading_file(folder.path() / "none.json");
  REQUIRE_FALSE(absent);
  CHECK(absent.error().trouble == Trouble::not_found);
  CHECK_FALSE(load_reading_file(folder.path()));
  CHECK_FALSE(load_reading_file(folder.write("text.json", "hello")));
  const auto whole = least().dump();
  CHECK_FALSE(load_reading_file(folder.write("cut.json", whole.substr(0, whole.size() / 2))));
  const auto no_picture = load_reading_file(folder.write("r.json", whole));
  REQUIRE(no_picture);
  const auto loaded = complete(*no_picture);
  REQUIRE_FALSE(loaded);
  CHECK(loaded.error().sentence().find("tom.dcm") != std::string::npos);
}
