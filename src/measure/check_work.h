/// What the single checks share: the reading in millimetres along and above the ground, verdicts
/// from the table of limits, and which measurements hang on a landmark. Inside this floor only.
#pragma once

#include "measure/beam.h"
#include "measure/checks.h"
#include "measure/definitions.h"
#include "measure/placed.h"

#include <initializer_list>
#include <string>

namespace pritchel::measure {

/// A reading as the checks see it.
class CheckWork {
public:
  CheckWork(const Reading& reading, const Spreads& spreads);

  [[nodiscard]] const Reading& reading() const { return reading_; }
  [[nodiscard]] bool has(std::string_view id) const { return placed_.has(id); }
  [[nodiscard]] bool has(std::initializer_list<std::string_view> ids) const;
  [[nodiscard]] bool has_ground() const { return has_ground_; }
  /// Along the ground (or the picture, without one) and above it; mm by the scale or else by the
  /// length of the coffin bone's solar border.
  [[nodiscard]] PlanePoint at(std::string_view id) const;
  /// Standard uncertainty of placing it across / along the ground, same unit.
  [[nodiscard]] double unsure_along(std::string_view id) const;
  [[nodiscard]] double unsure_up(std::string_view id) const;
  /// Millimetres, by whichever of the two ways; without either nothing in mm can be said.
  [[nodiscard]] bool has_size() const { return mm_per_unit_ > 0; }
  /// Standard uncertainty of those millimetres, as a share.
  [[nodiscard]] double size_unsure() const;
  /// From the source to the foot's middle plane, as stated or as usual.
  [[nodiscard]] Estimate source_to_foot() const;
  /// Ids of the view's measurements that need one of these landmarks.
  [[nodiscard]] std::vector<std::string>
  touching(std::initializer_list<std::string_view> landmarks) const;
  /// All measurements of the view; those in mm only.
  [[nodiscard]] std::vector<std::string> all() const;
  [[nodiscard]] std::vector<std::string> lengths() const;
  /// Those among `ids` that the view has.
  [[nodiscard]] std::vector<std::string> among(std::initializer_list<std::string_view> ids) const;

private:
  const Reading& reading_;
  const Spreads& spreads_;
  Placed<double> placed_;
  GroundLine<double> axes_;
  bool has_ground_ = false;
  double mm_per_unit_ = 0;

  [[nodiscard]] double unsure(std::string_view id, const PlaneVector& direction) const;
};

/// The row of the table; there must be one.
[[nodiscard]] const CheckLimit& limit_of(std::string_view check);

/// The verdict on |value| by the table's rule.
[[nodiscard]] Fitness graded(const CheckLimit& limit, double value, double uncertainty);

/// The graver of the two.
[[nodiscard]] Fitness worse(Fitness a, Fitness b);

/// The single checks; each adds what it has to say.
void check_side_on(const CheckWork& work, std::vector<Check>& checks);
void check_front_on(const CheckWork& work, std::vector<Check>& checks);
void check_stance(const CheckWork& work, std::vector<Check>& checks);
void check_upright(const CheckWork& work, std::vector<Check>& checks);
void check_scale(const CheckWork& work, std::vector<Check>& checks);
void check_edges(const CheckWork& work, std::vector<Check>& checks);

} // namespace pritchel::measure
