#include "report/check_block.h"

#include "base/text.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>

namespace pritchel::report {
namespace {

using drawing::Ink;
using measure::Check;
using measure::Fitness;

/// Shapes that differ without their ink: in order, a warning's triangle, struck out, left open.
std::string sign(Fitness fitness) {
  switch (fitness) {
  case Fitness::caution:
    return "\u25b3";
  case Fitness::unfit:
    return "\u2715";
  case Fitness::not_checked:
    return "\u25cb";
  case Fitness::fit:
    break;
  }
  return "\u2713";
}

std::string quantity(double value, const std::string& unit) {
  const bool angle = unit == "deg";
  return for_people(value, 1) + (angle ? "\u00b0" : "\u202f" + unit);
}

/// "2.3° ± 0.8°", as far as it is known.
std::string by_how_much(const Check& check) {
  if (!check.value)
    return {};
  auto text = quantity(*check.value, check.unit);
  if (check.uncertainty)
    text += " \u00b1\u202f" + quantity(measure::coverage_factor * *check.uncertainty, check.unit);
  return text;
}

/// Numbers stand only at checks that touch a measurement; from 1, in the order of the checks.
int number_of(const PictureSheet& sheet, std::string_view id) {
  int number = 0;
  for (const auto& each : sheet.checks) {
    number += each.fitness != Fitness::fit ? 1 : 0;
    if (each.id == id)
      return each.fitness != Fitness::fit ? number : 0;
  }
  return 0;
}

bool does_touch(const Check& check, std::string_view measurement) {
  return std::find(check.touches.begin(), check.touches.end(), measurement) != check.touches.end();
}

bool holds_all(const Check& check, const std::vector<std::string_view>& ids) {
  return !ids.empty() &&
         std::all_of(ids.begin(), ids.end(), [&](auto id) { return does_touch(check, id); });
}

std::string touched(const PictureSheet& sheet, const Check& check) {
  std::vector<std::string_view> all, lengths;
  std::vector<std::string> titles;
  for (const auto& each : sheet.measurements) {
    const auto& definition = *each.definition;
    all.push_back(definition.id);
    if (definition.unit == measure::Unit::millimetres)
      lengths.push_back(definition.id);
    if (does_touch(check, definition.id))
      titles.push_back(measure::worded_for(sheet.entry.limb, definition.title));
  }
  if (titles.empty())
    return {};
  if (holds_all(check, all))
    return "Touches every number of this picture.";
  if (titles.size() == lengths.size() && holds_all(check, lengths))
    return "Touches every length of this picture.";
  constexpr std::size_t most = 6;
  if (titles.size() > most) {
    const auto more = titles.size() - (most - 1);
    titles.resize(most - 1);
    titles.push_back(std::to_string(more) + " more, marked below");
  }
  return "Touches: " + listed(titles) + ".";
}

void row(Layout& layout, const PictureSheet& sheet, const Check& check) {
  auto& flow = layout.flow;
  auto& canvas = layout.canvas();
  constexpr double mark_width = 9, word_width = 32;
  const double x = mark_width + word_width;
  const bool grave = check.fitness == Fitness::unfit;
  const auto ink = grave ? Ink::stop : Ink::text;
  const auto words = check.title + ": " + check.sentence;
  const auto about = touched(sheet, check);
  flow.need(canvas.height(flow.width() - x, words, type::note) +
            canvas.height(flow.width() - x, about, type::fine));
  const PaperPoint at{flow.left(), flow.y()};
  canvas.text(at,
              mark_width,
              sign(check.fitness) + std::to_string(number_of(sheet, check.id)),
              in(type::note_strong, ink));
  canvas.text({at.x + mark_width, at.y},
              word_width - 2,
              measure::for_people(check.fitness),
              in(check.fitness == Fitness::not_checked ? type::note : type::note_strong, ink));
  flow.paragraph(words, type::note, x, flow.width() - x);
  if (!about.empty())
    flow.paragraph(about, type::fine, x, flow.width() - x);
  flow.skip(0.6);
}

/// The checks that are in order, in one line: nobody needs a row for each.
void in_order(Layout& layout, const PictureSheet& sheet) {
  std::string line;
  for (const auto& each : sheet.checks) {
    if (each.fitness != Fitness::fit)
      continue;
    line += line.empty() ? sign(Fitness::fit) + " Fit to measure: " : std::string("; ");
    line += each.title;
    if (const auto much = by_how_much(each); !much.empty())
      line += " " + much;
  }
  if (!line.empty())
    layout.flow.paragraph(line + ".", type::note);
}

std::string nothing_checked(const PictureSheet& sheet) {
  return measure::is_radiograph(sheet.entry.view)
             ? "View not checked: nothing on this reading shows whether the beam was square to the "
               "foot; a turned or tilted foot changes the numbers."
             : "View not checked: nothing on this reading shows whether the camera looked square "
               "at the limb; a turned limb changes the numbers.";
}

} // namespace

void check_block(Layout& layout, const PictureSheet& sheet) {
  auto& flow = layout.flow;
  if (sheet.checks.empty()) {
    flow.paragraph(nothing_checked(sheet), type::note);
    return;
  }
  flow.skip(1);
  flow.need(10);
  flow.paragraph("Fit to measure", type::note_strong);
  flow.skip(0.4);
  for (const auto fitness : {Fitness::unfit, Fitness::caution, Fitness::not_checked})
    for (const auto& each : sheet.checks)
      if (each.fitness == fitness)
        row(layout, sheet, each);
  in_order(layout, sheet);
}

std::string caution_marks(const PictureSheet& sheet, const measure::Measurement& measurement) {
  std::string marks;
  for (const auto& check : sheet.checks)
    if (check.fitness != Fitness::fit && does_touch(check, measurement.definition->id))
      marks += (marks.empty() ? "" : "\u2009") + sign(check.fitness) +
               std::to_string(number_of(sheet, check.id));
  return marks;
}

std::string fitness_in_short(const PictureSheet& sheet) {
  std::string line;
  for (const auto fitness : {Fitness::unfit, Fitness::caution, Fitness::not_checked}) {
    std::vector<std::string> titles;
    for (const auto& each : sheet.checks)
      if (each.fitness == fitness)
        titles.push_back(each.title);
    if (!titles.empty())
      line += (line.empty() ? "" : "  ") + sign(fitness) + " " +
              capital(std::string(measure::for_people(fitness))) + ": " + listed(titles) + ".";
  }
  return line;
}

} // namespace pritchel::report
