/// From an entry, its reading and its picture to what measuring needs: the scale, and places that
/// can be.
#pragma once

#include "base/result.h"
#include "imaging/picture.h"
#include "record/case.h"

#include <string>
#include <vector>

namespace pritchel::record {

/// The landmarks that are the two ends of a calibration marker.
inline constexpr std::string_view marker_landmarks[2] = {"marker-1", "marker-2"};

struct Scaled {
  Calibration calibration;
  std::vector<std::string> conflicts; ///< other sources of scale that disagree, one sentence each
};

/// What the entry's scale statement gives on this picture; only the picture's header and size are
/// looked at. An error when the statement cannot be followed, also when it says "marker" and the
/// reading has no two marker landmarks.
[[nodiscard]] Result<Scaled> calibration_of(const PictureEntry& entry,
                                            const ReadingEntry& reading,
                                            const imaging::Picture& picture);

/// The same for showing while somebody works: what cannot be followed is no scale, and its
/// sentence says why.
[[nodiscard]] Scaled calibration_or_none(const PictureEntry& entry,
                                         const ReadingEntry& reading,
                                         const imaging::Picture& picture);

/// An error for the first landmark that lies further outside the picture than the picture's own
/// size, naming it by its path ("landmarks.p3-tip.x").
[[nodiscard]] Result<void> check_places(const PictureEntry& entry,
                                        const std::vector<measure::Landmark>& landmarks);

} // namespace pritchel::record
