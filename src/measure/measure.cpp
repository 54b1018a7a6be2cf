#include "measure/measure.h"

#include "base/limits.h"
#include "measure/checks.h"
#include "measure/sides.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::measure {
namespace {

/// What the limb's load decides: joints that open and bend otherwise when the foot isn't stood on.
constexpr std::array needs_load = {"hpa-deviation",
                                   "pip-deviation",
                                   "dip-deviation",
                                   "dip-space-medial",
                                   "dip-space-lateral",
                                   "dip-space-ratio",
                                   "dip-symmetry-index",
                                   "dip-line-angle"};

/// Why no number of this reading can be trusted.
std::optional<Reason> doubted_sides(const Reading& reading) {
  if (auto swapped = landmarks_swapped(reading))
    return swapped;
  const bool unsettled = reading.sides_checked == SidesChecked::no;
  if (reading.view == View::dorsopalmar && unsettled && !contradictions(reading).empty())
    return "the statements about sides contradict each other";
  return std::nullopt;
}

std::optional<Reason> unfit(const Definition& definition, const Reading& reading) {
  if (definition.scale == Scale::needed && !reading.calibration.has_scale())
    return "the picture has no scale";
  if (reading.loading == Loading::not_loaded &&
      std::find(needs_load.begin(), needs_load.end(), definition.id) != needs_load.end())
    return "the horse doesn't stand on the foot in this picture";
  return std::nullopt;
}

/// Pairs that carry a direction, and how far apart they must lie for it to be worth trusting.
struct Baseline {
  std::string_view from;
  std::string_view to;
  double least_mm = limits::shortest_baseline_mm;
};
constexpr std::array baselines = {
    Baseline{"ground-heel", "ground-toe", limits::shortest_ground_mm},
    Baseline{"ground-medial", "ground-lateral", limits::shortest_ground_mm},
    Baseline{"p1-axis-distal", "p1-axis-proximal", limits::shortest_long_pastern_mm},
    Baseline{"p3-palmar-process", "p3-tip"},
    Baseline{"p3-dorsal-distal", "p3-dorsal-proximal"},
    Baseline{"wall-dorsal-distal", "wall-dorsal-proximal"},
    Baseline{"heel-wall-distal", "heel-wall-proximal"},
    Baseline{"sole-b", "sole-a"},
    Baseline{"p2-axis-distal", "p2-axis-proximal"},
    Baseline{"dip-p3-medial", "dip-p3-lateral"},
    Baseline{"p3-articular-medial", "p3-articular-lateral"},
    Baseline{"p3-distal-border-medial", "p3-distal-border-lateral"},
    Baseline{"coronet-medial", "coronet-lateral"},
    Baseline{"wall-ground-medial", "wall-proximal-medial"},
    Baseline{"wall-ground-lateral", "wall-proximal-lateral"},
    Baseline{"wall-dorsal-mid", "wall-dorsal-proximal", 10},
    Baseline{"pastern-dorsal-distal", "pastern-dorsal-proximal"},
    Baseline{"coronary-band-heel", "coronary-band"},
    Baseline{"navicular-flexor-mid", "ddft-insertion"},
    Baseline{"solar-foramen-medial", "solar-foramen-lateral"},
    Baseline{"pip-p2-medial", "pip-p2-lateral"},
    Baseline{"mc3-axis-distal", "mc3-axis-proximal"},
    Baseline{"hairline-heel", "hairline-toe"},
    Baseline{"hairline-medial", "hairline-lateral"},
    Baseline{"wall-ground-medial", "wall-mid-medial"},
    Baseline{"wall-ground-lateral", "wall-mid-lateral"},
    Baseline{"toe-mid", "pastern-mid"},
    Baseline{"frog-mid-1", "frog-mid-2"},
    Baseline{"axis-heel", "axis-toe"},
    Baseline{"travel-back", "travel-front"},
    Baseline{"heel-buttress-medial", "heel-buttress-lateral"},
    Baseline{"cannon-mid-distal", "cannon-mid-proximal", limits::shortest_ground_mm},
    Baseline{"radius-mid-distal", "radius-mid-proximal", limits::shortest_ground_mm},
};

bool needs(const Definition& definition, std::string_view landmark) {
  return std::find(definition.needs.begin(), definition.needs.end(), landmark) !=
         definition.needs.end();
}

std::optional<Reason> short_baseline(const Definition& definition, const Placed<Gradient>& placed) {
  if (!placed.has_scale)
    return std::nullopt;
  for (const auto& [from, to, least_mm] : baselines) {
    if (!needs(definition, from) || !needs(definition, to))
      continue;
    if (value_of(distance(placed[from], placed[to])) < least_mm)
      return fmt::format(
          "two points of a line lie less than {:.0f} mm apart ({}, {})", least_mm, from, to);
  }
  return std::nullopt;
}

std::vector<std::string> missing_landmarks(const Definition& definition,
                                           const Placed<Gradient>& placed) {
  std::vector<std::string> missing;
  for (const auto id : definition.needs)
    if (!placed.has(id))
      missing.emplace_back(id);
  return missing;
}

/// The measurement as the checks leave it: refused by the first that is unfit, else with the ids of
/// those that ask for caution.
Measurement checked(Measurement measurement, const std::vector<Check>& checks) {
  if (!measurement.measurable())
    return measurement;
  const auto id = measurement.definition->id;
  if (const auto* check = refusing(checks, id))
    return {.definition = measurement.definition, .reason = check->clause};
  measurement.cautions = cautions_for(checks, id);
  return measurement;
}

Measurement measured(const Definition& definition,
                     const Propagation& propagation,
                     const Reading& reading,
                     const Bands& bands,
                     const std::optional<Reason>& doubted) {
  Measurement result{.definition = &definition};
  result.missing = missing_landmarks(definition, propagation.placed);
  if (auto reason = unfit(definition, reading)) {
    result.reason = *reason;
    return result;
  }
  if (doubted) {
    result.reason = *doubted;
    return result;
  }
  if (!result.missing.empty()) {
    result.reason = "landmarks are missing";
    return result;
  }
  if (auto reason = short_baseline(definition, propagation.placed)) {
    result.reason = *reason;
    return result;
  }
  auto attempt = evaluate(definition, propagation.placed);
  if (!attempt) {
    result.reason = attempt.error();
    return result;
  }
  result.value = attempt->value.value;
  result.standard_uncertainty = standard_uncertainty(attempt->value, propagation);
  if (!std::isfinite(result.value) || !std::isfinite(result.standard_uncertainty)) {
    result.reason = "two of its landmarks lie on the same spot";
    return result;
  }
  if (const auto* band = band_for(bands, definition.id, reading.limb))
    result.band = *band;
  result.status = status_of(result.value, result.standard_uncertainty, result.band);
  result.construction = std::move(attempt->construction);
  return result;
}

} // namespace

