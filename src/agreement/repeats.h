/// How surely the same thing is read again, from repeats: of numbers and of landmarks.
/// Knows no store: pictures, readers and turns are chosen above (job/agreement_of.h).
#pragma once

#include "measure/placed.h"

#include <optional>
#include <span>
#include <string_view>

namespace pritchel::agreement {

/// Variance within groups of readings of the same thing, pooled over groups. A pair adds one
/// repeat, and the SD is then sqrt(sum d^2 / 2n) (Bland and Altman 1986).
class Pool {
public:
  /// The readings of one thing; fewer than two, or a number that isn't finite, add nothing.
  void add(std::span<const double> readings);

  /// Degrees of freedom: readings less things.
  [[nodiscard]] int repeats() const { return repeats_; }
  [[nodiscard]] int things() const { return things_; }
  /// 0 without repeats.
  [[nodiscard]] double sd() const;

private:
  double squares_ = 0;
  int repeats_ = 0;
  int things_ = 0;
};

/// Where a landmark lies against another placing of it: along the direction of its spread and
/// across; across is to the left of it. Without a direction: along x and y of the plane frame.
struct Offset {
  double across_mm = 0;
  double along_mm = 0;
};

/// Whether a spread has a direction among these landmarks.
[[nodiscard]] std::optional<PlaneVector> direction_of(const measure::Spread& spread,
                                                      const measure::Placed<double>& placed);

/// From the landmark in `first` to it in `second`. Nothing where either lacks it, or where the
/// spread has a direction whose landmarks they don't both have. Both must be in the same plane
/// frame.
[[nodiscard]] std::optional<Offset> offset(const measure::Placed<double>& first,
                                           const measure::Placed<double>& second,
                                           const measure::Spread& spread,
                                           std::string_view landmark);

/// A landmark's placings, pooled.
struct Scatter {
  Pool across;
  Pool along;

  /// The readings of one picture in one plane frame, mm; those without the landmark are left out.
  void add(std::span<const measure::Placed<double>> readings,
           const measure::Spread& spread,
           std::string_view landmark);
};

/// A spread from fewer repeats is not used: the SD from 10 is known to about 24 %
/// (1 / sqrt(2 (n - 1))), from 5 only to 35 %; and ten times one picture is no practice.
inline constexpr int fewest_repeats = 10;
inline constexpr int fewest_pictures = 5;
/// Own spreads aren't believed below this: about a pixel of a film. Two placings on the same pixel
/// are not without error.
inline constexpr double smallest_own_spread_mm = 0.1;

struct OwnSpread {
  measure::Spread spread; ///< direction as in the default
  int repeats = 0;
  int pictures = 0;
};

/// The spread of the pooled placings, or nothing while there are too few. The SD is widened by
/// sqrt(n / (n - 2)) for being estimated from n repeats: the standard deviation of Student's t
/// (JCGM 101:2008, 6.4.9), so that plus and minus two still hold about 95 %.
[[nodiscard]] std::optional<OwnSpread> own_spread(const Scatter& scatter,
                                                  const measure::Spread& usual);

} // namespace pritchel::agreement
