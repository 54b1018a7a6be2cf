/// The two ends of a marker ball.
#pragma once

#include "suggest/suggest.h"

namespace pritchel::suggest {

/// marker-1 (the lower) and marker-2 on the only ball of a radiograph; empty when there is none, or
/// several. Off the central ray the shadow is an ellipse: the ends are those of its short side,
/// which lies across the line to the middle of the picture, where the ray is taken to fall.
[[nodiscard]] std::vector<Suggestion> marker_ends(const imaging::Picture& radiograph);

} // namespace pritchel::suggest
