#include "measure/beam.h"

#include "geometry/angle.h"
#include "geometry/line.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace pritchel::measure {
namespace {

/// A wrong depth hides better: the sole's visible width isn't measured.
constexpr ViewError refusal_chance{.palmar_angle_deg = 0.02, .sole_depth_mm = 0.01};
/// Two sides of a gap are told apart for good by three standard deviations.
constexpr double chi_squared_slack = 9;

/// How far the coffin bone leans sideways over the block, and the short pastern bone against it,
/// standard deviations: "0 +- 2-3 degrees" is the trade's range for the first; the joint between
/// them is congruent, own estimate.
constexpr double lean_deg = 2.5;
constexpr double lean_between_deg = 1.5;
/// How squarely people aim along the foot by eye, standard deviation: own estimate. It tells two
/// equally good places of the source apart.
constexpr double aim_deg = 4;

/// Unknowns: the source's two directions as shares of the distance, and two leans.
constexpr std::size_t unknowns = 4;
enum Unknown : std::size_t { ahead, height, coffin_lean, pastern_lean };
using Row = std::array<double, unknowns>;

/// Weighted least squares by normal equations.
class Fit {
public:
  void add(const Row& row, double observed, double uncertainty) {
    const double weight = 1 / (uncertainty * uncertainty);
    for (std::size_t i = 0; i < unknowns; ++i) {
      for (std::size_t j = 0; j < unknowns; ++j)
        normal_[i][j] += weight * row[i] * row[j];
      right_[i] += weight * row[i] * observed;
    }
    squares_ += weight * observed * observed;
  }

  /// Gauss and Jordan on the normal matrix, which the priors keep regular.
  [[nodiscard]] Source solved(double distance) const {
    auto matrix = normal_;
    std::array<Row, unknowns> inverse{};
    for (std::size_t i = 0; i < unknowns; ++i)
      inverse[i][i] = 1;
    for (std::size_t k = 0; k < unknowns; ++k) {
      const double pivot = matrix[k][k];
      for (std::size_t j = 0; j < unknowns; ++j) {
        matrix[k][j] /= pivot;
        inverse[k][j] /= pivot;
      }
      for (std::size_t i = 0; i < unknowns; ++i) {
        const double factor = i == k ? 0 : matrix[i][k];
        for (std::size_t j = 0; j < unknowns; ++j) {
          matrix[i][j] -= factor * matrix[k][j];
          inverse[i][j] -= factor * inverse[k][j];
        }
      }
    }
    Row best{};
    double explained = 0;
    for (std::size_t i = 0; i < unknowns; ++i) {
      for (std::size_t j = 0; j < unknowns; ++j)
        best[i] += inverse[i][j] * right_[j];
      explained += best[i] * right_[i];
    }
    return {.ahead = {distance * best[ahead], distance * std::sqrt(inverse[ahead][ahead])},
            .height = {distance * best[height], distance * std::sqrt(inverse[height][height])},
            .lean = {best[coffin_lean], std::sqrt(inverse[coffin_lean][coffin_lean])},
            .chi_squared = squares_ - explained};
  }

private:
  std::array<Row, unknowns> normal_{};
  Row right_{};
  double squares_ = 0;
};

/// The two equations of a pair: nearer twin less farther one.
void add_parting(Fit& fit, const Parting& pair, double sign, double distance) {
  const double w = pair.width;
  if (pair.ahead)
    fit.add({-w, 0, 0, 0},
            sign * pair.ahead->value - w * pair.middle.x / distance,
            pair.ahead->uncertainty);
  if (!pair.up)
    return;
  const bool coffin = pair.bone == Bone::coffin;
  fit.add({0, -w, coffin ? w : 0, coffin ? 0 : w},
          sign * pair.up->value - w * pair.middle.y / distance,
          pair.up->uncertainty);
}

/// The source for one choice of the nearer twins; bit i of `ways` turns pair i.
Source placed_source(std::span<const Parting> partings,
                     const std::optional<Estimate>& by_edges,
                     double distance,
                     double middle,
                     unsigned ways) {
  Fit fit;
  fit.add({0, 0, 1, 0}, 0, from_degrees(lean_deg));
  fit.add({0, 0, -1, 1}, 0, from_degrees(lean_between_deg));
  // Nothing is known of the height beforehand: anywhere within a right angle of square.
  fit.add({1, 0, 0, 0}, middle / distance, from_degrees(aim_deg));
  fit.add({0, 1, 0, 0}, 0, 1);
  if (by_edges)
    fit.add({0, 1, 0, 0}, by_edges->value / distance, by_edges->uncertainty / distance);
  for (std::size_t i = 0; i < partings.size(); ++i)
    add_parting(fit, partings[i], (ways >> i & 1U) != 0 ? -1 : 1, distance);
  return fit.solved(distance);
}

/// What the beam makes of a point at `depth` nearer to the source than the mid-plane, on a plate
/// square to the beam.
class Sight {
public:
  Sight(const SideOn& foot, double source_ahead, double source_height)
      : source_{source_ahead, source_height},
        middle_(foot.middle.value),
        distance_(foot.source_to_foot.value),
        turn_(std::atan2(source_ahead - foot.middle.value, distance_)) {}

