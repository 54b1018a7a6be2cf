#include "sample_photos.h"

#include "drawing/definition_svg.h"
#include "measure/checks.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <utility>

namespace sample {
namespace {

using namespace pritchel;

const practice::Practice& shipped() {
  static const auto loaded =
      practice::load_practice(std::filesystem::path(PRITCHEL_SOURCE_DIR) / "templates");
  return *loaded;
}

const practice::Protocol& protocol_of(std::string_view id) {
  const auto& all = shipped().protocols;
  return *std::find_if(all.begin(), all.end(), [&](const auto& each) { return each.id == id; });
}

double schematic_height_mm(const practice::Protocol& protocol) {
  std::ifstream file(std::filesystem::path(PRITCHEL_SOURCE_DIR) / "templates/protocols" /
                     protocol.schematic);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const auto drawn = drawing::schematic(text);
  return protocol.schematic_width_mm * drawn.height / drawn.width;
}

/// Square-on millimetres to pixels: 2 mm a pixel at the top left, smaller to the right and below.
Homography camera(double mm_per_px) {
  const double per_mm = 1 / mm_per_px;
  return {per_mm, 0.03 * per_mm, 20, -0.02 * per_mm, per_mm, 30, 4e-5, 6e-5, 1};
}

imaging::Picture tones(int columns, int rows) {
  imaging::Picture made{.kind = imaging::PictureKind::photo, .columns = columns, .rows = rows};
  made.rgb.reserve(static_cast<std::size_t>(columns) * static_cast<std::size_t>(rows) * 3);
  for (int y = 0; y < rows; ++y)
    for (int x = 0; x < columns; ++x) {
      const int light = 90 + 60 * y / rows + 30 * x / columns;
      for (const int channel : {light + 15, light, light - 25})
        made.rgb.push_back(static_cast<std::uint8_t>(channel));
    }
  return made;
}

Calibration calibration(Scale scale, const Homography& to_pixels, double mm_per_px) {
  if (scale == Scale::none)
    return {};
  Calibration made{.origin = ScaleOrigin::card,
                   .pixel_width_mm = mm_per_px,
                   .pixel_height_mm = mm_per_px,
                   .relative_uncertainty = 0.005};
  made.rectification = Rectification{.map = *inverse(to_pixels)};
  made.cautions = {"Nobody said how far the card stood from the limb."};
  made.sentence = "Printed card (A4), 35 corners found.";
  return made;
}

} // namespace

report::PictureSheet
photo(std::string_view id, measure::Limb limb, Scale scale, const std::vector<Moved>& moved) {
  const auto& protocol = protocol_of(id);
  const double high_mm = schematic_height_mm(protocol);
  const double mm_per_px = std::max(protocol.schematic_width_mm, high_mm) / 1000;
  const auto to_pixels = camera(mm_per_px);
  const int columns = static_cast<int>(protocol.schematic_width_mm / mm_per_px) + 20;
  const int rows = static_cast<int>(high_mm / mm_per_px) + 20;
  report::PictureSheet made{.picture = tones(columns, rows),
                            .calibration = calibration(scale, to_pixels, mm_per_px)};
  made.entry = {.digest = std::string(63, 'c') + std::string(1, id.front()),
                .file_name = std::string(id) + ".jpg",
                .columns = columns,
                .rows = rows,
                .taken = "2026-05-04",
                .view = protocol.view,
                .protocol = std::string(id),
                .limb = limb,
                .toward = PictureSide::right,
                .loading = protocol.view == measure::View::limb_hanging
                               ? measure::Loading::not_loaded
                               : measure::Loading::weight_bearing};
  made.reading = {.picture = made.entry.digest,
                  .reader = "A. Reader",
                  .saved = "2026-05-04T10:00:00Z",
                  .revision = 1};
  for (const auto& guide : protocol.landmarks) {
    if (made.reading.landmarks.size() == 63)
      break;
    ImagePoint at{guide.schematic_x * protocol.schematic_width_mm, guide.schematic_y * high_mm};
    for (const auto& [landmark, by] : moved)
      if (landmark == guide.id)
        at = {at.x + by.x, at.y - by.y};
    made.reading.landmarks.push_back(
        {guide.id, pritchel::apply(to_pixels, at), measure::Placement::by_hand});
  }
  const auto reading = record::reading_of(made.entry, made.reading, made.calibration);
  const auto spreads = practice::spreads(protocol);
  made.measurements = measure::measure_reading(reading, spreads, shipped().bands);
  made.checks = measure::check_reading(reading, spreads);
  return made;
}

report::PictureSheet photo(std::string_view protocol, measure::Limb limb, Scale scale) {
  return photo(protocol, limb, scale, {});
}

report::ReportInput visit_of(std::vector<report::PictureSheet> pictures) {
  auto input = visit(Scale::none);
  input.pictures = std::move(pictures);
  input.visit.pictures.clear();
  for (const auto& each : input.pictures)
    input.visit.pictures.push_back(each.entry);
  input.case_.visits = {input.visit};
  return input;
}

} // namespace sample
