#include "geometry/calibration.h"

namespace pritchel {

double safety_divisor(ScaleOrigin origin) {
  switch (origin) {
  case ScaleOrigin::header_distances:
    return 1.05;
  case ScaleOrigin::detector_only:
    return 1.15;
  default:
    return 1.0;
  }
}

} // namespace pritchel
