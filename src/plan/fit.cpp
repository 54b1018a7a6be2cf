#include "plan/fit.h"

#include "base/assert.h"
#include "plan/fit_words.h"
#include "plan/predict.h"
#include "plan/propose.h"
#include "plan/variables.h"
#include "plan/wording.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <utility>

namespace pritchel::plan {
namespace {

using measure::View;
using record::Aim;
using record::Means;
using Role = SoughtAim::Role;

bool is_surely_outside(const Aim& aim, const Quantity& now) {
  return (aim.low && now.high() < *aim.low) || (aim.high && now.low() > *aim.high);
}

std::optional<LeftOut> why_left_out(const Foot& foot, const Aim& aim) {
  const auto left_out = [&](std::string reason) {
    return LeftOut{.measurement = aim.measurement, .reason = std::move(reason)};
  };
  const auto* definition = measure::definition(aim.measurement);
  if (definition == nullptr)
    return left_out("The program doesn't measure it.");
  const auto title = title_of(aim.measurement, foot.limb);
  if (!measure::is_radiograph(definition->view) || !is_predictable(aim.measurement)) {
    auto impossible = left_out(title + ": what a trim or a shoe does to it can't be foreseen.");
    impossible.impossible = true;
    return impossible;
  }
  if ((!aim.low && !aim.high) || (aim.low && aim.high && *aim.low > *aim.high) ||
      !(aim.counts_as_one > 0))
    return left_out(title + ": its band has no end, or its ends are the wrong way round.");
  const auto now = quantity(foot, aim.measurement);
  if (!now.known)
    return left_out(title + " isn't known: " + now.reason + ".");
  if (!value_on(picture_for(foot, aim.measurement)->placed, aim.measurement))
    return left_out(title + ": what a trim or a shoe does to it can't be computed.");
  return std::nullopt;
}

/// A foot with its aims and the two views' searches.
class Fitting {
public:
  Fitting(const Foot& foot, const practice::Practice& practice, const FitRequest& request)
      : foot_(foot),
        practice_(practice),
        request_(request),
        locks_(locks_of(foot, practice)) {
    fit_.limb = foot.limb;
    take_aims();
    build_grids();
  }

  Fit made() {
    if (grids_.empty())
      return std::move(fit_);
    for (const auto& grid : grids_)
      fit_.distance_now = std::hypot(fit_.distance_now, grid.distance(standing(grid), grid.all()));
    for (const auto means : request_.means)
      fit_.ways.push_back(way(means));
    for (const auto& each : fit_.ways)
      PRITCHEL_ASSERT(first_broken(foot_, each.change) == nullptr);
    if (request_.detail == Detail::full) {
      find_conflicts();
      leave_out_the_same();
    }
    return std::move(fit_);
  }

private:
  const Foot& foot_;
  const practice::Practice& practice_;
  const FitRequest& request_;
  Locks locks_;
  Fit fit_;
  std::vector<const Aim*> aims_;
  std::vector<FitGrid> grids_; ///< of the views with something to seek

  void take_aims() {
    for (const auto& aim : request_.aims) {
      const bool twice = std::any_of(aims_.begin(), aims_.end(), [&](const Aim* each) {
        return each->measurement == aim.measurement;
      });
      if (twice)
        fit_.left_out.push_back({aim.measurement, "It is asked for twice: the first one holds."});
      else if (auto why = why_left_out(foot_, aim))
        fit_.left_out.push_back(std::move(*why));
      else
        aims_.push_back(&aim);
    }
  }

  [[nodiscard]] std::vector<SoughtAim> aims_in(View view) const {
    std::vector<SoughtAim> all;
    for (const auto* aim : aims_)
      if (measure::definition(aim->measurement)->view == view) {
        const auto& placed = picture_for(foot_, aim->measurement)->placed;
        const bool sought = is_surely_outside(*aim, quantity(foot_, aim->measurement));
        all.push_back({.aim = aim,
                       .before = *value_on(placed, aim->measurement),
                       .role = sought ? Role::sought : Role::guarded});
      }
    return all;
  }

