#include "base/text.h"
#include "measure/sides.h"
#include "report/check_block.h"
#include "report/layout.h"
#include "report/measurement_table.h"
#include "report/words.h"

#include <algorithm>

namespace pritchel::report {
namespace {

using drawing::Ink;

constexpr double label_width = 27;
constexpr int brief_lines = 2;

void identity(Layout& layout) {
  auto& flow = layout.flow;
  auto& canvas = layout.canvas();
  const auto& input = layout.input;
  constexpr double right_column = 56;
  const double y = flow.y();
  const double wide = flow.width() - right_column - 6;
  double height = canvas.text({flow.left(), y}, wide, input.case_.horse.name, type::title);
  height += canvas.text({flow.left(), y + height}, wide, horse_line(input.case_.horse), type::body);
  const double x = flow.left() + flow.width() - right_column;
  auto large = in(type::heading, Align::right);
  large.role = Role::paragraph;
  double beside = canvas.text({x, y + 2}, right_column, capital(listed(feet(input))), large);
  beside += canvas.text({x, y + 2 + beside},
                        right_column,
                        "visit of " + date_for_people(input.visit.date),
                        in(type::body, Align::right));
  flow.skip(std::max(height, beside + 2) + 2);
  flow.rule();
  flow.skip(2);
}

std::string person(const record::Person& person) {
  std::string line = person.name;
  for (const auto* part : {&person.registration, &person.contact})
    if (!part->empty())
      line += (line.empty() ? "" : ", ") + *part;
  return line;
}

/// A label in faint ink with its words beside it. Nothing for empty words.
void labelled(Layout& layout, std::string_view label, const std::string& words) {
  if (words.empty())
    return;
  auto& flow = layout.flow;
  flow.need(5);
  layout.canvas().text({flow.left(), flow.y()}, label_width - 2, label, in(type::note, Ink::faint));
  flow.paragraph(words, type::note, label_width, flow.width() - label_width);
  flow.skip(0.4);
}

std::string last_trim(const record::Visit& visit) {
  if (visit.last_trim.empty())
    return "not known";
  auto date = date_for_people(visit.last_trim);
  if (!is_date(visit.last_trim) || !is_date(visit.date))
    return date;
  return date + ", " + std::to_string(days_between(visit.last_trim, visit.date)) +
         " days before this visit";
}

bool is_brief(const Layout& layout, const std::string& words) {
  return layout.canvas().lines(layout.flow.width() - label_width, words, type::note).size() <=
         static_cast<std::size_t>(brief_lines);
}

/// What is asked and what the vet said, short; what doesn't fit stands in full in the record.
void question(Layout& layout) {
  const auto& history = layout.input.case_.history;
  auto& flow = layout.flow;
  const auto brief = [&](std::string_view label, const std::string& words) {
    if (words.empty())
      return;
    layout.canvas().text(
        {flow.left(), flow.y()}, label_width - 2, label, in(type::note, Ink::faint));
    flow.skip(layout.canvas().short_text({flow.left() + label_width, flow.y()},
                                         flow.width() - label_width,
                                         words,
                                         type::note,
                                         brief_lines));
    flow.skip(0.4);
  };
  brief("Complaint", history.complaint);
  brief("Vet's diagnosis", history.diagnosis.empty() ? "none on record" : history.diagnosis);
  labelled(layout, "Last trim", last_trim(layout.input.visit));
  flow.skip(2);
}

void counted(Layout& layout, const PictureSheet& sheet, std::size_t index) {
  const auto shown = short_list(sheet, most_findings);
  std::size_t measured = 0, unsure = 0, unknown = 0;
  for (const auto& each : sheet.measurements) {
    const bool named = std::find(shown.begin(), shown.end(), &each) != shown.end();
    measured += each.measurable() && !named ? 1 : 0;
    unsure += each.status == measure::Status::cannot_tell && !named ? 1 : 0;
    unknown += each.measurable() ? 0 : 1;
  }
  layout.flow.paragraph(std::to_string(measured) + " more measured" +
                            (unsure > 0 ? " (" + std::to_string(unsure) + " can't tell), " : ", ") +
                            std::to_string(unknown) + " not measurable: page " +
                            layout.page_of("picture-" + std::to_string(index)) + ".",
                        in(type::fine, Ink::faint));
}

void found(Layout& layout) {
  auto& flow = layout.flow;
  flow.heading("Found");
  if (layout.input.pictures.empty())
    flow.paragraph("No picture of this visit has been read.", type::body);
  for (std::size_t i = 0; i < layout.input.pictures.size(); ++i) {
    const auto& sheet = layout.input.pictures[i];
    flow.need(16);
    std::string head = picture_title(sheet);
    if (!sheet.calibration.has_scale())
      head += " \u2013 no scale: angles and ratios only";
    flow.paragraph(head, type::strong);
    flow.skip(0.6);
    for (const auto& sentence : measure::contradictions(reading_of(sheet)))
      flow.paragraph(sentence, in(type::note_strong, Ink::stop));
    if (const auto fitness = fitness_in_short(sheet); !fitness.empty())
      flow.paragraph(fitness, type::note);
    flow.skip(0.4);
    short_table(layout, sheet);
    counted(layout, sheet, i);
    flow.skip(1.6);
  }
  flow.skip(1);
}

void numbered(Layout& layout, const std::string& number, const std::string& words) {
  auto& flow = layout.flow;
  flow.need(5);
  layout.canvas().text({flow.left(), flow.y()}, 7, number, type::strong);
  flow.paragraph(words, type::body, 7, flow.width() - 7);
}

void not_a_plan(Layout& layout, const record::Plan& plan) {
  auto& flow = layout.flow;
  flow.need(24);
  layout.canvas().line(
      {flow.left(), flow.y()}, {flow.left() + flow.width(), flow.y()}, Ink::stop, 0.6);
  flow.skip(1.5);
  flow.paragraph(word(layout.input.practice, "heading.not-a-plan", "Not a plan: ask the vet first"),
                 in(type::heading, Ink::stop));
  for (const auto& stop : plan.stops)
    numbered(layout, "\u2013", stop);
  flow.skip(1);
  layout.canvas().line(
      {flow.left(), flow.y()}, {flow.left() + flow.width(), flow.y()}, Ink::stop, 0.6);
  flow.skip(3);
}

void proposed(Layout& layout) {
  auto& flow = layout.flow;
  const auto& plan = layout.input.plan;
  if (!plan) {
    flow.heading("Proposed");
    flow.paragraph("No plan has been made for this visit.", type::body);
    flow.skip(3);
    return;
  }
  if (plan->lines.empty() && !plan->stops.empty())
    return;
  flow.heading("Proposed");
  if (plan->lines.empty())
    flow.paragraph(plan->locks.empty() && plan->remeasure.empty()
                       ? "Nothing: no measurement gives a reason for a change."
                       : "Nothing. What is held back, and what could not be told, is on page " +
                             layout.page_of("plan") + ".",
                   type::body);
  for (std::size_t i = 0; i < plan->lines.size(); ++i)
    numbered(layout,
             std::to_string(i + 1),
             foot_prefix(layout.input, plan->lines[i].limb) + plan->lines[i].what);
  flow.skip(3);
}

void asked(Layout& layout) {
  auto& flow = layout.flow;
  const auto& plan = layout.input.plan;
  flow.heading("Asked of the vet", 8);
  if (!plan) {
    flow.paragraph("To look at the pictures and the numbers.", type::body);
    flow.skip(3);
    return;
  }
  if (!plan->stops.empty())
    flow.paragraph("Look at the horse first. What must be clear before anybody plans is on page " +
                       layout.page_of("plan") + ".",
                   type::body);
  if (!plan->lines.empty())
    flow.paragraph("Accept, amend or decline each of the " + std::to_string(plan->lines.size()) +
                       " lines: from page " + layout.page_of("plan") + " on.",
                   type::body);
  if (const auto doubtful = plan->locks.size() + plan->remeasure.size(); doubtful > 0)
    flow.paragraph("Read what is held back (" + std::to_string(plan->locks.size()) +
                       ") and what should be measured again (" +
                       std::to_string(plan->remeasure.size()) + "): page " +
                       layout.page_of("plan") + ".",
                   type::body);
  const std::string sign = plan->sign_off ? "Signed by " + plan->sign_off->name + " on " +
                                                date_for_people(plan->sign_off->date) + ": page "
                                          : std::string("Sign on page ");
  flow.need(6);
  layout.canvas().link("sign-off", {flow.left(), flow.y(), 60, 5});
  flow.paragraph(sign + layout.page_of("sign-off") + ".", type::strong);
  flow.skip(3);
}

std::string lameness(const record::LamenessGrade& grade) {
  std::string line =
      measure::for_people(grade.limb) + " " + for_people(grade.grade, 1) + " (" + grade.scale + ")";
  if (!grade.observer.empty())
    line += ", seen by " + grade.observer;
  return grade.note.empty() ? line : line + ": " + grade.note;
}

void red_flags(Layout& layout) {
  for (const auto& id : layout.input.case_.history.red_flags)
    for (const auto& flag : layout.input.practice.red_flags)
      if (flag.id == id)
        labelled(layout, "Red flag", flag.words);
}

void history(Layout& layout) {
  const auto& record = layout.input.case_;
  layout.flow.heading("Record", 12);
  labelled(layout, "Owner", person(record.owner));
  labelled(layout, "Yard", record.yard);
  labelled(layout, "Farrier", person(record.farrier));
  labelled(layout, "Vet", person(record.vet));
  for (const auto& grade : record.history.lameness)
    labelled(layout, "Lameness", lameness(grade));
  red_flags(layout);
  if (record.history.laminitis == record::Laminitis::suspected)
    labelled(layout, "Laminitis", "suspected");
  if (record.history.laminitis == record::Laminitis::known)
    labelled(layout, "Laminitis", "known");
  if (!is_brief(layout, record.history.complaint))
    labelled(layout, "Complaint", record.history.complaint);
  if (!is_brief(layout, record.history.diagnosis))
    labelled(layout, "Vet's diagnosis", record.history.diagnosis);
  labelled(layout, "History", record.history.course);
  labelled(layout, "Visit note", layout.input.visit.note);
}

} // namespace

void front_page(Layout& layout) {
  layout.flow.new_page();
  layout.canvas().bookmark("Summary");
  identity(layout);
  question(layout);
  if (const auto& plan = layout.input.plan; plan && !plan->stops.empty())
    not_a_plan(layout, *plan);
  found(layout);
  proposed(layout);
  asked(layout);
  history(layout);
}

} // namespace pritchel::report
