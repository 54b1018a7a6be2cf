/// Learns when a search may be trusted, from what it found on films that its maps never saw.
#pragma once

#include <vector>

#include "suggest/search.h"

namespace pritchel::teach {

struct Judged {
  suggest::Outcome outcome;
  std::vector<double> error_mm; ///< of each landmark
};

/// Sets the model's trust and least likeness, and says on the standard error what came of it.
void learn_trust(suggest::Model& model, const std::vector<Judged>& judged);

} // namespace pritchel::teach
