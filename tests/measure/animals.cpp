#include "animals.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <sstream>

namespace animals {

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr double radians_per_degree = 3.14159265358979323846 / 180;
const std::filesystem::path templates = std::filesystem::path(PRITCHEL_SOURCE_DIR) / "templates";

/// Everything above one of these turns about it.
constexpr std::array joints = {"fetlock-lateral",
                               "fetlock-mid",
                               "carpus-lateral",
                               "carpus-mid",
                               "hock-lateral",
                               "hock-mid",
                               "elbow",
                               "elbow-mid",
                               "stifle-lateral",
                               "tibia-mid-proximal",
                               "pastern-dorsal-distal",
                               "axis-heel"};

const practice::Practice& shipped() {
  static const auto loaded = practice::load_practice(templates);
  if (!loaded) {
    std::fprintf(stderr, "%s\n", loaded.error().sentence().c_str());
    std::abort();
  }
  return *loaded;
}

/// Height over width of the drawing, from its viewBox.
double aspect(const practice::Protocol& protocol) {
  std::ifstream file(templates / "protocols" / protocol.schematic);
  std::stringstream text;
  text << file.rdbuf();
  const auto svg = text.str();
  std::istringstream box(svg.substr(svg.find("viewBox=\"") + 9));
  double x = 0, y = 0, width = 0, height = 0;
  box >> x >> y >> width >> height;
  return height / width;
}

PlanePoint turned(const PlanePoint& p, const PlanePoint& about, double degrees) {
  const double c = std::cos(degrees * radians_per_degree);
  const double s = std::sin(degrees * radians_per_degree);
  const auto v = p - about;
  return {about.x + c * v.x - s * v.y, about.y + s * v.x + c * v.y};
}

/// Points of the world around the limb, and of other limbs.
bool stays(const std::string& id) {
  return id.starts_with("ground-") || id.starts_with("plumb-") || id.starts_with("marker-") ||
         id.starts_with("travel-") || id.starts_with("other-") || id.starts_with("fore-");
}

bool has(const feet::PlaneFoot& foot, const std::string& id) {
  return std::any_of(
      foot.points.begin(), foot.points.end(), [&](const auto& each) { return each.first == id; });
}

void bend(feet::PlaneFoot& foot, feet::Random& random) {
  for (const std::string joint : joints) {
    if (!has(foot, joint))
      continue;
    const auto about = foot.at(joint);
    const double degrees = feet::between(random, -5, 5);
    for (auto& [id, at] : foot.points)
      if (!stays(id) && at.y > about.y + 1)
        at = turned(at, about, degrees);
  }
}

void tilt_ground(feet::PlaneFoot& foot, feet::Random& random) {
  const double degrees = feet::between(random, -1.5, 1.5);
  PlanePoint middle{0, 0};
  for (const auto& [id, at] : foot.points)
    if (id.starts_with("ground-"))
      middle = middle + PlaneVector{at.x / 2, at.y / 2};
  for (auto& [id, at] : foot.points)
    if (id.starts_with("ground-"))
      at = turned(at, middle, degrees);
}

} // namespace

const std::vector<Kind>& kinds() {
  static const std::vector<Kind> all = [] {
    std::vector<Kind> made;
    for (const auto& protocol : shipped().protocols)
      made.push_back({&protocol,
                      protocol.legs == Legs::hind ? Limb::right_hind : Limb::left_fore,
                      practice::spreads(protocol)});
    return made;
  }();
  return all;
}

const Kind& kind(std::string_view protocol) {
  const auto at = std::find_if(
      kinds().begin(), kinds().end(), [&](const auto& each) { return each.name() == protocol; });
  if (at == kinds().end())
    std::abort();
  return *at;
}

feet::PlaneFoot as_drawn(const Kind& kind) {
  feet::PlaneFoot foot{.view = kind.view(), .limb = kind.limb};
  const double width = kind.protocol->schematic_width_mm;
  const double height = width * aspect(*kind.protocol);
  for (const auto& each : kind.protocol->landmarks)
    if (!each.only_shod && each.id != "shoe-heel-end")
      foot.points.emplace_back(
          each.id, PlanePoint{each.schematic_x * width, height * (1 - each.schematic_y)});
  return foot;
}

feet::PlaneFoot make(const Kind& kind, feet::Random& random) {
  if (is_radiograph(kind.view())) {
    auto foot = feet::any(kind.view(), random);
    foot.limb = kind.limb;
    return foot;
  }
  auto foot = as_drawn(kind);
  const double size = feet::between(random, 0.85, 1.15);
  const double own = is_limb(kind.view()) ? 3 : 1.5; // mm, of each point
  for (auto& [id, at] : foot.points) {
    at = {at.x * size, at.y * size};
    if (!stays(id))
      at = at + PlaneVector{feet::between(random, -own, own), feet::between(random, -own, own)};
  }
  bend(foot, random);
  tilt_ground(foot, random);
  return foot;
}

feet::PlaneFoot without_plumb(feet::PlaneFoot foot) {
  foot.remove("plumb-top");
  foot.remove("plumb-bottom");
  return foot;
}

std::vector<const Definition*> rows(const Kind& kind) {
  std::vector<const Definition*> found;
  for (const auto& row : definitions())
    if (row.view == kind.view() && are_for(row.legs, kind.limb))
      found.push_back(&row);
  return found;
}

} // namespace animals
