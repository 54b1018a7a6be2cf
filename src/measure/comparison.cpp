#include "measure/comparison.h"

#include <array>
#include <cmath>

namespace pritchel::measure {
namespace {

constexpr std::array table = {
    Comparison{"posture-share-carpus",
               "Carpus",
               "carpus-frontal",
               "hanging-carpus-frontal",
               "Cannon against forearm: the part of the standing limb's angle that disappears when "
               "the limb hangs.",
               Legs::fore},
    Comparison{"posture-share-fetlock",
               "Fetlock",
               "fetlock-frontal",
               "hanging-fetlock-frontal",
               "Pastern against cannon: the part that disappears when the limb hangs."},
    Comparison{"posture-share-fetlock-behind",
               "Fetlock, standing seen from behind",
               "fetlock-frontal-behind",
               "hanging-foot-to-cannon",
               "Foot against cannon: the part that disappears when the limb hangs."},
    Comparison{"posture-share-foot",
               "Foot",
               "foot-to-cannon",
               "hanging-foot-to-cannon",
               "Foot against cannon: the part that disappears when the limb hangs."},
    Comparison{"posture-share-heels",
               "Heels",
               "heel-division",
               "hanging-heel-division",
               "Heels either side of the cannon's line: the part that disappears when the limb "
               "hangs."},
};

constexpr Comparison flexion{"dip-flexion-change",
                             "Coffin joint, second picture less first",
                             "dip-deviation",
                             "dip-deviation",
                             "How much more the coffin joint is flexed in the second picture."};

std::optional<Compared> compared(const Comparison& comparison,
                                 const std::vector<Measurement>& firsts,
                                 const std::vector<Measurement>& seconds) {
  const auto* first = find(firsts, comparison.first);
  const auto* second = find(seconds, comparison.second);
  if (first == nullptr || second == nullptr || !first->measurable() || !second->measurable())
    return std::nullopt;
  return Compared{.comparison = &comparison,
                  .first = *first,
                  .second = *second,
                  .difference = first->value - second->value,
                  .standard_uncertainty =
                      std::hypot(first->standard_uncertainty, second->standard_uncertainty)};
}

} // namespace

std::span<const Comparison> comparisons() {
  return table;
}

std::vector<Compared> posture_shares(const std::vector<Measurement>& standing,
                                     const std::vector<Measurement>& hanging) {
  std::vector<Compared> shares;
  for (const auto& each : table)
    if (auto found = compared(each, standing, hanging))
      shares.push_back(std::move(*found));
  return shares;
}

std::optional<Compared> flexion_change(const std::vector<Measurement>& first,
                                       const std::vector<Measurement>& second) {
  auto found = compared(flexion, first, second);
  if (found)
    found->difference = -found->difference;
  return found;
}

} // namespace pritchel::measure
