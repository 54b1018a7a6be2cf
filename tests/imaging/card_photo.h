/// Photos of the printed card with known truth: a pinhole camera with one radial lens term, light
/// that falls off, blur, noise.
#pragma once

#include "geometry/frames.h"
#include "imaging/card.h"
#include "imaging/picture.h"
#include "imaging/scale.h"

#include <vector>

namespace pritchel::imaging::test {

struct CardPhoto {
  CardPaper paper = CardPaper::a4;
  int columns = 3000;
  int rows = 4000;
  double focal_px = 3000;
  double k1 = 0; ///< of OpenCV's camera model
  /// The board's middle before the camera, mm: right, down, away.
  double right = 0;
  double down = 0;
  double away = 2000;
  /// The card turned about its own upright axis, its own level axis, and in its plane.
  double yaw_deg = 0;
  double pitch_deg = 0;
  double roll_deg = 0;
  double blur_px = 0.8;
  double noise = 3; ///< grey levels
  unsigned seed = 1;
};

/// Middle of the board, mm on the card.
[[nodiscard]] CardPoint board_middle(const Card& card);

/// Where the camera sees places in the card's plane; by OpenCV's projectPoints.
[[nodiscard]] std::vector<ImagePoint> seen(const CardPhoto& photo,
                                           const std::vector<CardPoint>& places);

/// The corners as the camera sees them.
[[nodiscard]] std::vector<CardCorner> true_corners(const CardPhoto& photo);

/// The photo itself, painted point by point.
[[nodiscard]] Picture painted(const CardPhoto& photo);

} // namespace pritchel::imaging::test
