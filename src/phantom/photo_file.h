/// Rendered photos as files: JPEG with the few EXIF entries a phone writes, or PNG; truth as JSON.
#pragma once

#include "base/result.h"
#include "phantom/photo.h"

#include <filesystem>

namespace pritchel::phantom {

/// JPEG of the parameters' quality, with FocalLengthIn35mmFilm and DateTimeOriginal.
/// Source: Exif 2.3 (CIPA DC-008) section 4.6; TIFF 6.0 section 2.
[[nodiscard]] Result<std::vector<std::uint8_t>> photo_jpeg(const PhotoRaster& raster,
                                                           const PhotoParameters& parameters);

[[nodiscard]] std::string photo_truth_json(const PhotoParameters& parameters,
                                           const PhotoTruth& truth,
                                           const std::string& picture);

/// NAME.jpg and NAME.truth.json.
[[nodiscard]] Result<void> write_photo(const std::filesystem::path& folder,
                                       const std::string& name,
                                       const PhotoParameters& parameters,
                                       const PrintedSheet* sheet);

} // namespace pritchel::phantom
