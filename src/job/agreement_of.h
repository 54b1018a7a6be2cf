/// How far independent readings agree: of one picture, and of all pictures of a case or a practice.
/// JSON: job/agreement_json.h.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "agreement/intraclass.h"
#include "agreement/limits.h"
#include "job/repeats_of.h"

namespace pritchel::job {

/// Limits and ICC of fewer pairs are not shown: from 10 pairs the interval of a limit is still
/// 1.24 SD wide on either side (t(9) * sqrt(3 / 10)).
inline constexpr int fewest_pairs = agreement::fewest_repeats;

/// Two readers' blind readings held against each other, first minus second. `limits` and what
/// follows are there from `fewest_pairs` on.
struct NumberAgreement {
  const measure::Definition* definition = nullptr;
  int pairs = 0;
  std::optional<agreement::Limits> limits;
  std::optional<agreement::MeanSquares> squares;
  std::optional<agreement::Iccs> icc;
};

/// From the first reader's point to the second's, mm.
struct LandmarkAgreement {
  std::string protocol;
  std::string landmark;
  int pairs = 0;
  std::optional<agreement::Limits> across;
  std::optional<agreement::Limits> along;
};

struct ReaderAgreement {
  std::string first; ///< reader; in alphabetical order
  std::string second;
  std::vector<NumberAgreement> numbers;
  std::vector<LandmarkAgreement> landmarks;
};

/// A measurement read again by the same reader, pooled over readers.
struct NumberRepeat {
  const measure::Definition* definition = nullptr;
  agreement::Pool pool;
};

struct LandmarkRepeat {
  std::string protocol;
  std::string landmark;
  agreement::Scatter turns;                ///< the same reader again
  agreement::Scatter readers;              ///< two readers
  std::optional<agreement::OwnSpread> own; ///< in use in place of the default one
};

struct PracticeAgreement {
  int pictures = 0; ///< read independently more than once
  std::vector<ReaderAgreement> readers;
  std::vector<NumberRepeat> repeats;
  std::vector<LandmarkRepeat> landmarks; ///< only those with repeats of either kind
};

/// `practice` with its default spreads: directions are theirs.
[[nodiscard]] PracticeAgreement agreement_of(const std::vector<RepeatedPicture>& pictures,
                                             const practice::Practice& practice);

/// One picture's two readings to be held against each other.
struct PictureAgreement {
  const Turn* first = nullptr;
  const Turn* second = nullptr;
  bool by_two = false; ///< two readers; else the same reader's turns
};

/// The newest revealed round of two readers, the one who asks among them if there is such; else the
/// reader's own last two turns. Nothing while there are neither. Points into `picture`.
[[nodiscard]] std::optional<PictureAgreement> pair_of(const RepeatedPicture& picture,
                                                      const std::string& reader);

/// Of this measurement between the two readers, over all pictures.
[[nodiscard]] const NumberAgreement* number_between(const PracticeAgreement& all,
                                                    const std::string& first,
                                                    const std::string& second,
                                                    std::string_view measurement);

} // namespace pritchel::job
