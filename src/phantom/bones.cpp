#include "phantom/random.h"
#include "phantom/shapes.h"
#include "phantom/solids.h"

#include <algorithm>
#include <cmath>
#include <memory>

namespace pritchel::phantom {

namespace {

/// A condyle: barrel about the joint's transverse line, ends rounded. Coordinates of P1 or P2.
double barrel(const Vec3& q, double radius, double half_width) {
  const double around = std::hypot(q.x, q.y) - condyle_profile(radius, q.z);
  // The sides lean in towards the distal end.
  const double side = std::abs(q.z) - half_width - 0.10 * q.x;
  return cut_to(around, side, 4.0);
}

/// The same surface seen from the bone that glides on it, `space` away.
double cavity(double along, double across, double z, double radius, double space) {
  const double groove = 1.3 * (1 - rise(0, shape::condyle_plateau, std::abs(z)));
  return std::hypot(along, across) - (radius - groove + space);
}

// ---- P1 -----------------------------------------------------------------------------------------

double p1_surface(const Vec3& q) {
  static const Curve depth(
      {{-4, 13.4}, {4, 13.6}, {12, 13.8}, {24, 13.8}, {40, 14.6}, {58, 17.6}, {68, 20}, {74, 20}});
  static const Curve width({{-4, 21.5},
                            {5, 23},
                            {12, 21.6},
                            {24, 18.4},
                            {36, 17.6},
                            {48, 20},
                            {60, 25.5},
                            {69, 29},
                            {74, 28}});
  double shaft = superellipse(q.y, q.z, depth.at(q.x), width.at(q.x), 2.25);
  shaft = cut_to(shaft, -0.5 - q.x, 3);
  // Two shallow sockets for the cannon, rims dorsally and palmarly.
  const double top = q.x - 71.5 - 2.2 * std::pow(q.y / 20, 2) - 1.6 * bell(q.z, 4);
  shaft = cut_to(shaft, top, 3);
  return joined(shaft, barrel(q, shape::p1_radius, 23.0), 5);
}

double p1_cortex(const Vec3& q) {
  static const Curve thickness(
      {{-15, 1.2}, {2, 1.5}, {14, 4.2}, {26, 6.8}, {40, 6.6}, {54, 4.0}, {64, 1.8}, {72, 1.4}});
  return thickness.at(q.x);
}

double p1_mineral(const Vec3& q) {
  static const Curve share({{-14, 0.7},
                            {-8, 0.5},
                            {6, 0.44},
                            {16, 0.28},
                            {28, 0.08},
                            {42, 0.06},
                            {54, 0.16},
                            {66, 0.3},
                            {72, 0.42}});
  return share.at(q.x);
}

// ---- P2 -----------------------------------------------------------------------------------------

double p2_surface(const Vec3& q, double radius) {
  static const Curve dorsal(
      {{-2, 15.0}, {4, 14.8}, {13, 14.4}, {22, 14.6}, {29, 16.4}, {36, 16.4}});
  static const Curve palmar({{-2, 15.0}, {4, 14.6}, {13, 14.2}, {21, 15.0}, {28, 17.2}, {36, 16}});
  static const Curve width({{-2, 24.5}, {5, 25}, {13, 23}, {21, 24}, {29, 27.5}, {36, 25}});
  const double depth = q.y > 0 ? dorsal.at(q.x) : palmar.at(q.x);
  double shaft = superellipse(q.y, q.z, depth, width.at(q.x), 2.3);
  shaft = cut_to(shaft, -q.x, 3);
  shaft = cut_to(shaft, q.x - 30.8 + 3.0 * rise(8, 28, std::abs(q.z)), 3.5);
  const double socket =
      cavity(q.x - shape::phalanx_centres, q.y, q.z, shape::p1_radius, shape::pip_space);
  shaft = std::max(shaft, -socket);
  // Collateral pits on both sides of the head.
  const double pit = ellipsoid({q.x, q.y, std::abs(q.z)}, {2.5, 3, 28}, {5.5, 6, 4.5});
  const double head = barrel(q, radius, 25.5);
  return cut_to(joined(shaft, head, 5), -pit, 3);
}

double p2_cortex(const Vec3& q) {
  static const Curve thickness({{-17, 1.3}, {-4, 1.4}, {8, 2.6}, {16, 3.8}, {24, 2.8}, {33, 1.5}});
  return thickness.at(q.x);
}

double p2_mineral(const Vec3& q, double radius) {
  const double from_head = radius - std::hypot(q.x, q.y);
  const double from_socket = std::hypot(q.x - shape::phalanx_centres, q.y) - shape::p1_radius - 2;
  return 0.2 + 0.3 * std::exp(-std::max(from_head, 0.0) / 3.0) * rise(6, -6, -q.x) +
         0.26 * std::exp(-std::max(from_socket, 0.0) / 4.0) + 0.06 * rise(14, 0, q.x);
}

// ---- P3 -----------------------------------------------------------------------------------------

/// P3 in its own frame. `joint` is the signed cavity of the coffin joint, `lift` how far the
/// joint's level at this z lies above where it would be in an even joint.
class CoffinBone {
public:
  explicit CoffinBone(const Foot& foot)
      : foot_(foot),
        sine_(std::sin(foot.bone_angle_deg * radians_per_degree)),
        cosine_(std::cos(foot.bone_angle_deg * radians_per_degree)),
        joint_floor_(foot.cor_b - foot.parameters.condyle_radius_mm -
                     foot.parameters.joint_space_mm),
        roof_({{foot.cor_a - 15, foot.apex_b + 1},
               {foot.cor_a - 7, joint_floor_ + 7},
               {foot.cor_a, joint_floor_ + 1.8},
               {foot.cor_a + 7, joint_floor_ + 2.6},
               {foot.cor_a + 12, joint_floor_ - 0.5},
               {shape::solar_length, 14.5},
               {shape::solar_length + 8, 9.5}}) {
    add_channels();
  }

