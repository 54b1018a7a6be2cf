/// Reference bands as values. They come from templates/references; where none is published there
/// is none here either.
#pragma once

#include "measure/view.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::measure {

/// How far a band may be believed; its words stand beside it on page and paper.
enum class Standing { published, trade_rule, own_practice };

struct Band {
  std::string measurement;
  std::optional<double> low;  ///< in the measurement's unit; none means open below
  std::optional<double> high; ///< none means open above
  bool for_fore = true;
  bool for_hind = false;
  std::string population; ///< "10 sound Akhal-Teke, fore"
  std::string source;     ///< key in docs/sources.md
  Standing standing = Standing::trade_rule;
};

using Bands = std::vector<Band>;

/// The first band for this measurement and limb.
[[nodiscard]] const Band* band_for(const Bands& bands, std::string_view measurement, Limb limb);

} // namespace pritchel::measure
