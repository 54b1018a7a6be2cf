/// Where the camera stood before a card, from the map of the card's plane and the lens's focal
/// length, and what follows when the plane of interest isn't the card's. Inside imaging only.
/// Source: Zhang (2000), A flexible new technique for camera calibration, IEEE PAMI 22:1330-1334
/// (from memory); the rest is plane geometry.
#pragma once

#include "geometry/homography.h"
#include "imaging/plane_fit.h"

namespace pritchel::imaging {

struct CardPose {
  double tilt_deg = 0;    ///< between the card and a plane parallel to the camera's sensor
  double distance_mm = 0; ///< from the camera square to the card's plane
  double depth_mm = 0;    ///< of the card's middle, along the camera's axis
  ImagePoint foot;        ///< in the card's plane, mm: where that square line meets it
};

/// `to_picture`: card's plane (mm) to straightened pixels. `middle`: the card's, mm.
[[nodiscard]] CardPose
pose_of(const Homography& to_picture, const CameraView& camera, const ImagePoint& middle);

/// From places in the card's plane to those in a parallel plane that lies farther from the camera
/// by so much, seen along the same rays.
[[nodiscard]] Homography to_plane_behind(const CardPose& pose, double behind_mm);

enum class TurnAbout { upright, level };

/// The same for a plane through the card's middle that is turned against the card about the card's
/// upright or level axis.
[[nodiscard]] Homography
to_turned_plane(const CardPose& pose, const ImagePoint& middle, TurnAbout axis, double degrees);

/// first, then second.
[[nodiscard]] Homography after(const Homography& second, const Homography& first);

} // namespace pritchel::imaging
