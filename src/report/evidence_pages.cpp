#include "drawing/overlay.h"
#include "measure/sides.h"
#include "report/layout.h"
#include "report/measurement_table.h"
#include "report/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::report {
namespace {

using drawing::Ink;
using Letters = std::map<std::string, std::string, std::less<>>;

constexpr double label_column_mm = 17;
constexpr double label_pt = 7.6;
constexpr double mm_per_pt = 25.4 / 72;

std::vector<std::string> drawn_set(const PictureSheet& sheet) {
  auto ids = drawing::main_set(sheet.entry.view);
  std::erase_if(ids, [&](const auto& id) {
    const auto* found = measure::find(sheet.measurements, id);
    return found == nullptr || !found->measurable();
  });
  return ids;
}

drawing::OverlayOptions beside(const PictureSheet& sheet, const PicturePlace& place) {
  const double column_px = label_column_mm / place.mm_per_column;
  return {.measurements = drawn_set(sheet),
          .labels = drawing::Labels::lettered,
          .label_height_px = label_pt * mm_per_pt / place.mm_per_row,
          .room = {-column_px,
                   0,
                   sheet.entry.columns - 1 + column_px,
                   static_cast<double>(sheet.entry.rows - 1)}};
}

/// Longest of a few round lengths that stays short beside the foot.
double bar_length_mm(double picture_width_mm) {
  constexpr std::array<double, 4> lengths{50, 20, 10, 5};
  for (const double each : lengths)
    if (each < picture_width_mm / 4)
      return each;
  return lengths.back();
}

void scale_bar(Layout& layout, const PictureSheet& sheet, const PicturePlace& place) {
  if (!sheet.calibration.has_scale())
    return;
  const double real_width = sheet.entry.columns * sheet.calibration.pixel_width_mm;
  const double length = bar_length_mm(real_width);
  const double on_paper = length / sheet.calibration.pixel_width_mm * place.mm_per_column;
  const double y = place.box.bottom() - 6.5, x = place.box.left + (place.box.width - on_paper) / 2;
  const auto px = [&](double paper_x, double paper_y) {
    return ImagePoint{(paper_x - place.box.left) / place.mm_per_column - 0.5,
                      (paper_y - place.box.top) / place.mm_per_row - 0.5};
  };
  drawing::Overlay bar;
  bar.push_back({drawing::LineItem<ImageFrame>{px(x, y), px(x + on_paper, y)}, Ink::text, ""});
  for (const double end : {x, x + on_paper})
    bar.push_back({drawing::LineItem<ImageFrame>{px(end, y - 1), px(end, y + 1)}, Ink::text, ""});
  layout.canvas().overlay(bar, place, label_pt);
  layout.canvas().text_over_picture({x + on_paper + 1.5, y - 2},
                                    std::to_string(static_cast<int>(length)) + "\u202fmm",
                                    type::note);
}

void edge_marks(Layout& layout, const PictureSheet& sheet, const PicturePlace& place) {
  const auto letters = edge_letters(sheet);
  const TextStyle style{11, 13, Weight::bold};
  auto& canvas = layout.canvas();
  const double y = place.box.bottom() - 9.5;
  canvas.text_over_picture({place.box.left + 4, y}, letters.left, style);
  canvas.text_over_picture(
      {place.box.right() - 4 - canvas.width(letters.right, style), y}, letters.right, style);
}

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
  line(Ink::ground, "ground");
  line(Ink::span, "measured");
  const auto used = [&](measure::Placement how) {
    return std::any_of(sheet.reading.landmarks.begin(),
                       sheet.reading.landmarks.end(),
                       [&](const auto& each) { return each.how == how; });
  };
  if (used(measure::Placement::by_hand))
    mark("by-hand", "placed by hand");
  if (used(measure::Placement::snapped))
    mark("snapped", "snapped");
  if (used(measure::Placement::suggested))
    mark("suggested", "suggested, not confirmed");
  mark("computed", "computed");
  flow.skip(5);
}

std::string standing_sentence(const PictureSheet& sheet) {
  const auto& entry = sheet.entry;
  std::string text = edge_letters(sheet).meaning + "; the picture is as it was stored, not turned "
                                                   "over. ";
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

void remarks(Layout& layout, const PictureSheet& sheet) {
  auto& flow = layout.flow;
  const auto sentence = [&](const std::string& text, const TextStyle& style) {
    flow.paragraph(text, style);
  };
  sentence(sheet.calibration.sentence, type::note);
  for (const auto& conflict : sheet.conflicts)
    sentence("Scale disputed: " + conflict, type::note_strong);
  sentence(standing_sentence(sheet), type::note);
  sentence("View not checked: nothing on this reading shows whether the beam was square to the "
           "foot; a turned or tilted foot changes the numbers.",
           type::note);
  const auto contradictions = measure::contradictions(reading_of(sheet));
  for (const auto& each : contradictions)
    sentence("Contradiction: " + each, in(type::note_strong, Ink::stop));
  if (!contradictions.empty() && sheet.entry.sides_checked == measure::SidesChecked::by_person)
    sentence("A person has looked at the contradiction and says that the reading is right.",
             type::note);
  for (const auto& note : sheet.picture.notes)
    sentence("Picture: " + note, type::note);
}

std::string taken_line(const PictureSheet& sheet) {
  std::string line = sheet.entry.taken.empty() ? std::string("date of the picture not known")
                                               : "taken " + date_for_people(sheet.entry.taken);
  line += sheet.reading.reader.empty() ? std::string() : "; read by " + sheet.reading.reader;
  if (!sheet.entry.file_name.empty())
    line += "; file " + sheet.entry.file_name;
  return line + ", SHA-256 " + sheet.entry.digest.substr(0, 12);
}

void the_picture(Layout& layout, std::size_t index, const PicturePlace& place) {
  const auto& sheet = layout.input.pictures[index];
  auto& canvas = layout.canvas();
  canvas.picture(layout.rasters[index], place);
  canvas.frame(place.box, Ink::faint, 0.15);
  canvas.overlay(
      drawing::picture_overlay(reading_of(sheet), sheet.measurements, beside(sheet, place)),
      place,
      label_pt);
  edge_marks(layout, sheet, place);
  scale_bar(layout, sheet, place);
}

Letters letters_of(const PictureSheet& sheet) {
  Letters letters;
  const auto ids = drawn_set(sheet);
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
  flow.skip(2.5);
  flow.paragraph("Gauges: tick the value, whisker its 95 % interval, pale bar the reference band, "
                 "hollow tick the last visit. Grey: can't tell, and so is a change with a ?.",
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
  the_picture(layout, index, place);
  flow.skip(place.box.height + 1.5);
  below_picture(layout, sheet);
}

} // namespace pritchel::report
