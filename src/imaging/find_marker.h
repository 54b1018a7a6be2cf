/// Steel markers on a radiograph to a fraction of a pixel: balls found by themselves, ends of a bar
/// made exact. Knows no millimetre.
#pragma once

#include "geometry/frames.h"
#include "imaging/picture.h"

#include <optional>
#include <vector>

namespace pritchel::imaging {

/// A ball's shadow. Off the central ray it is an ellipse, whose short side is the ball's own
/// diameter magnified. The edge lies where half the exposure is left, which is well below half
/// grey.
struct BallSeen {
  ImagePoint centre;
  double diameter_px = 0; ///< short side, in widths of a pixel
  double unsure_px = 0;   ///< standard uncertainty of it: scatter of the edge and its softness
};

/// Best first. Nothing rather than a false one: a ball is a bright full disc with a sharp, nearly
/// round edge all round, against a darker ground. Empty for a photo.
[[nodiscard]] std::vector<BallSeen> find_balls(const Picture& radiograph);

struct BarSeen {
  ImagePoint end_1;
  ImagePoint end_2;
  double unsure_px = 0; ///< standard uncertainty of each end along the bar
};

/// Both ends moved along the bar to where the grey is half way between bar and ground. The ends
/// given must lie on the bar's axis, each within a twelfth of its length (12 pixels at least) of
/// the true one; nothing where no clear edge is met there. Either picture kind.
[[nodiscard]] std::optional<BarSeen>
refine_bar_ends(const Picture& picture, const ImagePoint& end_1, const ImagePoint& end_2);

} // namespace pritchel::imaging
