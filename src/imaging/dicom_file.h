/// DICOM greyscale pictures through DCMTK. Inside imaging only; load.h is the way in.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"

#include <span>
#include <string>

namespace pritchel::imaging {

/// A DICOM file with its preamble.
[[nodiscard]] bool is_dicom_file(std::span<const char> bytes);

/// Bytes that could be a DICOM data set without preamble: they begin with an element of group 2 or
/// 8 in either byte order.
[[nodiscard]] bool may_be_bare_dicom(std::span<const char> bytes);

/// The picture's first frame and its header. `name` is what errors call the file.
[[nodiscard]] Result<Picture> load_dicom(std::span<const char> bytes, const std::string& name);

} // namespace pritchel::imaging
