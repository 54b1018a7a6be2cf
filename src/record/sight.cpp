#include "record/sight.h"

#include <algorithm>
#include <iterator>
#include <set>

namespace pritchel::record {
namespace {

bool is_blind(const ReadingEntry& reading) {
  return reading.sight == Sight::blind;
}

/// The blind reading in whose middle this reader is.
const ReadingEntry* in_the_middle_of(const std::string& reader,
                                     const std::vector<ReadingEntry>& all) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const auto& each) {
    return is_blind(each) && each.reader == reader && each.done.empty();
  });
  return at == all.end() ? nullptr : &*at;
}

/// Empty for what can't be the working reading.
const std::string& since_when(const ReadingEntry& reading, const std::vector<ReadingEntry>& all) {
  static const std::string never;
  if (reading.landmarks.empty())
    return never;
  if (!is_blind(reading))
    return reading.saved;
  return is_revealed(reading, all) ? reading.picked : never;
}

} // namespace

int blind_round(const ReadingEntry& reading, const std::vector<ReadingEntry>& all) {
  if (!is_blind(reading))
    return 0;
  return static_cast<int>(std::count_if(all.begin(), all.end(), [&](const auto& each) {
    return is_blind(each) && each.reader == reading.reader && each.turn <= reading.turn;
  }));
}

bool is_revealed(const ReadingEntry& reading, const std::vector<ReadingEntry>& all) {
  if (!is_blind(reading))
    return true;
  const auto round = blind_round(reading, all);
  std::set<std::string> done;
  for (const auto& each : all)
    if (is_blind(each) && !each.done.empty() && blind_round(each, all) == round)
      done.insert(each.reader);
  return done.size() >= 2 && done.contains(reading.reader);
}

bool may_see(const std::string& reader,
             const ReadingEntry& reading,
             const std::vector<ReadingEntry>& all) {
  const bool own = reading.reader == reader;
  if (const auto* mine = in_the_middle_of(reader, all))
    return own && reading.turn == mine->turn;
  return own || is_revealed(reading, all);
}

std::vector<ReadingEntry> seen_by(const std::string& reader, const std::vector<ReadingEntry>& all) {
  std::vector<ReadingEntry> seen;
  std::copy_if(all.begin(), all.end(), std::back_inserter(seen), [&](const auto& each) {
    return may_see(reader, each, all);
  });
  return seen;
}

const ReadingEntry* working_reading(const std::vector<ReadingEntry>& all) {
  const ReadingEntry* working = nullptr;
  for (const auto& each : all) {
    const auto& since = since_when(each, all);
    if (since.empty())
      continue;
    const bool later = working == nullptr || since > since_when(*working, all);
    if (later || (is_blind(each) && since == since_when(*working, all)))
      working = &each;
  }
  return working;
}

} // namespace pritchel::record
