/// A best fit over several visits, with growth between them (plan/growth.h), where one can't safely
/// do it. Every visit keeps every limit anew. Only the first is proposed; the later ones are an
/// outlook, and each is planned again from its own pictures.
#pragma once

#include "plan/fit.h"
#include "plan/growth.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::plan {

struct Stage {
  int visit = 1;
  std::string day; ///< YYYY-MM-DD; empty when the first one's isn't known
  record::FootChange change;
  std::vector<AimOutcome> outcomes;  ///< of the aims sought at the first visit
  std::optional<double> sole_before; ///< at the tip, mm
  std::optional<double> sole_after;
  double distance = 0; ///< after it, as Way::distance
};

enum class StagesEnd {
  reached,
  within_doubt, ///< what is left isn't surely outside its band any more
  no_nearer,    ///< a further visit wouldn't better it: never reachable so
  not_foreseen, ///< growth, or the foot after it, isn't known
  most_visits
};

struct Stages {
  record::Means means = record::Means::both;
  int weeks = longest_interval_weeks; ///< between visits
  std::vector<Stage> stages;          ///< the first is this visit; empty: nothing is sought
  StagesEnd end = StagesEnd::reached;
  std::string reason; ///< why it isn't foreseen
};

inline constexpr int most_stages = 6;

/// At one interval.
[[nodiscard]] Stages stages_at(const PlanInput& input,
                               const practice::Practice& practice,
                               const FitRequest& request,
                               record::Means means,
                               const Growth& growth,
                               int weeks);

/// At the longest interval of four to six weeks that reaches the aims; where none does, at the one
/// that comes nearest, the longer when equally near.
[[nodiscard]] Stages stages_of(const PlanInput& input,
                               const practice::Practice& practice,
                               const FitRequest& request,
                               record::Means means,
                               const Growth& growth);

/// For people, one sentence a visit from the second on, and how it ends. Empty when this visit is
/// all there is to say.
[[nodiscard]] std::vector<std::string> stage_words(const Stages& stages, measure::Limb limb);

} // namespace pritchel::plan
