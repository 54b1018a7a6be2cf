/// What the digital foot is made of and how much X-ray each material stops.
#pragma once

#include <array>
#include <cstddef>

namespace pritchel::phantom {

enum class Material { soft_tissue, horn, cortical_bone, marrow, iron, lead, wood };
inline constexpr std::size_t material_count = 7;

/// The beam as a few energies: what a 65-70 kVp tube leaves after filtration, mean about 44 keV.
/// The weights are from memory, chosen to give that mean; no source.
inline constexpr std::size_t energy_count = 4;
inline constexpr std::array<double, energy_count> energies_kev{30, 40, 50, 60};
inline constexpr std::array<double, energy_count> spectrum_weights{0.20, 0.36, 0.28, 0.16};

/// Linear attenuation in 1/mm at energies_kev[energy].
/// Source: NIST X-Ray Mass Attenuation Coefficients (Hubbell and Seltzer). Cortical bone, and soft
/// tissue at 40 and 60 keV (ICRU-44), were read in public copies of the tables; the rest of soft
/// tissue, adipose tissue, iron and lead are those tables from memory. Horn (0.965 x water by mass
/// at 1.30 g/cm3) and dry wood (0.85-0.93 x water at 0.58 g/cm3) are computed; there is no table.
double linear_attenuation_per_mm(Material material, std::size_t energy);

/// A mixture: millimetres of each material in a millimetre of path.
struct Mixture {
  std::array<double, material_count> part{};

  static Mixture of(Material material, double share = 1.0) {
    Mixture m;
    m.part[static_cast<std::size_t>(material)] = share;
    return m;
  }
  friend Mixture operator+(Mixture a, const Mixture& b) {
    for (std::size_t i = 0; i < material_count; ++i)
      a.part[i] += b.part[i];
    return a;
  }
};

} // namespace pritchel::phantom
