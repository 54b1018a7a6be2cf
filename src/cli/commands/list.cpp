#include "cli/commands.h"
#include "cli/commands/measurement_docs.h"
#include "measure/definitions.h"

#include <fmt/core.h>

namespace pritchel::cli {
namespace {

void print_measurements() {
  for (const auto& each : measure::definitions())
    fmt::print("{:32} {:4} {:13} {}\n", each.id, key(each.unit), key(each.view), each.title);
}

void print_landmarks(const practice::Practice& practice) {
  for (const auto& protocol : practice.protocols)
    for (const auto& each : protocol.landmarks)
      fmt::print("{:32} {:13} {:9} {}\n",
                 each.id,
                 key(protocol.view),
                 each.required ? "required" : "optional",
                 each.title);
}

} // namespace

Result<void> run(const ListArguments& arguments, const Places& places) {
  PRITCHEL_TRY(practice, practice::load_practice(places.templates));
  if (arguments.what == Listing::landmarks) {
    print_landmarks(practice);
    return {};
  }
  if (!arguments.drawings.empty())
    PRITCHEL_CHECK(write_drawings(practice, places.templates, arguments.drawings));
  if (arguments.as_markdown) {
    PRITCHEL_TRY(text, measurements_markdown(practice, places.templates));
    fmt::print("{}", text);
  } else if (arguments.drawings.empty()) {
    print_measurements();
  }
  return {};
}

} // namespace pritchel::cli
