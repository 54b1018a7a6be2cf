#include "phantom/photo_looks.h"
#include "phantom/photo_scene.h"
#include "phantom/random.h"
#include "phantom/shapes.h"

#include <opencv2/imgproc.hpp>

#include <cmath>

namespace pritchel::phantom {

namespace {

constexpr int tile_px = 16;
constexpr int apron_px = 1;
constexpr int block_px = tile_px + 2 * apron_px;
constexpr int samples_across = 4;
constexpr double far_mm = 30000;
/// First marks of what isn't background.
constexpr int horse_mark = 100;
constexpr int disc_mark = 1000;
constexpr int sheet_mark = 2000;

/// What a ray met, in photo space.
struct Met {
  double t = far_mm;
  Vec3 at;
  Vec3 normal{0, 0, 1};
  Vec3 paint;
  double shine = 0;
  int mark = 0; ///< differs across edges that need smoothing
};

/// Least distance between a ray's line (ahead of its start) and a rod's middle line.
double apart(const Vec3& from, const Vec3& along, const Vec3& a, const Vec3& b) {
  const Vec3 ab = b - a;
  const Vec3 to_a = a - from;
  const double ab2 = std::max(dot(ab, ab), 1e-9);
  const double mixed_dot = dot(along, ab);
  const double denominator = ab2 - mixed_dot * mixed_dot;
  double s = 0.5;
  if (denominator > 1e-9 * ab2)
    s = std::clamp((mixed_dot * dot(along, to_a) - dot(ab, to_a)) / denominator, 0.0, 1.0);
  const Vec3 on_rod = a + ab * s;
  const double t = std::max(0.0, dot(on_rod - from, along));
  return length(on_rod - (from + along * t));
}

/// The parts of the horse that a bundle of rays can touch.
struct Few {
  std::vector<const Part*> parts;
  std::vector<const HoofShape*> hooves;

  [[nodiscard]] bool none() const { return parts.empty() && hooves.empty(); }
  [[nodiscard]] double distance(const Vec3& p) const {
    double d = 1e9;
    for (const Part* part : parts)
      d = joined(d, part_distance(*part, p), part->blend);
    for (const HoofShape* hoof : hooves)
      d = std::min(d, hoof_distance(*hoof, p));
    return d;
  }
  [[nodiscard]] Nearest nearest(const Vec3& p) const {
    Nearest best;
    for (const Part* part : parts)
      if (const double d = part_distance(*part, p); d < best.mm)
        best = {d, part->skin, part};
    for (const HoofShape* hoof : hooves)
      if (const double d = hoof_distance(*hoof, p); d < best.mm)
        best = {d, Skin::horn, nullptr};
    return best;
  }
};

/// `from`, `along` in the horse's frame; the bundle is `radius` thick at its start and widens.
Few touched(const StandingHorse& horse,
            const Vec3& from,
            const Vec3& along,
            double radius,
            double widening) {
  constexpr double widest_seam_mm = 40; // a seam is as wide as the later part's blend says
  Few few;
  for (const Part& part : horse.parts) {
    const double reach = std::max(part.radius_a, part.radius_b) * std::max(1.0, part.flat) +
                         std::max(part.blend, widest_seam_mm);
    const double away = std::max(length(part.a - from), length(part.b - from)) + reach;
    if (apart(from, along, part.a, part.b) < reach + radius + widening * away)
      few.parts.push_back(&part);
  }
  for (const HoofShape& hoof : horse.hooves) {
    const Vec3 middle = hoof.at + Vec3{0, 35, 0} * hoof.scale;
    const double reach = 125 * hoof.scale;
    if (apart(from, along, middle, middle) < reach + radius + widening * length(middle - from))
      few.hooves.push_back(&hoof);
  }
  return few;
}

struct LightKind {
  Vec3 towards; ///< unit
  Vec3 beam;
  Vec3 sky;
  double wrap = 0; ///< how far the beam reaches round
  double exposure = 1;
  double contrast = 1;
};

LightKind light_kind(const PhotoParameters& p) {
  const double from = p.sun_from_deg * radians_per_degree;
  const double up = p.sun_height_deg * radians_per_degree;
  const Vec3 sun{std::sin(from) * std::cos(up), std::sin(up), std::cos(from) * std::cos(up)};
  switch (p.light) {
  case Light::sun:
    return {sun, {1.75, 1.66, 1.5}, {0.4, 0.45, 0.54}, 0, 1.0, 1};
  case Light::overcast:
    return {unit({0.2, 0.7, 0.7}), {0.45, 0.46, 0.47}, {0.92, 0.95, 1.0}, 0.5, 1.15, 1};
  case Light::dull:
    return {unit({0.1, 0.6, 0.8}), {0.2, 0.2, 0.21}, {0.66, 0.69, 0.75}, 0.6, 0.85, 0.75};
  case Light::stable:
    break;
  }
  return {unit({-0.35, 0.65, 0.7}), {0.95, 0.8, 0.58}, {0.42, 0.36, 0.29}, 0.3, 1.1, 0.92};
}

class Painter {
public:
  Painter(const PhotoScene& scene, const PrintedSheet* sheet)
      : scene_(scene),
        sheet_(sheet),
        lens_(scene.parameters.camera),
        light_(light_kind(scene.parameters)),
        eye_in_horse_(scene.stance.to_horse(lens_.eye())) {
    if (sheet_ != nullptr && scene.parameters.sheet)
      plane_ = sheet_plane(*scene.parameters.sheet, *sheet_);
    else
      sheet_ = nullptr;
  }

