/// Changes to a case's visits and pictures that keep it in order: visits oldest first, every id
/// known, one picture in one visit only (its readings are kept by case and picture).
#pragma once

#include "base/result.h"
#include "record/case.h"

#include <string>

namespace pritchel::record {

[[nodiscard]] Result<Visit> visit_in(const Case& value, const std::string& visit);
/// Of whichever visit.
[[nodiscard]] Result<PictureEntry> picture_in(const Case& value, const std::string& digest);
/// Of this visit.
[[nodiscard]] Result<PictureEntry>
picture_in(const Case& value, const std::string& visit, const std::string& digest);

/// The visit gets an id of its own; its pictures are none.
[[nodiscard]] Case with_new_visit(Case value, Visit visit);
/// In place of the visit with its id.
[[nodiscard]] Result<Case> with_visit(Case value, const Visit& visit);

/// A picture that the visit has already stays as it is; one of another visit is a conflict.
[[nodiscard]] Result<Case>
with_new_picture(Case value, const std::string& visit, const PictureEntry& entry);
/// In place of the entry with its digest.
[[nodiscard]] Result<Case>
with_picture(Case value, const std::string& visit, const PictureEntry& entry);
/// The file and its readings stay in the store.
[[nodiscard]] Result<Case>
without_picture(Case value, const std::string& visit, const std::string& digest);

} // namespace pritchel::record
