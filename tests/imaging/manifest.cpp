#include "manifest.h"

#include "base/digest.h"
#include "imaging/load.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <fstream>
#include <iterator>
#include <numeric>

using namespace pritchel;
using namespace pritchel::imaging;

namespace truth {
namespace {

Manifest read(const std::filesystem::path& folder) {
  std::ifstream file(folder / "manifest.json");
  return {.folder = folder, .entries = nlohmann::json::parse(file)};
}

double mean_of(const Picture& picture) {
  const auto sum = std::accumulate(picture.samples.begin(), picture.samples.end(), std::int64_t{0});
  return static_cast<double>(sum) / static_cast<double>(picture.samples.size()) + picture.offset;
}

void check_values(const Picture& picture, const nlohmann::json& entry) {
  const auto [low, high] = std::minmax_element(picture.samples.begin(), picture.samples.end());
  // Lossy decoders agreed within the manifest's tolerance; lossless ones sample by sample.
  const int tolerance = entry.value("lossy", false) ? entry.value("tolerance", 0) : 0;
  CHECK(std::abs(*low + picture.offset - entry["min"].get<int>()) <= tolerance);
  CHECK(std::abs(*high + picture.offset - entry["max"].get<int>()) <= tolerance);
  // The manifest prints means to six decimals.
  CHECK(mean_of(picture) == Approx(entry["mean"].get<double>()).margin(tolerance + 1e-6));
  if (entry.contains("sha256_pixels"))
    CHECK(digest_of_stored(picture) == entry["sha256_pixels"]);
  else
    CHECK(entry.value("lossy", false));
}

void check_pair(const std::optional<PixelSize>& got, const nlohmann::json& said, const char* key) {
  if (!said.contains(key))
    return;
  INFO(key);
  REQUIRE(got);
  CHECK(got->row_mm == Approx(said[key][0].get<double>()));
  CHECK(got->column_mm == Approx(said[key][1].get<double>()));
}

void check_number(std::optional<double> got, const nlohmann::json& said, const char* key) {
  if (!said.contains(key))
    return;
  INFO(key);
  REQUIRE(got);
  CHECK(*got == Approx(said[key].get<double>()));
}

void check_spacing(const Spacing& got, const nlohmann::json& entry) {
  if (!entry.contains("spacing") || entry["spacing"].is_null())
    return;
  const auto& said = entry["spacing"];
  check_pair(got.pixel_spacing, said, "PixelSpacing");
  check_pair(got.imager_pixel_spacing, said, "ImagerPixelSpacing");
  check_pair(got.detector_element_spacing, said, "DetectorElementSpacing");
  check_number(got.distance_source_to_detector_mm, said, "DistanceSourceToDetector");
  check_number(got.distance_source_to_patient_mm, said, "DistanceSourceToPatient");
  check_number(got.magnification_factor, said, "EstimatedRadiographicMagnificationFactor");
}

void check_decoded(const Result<Picture>& picture, const nlohmann::json& entry) {
  if (!picture) {
    FAIL_CHECK(picture.error().sentence());
    return;
  }
  CHECK(picture->columns == entry["cols"]);
  CHECK(picture->rows == entry["rows"]);
  CHECK(picture->bits_stored == entry["bits_stored"]);
  CHECK(picture->inverse == (entry["photometric"] == "MONOCHROME1"));
  check_values(*picture, entry);
  check_spacing(picture->spacing, entry);
  if (entry.contains("patient_name_utf8"))
    CHECK(picture->facts.patient_name == entry["patient_name_utf8"]);
}

void check_refused(const Result<Picture>& picture, const std::string& name) {
  REQUIRE_FALSE(picture);
  const auto sentence = picture.error().sentence();
  INFO(sentence);
  CHECK(sentence.rfind(name + " ", 0) == 0);
  CHECK(sentence.back() == '.');
  CHECK(sentence.find('\n') == std::string::npos);
  CHECK(sentence.size() < 250);
}

} // namespace

Manifest kept_files() {
  return read(std::filesystem::path(PRITCHEL_SOURCE_DIR) / "tests/truth/dicom");
}

std::optional<Manifest> all_files() {
  const auto folder = std::filesystem::path(PRITCHEL_SOURCE_DIR) / "../shared/data/dicom";
  if (!std::filesystem::exists(folder / "manifest.json"))
    return std::nullopt;
  return read(folder);
}

std::vector<char> file_bytes(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::string digest_of_stored(const Picture& picture) {
  std::vector<char> bytes;
  bytes.reserve(2 * picture.samples.size());
  for (const auto sample : picture.samples) {
    const auto stored = static_cast<std::uint32_t>(sample + picture.offset);
    bytes.push_back(static_cast<char>(stored & 0xFFU));
    bytes.push_back(static_cast<char>(stored >> 8U & 0xFFU));
  }
  return sha256_hex(bytes);
}

Tally check_all(const Manifest& manifest) {
  Tally tally;
  for (const auto& entry : manifest.entries) {
    const auto path = manifest.folder / entry["file"].get<std::string>();
    INFO(path.filename().string());
    const auto start = std::chrono::steady_clock::now();
    const auto picture = load_picture_file(path);
    const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
    if (std::getenv("PRITCHEL_TELL") != nullptr)
      WARN(path.filename().string()
           << " " << took.count() << " ms " << (picture ? "" : picture.error().sentence()));
    if (entry["expect"] == "decode") {
      check_decoded(picture, entry);
      ++tally.decoded;
    } else {
      check_refused(picture, path.filename().string());
      ++tally.refused;
    }
  }
  return tally;
}

} // namespace truth
