/// A case in an ordinary folder: case.json, *.reading.json and the pictures they name. The sample
/// horse comes so, and what `pritchel import` takes in.
#pragma once

#include "base/result.h"
#include "practice/practice.h"
#include "record/store.h"

#include <cstddef>
#include <filesystem>

namespace pritchel::job {

struct TakenIn {
  record::Case value;
  bool was_there = false;
  std::size_t pictures = 0;
};

/// Takes the folder's case into the store. Every picture that a reading names goes to the visit of
/// the day it was taken; a plan is then made for each visit with pictures. A case whose id the
/// store knows already is left as it is. `templates` without the practice's own spreads.
[[nodiscard]] Result<TakenIn> take_in_case(const std::filesystem::path& folder,
                                           record::Store& store,
                                           const practice::Practice& templates);

} // namespace pritchel::job
