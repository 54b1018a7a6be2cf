/// The films as the search sees them while it learns: laid out, with the truth on them.
#pragma once

#include <string>
#include <vector>

#include "suggest/search.h"
#include "teach/learn.h"

namespace pritchel::teach {

struct Pupil {
  suggest::Sheet sheet;
  suggest::Shape truth;
  double mm_a_sheet_mm = 1; ///< the sheet's scale is a little wrong, as scales are
  int fold = 0;
};

/// Ids in the order of every shape.
[[nodiscard]] std::vector<std::string> ids_of(const Drawn& film);

[[nodiscard]] std::vector<Pupil> pupils_of(const Taught& from, const std::vector<std::string>& ids);

/// Does it for 0...count-1 on all cores.
void for_all(std::size_t count, const std::function<void(std::size_t)>& work);

} // namespace pritchel::teach
