#include "phantom/projector.h"

#include "phantom/grid.h"

#include <algorithm>
#include <cmath>
#include <memory>

namespace pritchel::phantom {

namespace {

/// A solid ready for rays.
struct Prepared {
  Prepared(const Solid& s, Quality quality)
      : surface(s.bounds, spacing(s, quality), s.surface) {
    surface.make_distances();
    if (s.spongy.empty())
      return;
    interior.emplace_back(surface.plus(s.spongy.front().cortex_mm));
    share.emplace_back(s.bounds, 2.0, s.spongy.front().mineral_share);
  }

  static double spacing(const Solid& s, Quality quality) {
    return s.resolution_mm * (quality == Quality::draft ? 2.0 : 1.0);
  }

  Grid surface;
  std::vector<Grid> interior;
  std::vector<Grid> share;
};

struct Span {
  double from = 0;
  double to = 0;
};

/// Where source + t * direction lies in the box.
Span clip(const Bounds& b, const Vec3& source, const Vec3& direction) {
  Span s{0, 1e9};
  const auto slab = [&](double p, double d, double low, double high) {
    if (std::abs(d) < 1e-12) {
      if (p < low || p > high)
        s.to = -1;
      return;
    }
    const double a = (low - p) / d;
    const double c = (high - p) / d;
    s.from = std::max(s.from, std::min(a, c));
    s.to = std::min(s.to, std::max(a, c));
  };
  slab(source.x, direction.x, b.low.x, b.high.x);
  slab(source.y, direction.y, b.low.y, b.high.y);
  slab(source.z, direction.z, b.low.z, b.high.z);
  return s;
}

/// Share of a step whose ends have these distances that lies inside.
float inside_share(float a, float b) {
  if (a <= 0 && b <= 0)
    return 1;
  if (a > 0 && b > 0)
    return 0;
  return std::min(a, b) / (std::min(a, b) - std::max(a, b));
}

struct Rectangle {
  int left, right, top, bottom;
};

Rectangle shadow_of(const Bounds& b, const Camera& camera, const Shot& shot) {
  double low_x = 1e9;
  double high_x = -1e9;
  double low_y = 1e9;
  double high_y = -1e9;
  for (int corner = 0; corner < 8; ++corner) {
    const Pixel p = camera.project({(corner & 1) != 0 ? b.high.x : b.low.x,
                                    (corner & 2) != 0 ? b.high.y : b.low.y,
                                    (corner & 4) != 0 ? b.high.z : b.low.z});
    low_x = std::min(low_x, p.x);
    high_x = std::max(high_x, p.x);
    low_y = std::min(low_y, p.y);
    high_y = std::max(high_y, p.y);
  }
  return {std::max(0, static_cast<int>(std::floor(low_x))),
          std::min(shot.columns - 1, static_cast<int>(std::ceil(high_x))),
          std::max(0, static_cast<int>(std::floor(low_y))),
          std::min(shot.rows - 1, static_cast<int>(std::ceil(high_y)))};
}

/// Millimetres of the solid's hull, of its spongy interior, and of mineral within that.
struct Chord {
  double hull = 0;
  double interior = 0;
  double mineral = 0;
};

class Tracer {
public:
  Tracer(const Solid& solid, Quality quality, const Mottle& mottle)
      : solid_(solid),
        prepared_(solid, quality),
        mottle_(mottle),
        step_(stride_mm(solid) * (quality == Quality::draft ? 2.0 : 1.0)) {}

  [[nodiscard]] Chord along(const Vec3& source, const Vec3& direction) const {
    const Span span = clip(prepared_.surface.bounds(), source, direction);
    Chord chord;
    if (span.to - span.from < 1e-6)
      return chord;
    const int steps = std::max(1, static_cast<int>(std::ceil((span.to - span.from) / step_)));
    const double h = (span.to - span.from - 2e-7) / steps;
    Vec3 p = source + (span.from + 1e-7) * direction;
    const Vec3 stride = h * direction;
    float before = prepared_.surface.at(p.x, p.y, p.z);
    float before_inner = inner(p, before);
    for (int i = 0; i < steps; ++i) {
      p = p + stride;
      const float after = prepared_.surface.at(p.x, p.y, p.z);
      const float after_inner = inner(p, after);
      const float share = inside_share(before, after);
      if (share > 0)
        add(chord, p, h, share, inside_share(before_inner, after_inner));
      before = after;
      before_inner = after_inner;
    }
    return chord;
  }

private:
  /// Crossings are found between samples, so a step may exceed a cell; a plank has only flat faces.
  static double stride_mm(const Solid& solid) {
    return solid.grain > 0 ? 3.0 : 1.2 * solid.resolution_mm;
  }