  [[nodiscard]] PlanePoint operator()(const PlanePoint& p, double depth) const {
    const PlanePoint parted = p + (p - source_) * (depth / distance_);
    const double off = parted.x - middle_;
    const double nearer = 1 / (1 - off * std::sin(turn_) / distance_);
    return {middle_ + off * std::cos(turn_) * nearer, source_.y + (parted.y - source_.y) * nearer};
  }

private:
  PlanePoint source_;
  double middle_;
  double distance_;
  double turn_;
};

double palmar_angle(const PlanePoint& tip, const PlanePoint& process, const PlaneVector& ground) {
  const auto u = unit(ground);
  const auto along = tip - process;
  return in_degrees(std::atan2(-cross(u, along), dot(along, u)));
}

ViewError error_of_side(const SideOn& foot, const Sight& sight, double side, double lean) {
  constexpr double beside_the_foot = 80;
  const PlanePoint behind{foot.middle.value - beside_the_foot, 0},
      before{foot.middle.value + beside_the_foot, 0};
  const PlanePoint tip = sight(foot.tip, 0);
  const double out = side * foot.process_half_width.value;
  const PlanePoint process{foot.process.x, foot.process.y + lean * out};
  const double angle = palmar_angle(tip, sight(process, out), sight(before, 0) - sight(behind, 0));
  const double sole = side * foot.sole_half_width.value;
  const PlaneVector along{std::cos(foot.sole_slope.value), std::sin(foot.sole_slope.value)};
  const PlanePoint under = foot.tip - left_normal(along) * foot.depth;
  constexpr double either_way = 8; // from sole-b to sole-a
  const Line<double> seen{sight(under - along * either_way, sole),
                          sight(under + along * either_way, sole)};
  return {std::abs(angle - palmar_angle(foot.tip, process, {1, 0})),
          std::abs(distance_from(seen, tip) - foot.depth)};
}

ViewError larger(const ViewError& a, const ViewError& b) {
  return {std::max(a.palmar_angle_deg, b.palmar_angle_deg),
          std::max(a.sole_depth_mm, b.sole_depth_mm)};
}

ViewError less(const ViewError& a, const ViewError& b) {
  return {a.palmar_angle_deg - b.palmar_angle_deg, a.sole_depth_mm - b.sole_depth_mm};
}

} // namespace

double beam_height_mm(double edge_gap, double width, double source_to_foot) {
  return edge_gap * source_to_foot / width;
}

double divergence_gap_mm(double off, double width, double source_to_foot) {
  return off * width / source_to_foot;
}

std::optional<double> obliquity_deg(double gap, double width) {
  if (!(width > 0) || std::abs(gap) > width)
    return std::nullopt;
  return in_degrees(std::asin(gap / width));
}

std::vector<Source> source_places(std::span<const Parting> partings,
                                  const std::optional<Estimate>& by_edges,
                                  double source_to_foot,
                                  double middle) {
  const bool any_ahead = std::any_of(
      partings.begin(), partings.end(), [](const Parting& each) { return each.ahead.has_value(); });
  std::vector<Source> places;
  if (!any_ahead)
    return places;
  for (unsigned ways = 0; ways < 1U << partings.size(); ++ways)
    places.push_back(placed_source(partings, by_edges, source_to_foot, middle, ways));
  std::sort(places.begin(), places.end(), [](const Source& a, const Source& b) {
    return a.chi_squared < b.chi_squared;
  });
  const double most = places.front().chi_squared + chi_squared_slack;
  std::erase_if(places, [&](const Source& each) { return each.chi_squared > most; });
  return places;
}

