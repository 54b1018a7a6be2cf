/// The overlay as the page paints it; docs/formats/http.md, `overlay`.
#pragma once

#include "drawing/display_list.h"

#include <nlohmann/json_fwd.hpp>

namespace pritchel::serve {

[[nodiscard]] nlohmann::json overlay_json(const drawing::Overlay& overlay);

} // namespace pritchel::serve
