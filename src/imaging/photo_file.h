/// Photos: JPEG, PNG and TIFF through OpenCV, turned upright by hand, because OpenCV 4.6 applies
/// the orientation of some formats and not of others. Inside imaging only; load.h is the way in.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"

#include <optional>
#include <span>
#include <string>

namespace pritchel::imaging {

enum class PhotoFormat { jpeg, png, tiff };

/// By the first bytes.
[[nodiscard]] std::optional<PhotoFormat> photo_format(std::span<const char> bytes);

/// Eight bits a channel, red green blue, as a viewer shows it. Cut files are refused.
[[nodiscard]] Result<Picture>
load_photo(std::span<const char> bytes, PhotoFormat format, const std::string& name);

} // namespace pritchel::imaging
