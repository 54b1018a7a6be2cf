#include "agreement/repeats.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace pritchel::agreement {
namespace {

using measure::Placed;
using measure::Spread;

bool is_round(const Spread& spread) {
  return spread.from.empty() || spread.to.empty();
}

/// Student's t has this standard deviation, in units of the estimated one.
double widened(double sd, double degrees) {
  return sd * std::sqrt(degrees / (degrees - 2));
}

double believed(double sd, double degrees) {
  return std::max(smallest_own_spread_mm, widened(sd, degrees));
}

/// The mean of unit directions; readings of one picture differ little in it.
std::optional<PlaneVector> mean_direction(std::span<const Placed<double>* const> readings,
                                          const Spread& spread) {
  PlaneVector sum{0, 0};
  for (const auto* each : readings) {
    const auto direction = direction_of(spread, *each);
    if (!direction)
      return std::nullopt;
    sum = sum + *direction;
  }
  return length(sum) > 0 ? std::optional(unit(sum)) : std::nullopt;
}

} // namespace

void Pool::add(std::span<const double> readings) {
  if (readings.size() < 2)
    return;
  const auto n = static_cast<double>(readings.size());
  double mean = 0, squares = 0;
  for (const double each : readings)
    mean += each / n;
  for (const double each : readings)
    squares += (each - mean) * (each - mean);
  if (!std::isfinite(squares))
    return;
  squares_ += squares;
  repeats_ += static_cast<int>(readings.size()) - 1;
  ++things_;
}

double Pool::sd() const {
  return repeats_ == 0 ? 0 : std::sqrt(squares_ / repeats_);
}

std::optional<PlaneVector> direction_of(const Spread& spread, const Placed<double>& placed) {
  if (is_round(spread))
    return PlaneVector{1, 0};
  if (!placed.has(spread.from) || !placed.has(spread.to))
    return std::nullopt;
  const auto run = placed[spread.to] - placed[spread.from];
  return length(run) > 0 ? std::optional(unit(run)) : std::nullopt;
}

std::optional<Offset> offset(const Placed<double>& first,
                             const Placed<double>& second,
                             const Spread& spread,
                             std::string_view landmark) {
  if (!first.has(landmark) || !second.has(landmark))
    return std::nullopt;
  const std::array both = {&first, &second};
  const auto along = mean_direction(both, spread);
  if (!along)
    return std::nullopt;
  const auto shift = second[landmark] - first[landmark];
  return Offset{.across_mm = dot(shift, left_normal(*along)), .along_mm = dot(shift, *along)};
}

void Scatter::add(std::span<const Placed<double>> readings,
                  const Spread& spread,
                  std::string_view landmark) {
  std::vector<const Placed<double>*> with_it;
  for (const auto& each : readings)
    if (each.has(landmark))
      with_it.push_back(&each);
  if (with_it.size() < 2)
    return;
  const auto direction = mean_direction(with_it, spread);
  if (!direction)
    return;
  std::vector<double> across_mm, along_mm;
  for (const auto* each : with_it) {
    const auto shift = (*each)[landmark] - (*with_it.front())[landmark];
    across_mm.push_back(dot(shift, left_normal(*direction)));
    along_mm.push_back(dot(shift, *direction));
  }
  across.add(across_mm);
  along.add(along_mm);
}

std::optional<OwnSpread> own_spread(const Scatter& scatter, const Spread& usual) {
  const int repeats = scatter.across.repeats(), pictures = scatter.across.things();
  if (repeats < fewest_repeats || pictures < fewest_pictures)
    return std::nullopt;
  double across = scatter.across.sd(), along = scatter.along.sd(), degrees = repeats;
  if (is_round(usual)) {
    across = along = std::hypot(across, along) / std::sqrt(2.0);
    degrees *= 2;
  }
  return OwnSpread{.spread = {.across_mm = believed(across, degrees),
                              .along_mm = believed(along, degrees),
                              .from = usual.from,
                              .to = usual.to},
                   .repeats = repeats,
                   .pictures = pictures};
}

} // namespace pritchel::agreement
