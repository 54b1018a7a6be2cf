/// Every change of one view of a foot, on steps a hand can keep, with the limits each breaks and
/// what each makes of the aims; and the least of them that comes nearest. Internal to the plan
/// floor.
/// Exact search: limits of a sole and stock wedges make branches where a gradient is lost, and an
/// answer that is rounded afterwards may break a limit. An optimiser is the second opinion in the
/// tests.
#pragma once

#include "plan/fit.h"
#include "plan/limits.h"

#include <set>
#include <string>
#include <vector>

namespace pritchel::plan {

/// What a person wants, as the search holds it.
struct SoughtAim {
  const record::Aim* aim = nullptr;
  double before = 0; ///< now, on the reading
  /// A number that is surely outside its band is sought. One that isn't is guarded: no change may
  /// bring it farther off than it is.
  enum class Role { sought, guarded } role = Role::sought;
};

/// How far off the aim a value lies, in what counts as one. 0 in the band.
[[nodiscard]] double missed(const record::Aim& aim, double value);
/// What became of a sought aim.
[[nodiscard]] AimState state_of_sought(const record::Aim& aim, double before, double after);

/// What keeps a change from being offered: bits of limits(), then the practice's locks, then the
/// guarded aims in the order of the aims.
using Obstacles = BrokenLimits;
[[nodiscard]] Obstacles lock_obstacle();
[[nodiscard]] Obstacles guard_obstacle(std::size_t aim);

struct FitPoint {
  record::FootChange change;
  Obstacles obstacles = 0;
  std::vector<double> values; ///< of the aims, after it
};

/// Two answers whose distances differ by less are equally near: a hand can't tell them apart.
inline constexpr double equally_near = 0.05;

/// Invariant: built for a foot whose standing limits are kept, and for aims of one view that are
/// measurable on it. Not for two threads at once: what is asked for first is kept.
class FitGrid {
public:
  FitGrid(const Foot& foot,
          measure::View view,
          std::vector<SoughtAim> aims,
          std::set<std::string, std::less<>> locked);

  /// Which aims count; the others are neither sought nor guarded then.
  using Counted = std::vector<bool>;
  [[nodiscard]] Counted all() const {
    Counted every(aims_.size(), true);
    return every;
  }

  /// Root of the sum of squares of what the counted aims are missed by.
  [[nodiscard]] double distance(const FitPoint& point, const Counted& counted) const;

  /// The nearest point that meets none but the `ignored` obstacles; of those equally near the one
  /// with the least wedge, then the fewest steps, then the first in the table's order. Once the
  /// aims are reached, only what reaches them competes.
  [[nodiscard]] FitPoint nearest(record::Means means, Obstacles ignored, const Counted& counted);

  /// All that stands between some change of these means and the foot.
  [[nodiscard]] Obstacles obstacles(record::Means means) const;

  /// Lowest and highest value of an aim over all changes, whatever they break.
  struct Range {
    double low = 0;
    double high = 0;
  };
  [[nodiscard]] Range reach(std::size_t aim);

  [[nodiscard]] const std::vector<SoughtAim>& aims() const { return aims_; }

private:
  struct Outer {
    FitPoint point;
    std::vector<FitPoint> inner; ///< with the shoe moved; made when first asked for
  };

  const Foot& foot_;
  measure::View view_;
  std::vector<SoughtAim> aims_;
  std::set<std::string, std::less<>> locked_;
  std::vector<Outer> outer_;
  std::vector<bool> moved_by_shoe_; ///< for each aim
  bool breakover_matters_ = false;
  bool branches_matter_ = false;

  [[nodiscard]] FitPoint point_at(const record::FootChange& change) const;
  [[nodiscard]] Obstacles guards_broken(const std::vector<double>& values) const;
  void find_what_the_shoe_moves();
  void fill_outer();
  [[nodiscard]] const std::vector<FitPoint>& inner_of(Outer& outer);
  [[nodiscard]] double least_distance(const Outer& outer, const Counted& counted) const;
  [[nodiscard]] Obstacles lasting(const Outer& outer) const;
};

} // namespace pritchel::plan
