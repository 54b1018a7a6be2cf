#include "cli/commands/measurement_docs.h"

#include "base/file.h"
#include "base/limits.h"
#include "base/text.h"
#include "drawing/definition_svg.h"
#include "measure/detectable.h"
#include "measure/measure.h"
#include "report/groups.h"
#include "report/words.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <map>
#include <optional>

namespace pritchel::cli {
namespace {

using measure::Definition;
using measure::View;
using practice::Protocol;

/// The scale of the worked examples: own estimate of a marker beside the foot, or a card beside the
/// limb.
constexpr double usual_scale_unsure = 0.01;

constexpr std::array views{View::lateromedial,
                           View::dorsopalmar,
                           View::foot_side,
                           View::foot_front,
                           View::foot_behind,
                           View::foot_above,
                           View::sole,
                           View::limb_side,
                           View::limb_front,
                           View::limb_behind,
                           View::limb_hanging};

using Schematics = std::map<std::string, drawing::Schematic, std::less<>>;

Result<Schematics> read_schematics(const practice::Practice& practice,
                                   const std::filesystem::path& templates) {
  Schematics found;
  for (const auto& protocol : practice.protocols) {
    const auto path = templates / "protocols" / protocol.schematic;
    PRITCHEL_TRY(text, read_file(path, limits::json_file_bytes));
    auto schematic = drawing::schematic(text);
    if (schematic.width <= 0)
      return fail(path.filename().string(),
                  "isn't a drawing with a viewBox",
                  "draw it as templates/README.md says");
    found.emplace(protocol.schematic, std::move(schematic));
  }
  return found;
}

/// A definition measured on the landmarks of a protocol's schematic.
struct Example {
  const Protocol* protocol = nullptr;
  measure::Reading marked; ///< only the landmarks that the definition needs
  measure::Measurement measurement;
  std::optional<measure::Measurement> with_dots; ///< where dots can be stuck on any of them
};

bool is_needed(const Definition& definition, std::string_view landmark) {
  return std::find(definition.needs.begin(), definition.needs.end(), landmark) !=
         definition.needs.end();
}

bool can_show(const Protocol& protocol, const Definition& definition) {
  return protocol.view == definition.view &&
         std::all_of(definition.needs.begin(), definition.needs.end(), [&](auto id) {
           return practice::guide(protocol, id) != nullptr;
         });
}

/// The protocol's landmarks as a picture of the schematic's own size, those that `definition` needs
/// first, then as many of the others as a reading holds.
measure::Reading reading_of(const Protocol& protocol,
                            const drawing::Schematic& schematic,
                            const Definition& definition) {
  const bool hind = definition.legs == measure::Legs::hind || protocol.legs == measure::Legs::hind;
  const double mm = protocol.schematic_width_mm / schematic.width;
  const bool film = measure::is_radiograph(protocol.view);
  measure::Reading reading{.view = protocol.view,
                           .limb = hind ? measure::Limb::left_hind : measure::Limb::left_fore,
                           .toward = PictureSide::right,
                           .loading = protocol.view == View::limb_hanging
                                          ? measure::Loading::not_loaded
                                          : measure::Loading::weight_bearing};
  reading.calibration = {.origin = film ? ScaleOrigin::marker : ScaleOrigin::card,
                         .pixel_width_mm = mm,
                         .pixel_height_mm = mm,
                         .relative_uncertainty = usual_scale_unsure};
  for (const bool needed : {true, false})
    for (const auto& guide : protocol.landmarks)
      if (is_needed(definition, guide.id) == needed && (needed || !guide.only_shod) &&
          reading.landmarks.size() < limits::landmarks_in_reading)
        reading.landmarks.push_back(
            {guide.id,
             {guide.schematic_x * schematic.width, guide.schematic_y * schematic.height},
             measure::Placement::by_hand});
  return reading;
}

/// The same reading with every landmark on a dot that may be; nothing where none of those that are
/// needed may.
std::optional<measure::Reading>
on_dots(measure::Reading reading, const measure::Spreads& spreads, const Definition& definition) {
  bool any = false;
  for (auto& landmark : reading.landmarks) {
    const auto at = spreads.find(landmark.id);
    if (at == spreads.end() || at->second.on_dot_mm <= 0)
      continue;
    landmark.how = measure::Placement::on_dot;
    any = any || is_needed(definition, landmark.id);
  }
  return any ? std::optional(std::move(reading)) : std::nullopt;
}

/// Nothing when no protocol of the view has all of its landmarks.
std::optional<Example> example_of(const practice::Practice& practice,
                                  const Schematics& schematics,
                                  const Definition& definition) {
  for (const auto& protocol : practice.protocols) {
    if (!can_show(protocol, definition))
      continue;
    auto reading = reading_of(protocol, schematics.at(protocol.schematic), definition);
    const auto spreads = practice::spreads(protocol);
    const auto measured = [&](const measure::Reading& each) {
      return measure::measure_placed(
          definition, measure::propagation(each, spreads), each, practice.bands);
    };
    Example example{&protocol, {}, measured(reading), std::nullopt};
    if (const auto dotted = on_dots(reading, spreads, definition))
      example.with_dots = measured(*dotted);
    std::erase_if(reading.landmarks,
                  [&](const auto& each) { return !is_needed(definition, each.id); });
    example.marked = std::move(reading);
    return example;
  }
  return std::nullopt;
}

std::string landmark_names(const Definition& definition) {
  std::string names;
  for (const auto id : definition.needs)
    names += (names.empty() ? "`" : ", `") + std::string(id) + "`";
  return names;
}

std::string cited(const practice::Practice& practice, std::string_view source) {
  const auto at = practice.sources.find(source);
  return at == practice.sources.end() ? std::string(source) : at->second;
}

std::string bands_text(const practice::Practice& practice, const Definition& definition) {
  std::string text;
  for (const auto& band : practice.bands) {
    if (band.measurement != definition.id)
      continue;
    const char* legs = band.for_fore && band.for_hind ? "fore and hind"
                       : band.for_hind                ? "hind"
                                                      : "fore";
    text += fmt::format("{}{} ({}): {}; {}. {}.",
                        text.empty() ? "" : "<br>",
                        report::band_range(band, definition.unit),
                        legs,
                        report::standing_word(band.standing),
                        band.population,
                        cited(practice, band.source));
  }
  return text.empty() ? "No reference band: none is published that would hold." : text;
}

std::string unit_word(measure::Unit unit) {
  switch (unit) {
  case measure::Unit::millimetres:
    return "mm";
  case measure::Unit::ratio:
    return "ratio";
  case measure::Unit::per_cent:
    return "per cent";
  case measure::Unit::degrees:
    break;
  }
  return "degrees";
}

std::string legs_word(measure::Legs legs) {
  switch (legs) {
  case measure::Legs::fore:
    return ", fore limbs";
  case measure::Legs::hind:
    return ", hind limbs";
  case measure::Legs::all:
    break;
  }
  return {};
}

std::string doubt_of(const measure::Measurement& measurement) {
  const auto unit = measurement.definition->unit;
  return fmt::format(
      "typical uncertainty (2u) {}, smallest detectable change {}",
      report::quantity(measure::coverage_factor * measurement.standard_uncertainty, unit),
      report::quantity(measure::smallest_detectable_change(measurement), unit));
}

std::string doubt_text(const std::optional<Example>& example) {
  if (!example || !example->measurement.measurable())
    return "Typical uncertainty: not computed, the schematic doesn't show it.";
  auto text = report::capital(doubt_of(example->measurement)) + ".";
  if (example->with_dots && example->with_dots->measurable())
    text += "<br>Points on stick-on dots: " + doubt_of(*example->with_dots) + ".";
  return text;
}

/// A cell of a table must not end it.
std::string cell(std::string text) {
  std::string out;
  for (const char c : text)
    out += c == '|' ? std::string("&#124;") : std::string(1, c);
  return out;
}

std::string row(const practice::Practice& practice,
                const Definition& definition,
                const std::optional<Example>& example) {
  const bool shown = example && example->measurement.measurable();
  std::string what = fmt::format("**{}**<br>`{}`, {}{}<br>{}",
                                 definition.title,
                                 definition.id,
                                 unit_word(definition.unit),
                                 legs_word(definition.legs),
                                 definition.what);
  if (!definition.sign.empty())
    what += fmt::format("<br>Positive: {}.", definition.sign);
  what += fmt::format("<br>`{}`<br>Points: {}{}.<br>Source: {}.",
                      definition.equation,
                      landmark_names(definition),
                      definition.scale == measure::Scale::needed ? "; a scale" : "",
                      cited(practice, definition.source));
  return fmt::format("| {} | {} | {}<br>{} |\n",
                     shown ? fmt::format("![{}](drawings/{}.svg)", definition.title, definition.id)
                           : std::string(),
                     cell(what),
                     cell(bands_text(practice, definition)),
                     doubt_text(example));
}

constexpr std::string_view head = R"(# Measurements

Made by `pritchel list measurements --markdown --drawings docs/drawings` from the table the program
measures by (`src/measure/table_*.cpp`) and `templates/`; a test fails when this page or a drawing is
stale.

Drawings: what the measuring code itself constructs on the points of the protocol's schematic. Blue is
bone, broken ochre hoof, dash-dotted green ground or plumb line, dark grey what is measured. Toe, head
or lateral side to the right.

`u` runs along the level towards the toe (from the side) or lateral (from the front and from behind),
`n` square to it, upwards. slope(D, P) = atan2((P-D).n, (D-P).u). Wording is for fore limbs; for hind
limbs palmar reads plantar. A band is what the named source gives, not a target.

Typical uncertainty: of the schematic's own limb, drawn to scale, with the usual placement spreads of
one trained reader (`templates/protocols`), by eye unless dots are named, and a scale known to ± 2 %
(2u). It knows nothing of a picture taken askew: the checks do. Two readings of the same foot differ by
more than the smallest detectable change, 1.96 √2 u, in only 5 % of cases when nothing changed.
)";

} // namespace

