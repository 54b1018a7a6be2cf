/// The digital foot as closed solids for the projector. Surfaces are built on the skeleton of
/// foot.h, so that its landmarks lie exactly on them. Negative inside; the size is about
/// millimetres near the surface.
#pragma once

#include "phantom/foot.h"
#include "phantom/materials.h"

#include <functional>
#include <string>
#include <vector>

namespace pritchel::phantom {

struct Bounds {
  Vec3 low;
  Vec3 high;
};

using Field = std::function<double(const Vec3&)>;

/// Bone under a cortex: trabeculae of this share of mineral (0..1), mottled by `contrast`.
struct Spongy {
  Field cortex_mm;
  Field mineral_share;
  double contrast = 0.5;
};

/// A solid that replaces `replaced` (what lies around it) by `inside` along each ray.
/// With `spongy` the `inside` is the cortex and its interior is trabecular bone or marrow.
struct Solid {
  std::string name;
  Bounds bounds;
  double resolution_mm = 1;
  Field surface;
  Mixture inside;
  Mixture replaced;
  std::vector<Spongy> spongy; ///< none or one
  double grain = 0;           ///< wood: relative density change between layers
};

/// Foot with its horn, soft tissue, bones and shoe. No block, no markers.
std::vector<Solid> foot_solids(const Foot& foot);

/// One solid's surface by name ("p3", "p2", "p1", "hoof", "shoe", ...), for checks.
Field surface_of(const Foot& foot, const std::string& part);

// By tissue, for foot_solids().
void add_bones(const Foot& foot, std::vector<Solid>& solids);
void add_capsule(const Foot& foot, std::vector<Solid>& solids);
void add_shoe(const Foot& foot, std::vector<Solid>& solids);
/// Signed distance (negative inside) to the capsule's outline seen along its height.
double capsule_outline(const Foot& foot, const Vec3& p);

} // namespace pritchel::phantom
