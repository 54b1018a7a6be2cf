/// From placement spreads and the scale's uncertainty to the standard uncertainty of a number:
/// first-order propagation (JCGM 100:2008, 5.1.2) with derivatives by automatic differentiation.
/// Checked against Monte Carlo (JCGM 101:2008) in the tests.
#pragma once

#include "measure/definitions.h"
#include "measure/reading.h"

#include <vector>

namespace pritchel::measure {

/// The 95 % interval is the value plus and minus this many standard uncertainties
/// (JCGM 100:2008, 6.3.3: k = 2 gives about 95 % for a near-normal result).
inline constexpr double coverage_factor = 2.0;

/// Covariance of one landmark's place in the plane frame (units of the plane, squared).
struct Covariance {
  double xx = 0;
  double xy = 0;
  double yy = 0;
};

/// Landmarks in the plane frame with derivatives, and the covariance that goes with them.
struct Propagation {
  Placed<Gradient> placed;
  std::vector<Covariance> landmarks; ///< by input order: landmark i has inputs 1 + 2i and 2 + 2i
  double scale_relative_uncertainty = 0; ///< input 0, the factor common to all coordinates
  /// Errors that move all landmarks together, each by one standard deviation: a displacement for
  /// each landmark (a photo's rectification).
  std::vector<std::vector<PlaneVector>> common;
};

/// The plane-frame landmarks of a reading, as plain numbers.
[[nodiscard]] Placed<double> placed(const Reading& reading);

/// The same with derivatives. At most limits::landmarks_in_reading landmarks.
[[nodiscard]] Propagation propagation(const Reading& reading, const Spreads& spreads);

/// Covariance of a landmark's placement, in the plane frame of its reading.
[[nodiscard]] Covariance placement_covariance(const Reading& reading,
                                              const Placed<double>& placed,
                                              const Spreads& spreads,
                                              std::string_view landmark,
                                              Placement how = Placement::by_hand);

[[nodiscard]] double standard_uncertainty(const Gradient& value, const Propagation& propagation);

/// Covariance of two results of the same reading, for changes in which errors cancel.
[[nodiscard]] double
covariance(const Gradient& a, const Gradient& b, const Propagation& propagation);

} // namespace pritchel::measure
