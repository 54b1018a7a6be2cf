/// How a picture is taken: tube, detector, side of the stored picture. And the one place where foot
/// millimetres become image pixels (x right, y down, centre of the top left pixel at 0, 0).
#pragma once

#include "phantom/foot.h"

#include <cstdint>
#include <string>
#include <vector>

namespace pritchel::phantom {

enum class View { lateromedial, dorsopalmar };
/// Which way the toe (lateromedial) or the lateral side (dorsopalmar) points in the stored picture.
enum class Facing { left, right };
enum class Polarity { monochrome1, monochrome2 };
enum class Collimation { open, edges };

/// A ball of steel. Offset: out of the plane of interest, towards the tube.
struct Ball {
  double diameter_mm = 25;
  double offset_mm = 0;
};

struct Shot {
  View view = View::lateromedial;
  Facing facing = Facing::left;
  double source_to_detector_mm = 700;
  double plane_to_detector_mm = 70; ///< mid-plane (LM) or coffin joint (DP) to the detector
  double beam_height_mm = 15;       ///< central ray above the ground, at the plane of interest
  double beam_along_mm = 0;         ///< its x (LM) or z (DP) there
  double yaw_deg = 0;               ///< tube swung round the vertical
  double roll_deg = 0;              ///< tube tipped up or down
  double spacing_x_mm = 0.148;      ///< at the detector
  double spacing_y_mm = 0.148;
  int columns = 1400;
  int rows = 1500;
  double centre_column = 700; ///< where the central ray falls
  double centre_row = 1250;
  double exposure_ratio = 1;
  double focal_spot_mm = 0.8;
  double motion_mm = 0;
  Polarity polarity = Polarity::monochrome2;
  Collimation collimation = Collimation::edges;
  std::vector<Ball> ball; ///< none or one
  std::uint64_t seed = 1;
};

/// A shot whose picture holds the whole foot, the block's top and the pastern: height of beam 15
/// mm, centred between toe and heel (LM) or on the mid-line (DP), with a 25 mm ball in the plane of
/// interest.
Shot framed_shot(const Foot& foot, View view, Facing facing, double spacing_mm = 0.148);

struct Pixel {
  double x = 0;
  double y = 0;
};

/// Point source, flat detector.
class Camera {
public:
  explicit Camera(const Shot& shot);

  [[nodiscard]] Pixel project(const Vec3& point) const;
  [[nodiscard]] Vec3 source() const { return source_; }
  /// Place of a pixel on the detector, in the foot frame.
  [[nodiscard]] Vec3 on_detector(double column, double row) const;
  /// Source to detector over source to plane of interest.
  [[nodiscard]] double magnification() const;
  [[nodiscard]] Vec3 right() const { return right_; }
  [[nodiscard]] Vec3 up() const { return up_; }
  [[nodiscard]] Vec3 towards_source() const { return towards_source_; }

private:
  Shot shot_;
  Vec3 right_;
  Vec3 up_;
  Vec3 towards_source_;
  Vec3 source_;
  Vec3 centre_; ///< foot of the central ray on the detector
};

/// Centre of the marker ball; where it stands depends on foot and view.
Vec3 ball_centre(const Foot& foot, const Shot& shot, const Ball& ball);

} // namespace pritchel::phantom
