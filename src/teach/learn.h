/// Learns the model of a foot in one view from the films drawn for it.
#pragma once

#include <functional>
#include <vector>

#include "suggest/model.h"
#include "teach/films.h"

namespace pritchel::teach {

struct Taught {
  phantom::View view = phantom::View::lateromedial;
  std::size_t count = 0;
  /// One at a time, by number from 0.
  std::function<Drawn(std::uint64_t)> film;
};

/// Says on the standard error what it has learned, step by step.
[[nodiscard]] suggest::Model learned_model(const Taught& from);

} // namespace pritchel::teach
