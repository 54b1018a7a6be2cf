/// What may make a card's scale worse than is asked for. Inside imaging only.
#pragma once

#include "imaging/card_fit.h"

#include <span>
#include <string>
#include <vector>

namespace pritchel::imaging {

/// One sentence each, with its numbers; empty when every length within reach is good to 1 % and
/// every angle to 0.5 degrees, as far as picture and statement tell. `scale` has its rectification.
/// Laws: turning, blurring or shrinking the card, or reaching farther, never takes a caution away.
[[nodiscard]] std::vector<std::string> card_cautions(const CardFit& fit,
                                                     const Calibration& scale,
                                                     const ScaleStatement& said,
                                                     std::span<const ImagePoint> reach);

} // namespace pritchel::imaging
