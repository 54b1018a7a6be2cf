/// Who may see which reading of a picture, and which of them the plan and the paper use. A house
/// rule between honest readers: there is no log-in that would enforce it.
///
/// The first blind reading of each reader is one round, the second another. A round is revealed as
/// soon as two readers are done with it. Whoever is in the middle of a blind reading sees nothing
/// else of the picture, not even own earlier turns.
#pragma once

#include "record/case.h"

#include <string>
#include <vector>

namespace pritchel::record {

/// Which of its reader's blind readings it is, from 1; 0 for an open one.
[[nodiscard]] int blind_round(const ReadingEntry& reading, const std::vector<ReadingEntry>& all);

/// Whether a blind reading among all of its picture is out of hiding; an open one always is.
[[nodiscard]] bool is_revealed(const ReadingEntry& reading, const std::vector<ReadingEntry>& all);

/// Whether `reader` may see this reading now. A nameless one sees what is revealed.
[[nodiscard]] bool may_see(const std::string& reader,
                           const ReadingEntry& reading,
                           const std::vector<ReadingEntry>& all);

/// The readings of `all` that the reader may see, in their order.
[[nodiscard]] std::vector<ReadingEntry> seen_by(const std::string& reader,
                                                const std::vector<ReadingEntry>& all);

/// What plan and paper work with: of the open readings with landmarks the last saved, or the blind
/// one picked since. Nothing when nobody has read it, or only blind ones that nobody picked.
[[nodiscard]] const ReadingEntry* working_reading(const std::vector<ReadingEntry>& all);

} // namespace pritchel::record
