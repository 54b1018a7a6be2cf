#include "phantom/placement.h"

#include "phantom/random.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::phantom {

namespace {

/// Standard deviations in mm; the edge runs from `from` to `to` (none: across is vertical).
struct Spread {
  const char* id;
  double across_mm;
  double along_mm;
  const char* from = "";
  const char* to = "";
};

constexpr std::array lateromedial_spreads{
    Spread{"marker-1", 0.2, 0.2},
    Spread{"marker-2", 0.2, 0.2},
    Spread{"ground-heel", 0.3, 3.0},
    Spread{"ground-toe", 0.3, 3.0},
    Spread{"p3-tip", 0.7, 0.7},
    Spread{"p3-palmar-process", 0.8, 2.5, "p3-palmar-process", "p3-tip"},
    Spread{"p3-dorsal-distal", 0.4, 1.5, "p3-dorsal-distal", "p3-dorsal-proximal"},
    Spread{"p3-dorsal-proximal", 0.4, 1.5, "p3-dorsal-distal", "p3-dorsal-proximal"},
    Spread{"extensor-process", 0.8, 0.6},
    Spread{"p2-distal-condyle-1", 0.5, 0.5},
    Spread{"p2-distal-condyle-2", 0.5, 0.5},
    Spread{"p2-distal-condyle-3", 0.5, 0.5},
    Spread{"p1-distal-condyle-1", 0.5, 0.5},
    Spread{"p1-distal-condyle-2", 0.5, 0.5},
    Spread{"p1-distal-condyle-3", 0.5, 0.5},
    Spread{"p1-axis-distal", 0.6, 1.5, "p1-axis-distal", "p1-axis-proximal"},
    Spread{"p1-axis-proximal", 0.6, 1.5, "p1-axis-distal", "p1-axis-proximal"},
    Spread{"coronary-band", 2.0, 0.7, "wall-dorsal-proximal", "wall-dorsal-distal"},
    Spread{"wall-dorsal-proximal", 0.5, 2.0, "wall-dorsal-proximal", "wall-dorsal-distal"},
    Spread{"wall-dorsal-distal", 0.5, 2.0, "wall-dorsal-proximal", "wall-dorsal-distal"},
    Spread{"sole-a", 0.8, 1.0, "sole-a", "sole-b"},
    Spread{"sole-b", 0.8, 1.0, "sole-a", "sole-b"},
    Spread{"sole-under-palmar", 1.5, 1.0},
    Spread{"breakover", 0.5, 2.5},
    Spread{"heel-ground", 0.5, 1.5},
    Spread{"shoe-heel-end", 0.3, 1.0},
    Spread{"foot-plane-heel", 0.7, 1.5, "foot-plane-heel", "foot-plane-toe"},
    Spread{"foot-plane-toe", 0.7, 1.5, "foot-plane-heel", "foot-plane-toe"},
    Spread{"wall-toe-ground", 0.5, 1.0},
    Spread{"heel-wall-distal", 1.0, 1.0},
    Spread{"heel-wall-proximal", 1.0, 1.0},
    Spread{"p2-condyle-palmar-1", 0.5, 0.5},
    Spread{"p2-condyle-palmar-2", 0.5, 0.5},
    Spread{"p2-condyle-distal-1", 0.5, 0.5},
    Spread{"p2-condyle-distal-2", 0.5, 0.5},
    Spread{"p3-palmar-process-1", 0.5, 0.5},
    Spread{"p3-palmar-process-2", 0.5, 0.5},
    Spread{"p3-solar-border-1", 0.5, 0.5},
    Spread{"p3-solar-border-2", 0.5, 0.5},
    Spread{"block-edge-near", 0.3, 0.3},
    Spread{"block-edge-far", 0.3, 0.3},
};

constexpr std::array dorsopalmar_spreads{
    Spread{"marker-1", 0.2, 0.2},
    Spread{"marker-2", 0.2, 0.2},
    Spread{"ground-medial", 0.3, 3.0},
    Spread{"ground-lateral", 0.3, 3.0},
    Spread{"dip-p2-medial", 0.15, 0.6},
    Spread{"dip-p3-medial", 0.15, 0.6},
    Spread{"dip-p2-lateral", 0.15, 0.6},
    Spread{"dip-p3-lateral", 0.15, 0.6},
    Spread{"p3-articular-medial", 0.6, 0.6},
    Spread{"p3-articular-lateral", 0.6, 0.6},
    Spread{"p3-distal-border-medial", 1.2, 1.2},
    Spread{"p3-distal-border-lateral", 1.2, 1.2},
    Spread{"p2-axis-distal", 0.6, 0.6},
    Spread{"p2-axis-proximal", 0.6, 0.6},
    Spread{"coronet-medial", 1.0, 0.7},
    Spread{"coronet-lateral", 1.0, 0.7},
    Spread{"wall-proximal-medial", 1.0, 0.7},
    Spread{"wall-proximal-lateral", 1.0, 0.7},
    Spread{"wall-ground-medial", 0.7, 0.7},
    Spread{"wall-ground-lateral", 0.7, 0.7},
    Spread{"p2-condyle-mid", 0.7, 0.7},
    Spread{"block-edge-near", 0.3, 0.3},
    Spread{"block-edge-far", 0.3, 0.3},
    Spread{"dorsal-mid-marker", 0.5, 0.5},
    Spread{"frog-mid-marker", 0.5, 0.5},
};

const TrueLandmark* find(const Truth& truth, const std::string& id) {
  const auto it = std::find_if(truth.landmarks.begin(),
                               truth.landmarks.end(),
                               [&](const TrueLandmark& l) { return l.landmark.id == id; });
  return it == truth.landmarks.end() ? nullptr : &*it;
}

/// Unit direction along the edge, in mm of the picture's axes (y down).
Pixel along_edge(const Truth& truth, const Spread& spread) {
  const TrueLandmark* from = find(truth, spread.from);
  const TrueLandmark* to = find(truth, spread.to);
  if (from == nullptr || to == nullptr)
    return {1, 0};
  const double x = (to->pixel.x - from->pixel.x) * truth.mm_per_pixel_x;
  const double y = (to->pixel.y - from->pixel.y) * truth.mm_per_pixel_y;
  const double span = std::hypot(x, y);
  return {x / span, y / span};
}

std::vector<PlacedLandmark> errors_on(const Truth& truth, View view, std::uint64_t seed) {
  std::vector<PlacedLandmark> placed;
  std::uint64_t draw = 0;
  const auto place = [&](const Spread& spread) {
    const double across = spread.across_mm * normal(seed, draw++);
    const double along = spread.along_mm * normal(seed, draw++);
    const TrueLandmark* l = find(truth, spread.id);
    if (l == nullptr)
      return;
    const Pixel edge = along_edge(truth, spread);
    placed.push_back({spread.id,
                      {l->pixel.x + (along * edge.x - across * edge.y) / truth.mm_per_pixel_x,
                       l->pixel.y + (along * edge.y + across * edge.x) / truth.mm_per_pixel_y}});
  };
  if (view == View::lateromedial)
    std::for_each(lateromedial_spreads.begin(), lateromedial_spreads.end(), place);
  else
    std::for_each(dorsopalmar_spreads.begin(), dorsopalmar_spreads.end(), place);
  return placed;
}

} // namespace

std::vector<PlacedLandmark> placed_by_hand(const Foot& foot, const Shot& shot, std::uint64_t seed) {
  return errors_on(truth_of(foot, shot), shot.view, seed);
}

std::vector<PlacedLandmark>
placed_by_hand(const Foot& foot, const Shot& shot, std::uint64_t seed, Follows follows) {
  return errors_on(truth_as_read(foot, shot, follows), shot.view, seed);
}

} // namespace pritchel::phantom
