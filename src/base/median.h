/// The middle one of some numbers.
#pragma once

#include <algorithm>
#include <cstddef>
#include <vector>

namespace pritchel {

/// The upper one of the two in the middle when they are even in number; 0 for none.
[[nodiscard]] inline double median(std::vector<double> values) {
  if (values.empty())
    return 0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

} // namespace pritchel
