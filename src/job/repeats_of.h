/// Pictures that were read independently more than once, and what the practice learns from them:
/// its own placement spreads. What is compared with them: job/agreement_of.h.
#pragma once

#include "base/result.h"
#include "measure/placed.h"

#include <map>
#include <mutex>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "agreement/repeats.h"
#include "job/visit.h"

namespace pritchel::job {

/// In the measurement's unit. The uncertainty is from the spreads of the practice it was worked out
/// with.
struct ReadValue {
  double value = 0;
  double standard_uncertainty = 0;
};

/// One independent reading: done, and either blind or its reader's first.
struct Turn {
  std::string reader;
  int turn = 1;
  int round = 0;                  ///< which of the reader's blind readings; 0: an open one
  bool revealed = false;          ///< may it be held against another reader's?
  measure::Placed<double> placed; ///< in the plane frame of the picture's first turn
  std::map<std::string_view, ReadValue> values; ///< by measurement, as far as measurable
};

struct RepeatedPicture {
  std::string case_id;
  std::string protocol;
  measure::View view = measure::View::lateromedial;
  bool has_scale = false; ///< else `placed` is in pixel widths
  std::vector<Turn> turns;
};

/// The readings of a picture that count as repeats; points that nobody confirmed are left out.
[[nodiscard]] RepeatedPicture
repeated_picture(const record::Case& value,
                 const record::PictureEntry& entry,
                 const std::vector<record::ReadingEntry>& readings,
                 const std::shared_ptr<const imaging::Picture>& picture,
                 const practice::Practice& practice);

/// Keeps what was worked out for each picture until its entry or its readings change: films take
/// long to decode. May be called from several threads.
class RepeatBook {
public:
  /// Every picture of the case (of all cases when empty) with two independent readings or more.
  /// `practice` gives protocols; its spreads don't matter here.
  [[nodiscard]] Result<std::vector<RepeatedPicture>> pictures(record::Store& store,
                                                              PictureShelf& shelf,
                                                              const practice::Practice& practice,
                                                              const std::string& case_id = {});

private:
  struct Known {
    std::string state; ///< entry and readings that it was worked out from
    RepeatedPicture picture;
  };
  std::mutex mutex_;
  std::map<std::pair<std::string, std::string>, Known> known_; ///< by case and digest

  Result<void> add_case(record::Store& store,
                        PictureShelf& shelf,
                        const practice::Practice& practice,
                        const std::string& case_id,
                        std::vector<RepeatedPicture>& found);
  Result<const RepeatedPicture*> worked_out(record::Store& store,
                                            PictureShelf& shelf,
                                            const practice::Practice& practice,
                                            const record::Case& value,
                                            const record::PictureEntry& entry);
};

/// Whose repeats make a spread.
enum class Between {
  turns,  ///< the same reader again: what one person's number carries
  readers ///< two readers' blind readings: what anybody's number carries
};

/// By protocol and landmark.
using Scatters = std::map<std::pair<std::string, std::string>, agreement::Scatter>;

/// Of the pictures that have a scale.
[[nodiscard]] Scatters scatters(const std::vector<RepeatedPicture>& pictures,
                                const practice::Practice& practice,
                                Between between);

/// The practice with its own spreads in place of the default ones wherever there are repeats
/// enough. The one place where that happens: whoever asks practice::spreads() afterwards
/// (measuring, plan, paper) gets them.
[[nodiscard]] practice::Practice with_own_spreads(practice::Practice practice,
                                                  const std::vector<RepeatedPicture>& pictures);

/// The same for a whole store at once.
[[nodiscard]] Result<practice::Practice>
own_practice(record::Store& store, PictureShelf& shelf, practice::Practice practice);

} // namespace pritchel::job
