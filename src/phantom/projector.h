/// Shadows of solids: for each pixel the millimetres of each material that its ray passes, and what
/// the beam leaves after them (Beer and Lambert, energy by energy). No scatter, blur or noise: see
/// exposure.h.
#pragma once

#include "phantom/shot.h"
#include "phantom/solids.h"

#include <array>
#include <vector>

namespace pritchel::phantom {

enum class Quality { draft, full };

struct Paths {
  int columns = 0;
  int rows = 0;
  std::array<std::vector<float>, material_count> mm; ///< row by row

  [[nodiscard]] std::size_t pixel(int column, int row) const {
    return static_cast<std::size_t>(static_cast<std::ptrdiff_t>(row) * columns + column);
  }
};

/// The picture's whole scene: foot, block with its wire, marker ball, side letter.
std::vector<Solid> scene(const Foot& foot, const Shot& shot);

Paths trace(const std::vector<Solid>& solids,
            const Shot& shot,
            Quality quality,
            std::uint64_t grain);

/// Share of the beam's quanta that passes these millimetres of materials.
double transmission(const std::array<double, material_count>& mm);

} // namespace pritchel::phantom
