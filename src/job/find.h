/// What the program sees in a picture, offered to a person who decides: the printed card, marker
/// balls, the exact ends of a bar, stick-on dots, a foot's landmarks; and what a scale would give.
/// Nothing is kept here. JSON: docs/formats/http.md, the requests under `find` and `scale`.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"
#include "practice/practice.h"
#include "record/case.h"
#include "record/json.h"

#include <nlohmann/json_fwd.hpp>

#include <array>

namespace pritchel::job {

/// {"paper", "corners": [{"id", "x", "y"}], "lens_35mm"}; one sentence when no card is seen.
[[nodiscard]] Result<nlohmann::json> found_card(const imaging::Picture& picture);

/// {"balls": [{"x", "y", "diameter_px", "unsure_px"}]}, best first; may be empty.
[[nodiscard]] Result<nlohmann::json> found_balls(const imaging::Picture& picture);

/// {"suggestions": [{"id", "x", "y", "confidence"}]}: landmarks proposed on a radiograph, to be
/// confirmed or moved; empty when nothing is sure enough.
[[nodiscard]] Result<nlohmann::json> found_landmarks(const imaging::Picture& picture,
                                                     const record::PictureEntry& entry);

/// {"landmarks": {...}}: the reading's two marker points moved onto their edges, as snapped; one
/// sentence when they aren't placed or no clear edge is there.
[[nodiscard]] Result<nlohmann::json> refined_ends(const imaging::Picture& picture,
                                                  const record::ReadingEntry& reading);

/// Stick-on dots of two colours, offered as the protocol's joint centres: {"dots": [{"x", "y",
/// "diameter_px", "colour", "confidence", "id"}], "sentence"}, from the top down; `id` is absent
/// where nobody can say which joint it is.
[[nodiscard]] Result<nlohmann::json> found_dots(const imaging::Picture& picture,
                                                const practice::Protocol& protocol,
                                                const std::array<record::ColourWish, 2>& wishes);

/// {"calibration": ...} of the statement on this picture, as `result` gives it.
[[nodiscard]] Result<nlohmann::json> tried_scale(const imaging::Picture& picture,
                                                 record::PictureEntry entry,
                                                 const imaging::ScaleStatement& scale,
                                                 const record::ReadingEntry& reading);

} // namespace pritchel::job
