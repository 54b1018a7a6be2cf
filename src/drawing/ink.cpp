#include "drawing/ink.h"

#include <cstddef>

namespace pritchel::drawing {
namespace {

constexpr Dash solid{0, 0, 0, 0};
constexpr Dash long_dash{7, 2.5, 7, 2.5};
constexpr Dash dash_dot{8, 2.5, 1.5, 2.5};
constexpr Dash short_dash{3, 2, 3, 2};

constexpr std::array table{
    InkLook{Ink::bone, "bone", 0x56B4E9, 0x0072B2, solid, 1.5, 0.35, 3, 0.6},
    InkLook{Ink::hoof, "hoof", 0xE69F00, 0x8F6200, long_dash, 1.5, 0.35, 3, 0.6},
    InkLook{Ink::ground, "ground", 0x009E73, 0x00704F, dash_dot, 1.5, 0.35, 3, 0.6},
    InkLook{Ink::span, "span", 0xF0E442, 0x4A4A4A, solid, 1.5, 0.35, 3, 0.6},
    InkLook{Ink::proposal, "proposal", 0xCC79A7, 0x8E3E6B, short_dash, 2, 0.45, 3.5, 0.75},
    InkLook{Ink::stop, "stop", 0xD55E00, 0x9A2A00, solid, 2, 0.45, 3.5, 0.75},
    InkLook{Ink::text, "text", 0xF7F4EC, 0x1A1A1A, solid, 1, 0.25, 3, 0.7},
    InkLook{Ink::faint, "faint", 0xC9C5BB, 0x5F5B54, solid, 0.75, 0.15, 2, 0.45},
    InkLook{Ink::band, "band", 0xBDB9AF, 0xDAD6CC, solid, 1, 0.25, 0, 0},
};

constexpr bool rows_follow_the_enumeration() {
  for (std::size_t i = 0; i < table.size(); ++i)
    if (static_cast<std::size_t>(table[i].ink) != i)
      return false;
  return table.size() == static_cast<std::size_t>(Ink::band) + 1;
}
static_assert(rows_follow_the_enumeration(), "every ink has its row");

} // namespace

std::span<const InkLook> ink_table() {
  return table;
}

const InkLook& look(Ink ink) {
  return table[static_cast<std::size_t>(ink)];
}

std::string_view name(Ink ink) {
  return look(ink).name;
}

} // namespace pritchel::drawing
