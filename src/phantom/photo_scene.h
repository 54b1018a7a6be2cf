/// The scene of a rendered photo in photo space: horse, discs, sheet, ground, background. Shared by
/// the renderer and the truth, so that both speak of the same things.
#pragma once

#include "phantom/photo.h"

namespace pritchel::phantom {

/// The horse's frame and photo space: a turn, for left limbs a reflection, and a shift that brings
/// the limb's plane to Z = 0.
class Stance {
public:
  Stance(PhotoSubject subject, Side side, double plane_mm);
  [[nodiscard]] Vec3 to_photo(const Vec3& horse) const;
  [[nodiscard]] Vec3 to_horse(const Vec3& photo) const;
  [[nodiscard]] Vec3 turned_to_photo(const Vec3& direction) const;
  [[nodiscard]] Vec3 turned_to_horse(const Vec3& direction) const;
  /// Where toe (side) or lateral (else) is in the picture: +1 right, -1 left.
  [[nodiscard]] double sign() const { return sign_; }

private:
  PhotoSubject subject_;
  double sign_ = 1;
  double plane_mm_;
};

struct Disc {
  Vec3 centre; ///< photo space
  Vec3 normal;
  double radius_mm = 12.5;
  int colour = 0;
  std::string id;
};

/// The sheet's lower left corner and its edges' directions, photo space.
struct SheetPlane {
  Vec3 corner;
  Vec3 right;
  Vec3 up;
  Vec3 normal;
  [[nodiscard]] Vec3 at(const PrintedSheet& sheet, double x, double y) const {
    return corner + right * x + up * (sheet.height_mm - y);
  }
};

struct PhotoScene {
  PhotoParameters parameters;
  StandingHorse horse;
  Stance stance;
  std::vector<Disc> discs; ///< on the skin first, then lookalikes
  std::size_t on_skin = 0;
  double wall_z = -1500;
  double ground_y = 0;
};

PhotoScene photo_scene(const PhotoParameters& parameters);
SheetPlane sheet_plane(const SheetPlace& place, const PrintedSheet& sheet);

/// A landmark in the horse's frame, before any camera.
struct HorsePoint {
  std::string id;
  Vec3 at;
};
/// "plumb-top" and "plumb-bottom" on the cord that hangs in the limb's plane.
std::vector<HorsePoint> cord_ends(const PhotoScene& scene);
std::vector<HorsePoint> photo_landmarks(const StandingHorse& horse, PhotoSubject subject);

} // namespace pritchel::phantom
