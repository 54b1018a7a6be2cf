/// What a pixel is worth in the plane of interest, how surely, and where that came from.
/// The one door from the image frame to the plane frame. Finding a calibration (header, marker) is
/// imaging's and the reader's job; this is the value.
/// Source of the trust order: DICOM PS3.3 10.7 (meaning of the spacing attributes); order itself is
/// common practice, no source.
#pragma once

#include "geometry/frames.h"
#include "geometry/homography.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel {

/// Where the scale came from, best first. The safety divisor of a weak scale follows from it.
enum class ScaleOrigin {
  card,               ///< printed card found in a photo, beside the limb
  marker,             ///< marker of known size in the plane of interest, confirmed by a person
  fiducial_spacing,   ///< DICOM Pixel Spacing, calibration type FIDUCIAL
  measured_distances, ///< detector spacing over a magnification a person measured or entered
  header_distances,   ///< detector spacing over the header's magnification, or type GEOMETRY
  detector_only,      ///< detector spacing, magnification unknown: lengths read 5-15 % too long
  none                ///< no millimetres are ever shown
};

/// Invariant: both spacings are finite and positive; relative_uncertainty is 0 or more.
struct Calibration {
  ScaleOrigin origin = ScaleOrigin::none;
  /// Size of a pixel in the plane of interest, mm. Without a scale: 1 and the pixel's aspect.
  double pixel_width_mm = 1;
  double pixel_height_mm = 1;
  /// Standard uncertainty of every length, as a share of it. Common to the whole picture.
  double relative_uncertainty = 0;
  /// Size of a pixel used only to turn placement spreads (mm) into pixels when there is no scale.
  double nominal_pixel_mm = 0.15;
  /// A photo's map from pixels to its plane; then the pixel sizes above are those at the middle
  /// of the card, and serve for drawing only.
  std::optional<Rectification> rectification;
  /// What may make the scale worse than stated, one sentence each.
  std::vector<std::string> cautions;
  /// One sentence for people: where it came from, with its numbers.
  std::string sentence = "No scale: angles and ratios only.";

  [[nodiscard]] bool has_scale() const { return origin != ScaleOrigin::none; }
};

/// What a depth is divided by before it is held against a safety limit, because a weak scale reads
/// too long: 1.05 for header distances, 1.15 for the detector alone, else 1. Own estimate.
[[nodiscard]] double safety_divisor(ScaleOrigin origin);

/// Which side of the stored picture the toe (side view) or lateral (front view) lies on.
enum class PictureSide { left, right };

/// Image frame <-> plane frame. The only place that knows mirroring, pixel aspect and
/// rectification.
class PlaneMap {
public:
  PlaneMap(const Calibration& calibration, PictureSide toward);

  [[nodiscard]] PlanePoint to_plane(const ImagePoint& p) const;
  [[nodiscard]] ImagePoint to_image(const PlanePoint& p) const;
  /// Where p would come to lie if one component of the map's uncertainty were off by one standard
  /// deviation, as a displacement; one for each component, none without a rectification.
  [[nodiscard]] std::vector<PlaneVector> one_sigma_shifts(const ImagePoint& p) const;

private:
  double width_;
  double height_;
  double sign_;
  std::optional<Rectification> rectification_;
  Homography to_picture_ = identity_homography; ///< the rectification turned round
};

} // namespace pritchel