const Band* band_for(const Bands& bands, std::string_view measurement, Limb limb) {
  const auto at = std::find_if(bands.begin(), bands.end(), [&](const Band& band) {
    return band.measurement == measurement && (is_hind(limb) ? band.for_hind : band.for_fore);
  });
  return at == bands.end() ? nullptr : &*at;
}

std::string_view key(Status status) {
  switch (status) {
  case Status::within:
    return "within";
  case Status::below:
    return "below";
  case Status::above:
    return "above";
  case Status::cannot_tell:
    return "cannot-tell";
  case Status::no_band:
    return "no-band";
  case Status::not_measurable:
    break;
  }
  return "not-measurable";
}

Status status_of(double value, double standard_uncertainty, const std::optional<Band>& band) {
  if (!band)
    return Status::no_band;
  const double low = value - coverage_factor * standard_uncertainty;
  const double high = value + coverage_factor * standard_uncertainty;
  if (band->low && high < *band->low)
    return Status::below;
  if (band->high && low > *band->high)
    return Status::above;
  const bool inside = (!band->low || low >= *band->low) && (!band->high || high <= *band->high);
  return inside ? Status::within : Status::cannot_tell;
}

Measurement measure_placed(const Definition& definition,
                           const Propagation& propagation,
                           const Reading& reading,
                           const Bands& bands) {
  return measured(definition, propagation, reading, bands, doubted_sides(reading));
}

std::vector<Measurement> measure_reading(const Reading& reading,
                                         const Spreads& spreads,
                                         const Bands& bands,
                                         const std::vector<Check>& checks) {
  const auto propagated = propagation(reading, spreads);
  const auto doubted = doubted_sides(reading);
  std::vector<Measurement> results;
  for (const auto& definition : definitions())
    if (is_for(definition, reading.view, reading.limb))
      results.push_back(checked(measured(definition, propagated, reading, bands, doubted), checks));
  return results;
}

std::vector<Measurement>
measure_reading(const Reading& reading, const Spreads& spreads, const Bands& bands) {
  return measure_reading(reading, spreads, bands, check_reading(reading, spreads));
}

const Measurement* find(const std::vector<Measurement>& measurements, std::string_view id) {
  const auto at = std::find_if(measurements.begin(), measurements.end(), [&](const auto& each) {
    return each.definition->id == id;
  });
  return at == measurements.end() ? nullptr : &*at;
}

} // namespace pritchel::measure
