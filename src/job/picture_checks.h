/// What the pixels say about a reading: the checks that the measuring floor can't make.
#pragma once

#include "imaging/picture.h"
#include "measure/check.h"
#include "measure/reading.h"

#include <vector>

namespace pritchel::job {

/// Over-exposure along the walls as placed; nothing for photos, where no wall is placed and
/// without pixels.
[[nodiscard]] std::vector<measure::Check> picture_checks(const imaging::Picture& picture,
                                                         const measure::Reading& reading);

} // namespace pritchel::job
