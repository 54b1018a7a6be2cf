#include "cli/commands.h"
#include "measure/definitions.h"

#include <fmt/core.h>

namespace pritchel::cli {
namespace {

std::string landmark_names(const measure::Definition& definition) {
  std::string names;
  for (const auto id : definition.needs)
    names += (names.empty() ? "`" : ", `") + std::string(id) + "`";
  return names;
}

std::string band_text(const measure::Band& band) {
  const auto number = [](double value) { return fmt::format("{:g}", value); };
  const std::string range = !band.high  ? "at least " + number(*band.low)
                            : !band.low ? "at most " + number(*band.high)
                                        : number(*band.low) + " to " + number(*band.high);
  return range + " (" + band.population + ")";
}

std::string bands_text(const measure::Bands& bands, std::string_view id) {
  std::string text;
  for (const auto& band : bands)
    if (band.measurement == id)
      text += (text.empty() ? "" : "; ") + band_text(band);
  return text.empty() ? "none published" : text;
}

void print_measurement_rows(measure::View view, const practice::Practice& practice) {
  fmt::print(
      "| measurement | id | unit | what | positive means | equation | needs | band | source |\n"
      "| --- | --- | --- | --- | --- | --- | --- | --- | --- |\n");
  for (const auto& each : measure::definitions()) {
    if (each.view != view)
      continue;
    const auto source = practice.sources.find(each.source);
    fmt::print("| {} | `{}` | {} | {} | {} | `{}` | {}{} | {} | {} |\n",
               each.title,
               each.id,
               key(each.unit),
               each.what,
               each.sign,
               each.equation,
               landmark_names(each),
               each.scale == measure::Scale::needed ? "; a scale" : "",
               bands_text(practice.bands, each.id),
               source == practice.sources.end() ? std::string(each.source) : source->second);
  }
}

void print_markdown(const practice::Practice& practice) {
  fmt::print(
      "# Measurements\n\n"
      "Made by `pritchel list measurements --markdown` from the table the program measures by\n"
      "(`src/measure/definitions.cpp`) and `templates/`; a test fails when this page is stale.\n\n"
      "`u` runs along the ground towards the toe (lateromedial) or lateral (dorsopalmar), `n` is "
      "its\n"
      "normal, upwards. slope(D, P) = atan2((P-D).n, (D-P).u). Wording is for fore feet; for hind "
      "feet\n"
      "palmar reads plantar. A band is what the named source gives, not a target.\n");
  for (const auto view : {measure::View::lateromedial, measure::View::dorsopalmar}) {
    fmt::print("\n## {}\n\n", view == measure::View::lateromedial ? "Lateromedial" : "Dorsopalmar");
    print_measurement_rows(view, practice);
  }
}

void print_measurements() {
  for (const auto& each : measure::definitions())
    fmt::print("{:28} {:4} {:13} {}\n", each.id, key(each.unit), key(each.view), each.title);
}

void print_landmarks(const practice::Practice& practice) {
  for (const auto& protocol : practice.protocols)
    for (const auto& each : protocol.landmarks)
      fmt::print("{:28} {:13} {:9} {}\n",
                 each.id,
                 key(protocol.view),
                 each.required ? "required" : "optional",
                 each.title);
}

} // namespace

Result<void> run(const ListArguments& arguments, const Places& places) {
  PRITCHEL_TRY(practice, practice::load_practice(places.templates));
  if (arguments.what == Listing::landmarks)
    print_landmarks(practice);
  else if (arguments.as_markdown)
    print_markdown(practice);
  else
    print_measurements();
  return {};
}

} // namespace pritchel::cli
