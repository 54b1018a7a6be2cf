#include "report/measurement_table.h"

#include "base/text.h"
#include "drawing/overlay.h"
#include "measure/detectable.h"
#include "report/check_block.h"
#include "report/groups.h"
#include "report/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::report {
namespace {

using drawing::Ink;
using measure::Measurement;
using measure::Status;

/// Left edges and widths, mm from the margin; what is left over on wider paper goes to the
/// reference.
struct Columns {
  double letter = 0;
  double title = 5;
  double title_width = 43;
  double value_end = 60;
  double uncertainty_end = 73;
  double unit = 72.5;
  double marks = 79;
  double gauge = 86;
  double gauge_width = 26;
  double reference = 115;
  double reference_width = 55;
  double earlier = 0;
  double earlier_width = 0;
};

Columns columns_for(const Layout& layout, const PictureSheet& sheet) {
  Columns columns;
  const double width = layout.flow.width();
  columns.earlier_width = sheet.earlier ? 27 : 0;
  columns.earlier = width - columns.earlier_width;
  columns.reference_width = columns.earlier - columns.reference - (sheet.earlier ? 3 : 0);
  return columns;
}

Ink ink_of(const Measurement& measurement) {
  const bool sure = measurement.status != Status::cannot_tell && measurement.measurable();
  return sure ? Ink::text : Ink::faint;
}

std::string title_of(const PictureSheet& sheet, const Measurement& measurement) {
  return measure::worded_for(sheet.entry.limb, measurement.definition->title);
}

void number_at(Layout& layout, double end, std::string_view text, const TextStyle& style) {
  constexpr double width = 20;
  layout.canvas().text(
      {layout.flow.left() + end - width, layout.flow.y()}, width, text, in(style, Align::right));
}

double value_cells(Layout& layout, const Columns& columns, const Measurement& measurement) {
  const auto unit = measurement.definition->unit;
  const auto style = in(type::note, ink_of(measurement));
  number_at(layout,
            columns.value_end,
            column_number(measurement.value, unit),
            in(type::note_strong, ink_of(measurement)));
  number_at(layout,
            columns.uncertainty_end,
            "\u00b1\u202f" +
                column_number(measure::coverage_factor * measurement.standard_uncertainty, unit),
            style);
  return layout.canvas().text(
      {layout.flow.left() + columns.unit, layout.flow.y()}, 7, measure::symbol(unit), style);
}

double reference_cell(Layout& layout, const Columns& columns, const Measurement& measurement) {
  const PaperPoint at{layout.flow.left() + columns.reference, layout.flow.y()};
  if (!measurement.band)
    return layout.canvas().text(
        at, columns.reference_width, "no reference band", in(type::note, Ink::faint));
  const auto& band = *measurement.band;
  const auto head = status_word(measurement.status) + ": " +
                    band_range(band, measurement.definition->unit) + "\u2002[" +
                    std::to_string(layout.sources.number(band.source)) + "]";
  const auto style = measurement.status == Status::below || measurement.status == Status::above
                         ? type::note_strong
                         : type::note;
  const double first = layout.canvas().text(at, columns.reference_width, head, style);
  return first + layout.canvas().text({at.x, at.y + first},
                                      columns.reference_width,
                                      standing_word(band.standing) + "; " + band.population,
                                      type::fine);
}

double earlier_cell(Layout& layout,
                    const Columns& columns,
                    const PictureSheet& sheet,
                    const Measurement& measurement) {
  const auto* earlier = earlier_of(sheet, measurement.definition->id);
  const PaperPoint at{layout.flow.left() + columns.earlier, layout.flow.y()};
  if (earlier == nullptr)
    return sheet.earlier ? layout.canvas().text(
                               at, columns.earlier_width, "\u2013", in(type::note, Ink::faint))
                         : 0;
  const auto unit = measurement.definition->unit;
  Measurement before = measurement;
  before.value = earlier->value;
  const double first = layout.canvas().text(
      at, columns.earlier_width, drawing::value_for_people(before), type::note);
  const double change = measurement.value - earlier->value;
  const double both =
      std::hypot(measurement.standard_uncertainty, earlier->standard_uncertainty) / std::sqrt(2.0);
  const double detectable = measure::smallest_detectable_change(both);
  const bool sure = std::abs(change) > detectable;
  return first + layout.canvas().text({at.x, at.y + first},
                                      columns.earlier_width,
                                      change_for_people(change, measure::decimals(unit)) + " (" +
                                          quantity(detectable, unit) + ")" + (sure ? "" : " ?"),
                                      sure ? in(type::fine, Ink::text) : type::fine);
}

void table_head(Layout& layout, const Columns& columns, const PictureSheet& sheet) {
  auto& flow = layout.flow;
  const auto style = in(type::fine, Ink::text);
  const auto cell = [&](double x, double width, std::string_view text) {
    layout.canvas().text({flow.left() + x, flow.y()}, width, text, style);
  };
  cell(columns.title, columns.title_width, "Measurement");
  number_at(layout, columns.value_end, "value", style);
  number_at(layout, columns.uncertainty_end, "\u00b1\u202f2u", style);
  cell(columns.gauge, columns.gauge_width, "low \u2013 high");
  cell(columns.reference, columns.reference_width, "reference [source]");
  if (sheet.earlier)
    cell(columns.earlier, columns.earlier_width, date_for_people(sheet.earlier->date));
  flow.skip(4.2);
  flow.rule();
  flow.skip(0.8);
}

void measured_row(Layout& layout,
                  const Columns& columns,
                  const PictureSheet& sheet,
                  const Measurement& measurement,
                  const std::string& letter) {
  auto& canvas = layout.canvas();
  const PaperPoint at{layout.flow.left(), layout.flow.y()};
  canvas.text({at.x + columns.letter, at.y}, 6, letter, type::note_strong);
  double height = canvas.text({at.x + columns.title, at.y},
                              columns.title_width,
                              title_of(sheet, measurement),
                              in(type::note, ink_of(measurement)));
  height = std::max(height, value_cells(layout, columns, measurement));
  height = std::max(height,
                    canvas.text({at.x + columns.marks, at.y},
                                columns.gauge - columns.marks,
                                caution_marks(sheet, measurement),
                                in(type::fine, Ink::text)));
  height = std::max(height, reference_cell(layout, columns, measurement));
  height = std::max(height, earlier_cell(layout, columns, sheet, measurement));
  const auto* earlier = earlier_of(sheet, measurement.definition->id);
  draw_gauge(layout,
             drawing::gauge_values(
                 measurement, earlier != nullptr ? std::optional(earlier->value) : std::nullopt),
             {at.x + columns.gauge, at.y},
             columns.gauge_width,
             std::string(measurement.definition->id));
  layout.flow.skip(height + 1.1);
}

void group_head(Layout& layout, const PictureSheet& sheet, const Measurement& measurement) {
  auto& flow = layout.flow;
  flow.skip(0.8);
  flow.paragraph(measure::worded_for(sheet.entry.limb, group_of(*measurement.definition)),
                 in(type::note_strong, Ink::faint));
  flow.skip(0.2);
}

/// Does it wait for nothing but points that nobody has to place?
bool lacks_optional_only(const Layout& layout,
                         const PictureSheet& sheet,
                         const Measurement& measurement) {
  const auto& protocol = practice::protocol(
      layout.input.practice, sheet.entry.view, sheet.entry.limb, sheet.entry.protocol);
  return is_incomplete(measurement) &&
         std::all_of(
             measurement.missing.begin(), measurement.missing.end(), [&](const auto& landmark) {
               const auto* guide = practice::guide(protocol, landmark);
               return guide == nullptr || !guide->required;
             });
}

/// What could not be measured, below the table: under one reason all that it keeps away.
void not_measured(Layout& layout, const PictureSheet& sheet) {
  std::vector<std::pair<std::string, std::vector<std::string>>> reasons;
  std::vector<std::string> optional;
  for (const auto& each : sheet.measurements) {
    if (each.measurable())
      continue;
    if (lacks_optional_only(layout, sheet, each)) {
      optional.push_back(title_of(sheet, each));
      continue;
    }
    const auto reason = why_not(layout, sheet, each);
    auto at = std::find_if(
        reasons.begin(), reasons.end(), [&](const auto& known) { return known.first == reason; });
    if (at == reasons.end())
      at = reasons.insert(reasons.end(), {reason, {}});
    at->second.push_back(title_of(sheet, each));
  }
  auto& flow = layout.flow;
  flow.skip(1.2);
  for (const auto& [reason, titles] : reasons) {
    flow.paragraph("\u2013 " + listed(titles) + ": " + reason + ".", type::note);
    flow.skip(0.4);
  }
  if (!optional.empty())
    flow.paragraph("Not measured, points not placed: " + listed(optional) + ".", type::fine);
}

/// What the front page names of a picture even when nothing is outside a band.
bool always_asked(std::string_view id) {
  constexpr std::array<std::string_view, 24> ids{
      "palmar-angle",          "sole-depth-tip",         "hpa-deviation",
      "capsular-rotation",     "p3-ml-tilt-articular",   "photo-hoof-angle",
      "photo-heel-angle",      "photo-hpa-deviation",    "half-width-index",
      "capsule-distortion-ml", "solar-half-width-index", "heel-forward-migration",
      "heel-bulb-offset",      "toe-direction",          "pastern-minus-hoof",
      "fore-load-heel",        "carpus-sagittal",        "hock-angle",
      "hind-load-heel",        "carpus-frontal",         "fetlock-frontal",
      "hock-frontal",          "hanging-carpus-frontal", "hanging-foot-to-cannon"};
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

/// 0 is named first.
int urgency(const Measurement& measurement) {
  if (measurement.status == Status::below || measurement.status == Status::above)
    return 0;
  return always_asked(measurement.definition->id) ? 1 : 2;
}

} // namespace

void draw_gauge(Layout& layout,
                const drawing::GaugeValues& values,
                PaperPoint top_left,
                double width_mm,
                std::string about) {
  constexpr double line_middle_mm = 1.9;
  layout.canvas().sheet(drawing::gauge(values,
                                       drawing::gauge_scale(values),
                                       {{top_left.x, top_left.y + line_middle_mm}, width_mm, 2.9},
                                       std::move(about)));
}

void measurement_table(Layout& layout,
                       const PictureSheet& sheet,
                       const std::map<std::string, std::string, std::less<>>& letters) {
  const auto columns = columns_for(layout, sheet);
  const bool any = std::any_of(sheet.measurements.begin(),
                               sheet.measurements.end(),
                               [](const auto& each) { return each.measurable(); });
  layout.flow.need(18);
  if (any)
    table_head(layout, columns, sheet);
  std::string_view group;
  for (const auto& measurement : sheet.measurements) {
    if (!measurement.measurable())
      continue;
    const auto at = letters.find(measurement.definition->id);
    const bool new_group = group_of(*measurement.definition) != group;
    group = group_of(*measurement.definition);
    const auto row = [&] {
      if (new_group)
        group_head(layout, sheet, measurement);
      measured_row(layout, columns, sheet, measurement, at == letters.end() ? "" : at->second);
    };
    const double height = layout.flow.measured(row);
    if (layout.canvas().painting() && height > layout.flow.room()) {
      layout.flow.new_page();
      layout.flow.paragraph(picture_title(sheet) + ", continued", type::note_strong);
      layout.flow.skip(1.5);
      table_head(layout, columns, sheet);
    }
    row();
  }
  not_measured(layout, sheet);
}

std::vector<const Measurement*> short_list(const PictureSheet& sheet, std::size_t most) {
  std::vector<const Measurement*> list;
  for (const auto& measurement : sheet.measurements)
    if (measurement.measurable() && urgency(measurement) < 2)
      list.push_back(&measurement);
  std::stable_sort(list.begin(), list.end(), [](const auto* a, const auto* b) {
    return urgency(*a) < urgency(*b);
  });
  if (list.size() > most)
    list.resize(most);
  return list;
}

void short_table(Layout& layout, const PictureSheet& sheet) {
  auto& flow = layout.flow;
  auto& canvas = layout.canvas();
  constexpr double value = 58, gauge = 92, gauge_width = 40, words = 137;
  for (const auto* each : short_list(sheet, most_findings)) {
    flow.need(5);
    const PaperPoint at{flow.left(), flow.y()};
    const bool outside = each->status == Status::below || each->status == Status::above;
    const auto style = in(outside ? type::note_strong : type::note, ink_of(*each));
    const auto marks = caution_marks(sheet, *each);
    double height = canvas.text(
        at, value - 2, title_of(sheet, *each) + (marks.empty() ? "" : "\u2002" + marks), style);
    canvas.text({at.x + value, at.y},
                gauge - value - 2,
                with_uncertainty(each->value, each->standard_uncertainty, each->definition->unit),
                style);
    draw_gauge(layout, drawing::gauge_values(*each), {at.x + gauge, at.y}, gauge_width, "");
    const auto range =
        each->band ? ": " + band_range(*each->band, each->definition->unit) : std::string();
    height = std::max(
        height,
        canvas.text(
            {at.x + words, at.y}, flow.width() - words, status_word(each->status) + range, style));
    flow.skip(height + 0.9);
  }
}

} // namespace pritchel::report
