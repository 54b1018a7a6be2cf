#include "measure/sides.h"

#include "measure/uncertainty.h"

#include <array>
#include <utility>

namespace pritchel::measure {
namespace {

std::string side_word(PictureSide side) {
  return side == PictureSide::left ? "left" : "right";
}

std::string limb_side_word(bool left) {
  return left ? "left" : "right";
}

/// Pairs of which the first must lie behind (or medial of) the second.
constexpr std::array<std::pair<std::string_view, std::string_view>, 3> side_view_order{
    {{"ground-heel", "ground-toe"}, {"p3-palmar-process", "p3-tip"}, {"heel-ground", "breakover"}}};

constexpr std::array<std::string_view, 8> front_view_pairs{"ground-",
                                                           "dip-p2-",
                                                           "dip-p3-",
                                                           "p3-articular-",
                                                           "p3-distal-border-",
                                                           "coronet-",
                                                           "wall-proximal-",
                                                           "wall-ground-"};

/// Pairs of which the first must lie lower.
constexpr std::array<std::pair<std::string_view, std::string_view>, 6> upright_order{
    {{"wall-dorsal-distal", "wall-dorsal-proximal"},
     {"p1-axis-distal", "p1-axis-proximal"},
     {"p2-axis-distal", "p2-axis-proximal"},
     {"wall-ground-medial", "coronet-medial"},
     {"wall-ground-lateral", "coronet-lateral"},
     {"sole-under-palmar", "coronary-band"}}};

std::optional<std::string> upside_down(const Placed<double>& placed) {
  for (const auto& [lower, upper] : upright_order)
    if (placed.has(lower) && placed.has(upper) && !(placed[lower].y < placed[upper].y))
      return "the landmarks say the foot stands on its head (" + std::string(lower) + ", " +
             std::string(upper) + ")";
  return std::nullopt;
}

std::optional<std::string> wrong_order(const Placed<double>& placed,
                                       std::string_view behind,
                                       std::string_view ahead,
                                       const std::string& sentence) {
  if (!placed.has(behind) || !placed.has(ahead) || placed[behind].x < placed[ahead].x)
    return std::nullopt;
  return sentence + " (" + std::string(behind) + ", " + std::string(ahead) + ")";
}

} // namespace

std::optional<std::string> landmarks_swapped(const Reading& reading) {
  const auto points = placed(reading);
  if (auto found = upside_down(points))
    return found;
  if (is_side_view(reading.view)) {
    for (const auto& [behind, ahead] : side_view_order)
      if (auto found = wrong_order(
              points, behind, ahead, "the landmarks say the toe lies on the other side"))
        return found;
    return std::nullopt;
  }
  for (const auto stem : front_view_pairs)
    if (auto found = wrong_order(points,
                                 std::string(stem) + "medial",
                                 std::string(stem) + "lateral",
                                 "the landmarks say lateral lies on the other side"))
      return found;
  return std::nullopt;
}

std::vector<std::string> contradictions(const Reading& reading) {
  const SideHints& hints = reading.hints;
  std::vector<std::string> found;
  const std::string what = is_side_view(reading.view) ? "toe" : "lateral side";
  const bool left = is_left(reading.limb);
  if (hints.left_limb && *hints.left_limb != left)
    found.push_back("The picture's header says " + limb_side_word(*hints.left_limb) +
                    " limb, the reading says " + for_people(reading.limb) + ".");
  if (hints.marker_is_left && *hints.marker_is_left != left)
    found.push_back("The lead letter says " + limb_side_word(*hints.marker_is_left) +
                    " limb, the reading says " + for_people(reading.limb) + ".");
  if (hints.toward && *hints.toward != reading.toward)
    found.push_back("The picture's header puts the " + what + " on the " +
                    side_word(*hints.toward) + ", the reading on the " + side_word(reading.toward) +
                    ".");
  if (reading.view == View::dorsopalmar && hints.marker_side &&
      *hints.marker_side != reading.toward)
    found.push_back("The lead letter lies on the " + side_word(*hints.marker_side) +
                    ", where letters mark lateral; the reading puts lateral on the " +
                    side_word(reading.toward) + ".");
  if (auto swapped = landmarks_swapped(reading))
    found.push_back("In this picture " + *swapped + ".");
  return found;
}

} // namespace pritchel::measure
