/// Reads a picture file of any supported kind, judging by its content, never by its name.
/// Radiograph: DICOM greyscale, 2 to 16 bits, every transfer syntax in common use; of several
/// frames the first. Photo: JPEG, PNG, TIFF. Everything else is refused in one sentence.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"

#include <filesystem>
#include <span>
#include <string>

namespace pritchel::imaging {

/// `name` is what the error sentence calls the file. Never crashes on any bytes. A cut picture
/// is refused rather than shown in part; so is a damaged one, where the format lets damage be seen
/// (bytes changed within a JPEG photo's or an uncompressed film's pixels do not show).
[[nodiscard]] Result<Picture> load_picture(std::span<const char> bytes, const std::string& name);

/// Reads the file after a look at its size (limits::picture_file_bytes).
[[nodiscard]] Result<Picture> load_picture_file(const std::filesystem::path& path);

} // namespace pritchel::imaging