  [[nodiscard]] double surface(const Vec3& p) const {
    const Vec3 q = foot_.to_p3(p);
    return foot_.k * std::max(body(q, p), -channels(q));
  }

  [[nodiscard]] double cortex(const Vec3& p) const {
    const Vec3 q = foot_.to_p3(p);
    if (channels(q) < -body(q, p))
      return 0.35 * foot_.k; // vessels have thin walls
    const double dorsal = bell(height_over_parietal(q) + 2, 5);
    const double semilunar = bell(std::hypot(q.x - foot_.cor_a + 3, q.y - 6.5), 5) * bell(q.z, 18);
    return foot_.k * (1.2 + 4.0 * rise(foot_.apex_b - 14, foot_.apex_b - 5, q.y) +
                      2.3 * dorsal * rise(1, 8, q.y) + 1.6 * semilunar + 0.5 * rise(8, 2, q.y));
  }

  [[nodiscard]] double mineral(const Vec3& p) const {
    const Vec3 q = foot_.to_p3(p);
    const double from_joint = std::max(joint(p), 0.0);
    const double process = rise(48, 66, q.x);
    return 0.27 + 0.32 * std::exp(-from_joint / 3.0) + 0.08 * bell(q.y - 6, 6) - 0.08 * process;
  }

private:
  /// The bone without its vessels.
  [[nodiscard]] double body(const Vec3& q, const Vec3& p) const {
    double f = std::max({front(q), sides(q), top(q, p), bottom(q)});
    f = std::max(f, -notch(q));
    const double rim = shape::joint_edge_z + 0.6 + 0.9 * std::max(q.y - joint_floor_ - 1.5, 0.0);
    f = std::max(f, -std::max(joint(p), std::abs(foot_.to_p2(p).z) - rim));
    return cut_to(f, q.x - shape::solar_length - 6.5, 4);
  }

  [[nodiscard]] double height_over_parietal(const Vec3& q) const {
    return -q.x * sine_ + q.y * cosine_;
  }

  /// How far the front recedes at this height and distance from the mid-plane.
  [[nodiscard]] double recession(double b, double z) const {
    const double front_a = b * cosine_ / sine_;
    const double reach = std::max(shape::p3_widest_a - 0.25 * b - front_a, 4.0);
    const double u = std::min(std::abs(z) / p3_half_width(0, b), 0.995);
    return reach * (1 - std::pow(1 - std::pow(u, 2.2), 1 / 2.2));
  }

