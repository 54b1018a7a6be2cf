#include "phantom/materials.h"

namespace pritchel::phantom {

namespace {

struct Row {
  double density_g_per_cm3;
  std::array<double, energy_count> mass_attenuation_cm2_per_g;
};

constexpr std::array<Row, material_count> rows{{
    {1.06, {0.379, 0.269, 0.226, 0.205}},     // soft tissue
    {1.30, {0.3625, 0.2588, 0.2190, 0.1987}}, // horn
    {1.92, {1.331, 0.6655, 0.4242, 0.3148}},  // cortical bone
    {0.95, {0.306, 0.240, 0.212, 0.197}},     // adipose tissue, marrow
    {7.874, {8.176, 3.629, 1.958, 1.205}},    // iron
    {11.35, {30.32, 14.36, 8.041, 5.021}},    // lead
    {0.58, {0.320, 0.235, 0.206, 0.192}},     // dry wood
}};

} // namespace

double linear_attenuation_per_mm(Material material, std::size_t energy) {
  const Row& row = rows[static_cast<std::size_t>(material)];
  return 0.1 * row.density_g_per_cm3 * row.mass_attenuation_cm2_per_g[energy];
}

} // namespace pritchel::phantom
