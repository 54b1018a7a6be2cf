/// The reading file: one person's landmarks on one picture, written by hand or by a program.
/// docs/formats/reading.md describes every field.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"
#include "record/case.h"
#include "record/measured.h"

#include <filesystem>
#include <optional>
#include <string_view>

namespace pritchel::record {

/// A pixel's size in the plane of interest, as a person states it.
struct StatedSpacing {
  double row_mm = 0;                  ///< height of a pixel
  double column_mm = 0;               ///< width of a pixel
  double relative_uncertainty = 0.03; ///< own estimate: depth known to half a foot's width
};

struct ReadingFile {
  std::filesystem::path picture; ///< joined to the reading file's folder; empty when none is named
  PictureEntry entry;            ///< size is 0 until the picture was read, unless the file gives it
  ReadingEntry reading;
  std::optional<StatedSpacing> stated_spacing; ///< overrides entry.scale
};

/// Reads and checks the file, not yet the picture.
[[nodiscard]] Result<ReadingFile> load_reading_file(const std::filesystem::path& path);

/// The same for its text; `folder` is what the picture's path is relative to.
[[nodiscard]] Result<ReadingFile> reading_file_from(std::string_view text,
                                                    const std::string& name,
                                                    const std::filesystem::path& folder);

/// A reading ready to be measured: size and header hints taken from the picture, its landmarks
/// checked against the size, its scale found.
struct LoadedReading {
  imaging::Picture picture; ///< without pixels where the file names none
  PictureEntry entry;
  ReadingEntry reading;
  Scaled scaled;
};

/// Reads the picture where the file names one and follows the file's scale.
[[nodiscard]] Result<LoadedReading> complete(const ReadingFile& file);

} // namespace pritchel::record
