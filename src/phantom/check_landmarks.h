/// Landmarks that tell how a picture was taken: features with a medial and a lateral twin, whose
/// gap in the picture is what the beam's slant makes of their distance. Each stands for its own
/// point in space, not for a point of the plane of interest; the first of a pair is the lateral
/// one. What a reader sees of them, and of the landmarks that are the mean of two outlines.
#pragma once

#include "phantom/shot.h"

#include <vector>

namespace pritchel::phantom {

/// Twins on the condyles of P2, on both palmar processes, on both sides of the solar margin and on
/// the block's two long edges.
std::vector<Landmark> lateromedial_check_landmarks(const Foot& foot);

/// Block edges across the beam, and the markers in the middle of the dorsal wall and of the frog's
/// groove.
std::vector<Landmark> dorsopalmar_check_landmarks(const Foot& foot);

/// Which outline a reader follows where the two sides part in the picture. `mean` is what the
/// definitions ask for.
enum class Follows { mean, medial, lateral };

/// Where a landmark shows: the middle between its two witnesses, or one of them. Landmarks with a
/// single witness, or none, show where their point does.
Pixel shown(const Landmark& landmark, const Camera& camera, Follows follows);

/// Half the distance between the two sides of the outer sole at x whose outlines a reader may
/// follow, mm: its flat part, as far as the walls leave it visible. What makes the sole's line part
/// in a slanted view.
double sole_half_width(const Foot& foot, double x);

} // namespace pritchel::phantom
