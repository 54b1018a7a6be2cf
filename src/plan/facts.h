/// What the record says of horse, history and dates, as the limits and rules need it. What the
/// record doesn't hold stays unknown; nothing is filled in.
#pragma once

#include "plan/plan.h"

#include <optional>
#include <string>
#include <string_view>

namespace pritchel::plan {

struct CaseFacts {
  record::Species species = record::Species::horse;
  record::Known age_years;
  record::Known height_cm;
  std::optional<double> lameness_aaep; ///< worst recorded grade on that scale
  std::optional<double> lameness_uk;
  bool lame = false; ///< any grade above 0
  bool sudden_onset = false;
  bool laminitis = false;    ///< known or suspected
  bool vet_has_seen = false; ///< and is named
  bool diagnosed = false;    ///< by a vet who is named
  std::size_t red_flags = 0;
  std::string day;       ///< the work's day, YYYY-MM-DD, or empty
  std::string last_trim; ///< YYYY-MM-DD, or empty
};

[[nodiscard]] CaseFacts case_facts(const PlanInput& input);

/// Days from the last trim to the work; nothing when either isn't known.
[[nodiscard]] std::optional<double> days_since_trim(const CaseFacts& facts);
/// Days from a picture to the work; nothing when either isn't known.
[[nodiscard]] std::optional<double> days_since_picture(const CaseFacts& facts,
                                                       std::string_view taken);

/// True for a fact of practice::case_facts that is about the case, not about one foot.
[[nodiscard]] bool is_case_fact(std::string_view id);

/// The fact as a number; nothing when the record doesn't hold it, or when it is the foot's
/// (plan/foot.h).
[[nodiscard]] std::optional<double> case_fact(const CaseFacts& facts, std::string_view id);

/// `day` plus so many weeks, YYYY-MM-DD; empty when `day` is no date.
[[nodiscard]] std::string weeks_later(const std::string& day, int weeks);

} // namespace pritchel::plan
