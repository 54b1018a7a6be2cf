/// A photo's calibration from the corners of the printed card. Inside imaging only; scale.h is the
/// way in. Every share of uncertainty is an own estimate, reasoned beside its constant.
#pragma once

#include "base/result.h"
#include "geometry/calibration.h"
#include "imaging/scale.h"

#include <span>

namespace pritchel::imaging {

/// `reach` as for calibrate().
[[nodiscard]] Result<Calibration> card_calibration(int columns,
                                                   int rows,
                                                   const ScaleStatement& said,
                                                   std::span<const ImagePoint> reach);

} // namespace pritchel::imaging