  void build_grids() {
    for (const auto view : {View::lateromedial, View::dorsopalmar}) {
      const auto aims = aims_in(view);
      const bool any_sought = std::any_of(
          aims.begin(), aims.end(), [](const auto& each) { return each.role == Role::sought; });
      if (!any_sought) {
        for (const auto& each : aims)
          fit_.left_out.push_back({each.aim->measurement, not_sought_words(foot_, *each.aim)});
        continue;
      }
      FitGrid grid(foot_, view, aims, locks_.names);
      if (leave_out_unmoved(grid))
        return build_grids_again();
      grids_.push_back(std::move(grid));
    }
  }

  /// Aims that nothing moves would only hide what can be reached.
  bool leave_out_unmoved(FitGrid& grid) {
    constexpr double moved = 1e-6;
    bool any = false;
    for (std::size_t i = 0; i < grid.aims().size(); ++i) {
      const auto& each = grid.aims()[i];
      const auto range = grid.reach(i);
      if (each.role != Role::sought || range.high - range.low > moved)
        continue;
      fit_.left_out.push_back(
          {each.aim->measurement,
           title_of(each.aim->measurement, foot_.limb) + ": no trim and no shoe moves it.",
           true});
      std::erase(aims_, each.aim);
      any = true;
    }
    return any;
  }

  void build_grids_again() {
    grids_.clear();
    std::erase_if(fit_.left_out, [&](const LeftOut& each) {
      return std::any_of(aims_.begin(), aims_.end(), [&](const Aim* aim) {
        return aim->measurement == each.measurement;
      });
    });
    build_grids();
  }

  [[nodiscard]] static FitPoint standing(const FitGrid& grid) {
    FitPoint point;
    for (const auto& each : grid.aims())
      point.values.push_back(each.before);
    return point;
  }

  [[nodiscard]] AimOutcome outcome(FitGrid& grid, std::size_t i, double after) const {
    const auto& sought = grid.aims()[i];
    const auto& aim = *sought.aim;
    const double off = missed(aim, after);
    AimOutcome outcome{.measurement = aim.measurement,
                       .before = sought.before,
                       .uncertainty_before = quantity(foot_, aim.measurement).uncertainty,
                       .after = after,
                       .missed_by = off * aim.counts_as_one};
    if (sought.role == Role::guarded) {
      outcome.state = AimState::kept;
      return outcome;
    }
    outcome.state = state_of_sought(aim, sought.before, after);
    const auto range = grid.reach(i);
    outcome.beyond_reach =
        (aim.low && range.high < *aim.low) || (aim.high && range.low > *aim.high);
    return outcome;
  }

  [[nodiscard]] std::vector<AimOutcome> outcomes(FitGrid& grid, const FitPoint& point) const {
    std::vector<AimOutcome> all;
    for (std::size_t i = 0; i < grid.aims().size(); ++i)
      all.push_back(outcome(grid, i, point.values[i]));
    return all;
  }

  [[nodiscard]] Way way(Means means) {
    Way way{.means = means, .change = {.limb = foot_.limb}};
    for (auto& grid : grids_) {
      const auto point = grid.nearest(means, 0, grid.all());
      add(way.change, point.change);
      way.distance = std::hypot(way.distance, grid.distance(point, grid.all()));
      auto found = outcomes(grid, point);
      std::move(found.begin(), found.end(), std::back_inserter(way.outcomes));
      if (request_.detail == Detail::full && grid.distance(point, grid.all()) > 0)
        find_hindrances(grid, means, point, way);
    }
    way.reached = way.distance == 0;
    if (request_.detail == Detail::full) {
      way.costs = costs_of(foot_, way.change);
      if (!changes_nothing(way.change))
        way.predictions = predictions_of(foot_, way.change, practice_);
    }
    return way;
  }

  static void add(record::FootChange& sum, const record::FootChange& more) {
    for (const auto& each : variables())
      sum.*each.field += more.*each.field;
  }

  // ---- what stands in the way ----

  [[nodiscard]] static std::vector<std::size_t> bits_of(Obstacles obstacles) {
    std::vector<std::size_t> bits;
    for (std::size_t i = 0; i < 64; ++i)
      if ((obstacles >> i & 1) != 0)
        bits.push_back(i);
    return bits;
  }