ViewError view_error(const SideOn& foot, double source_ahead, double source_height, double lean) {
  const Sight sight(foot, source_ahead, source_height);
  ViewError worst;
  for (const double side : {-1.0, 0.0, 1.0})
    worst = larger(worst, error_of_side(foot, sight, side, lean));
  return worst;
}

namespace {

/// What a bound takes one standard deviation off, one after the other.
struct Guess {
  SideOn foot;
  Source source;
};
using Part = Estimate& (*)(Guess&);
constexpr std::array<Part, 8> parts = {
    [](Guess& g) -> Estimate& { return g.source.ahead; },
    [](Guess& g) -> Estimate& { return g.source.height; },
    [](Guess& g) -> Estimate& { return g.source.lean; },
    [](Guess& g) -> Estimate& { return g.foot.process_half_width; },
    [](Guess& g) -> Estimate& { return g.foot.sole_half_width; },
    [](Guess& g) -> Estimate& { return g.foot.sole_slope; },
    [](Guess& g) -> Estimate& { return g.foot.middle; },
    [](Guess& g) -> Estimate& { return g.foot.source_to_foot; }};

ViewError error_of(const Guess& guess) {
  const auto& s = guess.source;
  return view_error(guess.foot, s.ahead.value, s.height.value, s.lean.value);
}

/// Standard uncertainty of the error at one place of the source, to the worse side.
ViewError uncertainty_of(const Guess& best, const ViewError& likely) {
  ViewError squares;
  for (const auto part : parts) {
    Guess low = best, high = best;
    part(low).value -= part(low).uncertainty;
    part(high).value += part(high).uncertainty;
    const auto more = less(larger(likely, larger(error_of(low), error_of(high))), likely);
    squares.palmar_angle_deg += more.palmar_angle_deg * more.palmar_angle_deg;
    squares.sole_depth_mm += more.sole_depth_mm * more.sole_depth_mm;
  }
  return {std::sqrt(squares.palmar_angle_deg), std::sqrt(squares.sole_depth_mm)};
}

struct Branch {
  double weight = 0;
  ViewError likely;
  ViewError unsure;
};

double beyond(double limit, double likely, double unsure) {
  constexpr double least = 1e-9; // a perfectly known view
  return 0.5 * std::erfc((limit - likely) / (std::max(unsure, least) * std::numbers::sqrt2));
}

ViewError chances(const std::vector<Branch>& branches, const ViewError& limit) {
  ViewError chance;
  double weights = 0;
  for (const auto& each : branches) {
    weights += each.weight;
    chance.palmar_angle_deg +=
        each.weight *
        beyond(limit.palmar_angle_deg, each.likely.palmar_angle_deg, each.unsure.palmar_angle_deg);
    chance.sole_depth_mm +=
        each.weight *
        beyond(limit.sole_depth_mm, each.likely.sole_depth_mm, each.unsure.sole_depth_mm);
  }
  return {chance.palmar_angle_deg / weights, chance.sole_depth_mm / weights};
}

/// The limit that is passed with that chance, by halving.
ViewError bound_of(const std::vector<Branch>& branches) {
  ViewError low, high{90, 90};
  for (int i = 0; i < 40; ++i) {
    const ViewError middle{0.5 * (low.palmar_angle_deg + high.palmar_angle_deg),
                           0.5 * (low.sole_depth_mm + high.sole_depth_mm)};
    const auto chance = chances(branches, middle);
    (chance.palmar_angle_deg > refusal_chance.palmar_angle_deg ? low : high).palmar_angle_deg =
        middle.palmar_angle_deg;
    (chance.sole_depth_mm > refusal_chance.sole_depth_mm ? low : high).sole_depth_mm =
        middle.sole_depth_mm;
  }
  return high;
}

} // namespace

ViewVerdict view_verdict(const SideOn& foot, std::span<const Source> sources) {
  std::vector<Branch> branches;
  for (const auto& source : sources) {
    const Guess guess{foot, source};
    const auto likely = error_of(guess);
    const double behind = source.chi_squared - sources.front().chi_squared;
    branches.push_back({std::exp(-0.5 * behind), likely, uncertainty_of(guess, likely)});
  }
  return {branches.front().likely, bound_of(branches)};
}

} // namespace pritchel::measure
