#include "phantom/photo_scene.h"

#include <algorithm>
#include <cmath>

namespace pritchel::phantom {

namespace {

bool is_within(const Pixel& p, const PhotoCamera& camera, double margin) {
  return p.x > margin && p.y > margin && p.x < camera.columns - 1 - margin &&
         p.y < camera.rows - 1 - margin;
}

/// Anything of the horse or the sheet between the eye and the disc.
bool is_hidden(const PhotoScene& scene,
               const PrintedSheet* sheet,
               const Vec3& eye,
               const Disc& disc) {
  const Vec3 to_disc = disc.centre - eye;
  if (sheet != nullptr && scene.parameters.sheet) {
    const SheetPlane plane = sheet_plane(*scene.parameters.sheet, *sheet);
    const double share = dot(plane.corner - eye, plane.normal) / dot(to_disc, plane.normal);
    const Vec3 p = eye + to_disc * share - plane.corner;
    const double x = dot(p, plane.right);
    const double y = dot(p, plane.up);
    const double rim = disc.radius_mm;
    if (share > 0 && share < 1 && x > -rim && y > -rim && x < sheet->width_mm + rim &&
        y < sheet->height_mm + rim)
      return true;
  }
  // From the disc towards the eye, beyond its own skin: near misses count, since a disc has width.
  const Vec3 along = unit(scene.stance.turned_to_horse(to_disc * -1.0));
  const Vec3 from = scene.stance.to_horse(disc.centre);
  const double far_end = length(to_disc);
  constexpr double first_mm = 12;
  constexpr double step_mm = 6;
  const int steps = static_cast<int>((far_end - first_mm) / step_mm);
  for (int i = 0; i < steps; ++i)
    if (skin_distance(scene.horse, from + along * (first_mm + i * step_mm)) < 0)
      return true;
  return false;
}

PhotoDot seen_dot(const PhotoScene& scene,
                  const PrintedSheet* sheet,
                  const PhotoLens& lens,
                  const Disc& disc) {
  PhotoDot dot_seen{.id = disc.id, .colour = disc.colour, .sight = PhotoDot::Sight::hidden};
  const Vec3 sight = unit(lens.eye() - disc.centre);
  const double facing = dot(sight, disc.normal);
  dot_seen.slant_deg = std::acos(std::clamp(facing, -1.0, 1.0)) / radians_per_degree;
  const auto centre = lens.project(disc.centre);
  if (!centre)
    return dot_seen;
  dot_seen.centre = *centre;
  dot_seen.diameter_px = 2 * disc.radius_mm * lens.focal() / length(lens.eye() - disc.centre);
  constexpr double most_slant_deg = 72;
  if (dot_seen.slant_deg < most_slant_deg &&
      is_within(*centre, scene.parameters.camera, dot_seen.diameter_px) &&
      !is_hidden(scene, sheet, lens.eye(), disc))
    dot_seen.sight = PhotoDot::Sight::visible;
  return dot_seen;
}

void add_landmark(PhotoTruth& truth,
                  const PhotoScene& scene,
                  const PhotoLens& lens,
                  const HorsePoint& l) {
  const Vec3 at = scene.stance.to_photo(l.at);
  const auto seen = lens.project(at);
  const auto in_plane = lens.project({at.x, at.y, 0});
  if (seen && in_plane && is_within(*in_plane, scene.parameters.camera, 0))
    truth.landmarks.push_back({l.id, l.at, scene.stance.sign() * at.x, at.y, *seen, *in_plane});
}

} // namespace

std::string view_word(PhotoSubject subject) {
  switch (subject) {
  case PhotoSubject::fore_front:
    return "limb-front";
  case PhotoSubject::hind_behind:
    return "limb-behind";
  case PhotoSubject::foot_side:
    return "foot-side";
  case PhotoSubject::foot_front:
    return "foot-front";
  case PhotoSubject::sole:
    return "sole";
  case PhotoSubject::fore_side:
  case PhotoSubject::hind_side:
    break;
  }
  return "limb-side";
}

std::vector<std::string> dot_places(PhotoSubject subject) {
  switch (subject) {
  case PhotoSubject::fore_side:
    return {"scapular-spine-top",
            "scapula-tuber",
            "point-of-shoulder",
            "elbow",
            "carpus-lateral",
            "fetlock-lateral",
            "dip-lateral"};
  case PhotoSubject::hind_side:
    return {"greater-trochanter",
            "stifle-lateral",
            "hock-lateral",
            "mt3-proximal-lateral",
            "fetlock-lateral",
            "dip-lateral"};
  default:
    return {};
  }
}

PhotoTruth photo_truth(const PhotoParameters& parameters, const PrintedSheet* sheet) {
  const PhotoScene scene = photo_scene(parameters);
  const PhotoLens lens{parameters.camera};
  PhotoTruth truth;
  for (const HorsePoint& l : photo_landmarks(scene.horse, parameters.subject))
    add_landmark(truth, scene, lens, l);
  if (parameters.cord == PhotoParameters::Cord::hanging)
    for (const HorsePoint& l : cord_ends(scene))
      add_landmark(truth, scene, lens, l);
  for (const Disc& disc : scene.discs)
    truth.dots.push_back(seen_dot(scene, sheet, lens, disc));
  if (sheet != nullptr && parameters.sheet) {
    const SheetPlane plane = sheet_plane(*parameters.sheet, *sheet);
    for (const PrintedSheet::Corner& c : sheet->corners)
      if (const auto at = lens.project(plane.at(*sheet, c.x, c.y));
          at && is_within(*at, parameters.camera, 0))
        truth.sheet_corners.push_back({c.id, *at});
  }
  truth.camera_distance_mm = lens.eye().z;
  truth.plane_turned_deg = std::acos(std::clamp(-lens.axes()[2].z, -1.0, 1.0)) / radians_per_degree;
  return truth;
}

} // namespace pritchel::phantom
