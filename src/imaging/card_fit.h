/// The view of a card that a statement describes: its plane, the camera's place, how far each is to
/// be believed. Inside imaging only.
#pragma once

#include "base/result.h"
#include "imaging/card.h"
#include "imaging/card_pose.h"
#include "imaging/plane_fit.h"
#include "imaging/scale.h"

namespace pritchel::imaging {

struct CardFit {
  Card layout;
  ImagePoint middle;    ///< of the corners seen, mm on the card
  ImagePoint middle_px; ///< and where it is seen
  PlaneFit plane;
  CameraView lens_view; ///< the unit of the plane's k1
  CameraView camera;    ///< with the focal length that the pose was found with
  CardPose pose;
  double distance_share = 0; ///< standard uncertainty of the pose's distances
};

/// One sentence for corners or numbers that can't be.
[[nodiscard]] Result<CardFit> fit_card(int columns, int rows, const ScaleStatement& said);

/// The focal length in pixels of a lens that a header names by its length on 35-mm film, whose
/// picture's diagonal is that of 36 x 24 mm. Source: CIPA DCG-001 (from memory).
[[nodiscard]] double focal_px_of(double lens_35mm, int columns, int rows);

/// The lens, where there is anything to straighten.
[[nodiscard]] std::optional<Lens> lens_of(const CameraView& view, double k1);

} // namespace pritchel::imaging