  void find_hindrances(FitGrid& grid, Means means, const FitPoint& point, Way& way) {
    const double now = grid.distance(point, grid.all());
    const auto bits = bits_of(grid.obstacles(means));
    std::vector<std::pair<double, Hindrance>> found;
    const auto try_without = [&](std::size_t one, std::size_t other) {
      const Obstacles ignored = Obstacles{1} << one | Obstacles{1} << other;
      const auto without = grid.nearest(means, ignored, grid.all());
      const double off = grid.distance(without, grid.all());
      if (off < now - equally_near || (off == 0 && now > 0))
        found.emplace_back(off, hindrance(grid, one, other, without));
    };
    for (const auto bit : bits)
      try_without(bit, bit);
    if (found.empty())
      for (std::size_t i = 0; i < bits.size(); ++i)
        for (std::size_t j = i + 1; j < bits.size(); ++j)
          try_without(bits[i], bits[j]);
    std::stable_sort(
        found.begin(), found.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    constexpr std::size_t most = 4;
    for (std::size_t i = 0; i < std::min(most, found.size()); ++i)
      way.in_the_way.push_back(std::move(found[i].second));
  }

  [[nodiscard]] Hindrance
  hindrance(FitGrid& grid, std::size_t one, std::size_t other, const FitPoint& without) const {
    const auto first = obstacle(grid, one), second = obstacle(grid, other);
    const bool told =
        first.yields == Yields::to_a_named_vet && second.yields == Yields::to_a_named_vet;
    Hindrance found{.id = first.id, .with = one == other ? std::string() : second.id};
    if (told)
      found.gain = outcomes(grid, without);
    found.sentence =
        one == other ? first.sentence : first.sentence + " Together with: " + second.sentence;
    found.sentence = joined(found.sentence,
                            told ? gain_words(foot_, found.gain)
                                 : "What would be gained without it isn't told: it stands.");
    return found;
  }

  struct Obstacle {
    std::string id;
    std::string sentence;
    Yields yields = Yields::never;
  };

  [[nodiscard]] Obstacle obstacle(const FitGrid& grid, std::size_t bit) const {
    if (bit < limits().size()) {
      const auto& limit = limits()[bit];
      return {std::string(limit.id), measure::worded_for(foot_.limb, limit.sentence), limit.yields};
    }
    if (Obstacles{1} << bit == lock_obstacle())
      return {"practice-lock", lock_sentence(locks_.sentences)};
    const auto& aim = *grid.aims()[bit - limits().size() - 1].aim;
    return {"kept:" + aim.measurement, kept_words(foot_, aim), Yields::to_a_named_vet};
  }

  // ---- aims against one another ----

  void find_conflicts() {
    for (auto& grid : grids_) {
      const auto together = grid.nearest(Means::both, 0, grid.all());
      if (grid.distance(together, grid.all()) == 0)
        continue;
      std::vector<std::string> alone;
      for (std::size_t i = 0; i < grid.aims().size(); ++i) {
        FitGrid::Counted only(grid.aims().size(), false);
        only[i] = true;
        const auto& each = grid.aims()[i];
        if (each.role == Role::sought &&
            grid.distance(grid.nearest(Means::both, 0, only), only) == 0)
          alone.push_back(title_of(each.aim->measurement, foot_.limb));
      }
      if (alone.size() > 1)
        fit_.conflicts.push_back(conflict_words(alone));
    }
  }

  /// What both means give isn't a third way when one of them gives it.
  void leave_out_the_same() {
    const auto same = [](const record::FootChange& a, const record::FootChange& b) {
      return std::all_of(variables().begin(), variables().end(), [&](const auto& each) {
        return a.*each.field == b.*each.field;
      });
    };
    std::erase_if(fit_.ways, [&](const Way& each) {
      return each.means == Means::both &&
             std::any_of(fit_.ways.begin(), fit_.ways.end(), [&](const Way& other) {
               return other.means != Means::both && same(other.change, each.change);
             });
    });
  }
};

} // namespace

Fit fit_foot(const PlanInput& input,
             const practice::Practice& practice,
             const FitRequest& request) {
  const auto facts = case_facts(input);
  const auto feet = feet_of(input, facts, practice);
  Fit fit{.limb = request.limb, .refused = refusals(feet, request.limb, practice)};
  return fit.refused.empty() ? Fitting(*find(feet, request.limb), practice, request).made() : fit;
}

} // namespace pritchel::plan
