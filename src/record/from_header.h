/// A picture's entry as far as its header speaks. The header is never the last word: a person can
/// change all of it, and what it says of sides is kept as a hint to be compared with.
/// Source of letters and codes: DICOM PS3.3 C.7.6.1.1.1 (quadruped abbreviations), PS3.16 CID 7482
/// and 7484.
#pragma once

#include "imaging/picture.h"
#include "record/case.h"

#include <string>

namespace pritchel::record {

/// View, limb, toward, date and size; where the header is silent: a lateromedial left fore, toe to
/// the left; a photo is a foot from the side until a person says what it is; dorsopalmar as seen
/// facing the horse (lateral to the right for a left limb: common practice, no source).
[[nodiscard]] PictureEntry entry_from_header(const imaging::Picture& picture,
                                             const std::string& file_name,
                                             const std::string& digest);

/// What the header says of sides in a picture of this view. Patient Orientation is read only where
/// its columns run proximal or distal in quadruped letters: a biped's L means left, not lateral.
/// The lead letter's fields are left empty.
[[nodiscard]] measure::SideHints header_hints(const imaging::Facts& facts, measure::View view);

/// The entry with the header's hints anew (they depend on the view), the lead letter kept.
[[nodiscard]] PictureEntry with_header_hints(PictureEntry entry, const imaging::Facts& facts);

} // namespace pritchel::record
