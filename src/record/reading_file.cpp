#include "record/reading_file.h"

#include "base/file.h"
#include "base/text.h"
#include "imaging/load.h"
#include "record/from_header.h"
#include "record/json.h"
#include "record/json_parts.h"
#include "record/words.h"

#include <fmt/format.h>

namespace pritchel::record {
namespace {

using ScaleKind = imaging::ScaleStatement::Kind;

constexpr std::string_view reading_format = "pritchel-reading";
constexpr int reading_version = 1;
constexpr Range spacing_range{limits::least_spacing_mm, limits::greatest_spacing_mm};
constexpr Range percent_range{0, 50};

StatedSpacing spacing_at(const Node& node) {
  StatedSpacing spacing;
  std::vector<double> values;
  const Node pair = node.need("mm_per_pixel");
  pair.each(2, [&](const Node& each) { values.push_back(each.number(spacing_range)); });
  if (values.size() == 2) {
    spacing.row_mm = values[0];
    spacing.column_mm = values[1];
  } else {
    pair.complain("must be two numbers, [height of a pixel, width of a pixel]");
  }
  spacing.relative_uncertainty =
      node["uncertainty_percent"].number(percent_range, 100 * spacing.relative_uncertainty) / 100;
  return spacing;
}

bool needs_no_picture(const ReadingFile& file) {
  return file.stated_spacing || file.entry.scale.kind == ScaleKind::none;
}

void check_picture(const Node& node, const ReadingFile& file) {
  if (!file.picture.empty())
    return;
  if (!needs_no_picture(file))
    return node["picture"].complain(
        "is missing, and this calibration needs the picture's header",
        R"(name the picture, or give calibration "spacing" or "none" with columns and rows)");
  if (file.entry.columns == 0 || file.entry.rows == 0)
    node["picture"].complain("is missing", "without it columns and rows must be there");
}

void check_marker(const Node& node, const ReadingFile& file) {
  if (file.stated_spacing || file.entry.scale.kind != ScaleKind::marker)
    return;
  const Node landmarks = node["landmarks"];
  for (const auto end : marker_landmarks)
    if (!landmarks[end].is_there())
      landmarks[end].complain("is missing", "calibration \"marker\" needs the marker's two ends");
}

ReadingFile file_at(const Node& node, const std::filesystem::path& folder) {
  ReadingFile file;
  expect_format(node, reading_format, reading_version);
  if (const auto picture = node["picture"].text(); !picture.empty())
    file.picture = folder / picture;
  file.entry.file_name = file.picture.filename().string();
  file.entry.columns = node["columns"].integer(1, limits::picture_side_px);
  file.entry.rows = node["rows"].integer(1, limits::picture_side_px);
  for (const auto* field : {"view", "limb", "toward"})
    static_cast<void>(node.need(field));
  file.entry = with_statements(std::move(file.entry), node);
  read_side_marker(node["side_marker"], file.entry.hints);
  const Node calibration = node["calibration"];
  if (calibration.is_there() && calibration["kind"].is("spacing"))
    file.stated_spacing = spacing_at(calibration);
  else
    file.entry.scale = scale_at(calibration);
  file.reading.reader = node["reader"].text();
  file.reading.saved = node["made"].moment();
  file.reading.landmarks = landmarks_at(node.need("landmarks"));
  check_picture(node, file);
  check_marker(node, file);
  return file;
}

std::string in_words(const StatedSpacing& spacing) {
  return fmt::format("Scale as stated with the reading: a pixel is {} mm wide and {} mm high, "
                     "± {} %.",
                     for_people(spacing.column_mm, 4),
                     for_people(spacing.row_mm, 4),
                     for_people(100 * spacing.relative_uncertainty, 1));
}

Calibration calibration_from(const StatedSpacing& spacing) {
  return {.origin = ScaleOrigin::measured_distances,
          .pixel_width_mm = spacing.column_mm,
          .pixel_height_mm = spacing.row_mm,
          .relative_uncertainty = spacing.relative_uncertainty,
          .nominal_pixel_mm = spacing.column_mm,
          .sentence = in_words(spacing)};
}

Result<imaging::Picture> header_of(const ReadingFile& file) {
  if (file.picture.empty())
    return imaging::Picture{.columns = file.entry.columns, .rows = file.entry.rows};
  return Result<imaging::Picture>(imaging::load_picture_file(file.picture));
}

Result<void> check_size(const ReadingFile& file, const imaging::Picture& picture) {
  const auto differs = [](int said, int real) { return said != 0 && said != real; };
  if (!differs(file.entry.columns, picture.columns) && !differs(file.entry.rows, picture.rows))
    return {};
  return fail(
      file.entry.file_name,
      fmt::format("is {} by {} pixels, not as the reading says", picture.columns, picture.rows),
      "check that the reading names the right picture");
}

} // namespace

Result<ReadingFile> reading_file_from(std::string_view text,
                                      const std::string& name,
                                      const std::filesystem::path& folder) {
  PRITCHEL_TRY(document, parse_json(text, name));
  auto read = read_document(document, [&](const Node& node) { return file_at(node, folder); });
  if (!read)
    read.error().thing = name + ": " + read.error().thing;
  return read;
}

Result<ReadingFile> load_reading_file(const std::filesystem::path& path) {
  PRITCHEL_TRY(text, read_file(path, limits::json_file_bytes));
  return reading_file_from(text, path.filename().string(), path.parent_path());
}

Result<LoadedReading> complete(const ReadingFile& file) {
  PRITCHEL_TRY(picture, header_of(file));
  PRITCHEL_CHECK(check_size(file, picture));
  LoadedReading loaded{.entry = with_header_hints(file.entry, picture.facts),
                       .reading = file.reading};
  loaded.entry.taken = picture.facts.study_date;
  loaded.entry.columns = picture.columns;
  loaded.entry.rows = picture.rows;
  PRITCHEL_CHECK(check_places(loaded.entry, loaded.reading.landmarks));
  if (file.stated_spacing) {
    loaded.scaled.calibration = calibration_from(*file.stated_spacing);
  } else {
    PRITCHEL_TRY(scaled, calibration_of(loaded.entry, loaded.reading, picture));
    loaded.scaled = std::move(scaled);
  }
  loaded.picture = std::move(picture);
  return loaded;
}

} // namespace pritchel::record
