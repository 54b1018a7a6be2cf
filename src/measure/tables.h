/// The parts of THE table (definitions.h), one a file, in the order in which they are shown. Inside
/// this floor only.
#pragma once

#include "measure/definitions.h"

namespace pritchel::measure {

[[nodiscard]] std::span<const Definition> lateromedial_table();
[[nodiscard]] std::span<const Definition> dorsopalmar_table();
[[nodiscard]] std::span<const Definition> foot_photo_table();
[[nodiscard]] std::span<const Definition> limb_photo_table();

} // namespace pritchel::measure
