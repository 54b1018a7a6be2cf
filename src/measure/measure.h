/// From a reading to its measurements: the one way in for page, paper and command line.
#pragma once

#include "measure/band.h"
#include "measure/definitions.h"
#include "measure/uncertainty.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::measure {

/// Where the 95 % interval lies against the reference band.
enum class Status {
  within,         ///< wholly inside
  below,          ///< wholly below
  above,          ///< wholly above
  cannot_tell,    ///< the interval crosses an edge of the band
  no_band,        ///< measured; nothing published to hold it against
  not_measurable, ///< see `missing` and `reason`
};

/// "within", "below", "above", "cannot-tell", "no-band", "not-measurable"
[[nodiscard]] std::string_view key(Status status);

struct Measurement {
  const Definition* definition = nullptr;
  Status status = Status::not_measurable;
  double value = 0;                ///< in the definition's unit; only when measurable
  double standard_uncertainty = 0; ///< same unit
  std::optional<Band> band;
  std::vector<std::string> missing; ///< landmark ids that must be placed first
  Reason reason;                    ///< a clause for people; set when not measurable
  Construction construction;        ///< plane frame of the reading
  /// Ids of the checks (checks.h) that ask for caution with this number, or weren't made.
  std::vector<std::string> cautions;

  [[nodiscard]] bool measurable() const { return status != Status::not_measurable; }
  [[nodiscard]] double low() const { return value - coverage_factor * standard_uncertainty; }
  [[nodiscard]] double high() const { return value + coverage_factor * standard_uncertainty; }
};

/// Every definition of the reading's view, in the table's order.
[[nodiscard]] std::vector<Measurement>
measure_reading(const Reading& reading, const Spreads& spreads, const Bands& bands);
/// The same with the reading's checks (check_reading), for who shows them too.
[[nodiscard]] std::vector<Measurement> measure_reading(const Reading& reading,
                                                       const Spreads& spreads,
                                                       const Bands& bands,
                                                       const std::vector<Check>& checks);

/// One definition on landmarks that carry derivatives; the plan calls it on a changed foot.
[[nodiscard]] Measurement measure_placed(const Definition& definition,
                                         const Propagation& propagation,
                                         const Reading& reading,
                                         const Bands& bands);

[[nodiscard]] const Measurement* find(const std::vector<Measurement>& measurements,
                                      std::string_view id);

[[nodiscard]] Status
status_of(double value, double standard_uncertainty, const std::optional<Band>& band);

} // namespace pritchel::measure
