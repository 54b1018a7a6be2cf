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
  const auto found =
      job::measured(std::make_shared<const imaging::Picture>(std::move(loaded.picture)),
                    loaded.entry,
                    loaded.reading,
                    loaded.scaled,
                    practice.bands,
                    practice);
  nlohmann::json answer{{"format", "pritchel-measurements"},
                        {"version", 1},
                        {"view", measure::key(loaded.entry.view)},
                        {"limb", measure::key(loaded.entry.limb)},
                        {"reader", loaded.reading.reader}};
  answer.update(job::result_json(found, practice));
  fmt::print("{}\n", answer.dump(2));
  return {};
}

} // namespace pritchel::cli
