/// The tables of pritchel.sqlite and their way from version to version. Inside record only.
///
/// cases      one row a case; `document` is the case as docs/formats/case.md has it
/// readings   every revision of every turn of every reader; rows are never changed
/// plans      every version of every plan; a signed row is never changed (a trigger sees to it),
///            and its digest proves it
/// audit      who did what when; rows are never changed
/// changes    how often a case was saved: by anybody (reader is empty), and what only that reader
///            may know of: the saves of a blind reading. Apart, for a common count would tell
///            others how many points a hidden reading has
#pragma once

#include "base/result.h"
#include "record/sqlite.h"

namespace pritchel::record {

/// Marks the file as a store of ours (PRAGMA application_id): "PRIT".
inline constexpr int store_application = 0x50524954;

/// Makes the tables in an empty file or brings older ones up to date; refuses a newer version, a
/// file of another program and a damaged one.
[[nodiscard]] Result<void> bring_up_to_date(const Database& database);

} // namespace pritchel::record
