/// The camera of a rendered photo: a pinhole with one radial distortion term. Knows no horse.
/// Photo space: millimetres, X to the picture's right, Y up, Z towards the photographer, so that a
/// camera with no turn looks along -Z. Pixels: x right, y down, centre of the top left one at 0, 0.
/// Source: the usual pinhole and radial polynomial model, held against OpenCV's projectPoints in
/// the tests.
#pragma once

#include "phantom/shot.h"
#include "phantom/vec3.h"

#include <array>
#include <optional>

namespace pritchel::phantom {

struct PhotoCamera {
  int columns = 1200;
  int rows = 1600;
  double focal_35mm = 28; ///< focal length on 35-mm film with the same angle over the diagonal
  double k1 = 0;          ///< seen at r (1 + k1 r^2), r in focal lengths from the centre
  Vec3 position{0, 800, 3000};
  double yaw_deg = 0;   ///< looking to the right is positive
  double pitch_deg = 0; ///< looking up is positive
  double roll_deg = 0;  ///< head tipped to the right, so that the picture turns to the left
};

/// A camera this far from `target`, walked round it to the right by `around_deg` and standing
/// `height_mm` above the ground, that looks at the target.
PhotoCamera camera_towards(const Vec3& target,
                           double distance_mm,
                           double around_deg,
                           double height_mm,
                           const PhotoCamera& kind);

/// Focal length in pixels: the 35-mm frame's diagonal is 43.267 mm (36 x 24).
double focal_px(const PhotoCamera& camera);

/// Photo space to pixels and back.
class PhotoLens {
public:
  explicit PhotoLens(const PhotoCamera& camera);

  /// Nothing for a point behind the camera, or so far out that the radial term folds back.
  [[nodiscard]] std::optional<Pixel> project(const Vec3& point) const;
  /// Unit direction of the ray through a pixel.
  [[nodiscard]] Vec3 ray(double column, double row) const;
  [[nodiscard]] const Vec3& eye() const { return eye_; }
  /// Rows: the camera's right, down and forward in photo space.
  [[nodiscard]] const std::array<Vec3, 3>& axes() const { return axes_; }
  [[nodiscard]] double focal() const { return focal_; }

private:
  Vec3 eye_;
  std::array<Vec3, 3> axes_;
  double focal_;
  double k1_;
  double centre_x_;
  double centre_y_;
};

} // namespace pritchel::phantom
