/// What may happen to a film after it was taken: a plate that stood askew, software that sharpens
/// or evens out the contrast.
#pragma once

#include <cstdint>

#include "teach/films.h"

namespace pritchel::teach {

/// Every other film turned by up to 5 degrees, every third sharpened, every third with its contrast
/// evened out, as the number has it; points move along. The unseen kind goes a little further.
[[nodiscard]] Drawn varied(Drawn film, Kind kind, std::uint64_t number);

} // namespace pritchel::teach
