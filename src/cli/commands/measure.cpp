#include "cli/commands.h"
#include "record/reading_file.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "job/result_json.h"

namespace pritchel::cli {

Result<void> run(const MeasureArguments& arguments, const Places& places) {
  PRITCHEL_TRY(practice, practice::load_practice(places.templates));
  PRITCHEL_TRY(file, record::load_reading_file(arguments.reading));
  PRITCHEL_TRY(loaded, record::complete(file));
  const auto reading = record::reading_of(loaded.entry, loaded.reading, loaded.scaled.calibration);
  const auto spreads = practice::spreads(practice::protocol(practice, reading.view, reading.limb));
  const auto measurements = measure::measure_reading(reading, spreads, practice.bands);
  nlohmann::json answer{{"format", "pritchel-measurements"},
                        {"version", 1},
                        {"view", measure::key(reading.view)},
                        {"limb", measure::key(reading.limb)},
                        {"reader", loaded.reading.reader}};
  answer.update(job::result_json(reading, loaded.scaled, measurements, practice));
  fmt::print("{}\n", answer.dump(2));
  return {};
}

} // namespace pritchel::cli