Result<std::string> measurements_markdown(const practice::Practice& practice,
                                          const std::filesystem::path& templates) {
  PRITCHEL_TRY(schematics, read_schematics(practice, templates));
  std::string text(head);
  for (const auto view : views) {
    text += fmt::format("\n## {}\n",
                        report::capital(measure::for_people(view, measure::Limb::left_fore)));
    std::string_view group;
    for (const auto& definition : measure::definitions()) {
      if (definition.view != view)
        continue;
      if (const auto now = report::group_of(definition); now != group) {
        group = now;
        text += fmt::format("\n### {}\n\n| drawing | measurement | reference, uncertainty |\n"
                            "| --- | --- | --- |\n",
                            group);
      }
      text += row(practice, definition, example_of(practice, schematics, definition));
    }
  }
  return text;
}

Result<void> write_drawings(const practice::Practice& practice,
                            const std::filesystem::path& templates,
                            const std::filesystem::path& folder) {
  PRITCHEL_TRY(schematics, read_schematics(practice, templates));
  std::error_code problem;
  std::filesystem::create_directories(folder, problem);
  for (const auto& definition : measure::definitions()) {
    const auto example = example_of(practice, schematics, definition);
    if (!example || !example->measurement.measurable())
      continue;
    const auto path = folder / (std::string(definition.id) + ".svg");
    std::ofstream file(path, std::ios::binary);
    file << drawing::definition_svg(
        schematics.at(example->protocol->schematic), example->marked, example->measurement);
    if (!file.flush())
      return fail(path.string(), "can't be written", "name a folder of your own");
  }
  return {};
}

} // namespace pritchel::cli
