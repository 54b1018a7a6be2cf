#include "report/layout.h"
#include "report/words.h"

#include <algorithm>
#include <set>

namespace pritchel::report {
namespace {

/// Definitions of the numbers that the paper shows, in the table's order.
std::vector<const measure::Definition*> defined(const ReportInput& input) {
  std::set<std::string_view> shown;
  for (const auto& sheet : input.pictures)
    for (const auto& each : sheet.measurements)
      if (each.measurable())
        shown.insert(each.definition->id);
  std::vector<const measure::Definition*> list;
  for (const auto& each : measure::definitions())
    if (shown.contains(each.id))
      list.push_back(&each);
  return list;
}

void definition(Layout& layout, const measure::Definition& each, bool hind_only) {
  auto& flow = layout.flow;
  const auto limb = hind_only ? measure::Limb::left_hind : measure::Limb::left_fore;
  constexpr double title_width = 48;
  std::string text = measure::worded_for(limb, each.what);
  if (!each.sign.empty())
    text += " Positive: " + measure::worded_for(limb, each.sign) + ".";
  text += "\u2002[" + std::to_string(layout.sources.number(std::string(each.source))) + "]";
  const auto title = measure::worded_for(limb, each.title);
  auto& canvas = layout.canvas();
  flow.need(std::max(canvas.height(title_width - 3, title, type::note_strong),
                     canvas.height(flow.width() - title_width, text, type::note)));
  const double high =
      canvas.text({flow.left(), flow.y()}, title_width - 3, title, type::note_strong);
  const double top = flow.y();
  flow.paragraph(text, type::note, title_width, flow.width() - title_width);
  flow.go_to(std::max(flow.y(), top + high) + 0.6);
}

void definitions(Layout& layout) {
  auto& flow = layout.flow;
  const auto& pictures = layout.input.pictures;
  const bool hind_only =
      !pictures.empty() && std::all_of(pictures.begin(), pictures.end(), [](const auto& sheet) {
        return measure::is_hind(sheet.entry.limb);
      });
  flow.heading("What the numbers mean");
  flow.paragraph(
      "u is the standard uncertainty of placing the points and of the scale; value \u00b1 2u "
      "holds about 95 % of such readings. It knows nothing of a foot that was turned or did not "
      "stand square: what can be said of that stands under \"Fit to measure\" beside each picture. "
      "Numbers of two visits differ only when they differ by more than the smallest change that "
      "two such readings can tell, 1.96 \u221a2 u, in brackets beside a change.",
      type::note);
  flow.skip(1.5);
  for (const auto* each : defined(layout.input))
    definition(layout, *each, hind_only);
  flow.skip(3);
}

void bulleted(Layout& layout, std::string_view head, const std::vector<std::string>& sentences) {
  if (sentences.empty())
    return;
  auto& flow = layout.flow;
  flow.heading(head);
  for (const auto& each : sentences) {
    flow.need(5);
    layout.canvas().text({flow.left(), flow.y()}, 4, "\u2013", type::note);
    flow.paragraph(each, type::note, 4, flow.width() - 4);
  }
  flow.skip(3);
}

void sources(Layout& layout) {
  auto& flow = layout.flow;
  if (layout.sources.keys().empty())
    return;
  flow.heading("Sources");
  int number = 0;
  for (const auto& key : layout.sources.keys()) {
    const auto at = layout.input.practice.sources.find(key);
    flow.need(4);
    layout.canvas().text(
        {flow.left(), flow.y()}, 8, "[" + std::to_string(++number) + "]", type::note);
    flow.paragraph(at == layout.input.practice.sources.end() ? key : at->second,
                   type::note,
                   8,
                   flow.width() - 8);
  }
  flow.skip(3);
}

void attached(Layout& layout) {
  auto& flow = layout.flow;
  flow.heading("The record behind this paper", 14);
  flow.paragraph("Attached to this file as pritchel-record.json: case, visit, readings and plan as "
                 "they were when it was made. Its SHA-256:",
                 type::note);
  flow.paragraph(layout.record_digest, type::note_strong);
  layout.field({.kind = FieldKind::hidden,
                .name = "record-sha256",
                .spoken = "Digest of the attached record",
                .value = layout.record_digest,
                .frozen = Frozen::yes});
}

} // namespace

void last_pages(Layout& layout) {
  layout.flow.new_page();
  layout.begins("sources");
  layout.canvas().bookmark("Definitions and sources");
  definitions(layout);
  const auto& practice = layout.input.practice;
  bulleted(
      layout, word(practice, "unknown.title", "What this model doesn't know"), unknowns(practice));
  bulleted(layout, "Cautions", cautions(practice));
  sources(layout);
  attached(layout);
}

} // namespace pritchel::report
