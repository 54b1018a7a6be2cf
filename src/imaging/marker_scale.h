/// The scale from an object of known size in the picture: a bar by its two ends, a ball by its
/// diameter. Inside imaging only; scale.h is the way in. Every share of uncertainty is an own
/// estimate, reasoned beside its constant; the rest is the geometry of the beam.
#pragma once

#include "base/result.h"
#include "geometry/calibration.h"
#include "imaging/picture.h"
#include "imaging/scale.h"

namespace pritchel::imaging {

/// Source to the foot's middle, where no distance is known: 700 mm less 70 mm.
inline constexpr double usual_source_to_object_mm = 630.0;

struct MarkedPicture {
  int columns = 0;
  int rows = 0;
  double aspect = 1; ///< pixel height over width
};

[[nodiscard]] Result<Calibration> marker_calibration(const Spacing& spacing,
                                                     const MarkedPicture& picture,
                                                     const ScaleStatement& said);
[[nodiscard]] Result<Calibration>
ball_calibration(const Spacing& spacing, const MarkedPicture& picture, const ScaleStatement& said);

/// How far a length is off, as a share of it, when the object that gave the scale lies this much
/// nearer to the source or camera than what is measured, which lies at `distance_mm` from it: the
/// object is shown larger by distance / (distance - nearer), so lengths read too short.
[[nodiscard]] double out_of_plane_share(double nearer_mm, double distance_mm);

} // namespace pritchel::imaging
