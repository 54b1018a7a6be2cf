/// A person's rough point, stroke or three points of a circle moved onto the edge that is meant.
/// JSON: docs/formats/http.md, `snap`. Nothing is kept here.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"
#include "practice/practice.h"
#include "record/case.h"
#include "record/json.h"

#include <nlohmann/json_fwd.hpp>

namespace pritchel::job {

/// {"at": [x, y], "how": "snapped"}, {"from", "to", "how"} or {"points", "how"}; null for the
/// places when no clear edge is near. Which edge is meant follows from the landmark, where it is
/// one of the picture's protocol and says so.
[[nodiscard]] nlohmann::json snapped(const imaging::Picture& picture,
                                     const record::PictureEntry& entry,
                                     const practice::Practice& practice,
                                     const record::SnapWish& wish);

} // namespace pritchel::job