  void tile(int column, int row, cv::Mat3f& picture) const;

private:
  [[nodiscard]] Met met(const Few& few, double column, double row) const;
  void meet_background(const Vec3& ray, Met& met) const;
  void meet_horse(const Few& few, const Vec3& ray, Met& met) const;
  void meet_discs(const Vec3& ray, Met& met, double skin_t) const;
  void meet_sheet(const Vec3& ray, Met& met) const;
  [[nodiscard]] double lit(const Few& between, const Met& met) const;
  [[nodiscard]] cv::Vec3f shaded(const Few& near_by, const Few& between, const Met& met) const;
  [[nodiscard]] cv::Vec3f smoothed(const Few& few, const Few& between, int column, int row) const;
  [[nodiscard]] Few shading_between(const std::vector<Met>& all) const;

  const PhotoScene& scene_;
  const PrintedSheet* sheet_;
  PhotoLens lens_;
  LightKind light_;
  Vec3 eye_in_horse_;
  SheetPlane plane_;
};

void Painter::meet_background(const Vec3& ray, Met& met) const {
  const auto take =
      [&](double t, const Vec3& normal, Painted (*paint)(const PhotoScene&, const Vec3&)) {
        if (t <= 0 || t >= met.t)
          return;
        met.t = t;
        met.at = lens_.eye() + ray * t;
        met.normal = normal;
        const Painted painted = paint(scene_, met.at);
        met.paint = painted.paint;
        met.mark = painted.mark;
      };
  if (ray.z < -1e-9)
    take((scene_.wall_z - lens_.eye().z) / ray.z, {0, 0, 1}, wall_paint);
  if (ray.y < -1e-9)
    take((scene_.ground_y - lens_.eye().y) / ray.y, {0, 1, 0}, ground_paint);
}

void Painter::meet_horse(const Few& few, const Vec3& ray, Met& met) const {
  if (few.none())
    return;
  const Vec3 along = scene_.stance.turned_to_horse(ray);
  constexpr int steps = 240;
  constexpr double skin_per_distance = 4e-5; // a tenth of a millimetre at 2.5 m
  double t = 0;
  for (int i = 0; i < steps && t < met.t; ++i) {
    const Vec3 p = eye_in_horse_ + along * t;
    const double d = few.distance(p);
    if (d < skin_per_distance * t) {
      constexpr double e = 0.4;
      const Vec3 n = unit({few.distance(p + Vec3{e, 0, 0}) - few.distance(p - Vec3{e, 0, 0}),
                           few.distance(p + Vec3{0, e, 0}) - few.distance(p - Vec3{0, e, 0}),
                           few.distance(p + Vec3{0, 0, e}) - few.distance(p - Vec3{0, 0, e})});
      const Nearest nearest = few.nearest(p);
      met.t = t;
      met.at = lens_.eye() + ray * t;
      met.normal = scene_.stance.turned_to_photo(n);
      met.paint = horse_paint(scene_, nearest, p, n);
      met.mark = horse_mark + static_cast<int>(nearest.skin);
      met.shine = nearest.skin == Skin::hair ? 0.05 : 0.03;
      return;
    }
    t += 0.9 * d;
  }
}

void Painter::meet_discs(const Vec3& ray, Met& met, double skin_t) const {
  constexpr double foil_give_mm = 16; // a flat disc sinks into round skin at its rim
  for (std::size_t i = 0; i < scene_.discs.size(); ++i) {
    const Disc& disc = scene_.discs[i];
    const double facing = dot(ray, disc.normal);
    if (facing > -1e-3)
      continue;
    const double t = dot(disc.centre - lens_.eye(), disc.normal) / facing;
    const Vec3 p = lens_.eye() + ray * t;
    if (t <= 0 || t > skin_t + foil_give_mm || length(p - disc.centre) > disc.radius_mm)
      continue;
    met.t = std::min(t, skin_t);
    met.at = p + disc.normal * 1.0;
    met.normal = disc.normal;
    met.paint = linear_of(scene_.parameters.dot_colours.at(static_cast<std::size_t>(disc.colour)));
    met.mark = disc_mark + static_cast<int>(i);
    met.shine = 0.02;
  }
}

void Painter::meet_sheet(const Vec3& ray, Met& met) const {
  const double facing = dot(ray, plane_.normal);
  if (facing > -1e-3)
    return;
  const double t = dot(plane_.corner - lens_.eye(), plane_.normal) / facing;
  const Vec3 p = lens_.eye() + ray * t;
  const double x = dot(p - plane_.corner, plane_.right);
  const double y = sheet_->height_mm - dot(p - plane_.corner, plane_.up);
  if (t <= 0 || t >= met.t || x < 0 || y < 0 || x > sheet_->width_mm || y > sheet_->height_mm)
    return;
  const bool black = sheet_->is_black(x, y);
  met = {.t = t, .at = p, .normal = plane_.normal};
  met.paint = black ? Vec3{0.035, 0.035, 0.035} : Vec3{0.82, 0.82, 0.8};
  met.mark = black ? sheet_mark : sheet_mark + 1;
}

Met Painter::met(const Few& few, double column, double row) const {
  const Vec3 ray = lens_.ray(column, row);
  Met result;
  meet_background(ray, result);
  meet_horse(few, ray, result);
  meet_discs(ray, result, result.t);
  if (sheet_ != nullptr)
    meet_sheet(ray, result);
  return result;
}

double Painter::lit(const Few& between, const Met& met) const {
  if (scene_.parameters.light != Light::sun)
    return 1;
  const Vec3 from = scene_.stance.to_horse(met.at + met.normal * 2.5);
  const Vec3 along = scene_.stance.turned_to_horse(light_.towards);
  double light = 1;
  if (sheet_ != nullptr && met.mark < sheet_mark) {
    const double facing = dot(light_.towards, plane_.normal);
    const double t = dot(plane_.corner - met.at, plane_.normal) / facing;
    const Vec3 p = met.at + light_.towards * t;
    const double x = dot(p - plane_.corner, plane_.right);
    const double y = dot(p - plane_.corner, plane_.up);
    if (t > 1 && x > 0 && y > 0 && x < sheet_->width_mm && y < sheet_->height_mm)
      return 0;
  }
  if (between.none())
    return 1;
  constexpr double penumbra = 60;
  constexpr double own_skin_mm = 14;
  constexpr double longest = 4000;
  for (double t = 1; t < longest;) {
    const double d = between.distance(from + along * t);
    if (d < 0.3 && t > own_skin_mm)
      return 0;
    if (t > own_skin_mm)
      light = std::min(light, penumbra * d / t);
    t += std::max(d, 2.0);
  }
  return light;
}

cv::Vec3f Painter::shaded(const Few& near_by, const Few& between, const Met& met) const {
  const double facing = dot(met.normal, light_.towards);
  const double beam = std::max(0.0, (facing + light_.wrap) / (1 + light_.wrap)) * lit(between, met);
  double open = 1;
  if (!near_by.none()) {
    constexpr double feeler_mm = 45;
    const Vec3 p = scene_.stance.to_horse(met.at + met.normal * feeler_mm);
    open = std::clamp(0.45 + 0.55 * near_by.distance(p) / feeler_mm, 0.35, 1.0);
  }
  const double sky = (0.64 + 0.36 * met.normal.y) * open;
  const Vec3 view = unit(lens_.eye() - met.at);
  const double mirror = std::max(0.0, dot(unit(view + light_.towards), met.normal));
  const double mirror4 = mirror * mirror * mirror * mirror;
  const double gleam = met.shine * beam * mirror4 * mirror4 * mirror4;
  const auto channel = [&](double paint, double b, double s) {
    return static_cast<float>(light_.exposure * (paint * (b * beam + s * sky) + gleam * b));
  };
  return {channel(met.paint.x, light_.beam.x, light_.sky.x),
          channel(met.paint.y, light_.beam.y, light_.sky.y),
          channel(met.paint.z, light_.beam.z, light_.sky.z)};
}

/// The parts that can stand between these points and the sun.
Few Painter::shading_between(const std::vector<Met>& all) const {
  if (scene_.parameters.light != Light::sun)
    return {};
  Vec3 middle;
  for (const Met& m : all)
    middle = middle + m.at * (1.0 / static_cast<double>(all.size()));
  double radius = 0;
  for (const Met& m : all)
    radius = std::max(radius, length(m.at - middle));
  return touched(scene_.horse,
                 scene_.stance.to_horse(middle),
                 scene_.stance.turned_to_horse(light_.towards),
                 radius + 5,
                 0.002);
}

bool is_edge(const Met& a, const Met& b) {
  constexpr double step_mm = 25;
  return a.mark != b.mark || (a.mark >= horse_mark && std::abs(a.t - b.t) > step_mm);
}

cv::Vec3f Painter::smoothed(const Few& few, const Few& between, int column, int row) const {
  cv::Vec3f sum(0, 0, 0);
  for (int down = 0; down < samples_across; ++down)
    for (int across = 0; across < samples_across; ++across) {
      const double dx = (across + 0.5) / samples_across - 0.5;
      const double dy = (down + 0.5) / samples_across - 0.5;
      sum += shaded(few, between, met(few, column + dx, row + dy));
    }
  return sum * (1.0F / (samples_across * samples_across));
}

void Painter::tile(int column, int row, cv::Mat3f& picture) const {
  const double half = 0.5 * (block_px - 1);
  const Vec3 axis = lens_.ray(column - apron_px + half, row - apron_px + half);
  const double widening = 1.1 * std::sqrt(2.0) * (half + 1) / lens_.focal();
  const Few few =
      touched(scene_.horse, eye_in_horse_, scene_.stance.turned_to_horse(axis), 1, widening);
  const auto index = [](int x, int y) {
    return static_cast<std::size_t>(y) * block_px + static_cast<std::size_t>(x);
  };
  std::vector<Met> block(index(0, block_px));
  for (int y = 0; y < block_px; ++y)
    for (int x = 0; x < block_px; ++x)
      block[index(x, y)] = met(few, column - apron_px + x, row - apron_px + y);
  const Few between = shading_between(block);
  for (int y = apron_px; y < block_px - apron_px; ++y)
    for (int x = apron_px; x < block_px - apron_px; ++x) {
      const int to_x = column + x - apron_px;
      const int to_y = row + y - apron_px;
      if (to_x >= picture.cols || to_y >= picture.rows)
        continue;
      const Met& here = block[index(x, y)];
      const bool edge =
          is_edge(here, block[index(x - 1, y)]) || is_edge(here, block[index(x + 1, y)]) ||
          is_edge(here, block[index(x, y - 1)]) || is_edge(here, block[index(x, y + 1)]);
      picture(to_y, to_x) = edge ? smoothed(few, between, to_x, to_y) : shaded(few, between, here);
    }
}

std::uint8_t to_byte(double linear) {
  const double v = std::clamp(linear, 0.0, 1.0);
  const double s = v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055;
  return static_cast<std::uint8_t>(std::lround(255 * s));
}

/// Table of to_byte, fine enough that dark tones don't step.
const std::vector<std::uint8_t>& byte_table() {
  static const std::vector<std::uint8_t> table = [] {
    std::vector<std::uint8_t> t(65536);
    for (std::size_t i = 0; i < t.size(); ++i)
      t[i] = to_byte(static_cast<double>(i) / 65535);
    return t;
  }();
  return table;
}

PhotoRaster developed(const PhotoParameters& p, cv::Mat3f& linear) {
  if (p.blur_px > 0)
    cv::GaussianBlur(linear, linear, {}, p.blur_px, p.blur_px, cv::BORDER_REPLICATE);
  const LightKind light = light_kind(p);
  const double haze = 0.1 * (1 - light.contrast);
  PhotoRaster raster{linear.cols, linear.rows, {}};
  raster.rgb.resize(3 * linear.total());
  std::size_t i = 0;
  for (int y = 0; y < linear.rows; ++y)
    for (int x = 0; x < linear.cols; ++x)
      for (int c = 0; c < 3; ++c, ++i) {
        double v = static_cast<double>(linear(y, x)[c]) * light.contrast + haze;
        constexpr double mid_grey = 0.18;
        if (p.noise > 0) // photon noise: grows with the root of the light
          v += p.noise * std::sqrt(std::max(v, 0.01) / mid_grey) * normal(p.seed ^ 0x401CEULL, i);
        raster.rgb[i] = byte_table()[static_cast<std::size_t>(65535 * std::clamp(v, 0.0, 1.0))];
      }
  return raster;
}

} // namespace

PhotoRaster render_photo(const PhotoParameters& parameters, const PrintedSheet* sheet) {
  const PhotoScene scene = photo_scene(parameters);
  const Painter painter{scene, sheet};
  cv::Mat3f picture(parameters.camera.rows, parameters.camera.columns, cv::Vec3f(0, 0, 0));
  for (int y = 0; y < picture.rows; y += tile_px)
    for (int x = 0; x < picture.cols; x += tile_px)
      painter.tile(x, y, picture);
  return developed(parameters, picture);
}

} // namespace pritchel::phantom
