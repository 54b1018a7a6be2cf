#include "drawing/overlay.h"
#include "measure/comparison.h"
#include "measure/sides.h"
#include "report/check_block.h"
#include "report/layout.h"
#include "report/measurement_table.h"
#include "report/picture_block.h"
#include "report/words.h"

#include <algorithm>

namespace pritchel::report {
namespace {

using drawing::Ink;
using Letters = std::map<std::string, std::string, std::less<>>;

/// Specimens with their names, one row.
void key(Layout& layout, const PictureSheet& sheet) {
  auto& flow = layout.flow;
  auto& canvas = layout.canvas();
  double x = flow.left();
  const auto entry = [&](const std::string& words, const auto& draw, double chip) {
    draw(PaperBox{x, flow.y() + 0.5, chip, 3});
    const double wide = canvas.width(words, type::fine);
    canvas.text({x + chip + 1.2, flow.y() + 0.3}, wide + 1, words, in(type::fine, Ink::text));
    x += chip + 1.2 + wide + 4.2;
  };
  const auto line = [&](Ink ink, const std::string& words) {
    entry(
        words, [&](const PaperBox& box) { canvas.specimen(ink, box); }, 9);
  };
  const auto mark = [&](const std::string& how, const std::string& words) {
    entry(
        words, [&](const PaperBox& box) { canvas.specimen_mark(how, box); }, 4);
  };
  line(Ink::bone, "bone");
  line(Ink::hoof, "hoof");
  line(Ink::ground, measure::is_radiograph(sheet.entry.view) ? "ground" : "ground, plumb");
  line(Ink::span, "measured");
  const auto used = [&](measure::Placement how) {
    return std::any_of(sheet.reading.landmarks.begin(),
                       sheet.reading.landmarks.end(),
                       [&](const auto& each) { return each.how == how; });
  };
  if (used(measure::Placement::by_hand))
    mark("by-hand", "placed by hand");
  if (used(measure::Placement::confirmed))
    mark("confirmed", "proposed, confirmed");
  if (used(measure::Placement::snapped))
    mark("snapped", "settled on an edge");
  if (used(measure::Placement::on_dot))
    mark("on-dot", "on a stick-on dot");
  if (used(measure::Placement::suggested))
    mark("suggested", "suggested, not confirmed");
  mark("computed", "computed");
  flow.skip(5);
}

std::string standing_sentence(const PictureSheet& sheet) {
  const auto& entry = sheet.entry;
  std::string text = edge_letters(sheet).meaning + "; the picture is as it was stored, not turned "
                                                   "over. ";
  if (entry.view == measure::View::limb_hanging)
    return text + "The limb is held up and hangs free.";
  text += entry.shoeing == measure::Shoeing::shod ? "Shod" : "Bare";
  switch (entry.loading) {
  case measure::Loading::weight_bearing:
    return text + ", standing on it.";
  case measure::Loading::not_loaded:
    return text + ", not standing on it.";
  case measure::Loading::not_stated:
    break;
  }
  return text + "; whether it carried the horse is not stated.";
}

bool is_said_by_check(const PictureSheet& sheet, const std::string& sentence) {
  return std::any_of(sheet.checks.begin(), sheet.checks.end(), [&](const auto& check) {
    return check.sentence.find(sentence) != std::string::npos;
  });
}

void remarks(Layout& layout, const PictureSheet& sheet) {
  auto& flow = layout.flow;
  const auto sentence = [&](const std::string& text, const TextStyle& style) {
    flow.paragraph(text, style);
  };
  sentence(sheet.calibration.sentence, type::note);
  for (const auto& caution : sheet.calibration.cautions)
    if (!is_said_by_check(sheet, caution))
      sentence("Scale, with caution: " + caution, type::note_strong);
  for (const auto& conflict : sheet.conflicts)
    sentence("Scale disputed: " + conflict, type::note_strong);
  sentence(standing_sentence(sheet), type::note);
  const auto contradictions = measure::contradictions(reading_of(sheet));
  for (const auto& each : contradictions)
    sentence("Contradiction: " + each, in(type::note_strong, Ink::stop));
  if (!contradictions.empty() && sheet.entry.sides_checked == measure::SidesChecked::by_person)
    sentence("A person has looked at the contradiction and says that the reading is right.",
             type::note);
  for (const auto& note : sheet.picture.notes)
    sentence("Picture: " + note, type::note);
}

/// How many points came about in which way, and who answers for them.
std::string placed_sentence(const PictureSheet& sheet) {
  const auto count = [&](measure::Placement how) {
    return std::count_if(sheet.reading.landmarks.begin(),
                         sheet.reading.landmarks.end(),
                         [&](const auto& each) { return each.how == how; });
  };
  std::string text;
  const auto add = [&](measure::Placement how, const std::string& words) {
    if (const auto n = count(how); n > 0)
      text += (text.empty() ? "Points: " : ", ") + std::to_string(n) + " " + words;
  };
  add(measure::Placement::confirmed,
      "proposed by the program and confirmed by " +
          (sheet.reading.reader.empty() ? std::string("the reader") : sheet.reading.reader));
  add(measure::Placement::snapped, "placed by hand and settled on an edge");
  add(measure::Placement::on_dot, "on stick-on dots");
  add(measure::Placement::by_hand, "placed by hand");
  add(measure::Placement::suggested, "proposed and not confirmed, which count for nothing");
  return text + ".";
}

std::string spreads_sentence(const PictureSheet& sheet) {
  const auto& used = sheet.spreads_used;
  const auto all = static_cast<int>(sheet.reading.landmarks.size());
  const std::string head = "How surely points are placed: ";
  if (used.own == 0)
    return head + "the program's usual spreads, not yet this practice's own.";
  const auto own =
      "this practice's own repeats (at least " + std::to_string(used.fewest_repeats) + " a point)";
  if (used.own >= all)
    return head + own + ".";
  return head + own + " for " + std::to_string(used.own) + " of " + std::to_string(all) +
         " points, the program's usual spreads for the rest.";
}

std::string taken_line(const PictureSheet& sheet) {
  std::string line = sheet.entry.taken.empty() ? std::string("date of the picture not known")
                                               : "taken " + date_for_people(sheet.entry.taken);
  line += sheet.reading.reader.empty() ? std::string() : "; read by " + sheet.reading.reader;
  if (!sheet.entry.file_name.empty())
    line += "; file " + sheet.entry.file_name;
  return line + ", SHA-256 " + sheet.entry.digest.substr(0, 12);
}

/// What the coffin joint does between this limb's first side view of the visit and this one; empty
/// for the first.
std::string flexion_sentence(const ReportInput& input, const PictureSheet& sheet) {
  if (sheet.entry.view != measure::View::lateromedial)
    return {};
  const auto first =
      std::find_if(input.pictures.begin(), input.pictures.end(), [&](const auto& each) {
        return each.entry.view == sheet.entry.view && each.entry.limb == sheet.entry.limb &&
               !each.reading.landmarks.empty();
      });
  if (first == input.pictures.end() || first->entry.digest == sheet.entry.digest)
    return {};
  const auto change = measure::flexion_change(first->measurements, sheet.measurements);
  if (!change)
    return {};
  return "Coffin joint, this picture less " + first->entry.file_name + ": " +
         with_uncertainty(
             change->difference, change->standard_uncertainty, measure::Unit::degrees) +
         " (more flexed is positive; both pictures are read independently).";
}

Letters letters_of(const PictureSheet& sheet) {
  Letters letters;
  const auto ids = drawing::drawn_set(sheet.entry.view, sheet.measurements);
  for (std::size_t i = 0; i < ids.size(); ++i)
    letters[ids[i]] = drawing::letter(i);
  return letters;
}

/// Key, remarks and numbers: all that follows the picture.
void below_picture(Layout& layout, const PictureSheet& sheet) {
  auto& flow = layout.flow;
  if (sheet.reading.landmarks.empty()) {
    flow.paragraph("Nobody has placed points on this picture: there are no numbers.", type::strong);
    remarks(layout, sheet);
    return;
  }
  key(layout, sheet);
  remarks(layout, sheet);
  check_block(layout, sheet);
  flow.skip(2);
  if (const auto flexion = flexion_sentence(layout.input, sheet); !flexion.empty())
    flow.paragraph(flexion, type::note);
  flow.paragraph(placed_sentence(sheet) + " " + spreads_sentence(sheet), type::fine);
  flow.paragraph(
      "Gauges: tick the value, whisker its 95 % interval, pale bar the reference band, "
      "hollow tick the last visit. Grey: can't tell. \u25b3, \u25cb: see the check of that "
      "number. In brackets beside a change: the smallest that two such readings can "
      "tell; a change with a ? is smaller.",
      type::fine);
  flow.skip(1);
  measurement_table(layout, sheet, letters_of(sheet));
}

/// As high as leaves room for all numbers on the same page; where that is too low, as high as a
/// picture should be, and the table goes on overleaf.
double picture_height(Layout& layout, const PictureSheet& sheet) {
  constexpr double least = 84, most = 122;
  const double rest = layout.flow.measured([&] { below_picture(layout, sheet); });
  const double left_over = layout.flow.room() - rest - 2.5;
  return left_over < least ? most : std::min(left_over, most);
}

} // namespace

void evidence_pages(Layout& layout, std::size_t index) {
  const auto& sheet = layout.input.pictures[index];
  auto& flow = layout.flow;
  flow.new_page();
  layout.begins("picture-" + std::to_string(index));
  layout.canvas().bookmark(picture_title(sheet));
  flow.heading(picture_title(sheet));
  flow.paragraph(taken_line(sheet), in(type::note, Ink::faint));
  flow.skip(1.5);
  const double columns = 2 * label_column_mm;
  const auto place = place_in(sheet,
                              {flow.left() + label_column_mm,
                               flow.y(),
                               flow.width() - columns,
                               picture_height(layout, sheet)});
  picture_block(
      layout,
      index,
      place,
      lettered_beside(sheet, place, drawing::drawn_set(sheet.entry.view, sheet.measurements)));
  flow.skip(place.box.height + 1.5);
  below_picture(layout, sheet);
}

} // namespace pritchel::report
