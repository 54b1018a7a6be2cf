/// From what the header says of spacing, and what a person says, to the picture's Calibration.
/// Knows no file. Source of the meanings: DICOM PS3.3 10.7; the order of trust is common practice,
/// no source. Every share of uncertainty is an own estimate, reasoned beside its constant.
#pragma once

#include "base/result.h"
#include "geometry/calibration.h"
#include "imaging/picture.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::imaging {

/// What a person says about the scale. Only the fields of the chosen kind are read.
struct ScaleStatement {
  enum class Kind {
    automatic,     ///< the best that the header alone can give, which may be none
    marker,        ///< an object of known size in the plane of interest
    magnification, ///< detector spacing over this magnification
    distances,     ///< detector spacing over the magnification from tape-measured distances
    header,        ///< the header's own correction (fiducial, geometry, magnification factor)
    detector_only, ///< detector spacing as it is: lengths read 5-15 % too long
    none           ///< no millimetres
  };
  Kind kind = Kind::automatic;
  double marker_mm = 0;
  ImagePoint marker_1;
  ImagePoint marker_2;
  double marker_tolerance_mm = 0.1; ///< standard uncertainty of its size
  /// How far it may lie before or behind the plane of interest. Nobody places one closer than 5 mm
  /// by eye (own estimate).
  double marker_out_of_plane_mm = 5;
  double magnification = 0;
  double source_to_detector_mm = 0; ///< 0: the header's Distance Source to Detector
  double object_to_detector_mm = 0; ///< plane of interest to detector
};

/// The calibration, or one sentence why the statement cannot be followed: no spacing to divide, a
/// spacing already corrected (divided by the magnification once only), absurd numbers, marker
/// points that coincide or lie outside the picture. Distance Source to Patient is never used.
/// Laws: pixel_width : pixel_height is the pixel's own shape for every kind; turning the marker's
/// points round changes nothing.
[[nodiscard]] Result<Calibration> calibrate(const Spacing& spacing,
                                            std::optional<double> pixel_aspect,
                                            int columns,
                                            int rows,
                                            const ScaleStatement& statement);

/// Other sources of scale that differ from the chosen calibration by more than 3 %, one sentence
/// each; never averaged. Empty without a scale.
[[nodiscard]] std::vector<std::string> scale_conflicts(const Spacing& spacing,
                                                       const Calibration& chosen);

/// Pixel height over width: from the spacing attributes, else the header's aspect, else 1.
[[nodiscard]] double pixel_aspect_ratio(const Spacing& spacing, std::optional<double> pixel_aspect);

} // namespace pritchel::imaging
