/// THE table of ink: how each role looks over a grey picture and on white paper. Page and paper are
/// both painted from it. Hues are Okabe and Ito's colour-blind-safe set; where a hue is too pale
/// for white paper its darker shade stands in `on_paper`. Nothing is told by hue alone: dash and
/// weight repeat it. Source: Okabe M, Ito K (2008), Color Universal Design: the set of eight
/// colours.
#pragma once

#include "drawing/display_list.h"

#include <array>
#include <cstdint>
#include <span>
#include <string_view>

namespace pritchel::drawing {

/// A colour as 0xRRGGBB.
using Rgb = std::uint32_t;

/// Lengths of stroke and gap in turn, in multiples of the line's weight; all zero is a solid line.
using Dash = std::array<double, 4>;

struct InkLook {
  Ink ink = Ink::text;
  std::string_view name; ///< "bone", "hoof": the word of http.md and of the style sheet
  Rgb over_picture = 0;  ///< on a grey radiograph, always with a halo
  Rgb on_paper = 0;      ///< on warm white
  Dash dash{};
  double weight_px = 1.5;
  double weight_mm = 0.35;
  double halo_px = 3; ///< full width of the dark line underneath; 0 where there is none
  double halo_mm = 0.75;
};

inline constexpr Rgb halo_colour = 0x111111;    ///< under every line over a picture
inline constexpr Rgb picture_around = 0x161616; ///< near-black neutral around pictures
inline constexpr Rgb paper_white = 0xFBF9F4;    ///< warm white around records, on the page

/// One row for each role, in the order of the enumeration.
[[nodiscard]] std::span<const InkLook> ink_table();
[[nodiscard]] const InkLook& look(Ink ink);
[[nodiscard]] std::string_view name(Ink ink);

} // namespace pritchel::drawing
