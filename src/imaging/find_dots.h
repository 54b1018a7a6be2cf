/// Stick-on dots of two colours found in a photo, to be offered as joint centres and confirmed by a
/// person. Knows no anatomy: which joints are asked for, in which order and where they lie in the
/// drawing, is handed in.
#pragma once

#include "geometry/frames.h"
#include "imaging/picture.h"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::imaging {

/// As in the picture file (sRGB).
struct DotColour {
  std::uint8_t red = 0;
  std::uint8_t green = 0;
  std::uint8_t blue = 0;
};

/// The two colours that a person picked, and how large the dots are, where that is known.
struct DotColours {
  std::array<DotColour, 2> colours;
  double diameter_px = 0; ///< 0: unknown
};

/// Colours offered by name: orange, white, green, blue, yellow, pink.
[[nodiscard]] std::optional<DotColour> dot_colour(std::string_view name);

/// What lies under a click: the colour of the patch there and its size across; nothing when the
/// place isn't on a patch that stands out from what is around it.
struct PickedDot {
  DotColour colour;
  double diameter_px = 0;
};
[[nodiscard]] std::optional<PickedDot> picked_dot(const Picture& photo, const ImagePoint& at);

/// A dot seen slantwise is an ellipse; `centre` is the ellipse's.
struct Dot {
  ImagePoint centre;
  double diameter_px = 0; ///< the ellipse's longer axis
  double roundness = 1;   ///< shorter over longer axis
  int colour = 0;         ///< 0 or 1
  double confidence = 0;  ///< 0...1: sharpness of the rim all round, and how elliptical it is
};

/// Best first. Dots of less than 5 pixels across are not looked for, nor such as are more than 70
/// degrees slant. Everything round in one of the colours is a dot here, whatever it sticks on; dots
/// whose size doesn't fit the rest are left out. Empty for anything but a photo.
[[nodiscard]] std::vector<Dot> find_dots(const Picture& photo, const DotColours& colours);

/// From the top of the picture down.
[[nodiscard]] std::vector<Dot> order_along_limb(std::vector<Dot> dots);

/// A joint that a dot is asked for, and its place in the drawing, y down, any scale; both facings
/// are tried.
struct JointPlace {
  std::string id;
  double x = 0;
  double y = 0;
};

struct OfferedDot {
  Dot dot;
  std::string joint; ///< empty: nobody can say
};
struct DotOffer {
  std::vector<OfferedDot> dots; ///< from the top down
  std::string reason;           ///< why no joints are named; empty when they are
};

/// Names the dots only when there are as many as joints (in order from the top down) and each lies,
/// from its neighbours, about as far and in about the direction that the drawing shows. All or
/// none; a person confirms in either case.
[[nodiscard]] DotOffer offer_joints(const std::vector<Dot>& dots,
                                    const std::vector<JointPlace>& joints);

} // namespace pritchel::imaging
