/// What a DICOM header alone offers as scales, sorted by trust. Inside imaging only; scale.h is the
/// way in. Source of the meanings: DICOM PS3.3 10.7.
#pragma once

#include "geometry/calibration.h"
#include "imaging/picture.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::imaging {

/// A header's magnification below 1.02 says "nobody filled this in", above 1.30 no foot [E].
inline constexpr double greatest_header_magnification = 1.30;

struct HeaderScale {
  PixelSize size;
  ScaleOrigin origin = ScaleOrigin::none;
  double share = 0;  ///< standard uncertainty of a length, as a share of it
  std::string words; ///< how it came about
};

/// Both sides finite and within what a detector can have (base/limits.h).
[[nodiscard]] bool is_sane(const PixelSize& size);

/// True when a and b are further apart than this share of the smaller.
[[nodiscard]] bool differ(double a, double b, double share);

[[nodiscard]] PixelSize divided(const PixelSize& size, double magnification);

/// "0.1332 mm", or width and height.
[[nodiscard]] std::string in_words(const PixelSize& size);

/// Pixel Spacing says of itself that magnification is already taken out.
[[nodiscard]] bool is_corrected(const Spacing& spacing);

/// Spacing at the detector, or of the scanned film that lay there; before any magnification.
[[nodiscard]] std::optional<PixelSize> detector_spacing(const Spacing& spacing);

/// What the header alone offers with a correction for magnification, best first.
[[nodiscard]] std::vector<HeaderScale> corrected_scales(const Spacing& spacing);

/// The name of a spacing attribute whose numbers cannot be, if there is one.
[[nodiscard]] std::optional<std::string> absurd_spacing(const Spacing& spacing);

} // namespace pritchel::imaging
