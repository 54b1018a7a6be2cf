/// Measurements of two pictures of one limb held against each other: the same limb standing and
/// hanging free, or one joint under two blocks. What disappears when the limb hangs is posture,
/// what stays is conformation (common practice, no source).
#pragma once

#include "measure/measure.h"

#include <span>
#include <string_view>
#include <vector>

namespace pritchel::measure {

/// Two measurements that are the same quantity in two states of the limb.
struct Comparison {
  std::string_view id;
  std::string_view title; ///< fore wording
  std::string_view first; ///< measurement id; standing, or on the flat
  std::string_view second;
  std::string_view what; ///< one plain sentence on the difference
  Legs legs = Legs::all;
};

[[nodiscard]] std::span<const Comparison> comparisons();

struct Compared {
  const Comparison* comparison = nullptr;
  Measurement first;
  Measurement second;
  /// First less second for posture: the part that disappears. Second less first for one joint on
  /// two blocks. In the measurements' unit.
  double difference = 0;
  double standard_uncertainty = 0; ///< the two pictures are read independently
};

/// What of the standing limb disappears when it hangs, each pair that both pictures measure. The
/// standing measurements may come from several pictures, one after another.
[[nodiscard]] std::vector<Compared> posture_shares(const std::vector<Measurement>& standing,
                                                   const std::vector<Measurement>& hanging);

/// How the coffin joint's flexion changes from the first lateromedial picture to the second.
[[nodiscard]] std::optional<Compared> flexion_change(const std::vector<Measurement>& first,
                                                     const std::vector<Measurement>& second);

} // namespace pritchel::measure
