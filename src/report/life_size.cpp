#include "report/life_size.h"

#include "measure/sides.h"
#include "measure/uncertainty.h"
#include "plan/change.h"
#include "plan/variables.h"
#include "report/life_outline.h"
#include "report/life_tiles.h"
#include "report/words.h"

#include <algorithm>
#include <array>
#include <span>
#include <utility>

namespace pritchel::report {
namespace {

using drawing::Ink;
using measure::View;

// ---- what is drawn, and why not ----

/// Lengths and angles that an outline is as good as.
constexpr std::array side_numbers{
    "toe-length", "hoof-angle", "palmar-angle", "sole-depth-tip", "breakover-distance", "cor-toe"};
constexpr std::array front_numbers{
    "wall-length-medial", "wall-length-lateral", "p3-ml-tilt-articular"};

bool changes_front(const record::FootChange& change) {
  const double amounts[] = {change.trim_medial_mm,
                            change.trim_lateral_mm,
                            change.dress_medial_mm,
                            change.dress_lateral_mm,
                            change.extend_medial_mm,
                            change.extend_lateral_mm,
                            change.ml_wedge_deg};
  return std::any_of(std::begin(amounts), std::end(amounts), [](double each) { return each != 0; });
}

/// Empty when lengths of this picture can be trusted on paper.
std::string unfit(const PictureSheet& sheet) {
  if (!sheet.calibration.has_scale())
    return "the picture has no scale";
  if (sheet.calibration.origin == ScaleOrigin::detector_only)
    return "the scale comes from the detector alone and reads 5 to 15\u202f% too long; take a "
           "picture with a marker";
  const auto reading = reading_of(sheet);
  if (reading.sides_checked == measure::SidesChecked::no)
    if (const auto found = measure::contradictions(reading); !found.empty())
      return "the statements about sides contradict each other: " + found.front();
  const auto numbers = sheet.entry.view == View::lateromedial
                           ? std::span<const char* const>(side_numbers)
                           : std::span<const char* const>(front_numbers);
  for (const auto& check : sheet.checks)
    if (check.fitness == measure::Fitness::unfit)
      for (const auto* id : numbers)
        if (std::find(check.touches.begin(), check.touches.end(), id) != check.touches.end())
          return check.clause.empty() ? check.sentence : check.clause;
  return {};
}

bool is_unconfirmed(const PictureSheet& sheet, const std::string& landmark) {
  return std::any_of(
      sheet.reading.landmarks.begin(), sheet.reading.landmarks.end(), [&](const auto& each) {
        return each.id == landmark && each.how == measure::Placement::suggested;
      });
}

measure::Attempt<LifeOutline> outline_of(const PictureSheet& sheet,
                                         const record::FootChange& change) {
  if (auto why = unfit(sheet); !why.empty())
    return measure::because(std::move(why));
  auto outline = life_outline(sheet, change);
  if (outline && std::any_of(outline->landmarks.begin(),
                             outline->landmarks.end(),
                             [&](const auto& id) { return is_unconfirmed(sheet, id); }))
    return measure::because("points that the program suggested aren't confirmed by a person");
  return outline;
}

/// The pictures of the foot on which the plan changes something.
std::vector<const PictureSheet*> pictures_of(const ReportInput& input,
                                             const record::FootChange& change) {
  std::vector<const PictureSheet*> found;
  for (const auto view : {View::lateromedial, View::dorsopalmar}) {
    if (view == View::dorsopalmar && !changes_front(change))
      continue;
    const auto at =
        std::find_if(input.pictures.begin(), input.pictures.end(), [&](const auto& sheet) {
          return sheet.entry.limb == change.limb && sheet.entry.view == view;
        });
    if (at != input.pictures.end())
      found.push_back(&*at);
  }
  return found;
}

std::string part_of(const PictureSheet& sheet) {
  return "life-size-" + std::string(measure::key(sheet.entry.limb)) + "-" +
         std::string(measure::key(sheet.entry.view));
}

// ---- bars to lay a ruler on ----

constexpr double bar_mm = 200;

/// Ticks every 10 mm to one side of the line, so that a ruler's edge lies on the other.
void bar(Canvas& canvas,
         PaperPoint start,
         Vector<drawing::PaperFrame> along,
         Vector<drawing::PaperFrame> ticks) {
  canvas.line(start, start + along * bar_mm, Ink::text, 0.25);
  for (int at = 0; at <= static_cast<int>(bar_mm); at += 10) {
    const double long_one = at % 100 == 0 ? 4 : at % 50 == 0 ? 2.6 : 1.5;
    const auto foot = start + along * static_cast<double>(at);
    canvas.line(foot, foot + ticks * long_one, Ink::text, at % 100 == 0 ? 0.25 : 0.15);
  }
}

constexpr auto bar_end_words = "end to end 200\u202fmm";
/// What the bar across takes with its words.
constexpr double bar_across_mm = 9;

void bar_across(Canvas& canvas, PaperPoint start, double words_right) {
  bar(canvas, start, {1, 0}, {0, -1});
  const double words_y = start.y - 7.6;
  for (const int at : {50, 100, 150})
    canvas.text({start.x + at - 15, words_y},
                30,
                std::to_string(at),
                in(in(type::fine, Align::centre), Ink::text));
  canvas.text(
      {words_right - 30, words_y}, 30, bar_end_words, in(in(type::fine, Align::right), Ink::text));
}

/// Words end at `words_right`.
void bar_down(Canvas& canvas, PaperPoint start, double words_right, bool ends_in_margins) {
  bar(canvas, start, {0, 1}, {-1, 0});
  constexpr double wide = 12, half_line = 1.6;
  const auto words = [&](double at, const char* text) {
    canvas.text({words_right - wide, start.y + at - half_line},
                wide,
                text,
                in(in(type::fine, Align::right), Ink::text));
  };
  for (const auto& [at, text] : {std::pair{50.0, "50"}, {100.0, "100"}, {150.0, "150"}})
    words(at, text);
  if (ends_in_margins)
    return words(69, bar_end_words);
  words(0, "0");
  words(bar_mm, "200\u202fmm");
}

/// The bar along the paper's shorter side goes past the margins: 200 mm are more than they leave.
void draw_bars(Layout& layout, double bottom) {
  auto& canvas = layout.canvas();
  const double left = layout.flow.left(), right = left + layout.flow.width();
  const double across_y = bottom - 0.5;
  if (canvas.lie() == Lie::upright) {
    bar_across(canvas, {(canvas.size().width_mm - bar_mm) / 2, across_y}, right);
    return bar_down(canvas, {right, bottom - 14 - bar_mm}, right - 4.5, false);
  }
  bar_across(canvas, {left, across_y}, left + bar_mm - 2);
  constexpr double into_margin = 7;
  bar_down(canvas, {right + into_margin, (canvas.size().height_mm - bar_mm) / 2}, right, true);
}

/// Words, room to write and "mm"; where they end.
double blank(Canvas& canvas, PaperPoint at, const std::string& words) {
  canvas.text(at, 60, words, type::note);
  const double line = at.x + canvas.width(words, type::note) + 1.5;
  canvas.line({line, at.y + 3.6}, {line + 16, at.y + 3.6}, Ink::text, 0.15);
  canvas.text({line + 17.5, at.y}, 20, "mm", type::note);
  return line + 17.5 + canvas.width("mm", type::note);
}

std::string if_not_200(Lie lie) {
  return "Not 200? The printer scaled the page: print it again. Until then, true length = length "
         "on this paper \u00d7 200 \u00f7 what the ruler says. Ends of the bar " +
         std::string(lie == Lie::upright ? "across" : "down") +
         " not printed? From 50 to 150 are 100\u202fmm.";
}

/// Room to write what the ruler says, in a strip under an upright page's drawing.
void question_in_strip(Layout& layout, double y, double width) {
  auto& canvas = layout.canvas();
  const double left = layout.flow.left();
  double x = blank(canvas, {left, y}, "My ruler says: across") + 2;
  x = blank(canvas, {x, y}, "down") + 4;
  canvas.text({x, y}, left + width - x, if_not_200(Lie::upright), type::note);
}

/// The same as the last words of a column.
void question_in_column(Layout& layout, double x, double width) {
  auto& flow = layout.flow;
  flow.skip(2);
  flow.paragraph("My ruler says", type::note_strong, x, width);
  for (const auto* words : {"across", "down"}) {
    flow.skip(1.5);
    (void)blank(layout.canvas(), {flow.left() + x, flow.y()}, words);
    flow.skip(4);
  }
  flow.skip(1);
  flow.paragraph(if_not_200(Lie::across), type::note, x, width);
}

// ---- a page ----

std::string scale_words(const PictureSheet& sheet) {
  const double per_100 = 100 * measure::coverage_factor * sheet.calibration.relative_uncertainty;
  return "The picture's scale is known to \u00b1\u202f" + number_for_people(per_100) +
         "\u202fmm over 100\u202fmm (95\u202f%). " + sheet.calibration.sentence;
}

/// Is any line of this foot not accepted as it stands?
std::string decision_words(const Layout& layout, measure::Limb limb) {
  const auto& plan = *layout.input.plan;
  std::vector<std::string> other;
  for (std::size_t i = 0; i < plan.lines.size(); ++i)
    if (plan.lines[i].limb == limb && (plan.lines[i].decision == record::Decision::amend ||
                                       plan.lines[i].decision == record::Decision::decline))
      other.push_back(std::to_string(i + 1));
  std::string words =
      plan.sign_off ? "" : "Not signed: nothing is done before the vet has decided.";
  if (!other.empty())
    words += std::string(words.empty() ? "" : " ") + "Drawn as proposed, before line " +
             listed(other) + " was amended or declined: don't work from it.";
  return words;
}

/// One of the sheets that a foot lies on.
struct Page {
  const PictureSheet& sheet;
  const record::FootChange& change;
  int index = 0;
  int count = 1;
};

/// Where words stand, from the left margin.
struct Column {
  double x = 0;
  double width = 0;
  double gap = 0; ///< between paragraphs
};

void head(Layout& layout, const Page& page, const Column& at) {
  const auto say = [&](const std::string& words, const TextStyle& style) {
    layout.flow.paragraph(words, style, at.x, at.width);
    layout.flow.skip(at.gap);
  };
  const bool several = page.count > 1;
  auto title = "Life size, 1 : 1. " + picture_title(page.sheet);
  if (several)
    title += ", sheet " + std::to_string(page.index + 1) + " of " + std::to_string(page.count);
  say(title, type::heading);
  say("Print at 100\u202f% (actual size), don't fit to page; then lay a ruler on both bars.",
      type::strong);
  say(scale_words(page.sheet), type::note);
  for (const auto& each : page.sheet.conflicts)
    say("Caution: " + each, type::note_strong);
  say("All lines together: " + plan::amounts_for_people(page.change) + ".", type::note_strong);
  if (const auto words = decision_words(layout, page.change.limb); !words.empty())
    say(words, in(type::note_strong, Ink::stop));
  if (several)
    say("Lay cross on cross, letter on letter; neighbouring sheets overlap by 20\u202fmm.",
        type::note);
}

void key_row(Layout& layout, double y) {
  auto& canvas = layout.canvas();
  double x = layout.flow.left();
  const auto words = [&](const std::string& text) {
    canvas.text({x, y}, 60, text, in(type::fine, Ink::text));
    x += canvas.width(text, type::fine) + 3;
  };
  for (const auto& [ink, text] : {std::pair{Ink::hoof, "hoof now"},
                                  {Ink::bone, "coffin bone"},
                                  {Ink::ground, "ground now"},
                                  {Ink::proposal, "proposed"}}) {
    canvas.specimen_on_paper(ink, {x, y + 0.2, 9, 3});
    x += 10;
    words(text);
  }
  canvas.drawing(
      {{drawing::MarkItem<drawing::PaperFrame>{{x + 1, y + 1.7}, "by-hand"}, Ink::text, ""}},
      {0, 0},
      {x - 1, y - 1, 6, 6});
  x += 3.5;
  words("point read; straight lines between");
}

void edge_words(Layout& layout, const PictureSheet& sheet, const PaperBox& window) {
  const auto letters = edge_letters(sheet);
  auto& canvas = layout.canvas();
  const TextStyle style{11, 13, Weight::bold};
  canvas.text({window.left + 1.5, window.top + 1}, 10, letters.left, style);
  canvas.text({window.right() - 11.5, window.top + 1}, 10, letters.right, in(style, Align::right));
}

constexpr double key_mm = 6;
/// Words that leave less are drawn over.
constexpr double least_window_mm = 3 * tile_overlap_mm;

/// Words over the drawing, the bar down beside both.
PaperBox upright_page(Layout& layout, const Page& page, double bottom) {
  auto& flow = layout.flow;
  constexpr double beside_bar = 17, question = 15.5;
  const double width = flow.width() - beside_bar;
  head(layout, page, {.x = 0, .width = width});
  const double question_y = bottom - bar_across_mm - question;
  question_in_strip(layout, question_y, width);
  key_row(layout, question_y - key_mm + 1);
  const double top = flow.y() + 1.5;
  return {flow.left(), top, width, std::max(question_y - key_mm - top, least_window_mm)};
}

/// Words beside the drawing, the bar down in the margin beside both. Hardly a window where the
/// column doesn't hold the words, so that no foot is laid on such a page.
PaperBox page_across(Layout& layout, const Page& page, double bottom) {
  auto& flow = layout.flow;
  constexpr double words = 46, beside_bar = 12, gutter = 3;
  const double top = flow.y() + 0.5;
  const Column column{.x = flow.width() - beside_bar - words, .width = words, .gap = 1.2};
  head(layout, page, column);
  question_in_column(layout, column.x, column.width);
  if (flow.y() > bottom)
    return {flow.left(), top, least_window_mm, least_window_mm};
  const double key_y = bottom - bar_across_mm - key_mm;
  key_row(layout, key_y + 0.5);
  return {flow.left(), top, column.x - gutter, key_y - top};
}

/// Where the drawing goes on this page; everything else of the page is drawn.
PaperBox page_of_sheet(Layout& layout, const Page& page) {
  const double bottom = layout.flow.y() + layout.flow.room();
  draw_bars(layout, bottom);
  return layout.canvas().lie() == Lie::upright ? upright_page(layout, page, bottom)
                                               : page_across(layout, page, bottom);
}

struct Laid {
  Lie lie = Lie::upright;
  Tiles tiles;
};

/// How much room the words leave depends on whether there is one sheet or more, so they are laid
/// out unseen: as on the only sheet, and if one doesn't do, as on one of several.
Laid laid(Layout& layout, const PaperBox& extent, Page page, Lie lie) {
  const auto with_words_for = [&](int count) {
    PaperBox window;
    page.count = count;
    layout.flow.rehearse(lie, [&] { window = page_of_sheet(layout, page); });
    return Laid{lie, tiles_for(extent, window.width, window.height)};
  };
  const auto one = with_words_for(1);
  return one.tiles.count() == 1 ? one : with_words_for(2);
}

/// Upright, unless fewer sheets do across.
Laid best_laid(Layout& layout, const PaperBox& extent, const Page& page) {
  const auto upright = laid(layout, extent, page, Lie::upright);
  if (upright.tiles.count() == 1)
    return upright;
  const auto across = laid(layout, extent, page, Lie::across);
  return across.tiles.count() < upright.tiles.count() ? across : upright;
}

void sheets(Layout& layout,
            const PictureSheet& sheet,
            const record::FootChange& change,
            const LifeOutline& outline) {
  auto& canvas = layout.canvas();
  Page page{.sheet = sheet, .change = change};
  const auto [lie, tiles] = best_laid(layout, extent_of(outline.items), page);
  page.count = tiles.count();
  const auto crosses = registration_marks(tiles);
  for (; page.index < page.count; ++page.index) {
    layout.flow.new_page(lie);
    if (page.index == 0) {
      layout.begins(part_of(sheet));
      canvas.bookmark("Life size: " + picture_title(sheet));
    }
    const auto here = page_of_sheet(layout, page);
    const PaperBox window{here.left, here.top, tiles.width, tiles.height};
    const auto shift = tiles.shift(page.index, {here.left, here.top});
    if (page.count > 1)
      canvas.frame(window, Ink::faint, 0.1);
    canvas.drawing(outline.items, shift, window);
    canvas.drawing(crosses, shift, window);
    edge_words(layout, sheet, here);
  }
}

} // namespace

void life_size_pages(Layout& layout) {
  if (!layout.input.plan)
    return;
  for (const auto& change : layout.input.plan->changes) {
    if (plan::changes_nothing(change))
      continue;
    for (const auto* sheet : pictures_of(layout.input, change))
      if (const auto outline = outline_of(*sheet, change))
        sheets(layout, *sheet, change, *outline);
  }
}

void life_size_note(Layout& layout, const record::FootChange& change) {
  auto& flow = layout.flow;
  for (const auto* sheet : pictures_of(layout.input, change)) {
    const auto view = measure::for_people(sheet->entry.view, sheet->entry.limb);
    const auto outline = outline_of(*sheet, change);
    flow.paragraph(outline
                       ? "At life size, " + view + ": page " + layout.page_of(part_of(*sheet)) + "."
                       : "Not drawn at life size, " + view + ": " + outline.error() + ".",
                   in(type::note, Ink::text));
  }
  flow.skip(2);
}

} // namespace pritchel::report
