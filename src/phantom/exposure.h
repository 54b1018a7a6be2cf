/// From the beam behind the foot to the stored picture: scatter, focal spot and detector blur,
/// quanta, logarithm, mild edge enhancement, whole numbers.
#pragma once

#include "phantom/projector.h"

#include <cstdint>
#include <vector>

namespace pritchel::phantom {

inline constexpr int stored_bits = 12;

struct Film {
  int columns = 0;
  int rows = 0;
  std::vector<std::uint16_t> values; ///< row by row; large = little exposure, whatever the polarity
  double window_centre = 0;
  double window_width = 0;
};

Film expose(const Paths& paths, const Shot& shot);

/// All of it: scene, trace, expose.
Film make_film(const Foot& foot, const Shot& shot, Quality quality = Quality::full);

} // namespace pritchel::phantom