  [[nodiscard]] double front(const Vec3& q) const {
    static const Curve profile(
        {{-2, 0}, {0, 0}, {3, 0.45}, {7, 0.7}, {47, 0.7}, {52, 1.8}, {56.5, 2.9}, {60, 3.0}});
    const Vec3 flat{q.x - recession(q.y, q.z), q.y, 0};
    const double s = flat.x * cosine_ + flat.y * sine_;
    return height_over_parietal(flat) - profile.at(s);
  }

  [[nodiscard]] static double sides(const Vec3& q) {
    return std::abs(q.z) - p3_half_width(q.x, q.y);
  }

  [[nodiscard]] double top(const Vec3& q, const Vec3& p) const {
    const double z = foot_.to_p2(p).z;
    const double lift = -q.z * (foot_.tangent.lean + foot_.tangent.tilt) -
                        (joint_space(foot_.parameters, z) - foot_.parameters.joint_space_mm);
    const double from_middle = std::abs(q.z);
    // The rim never lies lower than the joint's floor needs.
    const double beak = foot_.apex_b - 27 * rise(3, 22, from_middle) -
                        0.45 * std::clamp(q.x - foot_.apex_a, 0.0, 5.0);
    const double extensor =
        std::max(beak, joint_floor_ + 0.8 + lift + 0.12 * std::max(foot_.cor_a - q.x, 0.0)) -
        0.5 * std::max(from_middle - 25.5, 0.0);
    const double wings = roof_.at(q.x) + lift - 3.0 * rise(26, 36, from_middle);
    return std::max(q.y - extensor, q.y - wings);
  }

  [[nodiscard]] double bottom(const Vec3& q) const {
    const double from_edge =
        std::min(q.x - recession(0, q.z), p3_half_width(q.x, 0) - std::abs(q.z));
    const double inward = std::max(from_edge, 0.0);
    const double vault = 3.4 * (1 - bell(inward, 13)) * rise(70, 54, q.x);
    const double past = std::clamp(q.x - shape::solar_length, 0.0, 5.0);
    const double turned_up = 6 - std::sqrt(36 - past * past);
    return solar_arch(q.x) + vault + turned_up - q.y;
  }

  /// Behind the flexor surface, between the palmar processes.
  [[nodiscard]] double notch(const Vec3& q) const {
    const double flexor = foot_.cor_a - 5.5 + 0.72 * q.y + 4 * bell(q.z, 8);
    const double width = 16.5 + 0.45 * (q.y - 4) + 0.22 * (q.x - foot_.cor_a);
    return cut_to(flexor - q.x, std::abs(q.z) - width, 6);
  }

  [[nodiscard]] double joint(const Vec3& p) const {
    const Vec3 r = foot_.to_p2(p);
    return cavity(
        r.x, r.y, r.z, foot_.parameters.condyle_radius_mm, joint_space(foot_.parameters, r.z));
  }

  struct Channel {
    Vec3 from;
    Vec3 to;
    double radius;
  };

  void add_channels() {
    Draws draw{foot_.parameters.grain ^ 0xC0FF1BULL};
    const Vec3 hub{foot_.cor_a - 14, 8.5, 0};
    constexpr int fan = 11;
    for (int i = 0; i < fan; ++i) {
      const double angle = (-75 + 150.0 * i / (fan - 1) + draw.between(-3, 3)) * radians_per_degree;
      const double start = draw.between(5, 8);
      const Vec3 from{hub.x - start * std::cos(angle), hub.y, 1.5 * start * std::sin(angle)};
      const double reach = draw.between(0.93, 1.06);
      // The mid-line channel stops short so that the tip stays where the skeleton has it.
      const double middle = std::abs(angle) < 0.12 ? 0.72 : 1.0;
      const Vec3 to{hub.x - reach * middle * hub.x * std::cos(angle),
                    3.2,
                    reach * middle * (shape::p3_widest_half + 1) * std::sin(angle)};
      channels_.push_back({from, to, draw.between(0.85, 1.45)});
    }
    constexpr int pores = 12; // vessels that leave through the parietal surface
    for (int i = 0; i < pores; ++i) {
      const double angle =
          (-70 + 140.0 * i / (pores - 1) + draw.between(-4, 4)) * radians_per_degree;
      const double b = draw.between(7, 19);
      const double reach = shape::p3_widest_a - 0.25 * b - b * cosine_ / sine_;
      const Vec3 out{shape::p3_widest_a - 0.25 * b - reach * std::cos(angle),
                     b,
                     p3_half_width(0, b) * std::sin(angle)};
      if (std::abs(out.z) > 5)
        channels_.push_back({{hub.x - 3, 9.5, 0.35 * out.z}, out, draw.between(0.7, 1.15)});
    }
    for (const double side : {-1.0, 1.0}) { // the solar canal and its arch
      const Vec3 mouth{foot_.cor_a + 1, 4.0, side * 12.5};
      const Vec3 bend{hub.x + 4, 8.5, side * 9.5};
      channels_.push_back({mouth, bend, 2.0});
      channels_.push_back({bend, {hub.x - 4, 8.5, 0}, 1.7});
      // Parietal groove along each wing.
      channels_.push_back({{58, 9.5, side * 37.5}, {32, 12.5, side * 33.8}, 1.5});
    }
  }

