#include "measure/uncertainty.h"

#include "base/assert.h"
#include "base/limits.h"

#include <algorithm>
#include <cmath>

namespace pritchel::measure {
namespace {

/// How many plane units a millimetre of placement spread is: 1 with a scale, else by nominal size.
double plane_units_per_mm(const Calibration& calibration) {
  return calibration.has_scale() ? 1.0 : 1.0 / calibration.nominal_pixel_mm;
}

/// The rectification's one-sigma components, each as a displacement of every landmark.
std::vector<std::vector<PlaneVector>> common_errors(const Reading& reading, std::size_t landmarks) {
  std::vector<std::vector<PlaneVector>> errors;
  if (!reading.calibration.rectification)
    return errors;
  const PlaneMap map(reading.calibration, reading.toward);
  errors.resize(reading.calibration.rectification->one_sigma.size());
  for (std::size_t i = 0; i < landmarks; ++i) {
    const auto shifts = map.one_sigma_shifts(reading.landmarks[i].at);
    for (std::size_t k = 0; k < errors.size(); ++k)
      errors[k].push_back(shifts[k]);
  }
  return errors;
}

/// First-order change of a value under a displacement of the landmarks.
double effect(const Gradient& value, const std::vector<PlaneVector>& shifts) {
  double sum = 0;
  for (std::size_t i = 0; i < shifts.size(); ++i)
    sum += value.partial[1 + 2 * i] * shifts[i].x + value.partial[2 + 2 * i] * shifts[i].y;
  return sum;
}

Covariance along_direction(double across, double along, const PlaneVector& direction) {
  const double size = length(direction);
  const double c = size > 0 ? direction.x / size : 1, s = size > 0 ? direction.y / size : 0;
  const double a2 = along * along, b2 = across * across;
  return {a2 * c * c + b2 * s * s, (a2 - b2) * c * s, a2 * s * s + b2 * c * c};
}

} // namespace

Placed<double> placed(const Reading& reading) {
  const PlaneMap map(reading.calibration, reading.toward);
  Placed<double> result;
  result.view = reading.view;
  result.shoeing = reading.shoeing;
  result.has_scale = reading.calibration.has_scale();
  for (const auto& landmark : reading.landmarks)
    result.put(landmark.id, map.to_plane(landmark.at));
  return result;
}

Covariance placement_covariance(const Reading& reading,
                                const Placed<double>& placed,
                                const Spreads& spreads,
                                std::string_view landmark,
                                Placement how) {
  const double unit = plane_units_per_mm(reading.calibration) *
                      (how == Placement::confirmed ? confirmed_spread_ratio : 1);
  const auto spread = spreads.find(landmark);
  if (spread == spreads.end())
    return along_direction(unlisted_spread_mm * unit, unlisted_spread_mm * unit, {1, 0});
  const auto& s = spread->second;
  if (how == Placement::on_dot && s.on_dot_mm > 0)
    return along_direction(s.on_dot_mm * unit, s.on_dot_mm * unit, {1, 0});
  if (!placed.has(s.from) || !placed.has(s.to)) {
    const double round = std::max(s.across_mm, s.along_mm) * unit;
    return along_direction(round, round, {1, 0});
  }
  return along_direction(s.across_mm * unit, s.along_mm * unit, placed[s.to] - placed[s.from]);
}

Propagation propagation(const Reading& reading, const Spreads& spreads) {
  const Placed<double> plain = placed(reading);
  Propagation result;
  result.placed.view = plain.view;
  result.placed.shoeing = plain.shoeing;
  result.placed.has_scale = plain.has_scale;
  result.scale_relative_uncertainty = reading.calibration.relative_uncertainty;
  const Gradient scale = Gradient::input(1.0, 0);
  for (const auto& [id, at] : plain.points()) {
    const std::size_t i = result.landmarks.size();
    PRITCHEL_ASSERT(i < limits::landmarks_in_reading);
    const int input = static_cast<int>(1 + 2 * i);
    result.placed.put(
        id, {Gradient::input(at.x, input) * scale, Gradient::input(at.y, input + 1) * scale});
    result.landmarks.push_back(
        placement_covariance(reading, plain, spreads, id, reading.landmarks[i].how));
  }
  result.common = common_errors(reading, result.landmarks.size());
  return result;
}

double covariance(const Gradient& a, const Gradient& b, const Propagation& propagation) {
  const double scale = propagation.scale_relative_uncertainty;
  double sum = a.partial[0] * b.partial[0] * scale * scale;
  for (std::size_t i = 0; i < propagation.landmarks.size(); ++i) {
    const auto& c = propagation.landmarks[i];
    const double ax = a.partial[1 + 2 * i], ay = a.partial[2 + 2 * i];
    const double bx = b.partial[1 + 2 * i], by = b.partial[2 + 2 * i];
    sum += ax * (c.xx * bx + c.xy * by) + ay * (c.xy * bx + c.yy * by);
  }
  for (const auto& error : propagation.common)
    sum += effect(a, error) * effect(b, error);
  return sum;
}

double standard_uncertainty(const Gradient& value, const Propagation& propagation) {
  return std::sqrt(covariance(value, value, propagation));
}

} // namespace pritchel::measure
