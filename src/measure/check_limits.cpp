#include "base/assert.h"
#include "measure/check_work.h"

#include <algorithm>
#include <array>

namespace pritchel::measure {
namespace {

constexpr std::string_view own = "own estimate";

constexpr std::array rows = {
    CheckLimit{"obliquity",
               0.8,
               1.0,
               "deg",
               own,
               "palmar angle wrong by more than a careful reader's own spread"},
    CheckLimit{
        "obliquity-depth", 0.8, 1.0, "mm", own, "sole depth wrong by a tenth of a thin sole"},
    CheckLimit{"lm-yaw-gap",
               3,
               10,
               "deg",
               "koblik-1988",
               "rotation of the coffin bone reads too small, significantly beyond 10 degrees"},
    CheckLimit{
        "lm-roll-gap", 2, 5, "deg", own, "the two sides of the bone can no longer be read as one"},
    CheckLimit{"one-outline",
               0.5,
               1.0,
               "deg",
               "geometry",
               "the palmar angle follows one side's palmar process instead of their mean"},
    CheckLimit{"beam-centre",
               25,
               std::nullopt,
               "mm",
               "beam-centring",
               "sole and palmar angle aren't comparable with a visit shot otherwise"},
    CheckLimit{"dp-rotation", 3, 7, "deg", own, "the two sides of the joint aren't seen alike"},
    CheckLimit{"dp-beam",
               25,
               std::nullopt,
               "mm",
               "beam-centring",
               "the sole's two sides read differently with another height of the beam"},
    CheckLimit{"ground-tilt", 3, std::nullopt, "deg", own, "the plate or the camera stood askew"},
    CheckLimit{"foot-flat", 1, 2, "mm", own, "the foot doesn't stand on the line it is read from"},
    CheckLimit{"weight-bearing",
               60,
               std::nullopt,
               "deg",
               own,
               "a long pastern bone as steep as this carries no weight or is knuckled"},
    CheckLimit{"cannon-vertical", 5, 10, "deg", own, "the pastern axis is posture then"},
    CheckLimit{"scale", 2, std::nullopt, "%", own, "lengths no surer than the differences sought"},
    CheckLimit{"cut-off", 1.5, 0, "mm", own, "what lies at the edge may go on beyond it"},
};

} // namespace

std::span<const CheckLimit> check_limits() {
  return rows;
}

const CheckLimit& limit_of(std::string_view check) {
  const auto* at = std::find_if(
      rows.begin(), rows.end(), [&](const CheckLimit& each) { return each.check == check; });
  PRITCHEL_ASSERT(at != rows.end());
  return *at;
}

} // namespace pritchel::measure
