/// Least squares with a penalty on large weights, learned in groups of films: what it says of a
/// film can then be had from films other than that one.
#pragma once

#include <Eigen/Core>

#include <vector>

#include "suggest/model.h"

namespace pritchel::teach {

inline constexpr int fold_count = 4;

/// A sample a row; `fold` says to which group each row's film belongs.
struct Lesson {
  Eigen::MatrixXf inputs;
  Eigen::MatrixXf outputs;
  std::vector<int> fold;
};

struct Learned {
  suggest::Linear map;       ///< from all samples
  Eigen::MatrixXf elsewhere; ///< outputs of each sample by maps that never saw its group
  double penalty = 0;        ///< of those tried, the one with the least error elsewhere
};

[[nodiscard]] Learned learned(const Lesson& lesson);

} // namespace pritchel::teach
