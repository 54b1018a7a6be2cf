/// Medial and lateral, left and right, toe and heel: every statement about sides is compared, and a
/// contradiction is shown and stops what depends on it. Nothing is ever swapped silently.
#pragma once

#include "measure/reading.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::measure {

/// One sentence for each contradiction between the reader's statement, the header, the lead letter
/// (which lies on the lateral side: common practice, no source) and the landmarks themselves.
[[nodiscard]] std::vector<std::string> contradictions(const Reading& reading);

/// Whether the landmarks lie the way the reading says: foot upright in the stored picture, heel
/// behind toe, medial opposite lateral. A picture that is upside down has toe and heel where a
/// mirrored one has them, and every sign would turn.
/// The reason when they don't; measurements of the view are then not measurable.
[[nodiscard]] std::optional<std::string> landmarks_swapped(const Reading& reading);

} // namespace pritchel::measure
