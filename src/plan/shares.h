/// How the joints of the digit share a turn of the foot: the one parameter of the model that is
/// biology and not geometry. Stated here with its sources, and its range where they disagree.
#pragma once

#include <array>
#include <string_view>

namespace pritchel::plan {

/// Per degree by which the foot turns up at the heel, closing the axis under an upright cannon:
/// coffin joint and pastern joint flex by their shares, the long pastern steepens by its own.
/// Invariant: the sum is 1.
struct JointShares {
  double coffin = 1;
  double pastern = 0;
  double long_pastern = 0;
  std::string_view source; ///< key in docs/sources.md
  std::string_view what;   ///< for people: on what horses, how

  constexpr bool operator==(const JointShares&) const = default;
};

/// The default. Range toe wedge 15 to heel wedge 15 degrees: coffin joint 29.5 +- 1.8, pastern
/// joint 7.3 +- 1.0, fetlock 6.9 +- 2.0 the other way (abstract read); divided by their sum
/// of 29.9.
inline constexpr JointShares standing_shares{29.5 / 29.9,
                                             7.3 / 29.9,
                                             -6.9 / 29.9,
                                             "crevier-denoix-2001",
                                             "five sound horses, fore, standing on one"};

/// What else the literature allows. A 6 degree wedge at the trot changed the fetlock by nothing
/// that could be told (three horses): the two lower joints then share the whole turn, here in the
/// proportion found standing. Over a shoeing interval the change was found in the coffin joint
/// (nine horses, standing): it then takes all.
inline constexpr std::array<JointShares, 2> other_shares{
    {{29.5 / 36.8, 7.3 / 36.8, 0, "chateau-2006", "three sound horses, fore, trotting"},
     {1, 0, 0, "moleman-2006", "nine sound horses, fore, standing, over eight weeks"}}};

/// Between-horse spread of the default's shares, per degree: the published +- over 30 degrees.
/// Doubled for hind limbs, on which there are no data (own estimate).
inline constexpr double coffin_spread = 1.8 / 29.9;
inline constexpr double pastern_spread = 1.0 / 29.9;
inline constexpr double long_pastern_spread = 2.0 / 29.9;

} // namespace pritchel::plan
