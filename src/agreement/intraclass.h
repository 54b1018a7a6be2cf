/// Intraclass correlation of readers who all read the same pictures: forms, names and intervals
/// after Shrout and Fleiss, Psychological Bulletin 1979; 86:420-428. It says how well readings tell
/// one foot from another, not how many degrees they differ: limits of agreement stand beside it.
#pragma once

#include <optional>
#include <vector>

#include "agreement/quantile.h"

namespace pritchel::agreement {

/// One row a picture (the paper's target), one column a reader (judge).
using Table = std::vector<std::vector<double>>;

struct MeanSquares {
  int targets = 0;
  int judges = 0;
  double between = 0;   ///< BMS
  double within = 0;    ///< WMS
  double of_judges = 0; ///< JMS
  double residual = 0;  ///< EMS
};

/// Nothing unless there are at least two rows of the same length, at least two columns, and finite
/// numbers.
[[nodiscard]] std::optional<MeanSquares> mean_squares(const Table& table);

struct Icc {
  double value = 0;
  Interval interval;
};

/// 1: each picture by other readers; 2: readers drawn at random, absolute agreement; 3: just these
/// readers, consistency. `_k`: of the mean of all readers.
struct Iccs {
  Icc one_1, two_1, three_1;
  Icc one_k, two_k, three_k;
};

/// Nothing where the readings don't vary enough for a ratio (a mean square is 0).
[[nodiscard]] std::optional<Iccs> intraclass(const MeanSquares& squares);

/// Standard error of measurement of one reading: sqrt(EMS), readers' own offsets left out.
[[nodiscard]] double sem_consistency(const MeanSquares& squares);
/// The same with the readers' offsets in it: sqrt((JMS - EMS) / n + EMS), what a number read by
/// anybody carries.
[[nodiscard]] double sem_agreement(const MeanSquares& squares);

} // namespace pritchel::agreement
