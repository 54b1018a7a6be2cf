#include "report/groups.h"

#include <array>

namespace pritchel::report {
namespace {

/// A group begins with this measurement and goes on to the next one that begins a group, or to the
/// end of its view.
struct Group {
  std::string_view first;
  std::string_view head;
};

constexpr std::array groups{
    Group{"palmar-angle", "Coffin bone and sole"},
    Group{"hoof-angle", "Wall"},
    Group{"p1-angle", "Pastern and its joints"},
    Group{"dip-height", "Base of support"},
    Group{"palmar-angle-solar-line", "Second ways, and the whole capsule"},
    Group{"ddft-moment-arm", "Navicular bone and deep flexor tendon"},
    Group{"dip-space-medial", "Coffin joint"},
    Group{"p3-ml-tilt-articular", "Coffin bone"},
    Group{"coronet-ml-tilt", "Capsule"},
    Group{"pip-space-medial", "Pastern joint and further lines"},
    Group{"photo-hoof-angle", "Foot"},
    Group{"photo-wall-angle-medial", "Foot"},
    Group{"heel-bulb-offset", "Heels"},
    Group{"toe-direction", "Foot"},
    Group{"solar-width-medial", "Sole and frog"},
    Group{"limb-pastern-slope", "Pastern and hoof"},
    Group{"shoulder-slope", "Shoulder, load line and joints"},
    Group{"hind-plumb-hock", "Plumb and load lines"},
    Group{"hip-angle", "Joints"},
    Group{"coronet-line-carpus", "Coronary band line"},
    Group{"fore-plumb-carpus", "Plumb line"},
    Group{"carpus-frontal", "Joints and foot"},
    Group{"hind-plumb-caudal-hock", "Plumb line"},
    Group{"hock-frontal", "Joints and foot"},
    Group{"hanging-carpus-frontal", "Limb hanging free"},
};

} // namespace

std::string_view group_of(const measure::Definition& definition) {
  std::string_view head;
  for (const auto& each : measure::definitions()) {
    if (each.view == definition.view)
      for (const auto& group : groups)
        if (group.first == each.id)
          head = group.head;
    if (&each == &definition || each.id == definition.id)
      return head;
  }
  return head;
}

} // namespace pritchel::report