  [[nodiscard]] float inner(const Vec3& p, float outer) const {
    if (prepared_.interior.empty() || outer > 0)
      return 1;
    return prepared_.interior.front().at(p.x, p.y, p.z);
  }

  void add(Chord& chord, const Vec3& p, double h, float hull, float interior) const {
    const double grain = solid_.grain == 0 ? 1.0 : 1.0 + solid_.grain * layers(p);
    chord.hull += h * static_cast<double>(hull) * grain;
    if (interior <= 0)
      return;
    const double spongy = h * static_cast<double>(interior);
    const auto mean_share = static_cast<double>(prepared_.share.front().at(p.x, p.y, p.z));
    const double mottled = mean_share * (1 + solid_.spongy.front().contrast *
                                                 static_cast<double>(mottle_.at(p.x, p.y, p.z)));
    chord.interior += spongy;
    chord.mineral += spongy * std::clamp(mottled, 0.0, 1.0);
  }

  /// Growth rings of a plank, nearly level.
  static double layers(const Vec3& p) {
    const double bent = p.y + 0.0009 * (p.x - 20) * (p.x - 20) * 0.3 + 0.0011 * p.z * p.z;
    return std::sin(bent * 2.4 + 1.3 * std::sin(0.7 * bent)) + 0.5 * std::sin(bent * 5.1);
  }

  const Solid& solid_;
  Prepared prepared_;
  const Mottle& mottle_;
  double step_;
};

void deposit(Paths& paths, std::size_t pixel, const Solid& solid, const Chord& chord) {
  const double shell = chord.hull - chord.interior;
  for (std::size_t m = 0; m < material_count; ++m) {
    double mm = shell * solid.inside.part[m] - chord.hull * solid.replaced.part[m];
    if (m == static_cast<std::size_t>(Material::cortical_bone))
      mm += chord.mineral;
    if (m == static_cast<std::size_t>(Material::marrow))
      mm += chord.interior - chord.mineral;
    if (mm != 0)
      paths.mm[m][pixel] += static_cast<float>(mm);
  }
}

} // namespace

Paths trace(const std::vector<Solid>& solids,
            const Shot& shot,
            Quality quality,
            std::uint64_t grain) {
  const Camera camera{shot};
  const Mottle mottle{grain};
  Paths paths{.columns = shot.columns, .rows = shot.rows, .mm = {}};
  for (auto& plane : paths.mm)
    plane.assign(paths.pixel(0, shot.rows), 0.0F);
  for (const Solid& solid : solids) {
    const Tracer tracer{solid, quality, mottle};
    const Rectangle area = shadow_of(solid.bounds, camera, shot);
    for (int row = area.top; row <= area.bottom; ++row)
      for (int column = area.left; column <= area.right; ++column) {
        const Vec3 direction = unit(camera.on_detector(column, row) - camera.source());
        const Chord chord = tracer.along(camera.source(), direction);
        if (chord.hull > 0)
          deposit(paths, paths.pixel(column, row), solid, chord);
      }
  }
  return paths;
}

double transmission(const std::array<double, material_count>& mm) {
  double sum = 0;
  for (std::size_t e = 0; e < energy_count; ++e) {
    double depth = 0;
    for (std::size_t m = 0; m < material_count; ++m)
      depth += mm[m] * linear_attenuation_per_mm(static_cast<Material>(m), e);
    sum += spectrum_weights[e] * std::exp(-std::max(depth, 0.0));
  }
  return sum;
}

} // namespace pritchel::phantom