  /// Vessels, and the notches they leave in the margin away from the mid-line.
  [[nodiscard]] double channels(const Vec3& q) const {
    double nearest = 1e3;
    for (const Channel& c : channels_)
      nearest = std::min(nearest, rod(q, c.from, c.to, c.radius));
    return nearest;
  }

  Foot foot_;
  double sine_;
  double cosine_;
  double joint_floor_;
  Polyline roof_;
  std::vector<Channel> channels_;
};

// ---- navicular bone -----------------------------------------------------------------------------

/// Its frame: x palmar-distal (away from the coffin joint), y along the flexor surface upwards.
Vec3 navicular_local(const Foot& f, const Vec3& p) {
  const Vec3 q = f.to_p2(p);
  const double slope = f.parameters.p2_slope_deg * radians_per_degree;
  const double forward = -q.x * std::cos(slope) + q.y * std::sin(slope);
  const double up = q.x * std::sin(slope) + q.y * std::cos(slope);
  const double below = (42 - 0.5 * f.parameters.palmar_angle_deg) * radians_per_degree;
  return {-forward * std::cos(below) - up * std::sin(below),
          -forward * std::sin(below) + up * std::cos(below),
          q.z};
}

double navicular_surface(const Foot& f, const Vec3& p) {
  const Vec3 q = navicular_local(f, p);
  const double near_joint = f.parameters.condyle_radius_mm + 1.6;
  const double taper = 1 - 0.55 * std::pow(std::min(std::abs(q.z) / 27.0, 1.2), 2.4);
  const double from_joint = near_joint - std::hypot(q.x, q.y);
  const double flexor = q.x - (near_joint + 11.5 * taper + 0.9 * bell(q.z, 4));
  const double height = std::abs(q.y + 0.6) - 9.8 * taper + 0.22 * (q.x - near_joint - 5);
  double s = cut_to(from_joint, flexor, 3);
  s = cut_to(s, height, 5);
  return f.k * cut_to(s, std::abs(q.z) - 27, 3);
}

// ---- fetlock: only so that the picture doesn't end in a floating bone
// ---------------------------------

constexpr double fetlock_radius = 17.5;

Vec3 cannon_local(const Foot& f, const Vec3& p) {
  const Vec3 q = f.to_p1(p);
  const Vec3 d{q.x - (71 + 2.6 + fetlock_radius), q.y + 1, q.z};
  const double turn = (88 - f.parameters.p1_slope_deg) * radians_per_degree;
  return {d.x * std::cos(turn) + d.y * std::sin(turn),
          -d.x * std::sin(turn) + d.y * std::cos(turn),
          d.z};
}

double cannon_surface(const Foot& f, const Vec3& p) {
  const Vec3 q = cannon_local(f, p);
  const double ridge = 1.8 * bell(q.z, 4.5);
  const double head =
      cut_to(std::hypot(q.x, q.y) - fetlock_radius - ridge + 2.5 * rise(18, 26, std::abs(q.z)),
             std::abs(q.z) - 25,
             2);
  const double shaft = cut_to(superellipse(q.y - 1, q.z, 15, 21, 2.2), 2 - q.x, 4);
  return f.k * joined(head, shaft, 5);
}

double sesamoids_surface(const Foot& f, const Vec3& p) {
  const Vec3 q = cannon_local(f, p);
  return f.k * ellipsoid({q.x, q.y, std::abs(q.z)}, {3, -26.5, 12.5}, {16, 8.5, 10});
}

Bounds around(const Vec3& a, const Vec3& b, double margin) {
  return {{std::min(a.x, b.x) - margin, std::min(a.y, b.y) - margin, std::min(a.z, b.z) - margin},
          {std::max(a.x, b.x) + margin, std::max(a.y, b.y) + margin, std::max(a.z, b.z) + margin}};
}

Solid bone(std::string name, Bounds bounds, double resolution, Field surface, Spongy spongy) {
  Solid s{.name = std::move(name),
          .bounds = bounds,
          .resolution_mm = resolution,
          .surface = std::move(surface)};
  s.inside = Mixture::of(Material::cortical_bone);
  s.replaced = Mixture::of(Material::soft_tissue);
  s.spongy.push_back(std::move(spongy));
  return s;
}

} // namespace

void add_bones(const Foot& f, std::vector<Solid>& solids) {
  const double k = f.k;
  const double radius = f.parameters.condyle_radius_mm;
  const auto p3 = std::make_shared<CoffinBone>(f);
  const Vec3 back = f.from_p3(shape::solar_length + 6, 0, 0);
  const Vec3 top = f.from_p3(f.apex_a, f.apex_b, 0);
  solids.push_back(
      bone("p3",
           {{back.x - 4, std::min(f.tip.y, back.y) - 5, -44 * k}, {f.tip.x + 3, top.y + 5, 44 * k}},
           0.5,
           [p3](const Vec3& p) { return p3->surface(p); },
           {[p3](const Vec3& p) { return p3->cortex(p); },
            [p3](const Vec3& p) { return p3->mineral(p); },
            0.6}));
  solids.push_back(bone("p2",
                        around(f.cor, f.pip, 30 * k),
                        0.6,
                        [f, radius](const Vec3& p) { return f.k * p2_surface(f.to_p2(p), radius); },
                        {[f](const Vec3& p) { return f.k * p2_cortex(f.to_p2(p)); },
                         [f, radius](const Vec3& p) { return p2_mineral(f.to_p2(p), radius); },
                         0.6}));
  solids.push_back(bone("p1",
                        around(f.pip, f.from_p1(72, 0, 0), 32 * k),
                        0.7,
                        [f](const Vec3& p) { return f.k * p1_surface(f.to_p1(p)); },
                        {[f](const Vec3& p) { return f.k * p1_cortex(f.to_p1(p)); },
                         [f](const Vec3& p) { return p1_mineral(f.to_p1(p)); },
                         0.6}));
  const double reach = 40 * k;
  solids.push_back(
      bone("navicular",
           {{f.cor.x - reach, f.cor.y - reach, -31 * k}, {f.cor.x + 6, f.cor.y + 12, 31 * k}},
           0.5,
           [f](const Vec3& p) { return navicular_surface(f, p); },
           {[f](const Vec3& p) {
              const double flexor = navicular_local(f, p).x - f.parameters.condyle_radius_mm;
              return f.k * (1.1 + 1.7 * rise(7, 10.5, flexor));
            },
            [](const Vec3&) { return 0.33; },
            0.7}));
  const Vec3 fetlock = f.from_p1(71 + 20, 0, 0);
  solids.push_back(
      bone("cannon",
           around(fetlock, fetlock + Vec3{0, 40 * k, 0}, 30 * k),
           1.0,
           [f](const Vec3& p) { return cannon_surface(f, p); },
           {[f](const Vec3& p) { return f.k * (1.4 + 5 * rise(14, 40, cannon_local(f, p).x)); },
            [](const Vec3&) { return 0.28; },
            0.7}));
  solids.push_back(bone("sesamoids",
                        around(fetlock + Vec3{-26 * k, 0, 0}, fetlock, 26 * k),
                        1.0,
                        [f](const Vec3& p) { return sesamoids_surface(f, p); },
                        {[](const Vec3&) { return 1.2; }, [](const Vec3&) { return 0.32; }, 0.7}));
}

} // namespace pritchel::phantom
