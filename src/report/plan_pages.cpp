#include "base/text.h"
#include "drawing/overlay.h"
#include "measure/uncertainty.h"
#include "plan/change.h"
#include "plan/plan.h"
#include "plan/variables.h"
#include "record/words.h"
#include "report/layout.h"
#include "report/life_size.h"
#include "report/measurement_table.h"
#include "report/outlook_words.h"
#include "report/words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

namespace pritchel::report {
namespace {

using drawing::Ink;
using record::FootChange;
using record::ProposalLine;

// ---- the changed foot, drawn and in numbers ----

const PictureSheet* side_view(const ReportInput& input, measure::Limb limb) {
  for (const auto& sheet : input.pictures)
    if (sheet.entry.limb == limb && sheet.entry.view == measure::View::lateromedial)
      return &sheet;
  return nullptr;
}

const PictureSheet* sheet_with(const ReportInput& input, measure::Limb limb, std::string_view id) {
  const auto* definition = measure::definition(id);
  for (const auto& sheet : input.pictures)
    if (definition != nullptr && sheet.entry.limb == limb && sheet.entry.view == definition->view)
      return &sheet;
  return nullptr;
}

/// The change as a gauge of its own; the pale bar is what two such readings couldn't tell apart.
void change_row(Layout& layout,
                measure::Limb limb,
                const measure::Definition& definition,
                double before,
                double after,
                double uncertainty,
                double x,
                double width) {
  auto& flow = layout.flow;
  auto& canvas = layout.canvas();
  const auto unit = definition.unit;
  const double gauge_width = std::clamp(width * 0.2, 16.0, 24.0);
  const double title_width = width * 0.4, numbers_width = width - title_width - gauge_width - 2;
  const PaperPoint at{flow.left() + x, flow.y()};
  double height =
      canvas.text(at, title_width - 2, measure::worded_for(limb, definition.title), type::note);
  drawing::GaugeValues values{.value = after - before,
                              .low = after - before - measure::coverage_factor * uncertainty,
                              .high = after - before + measure::coverage_factor * uncertainty};
  const auto* sheet = sheet_with(layout.input, limb, definition.id);
  const auto* now = sheet == nullptr ? nullptr : measure::find(sheet->measurements, definition.id);
  if (now != nullptr && now->measurable()) {
    const double detectable = measure::coverage_factor * std::sqrt(2.0) * now->standard_uncertainty;
    values.has_band = true;
    values.band_low = -detectable;
    values.band_high = detectable;
    values.sure = std::abs(after - before) > detectable;
  }
  const auto decimals = measure::decimals(unit);
  const auto numbers =
      for_people(before, decimals) + " \u2192 " + with_uncertainty(after, uncertainty, unit);
  height =
      std::max(height, canvas.text({at.x + title_width, at.y}, numbers_width, numbers, type::note));
  draw_gauge(layout, values, {at.x + width - gauge_width, at.y}, gauge_width, "");
  flow.skip(height + 0.7);
}

std::vector<const plan::Prediction*> predictions_of(const ReportInput& input, measure::Limb limb) {
  std::vector<const plan::Prediction*> found;
  for (const auto& each : input.predictions)
    if (each.limb == limb && each.definition != nullptr)
      found.push_back(&each);
  return found;
}

bool worth_showing(const plan::Prediction& prediction) {
  const double shown = std::pow(10.0, -measure::decimals(prediction.definition->unit));
  return std::abs(prediction.change) >= shown / 2;
}

void foot_picture(Layout& layout,
                  const PictureSheet& sheet,
                  const FootChange& change,
                  double width) {
  const auto reading = reading_of(sheet);
  const auto changed = plan::ghost(reading, change);
  if (!changed)
    return;
  auto& flow = layout.flow;
  const auto index = static_cast<std::size_t>(&sheet - layout.input.pictures.data());
  const auto place = place_in(sheet, {flow.left(), flow.y(), width, 84});
  drawing::OverlayOptions options{.labels = drawing::Labels::none,
                                  .marks = drawing::Marks::none,
                                  .ghost = drawing::moved_strokes(reading, *changed)};
  auto& canvas = layout.canvas();
  canvas.picture(layout.rasters[index], place);
  canvas.frame(place.box, Ink::faint, 0.15);
  canvas.overlay(drawing::before_strokes(reading), place, 8);
  canvas.overlay(drawing::picture_overlay(reading, {}, options), place, 8);
  flow.skip(place.box.height + 1.2);
  double x = flow.left();
  for (const auto& [ink, words] : {std::pair{Ink::hoof, "hoof now"},
                                   {Ink::bone, "bone"},
                                   {Ink::ground, "ground"},
                                   {Ink::proposal, "proposed"}}) {
    canvas.specimen(ink, {x, flow.y() + 0.5, 7, 3});
    canvas.text({x + 8, flow.y() + 0.3}, 20, words, in(type::fine, Ink::text));
    x += 8 + canvas.width(words, type::fine) + 2.5;
  }
  flow.skip(5);
}

/// Two calm lines under the foot: growth and levers.
void outlook_lines(Layout& layout, measure::Limb limb) {
  for (const auto& each : layout.input.outlooks) {
    if (each.limb != limb)
      continue;
    layout.flow.paragraph(growth_words(each), in(type::note, Ink::text));
    if (const auto words = lever_words(each); !words.empty())
      layout.flow.paragraph(words, in(type::note, Ink::text));
    layout.flow.skip(2);
  }
}

void changed_foot(Layout& layout, const FootChange& change) {
  auto& flow = layout.flow;
  const auto* sheet = side_view(layout.input, change.limb);
  const auto predictions = predictions_of(layout.input, change.limb);
  flow.need(100);
  flow.paragraph(capital(measure::for_people(change.limb)) +
                     ", all lines together: " + plan::amounts_for_people(change) + ".",
                 type::strong);
  flow.skip(1.5);
  const double top = flow.y();
  constexpr double picture_width = 80;
  const bool drawn = sheet != nullptr && plan::ghost(reading_of(*sheet), change).has_value();
  if (drawn)
    foot_picture(layout, *sheet, change, picture_width);
  const double beside = drawn ? picture_width + 5 : 0;
  const double below = flow.y();
  flow.go_to(top);
  flow.paragraph(
      "Now \u2192 as predicted \u00b1 95 %, and the change against what two readings can "
      "tell apart (pale bar)",
      in(type::fine, Ink::text),
      beside,
      flow.width() - beside);
  flow.skip(1);
  constexpr std::size_t most = 16;
  std::size_t shown = 0;
  for (const auto* each : predictions)
    if (worth_showing(*each) && shown++ < most)
      change_row(layout,
                 each->limb,
                 *each->definition,
                 each->before,
                 each->after,
                 each->uncertainty_after,
                 beside,
                 flow.width() - beside);
  flow.go_to(std::max(flow.y(), below) + 3);
  outlook_lines(layout, change.limb);
  life_size_note(layout, change);
}

// ---- proposal lines ----

constexpr double decision_width = 50;
constexpr double gap = 6;

std::string words_of(record::Decision decision) {
  switch (decision) {
  case record::Decision::accept:
    return "accept";
  case record::Decision::amend:
    return "amend";
  case record::Decision::decline:
    return "decline";
  case record::Decision::open:
    break;
  }
  return {};
}

void decision_boxes(Layout& layout, const ProposalLine& line, const std::string& stem, double x) {
  auto& canvas = layout.canvas();
  const double y = layout.flow.y();
  constexpr double box = 3.8;
  double left = x;
  for (const auto* option : {"accept", "amend", "decline"}) {
    const PaperBox place{left, y + 0.3, box, box};
    layout.field({.kind = FieldKind::choice,
                  .name = stem + "-decision",
                  .option = option,
                  .spoken = "Decision on " + stem + ": " + option,
                  .value = words_of(line.decision),
                  .box = place,
                  .frozen = layout.input.plan->sign_off ? Frozen::yes : Frozen::no});
    canvas.text({left + box + 1.2, y}, 14, option, type::note);
    left += decision_width / 3;
  }
}

/// Room to write by hand, and a field over it. Typed text is broken to fit; the box grows with it.
double note_box(Layout& layout, const FormField& field, double width, double least_height) {
  auto& canvas = layout.canvas();
  const TextStyle typed{8.5, 10.2};
  const auto lines = canvas.lines(width * 0.9, field.value, typed);
  FormField placed = field;
  placed.value.clear();
  for (std::size_t i = 0; i < lines.size(); ++i)
    placed.value += (i == 0 ? "" : "\n") + lines[i];
  const double height = std::max(least_height, static_cast<double>(lines.size()) * 3.7 + 2.5);
  placed.box.height = height;
  canvas.frame(placed.box, Ink::faint, 0.2);
  if (field.frozen == Frozen::yes)
    canvas.text({placed.box.left + 1, placed.box.top + 1}, width - 2, field.value, typed);
  layout.field(placed);
  return height;
}

double decision_column(Layout& layout, const ProposalLine& line, std::size_t index) {
  auto& canvas = layout.canvas();
  const double x = layout.flow.left() + layout.flow.width() - decision_width;
  const double y = layout.flow.y();
  const std::string stem = "line-" + std::to_string(index + 1);
  decision_boxes(layout, line, stem, x);
  canvas.text({x, y + 5.4}, decision_width, "Amended to, or why", type::fine);
  const double height = note_box(layout,
                                 {.kind = FieldKind::text_of_lines,
                                  .name = stem + "-note",
                                  .spoken = "Note on " + stem,
                                  .value = line.note,
                                  .box = {x, y + 9, decision_width, 0},
                                  .frozen = layout.input.plan->sign_off ? Frozen::yes : Frozen::no},
                                 decision_width,
                                 19);
  return 9 + height;
}

void labelled(Layout& layout, std::string_view label, const std::string& words, double width) {
  if (words.empty())
    return;
  constexpr double indent = 7, label_width = 17;
  auto& flow = layout.flow;
  flow.need(4);
  layout.canvas().text(
      {flow.left() + indent, flow.y()}, label_width, label, in(type::note, Ink::faint));
  flow.paragraph(words, type::note, indent + label_width, width - indent - label_width);
  flow.skip(0.5);
}

void proposal_line(Layout& layout, std::size_t index) {
  auto& flow = layout.flow;
  auto& canvas = layout.canvas();
  const auto& line = layout.input.plan->lines[index];
  const double width = flow.width() - decision_width - gap;
  const double top = flow.y();
  const int page = canvas.page();
  const double beside = decision_column(layout, line, index);
  canvas.text({flow.left(), flow.y()}, 7, std::to_string(index + 1), type::strong);
  flow.paragraph(foot_prefix(layout.input, line.limb) + line.what, type::strong, 7, width - 7);
  flow.skip(0.6);
  if (line.amount != line.what && line.amount != "none")
    labelled(layout, "How much", line.amount, width);
  labelled(layout, "Why", line.why, width);
  if (!line.expected.empty()) {
    canvas.text({flow.left() + 7, flow.y()}, 17, "Expected", in(type::note, Ink::faint));
    for (const auto& each : line.expected)
      if (const auto* definition = measure::definition(each.measurement))
        change_row(layout,
                   line.limb,
                   *definition,
                   each.before,
                   each.after,
                   each.uncertainty_of_change,
                   24,
                   width - 24);
  }
  labelled(layout, "Caution", line.caution, width);
  labelled(layout, "Watch", line.watch, width);
  labelled(layout, "Source", line.source, width);
  const bool same_page = canvas.page() == page;
  flow.go_to(same_page ? std::max(flow.y(), top + beside) : flow.y());
  flow.skip(2);
  flow.rule();
  flow.skip(2.5);
}

// ---- sign-off ----

void sign_field(Layout& layout, std::string_view label, FormField field, const PaperBox& box) {
  auto& canvas = layout.canvas();
  canvas.text({box.left, box.top}, box.width, label, type::fine);
  field.box = {box.left, box.top + 3.8, box.width, box.height - 3.8};
  canvas.frame(field.box, Ink::faint, 0.2);
  if (field.frozen == Frozen::yes)
    canvas.short_text(
        {box.left + 1.5, field.box.top + 1.3}, box.width - 3, field.value, type::body, 1);
  layout.field(std::move(field));
}

std::string sign_statement(const Layout& layout) {
  const auto& plan = *layout.input.plan;
  if (plan.sign_off)
    return "Signed: this version is frozen. A later change is a new version.";
  const auto seen = plan.lines.empty()
                        ? std::string("I have seen the pictures and what stands above.")
                        : word(layout.input.practice,
                               "sign.statement",
                               "I have seen the pictures and the proposals above.");
  return seen + " A signed version is frozen; a later change is a new version.";
}

void sign_off(Layout& layout) {
  auto& flow = layout.flow;
  layout.begins("sign-off");
  layout.canvas().destination("sign-off", {flow.left(), flow.y()});
  flow.paragraph("Sign-off", type::heading);
  const auto& signed_by = layout.input.plan->sign_off;
  const record::SignOff typed = signed_by.value_or(record::SignOff{});
  const auto frozen = signed_by ? Frozen::yes : Frozen::no;
  flow.paragraph(sign_statement(layout), type::body);
  flow.skip(1.5);
  const double x = flow.left(), y = flow.y(), half = (flow.width() - gap) / 2,
               right = x + half + gap;
  const double row = 11.5;
  sign_field(
      layout,
      "Name",
      {.name = "sign-off-name", .spoken = "Name of the vet", .value = typed.name, .frozen = frozen},
      {x, y, half, row});
  sign_field(layout,
             "Registration number",
             {.name = "sign-off-registration",
              .spoken = "Professional registration number",
              .value = typed.registration,
              .frozen = frozen},
             {x, y + row + 1, half * 0.58, row});
  sign_field(layout,
             "Date (year-month-day)",
             {.name = "sign-off-date",
              .spoken = "Date, as 2026-05-04",
              .value = typed.date,
              .frozen = frozen},
             {x + half * 0.58 + 3, y + row + 1, half * 0.42 - 3, row});
  sign_field(layout,
             "Signature",
             {.kind = FieldKind::signature, .name = "sign-off-signature", .spoken = "Signature"},
             {right, y, half, 2 * row + 1});
  flow.skip(2 * row + 2);
  layout.canvas().text({x, flow.y()}, half, "Note on the whole plan", type::fine);
  flow.skip(3.8);
  flow.skip(note_box(layout,
                     {.kind = FieldKind::text_of_lines,
                      .name = "sign-off-note",
                      .spoken = "Note on the whole plan",
                      .value = typed.note,
                      .box = {x, flow.y(), flow.width(), 0},
                      .frozen = frozen},
                     flow.width(),
                     15));
}

// ---- what stands before the lines ----

void bullets(Layout& layout,
             std::string_view head,
             const std::vector<std::string>& words,
             Ink ink) {
  if (words.empty())
    return;
  auto& flow = layout.flow;
  flow.need(14);
  flow.paragraph(head, in(type::strong, ink));
  for (const auto& each : words) {
    flow.need(5);
    layout.canvas().text({flow.left(), flow.y()}, 4, "\u2013", type::body);
    flow.paragraph(each, type::body, 5, flow.width() - 5);
  }
  flow.skip(2.5);
}

void plan_head(Layout& layout) {
  const auto& plan = *layout.input.plan;
  auto& flow = layout.flow;
  const bool stopped = !plan.stops.empty();
  flow.heading(stopped && plan.lines.empty() ? "Not a plan"
                                             : "Plan, version " + std::to_string(plan.version));
  std::string made = "Made " + date_for_people(plan.made);
  if (!plan.made_by.empty())
    made += " by " + plan.made_by;
  flow.paragraph(made + ". To discuss: nothing here is done before the vet has decided.",
                 in(type::note, Ink::faint));
  flow.skip(2);
  bullets(layout, "Stop and ask the vet", plan.stops, Ink::stop);
  bullets(layout, "Held back", plan.locks, Ink::text);
  bullets(layout, "Measure again", plan.remeasure, Ink::text);
}

/// Which way was chosen for a foot, for what, and what stood in the way.
void taken_way(Layout& layout, const record::TakenWay& taken) {
  std::vector<std::string> words;
  for (const auto& aim : taken.aims)
    if (const auto* definition = measure::definition(aim.measurement)) {
      const auto end = [&](double value) { return quantity(value, definition->unit); };
      words.push_back(measure::worded_for(taken.limb, definition->title) + ", wanted" +
                      (aim.low ? " from " + end(*aim.low) : "") +
                      (aim.high ? " to " + end(*aim.high) : "") + ".");
    }
  words.push_back(taken.reached ? "All of it is reached at this visit, as predicted."
                                : "Not all of it is reached at this visit. In the way:");
  words.insert(words.end(), taken.in_the_way.begin(), taken.in_the_way.end());
  words.insert(words.end(), taken.later.begin(), taken.later.end());
  bullets(layout,
          capital(foot_prefix(layout.input, taken.limb) + "best fit, ") +
              std::string(record::way_words(taken.means)) + ", chosen by " +
              (layout.input.plan->made_by.empty() ? "a person" : layout.input.plan->made_by),
          words,
          Ink::text);
}

void lines_head(Layout& layout) {
  const auto& lines = layout.input.plan->lines;
  if (lines.empty())
    return;
  auto& flow = layout.flow;
  flow.need(60);
  flow.heading("Line by line");
  if (std::any_of(
          lines.begin(), lines.end(), [](const auto& each) { return !each.expected.empty(); }))
    flow.paragraph(
        "Expected: now \u2192 afterwards, \u00b1 95 % of the change. The gauge shows the change "
        "alone; its pale bar is what two readings of one picture can't tell apart.",
        type::fine);
  flow.skip(2);
}

} // namespace

void plan_pages(Layout& layout) {
  if (!layout.input.plan)
    return;
  const auto& plan = *layout.input.plan;
  auto& flow = layout.flow;
  flow.new_page();
  layout.begins("plan");
  layout.canvas().bookmark(plan.stops.empty() ? "Plan" : "Not a plan");
  plan_head(layout);
  for (const auto& taken : plan.taken)
    taken_way(layout, taken);
  for (const auto& change : plan.changes)
    if (!plan::changes_nothing(change))
      changed_foot(layout, change);
  const double signing = flow.measured([&] { sign_off(layout); });
  lines_head(layout);
  for (std::size_t i = 0; i < plan.lines.size(); ++i) {
    const double height = flow.measured([&] { proposal_line(layout, i); });
    const bool last = i + 1 == plan.lines.size();
    flow.need(std::min(height + (last ? signing : 0), flow.page_room()));
    proposal_line(layout, i);
  }
  flow.need(signing);
  sign_off(layout);
}

} // namespace pritchel::report
