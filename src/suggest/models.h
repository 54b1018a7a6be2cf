/// The models that come with the program (suggest/models, whose README says how they were made).
#pragma once

#include "measure/view.h"

#include "suggest/model.h"

namespace pritchel::suggest {

/// Null for a view without one.
[[nodiscard]] const Model* model_of(measure::View view);

} // namespace pritchel::suggest
