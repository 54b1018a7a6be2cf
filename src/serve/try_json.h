/// What a hand tries on a foot, for the page; docs/formats/http.md, "Trying it".
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/what_if.h"

namespace pritchel::serve {

[[nodiscard]] nlohmann::json try_json(const job::Tried& tried);

} // namespace pritchel::serve
