/// Least squares of a camera's view of a plane: the homography and one radial lens term, with
/// their joint covariance. Knows pairs of points; no card, picture or scale. Inside imaging only.
/// Source: Hartley and Zisserman, Multiple View Geometry, 2nd ed. (2004), 4.1, 5.2 (from memory);
/// JCGM 102:2011 for the covariance of a fit. Held against OpenCV and SciPy in the tests.
#pragma once

#include "geometry/homography.h"

#include <optional>
#include <span>
#include <vector>

namespace pritchel::imaging {

struct PlanePair {
  ImagePoint in_plane; ///< mm, x right, y down
  ImagePoint seen;     ///< pixels
};

/// The camera as far as it is known beforehand.
struct CameraView {
  ImagePoint centre;    ///< of the lens, taken as the picture's middle
  double focal_px = 1;  ///< only the unit of k1
  double k1_unsure = 0; ///< standard uncertainty of an unknown lens's term about 0
  double corner_r = 1;  ///< radius of the picture's corner over the focal length
};

struct PlaneFit {
  enum class Distortion {
    unknown, ///< the pairs can't tell it: 0 within what is usual, its uncertainty carried along
    fitted   ///< the pairs show it clearly
  };
  Homography to_picture = identity_homography; ///< plane to straightened pixels
  double k1 = 0;
  Distortion distortion = Distortion::unknown;
  double rms_px = 0;   ///< root of the mean squared distance of the seen from the fitted points
  double noise_px = 0; ///< estimated standard deviation of one coordinate
  /// The fit with one independent component of its uncertainty moved by one standard deviation.
  struct Moved {
    Homography to_picture = identity_homography;
    double k1 = 0;
  };
  std::vector<Moved> one_sigma;
};

/// Smallest standard deviation that a corner is believed to have, pixels (own estimate): below it
/// the finder's own systematic errors rule.
inline constexpr double least_noise_px = 0.03;

/// Nothing for fewer than six pairs, pairs on a line, or no convergence.
/// Laws: exact pairs come back exactly; the order of the pairs changes nothing.
[[nodiscard]] std::optional<PlaneFit> fit_plane(std::span<const PlanePair> pairs,
                                                const CameraView& camera);

} // namespace pritchel::imaging
