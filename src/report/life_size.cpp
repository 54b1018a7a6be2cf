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
#include <optional>
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

struct Bars {
  double across_top = 0; ///< of the bar across with its words
};

/// The bar across goes past the margins: 200 mm are wider than an upright page's text.
Bars draw_bars(Layout& layout, double bottom) {
  auto& canvas = layout.canvas();
  const double middle = canvas.size().width_mm / 2, across_y = bottom - 0.5;
  bar(canvas, {middle - bar_mm / 2, across_y}, {1, 0}, {0, -1});
  const auto centred = in(type::fine, Align::centre);
  const auto words_at = [&](double x, const char* words) {
    canvas.text({x - 15, across_y - 7.6}, 30, words, in(centred, Ink::text));
  };
  words_at(middle, "100");
  words_at(middle - bar_mm / 4, "50");
  words_at(middle + bar_mm / 4, "150");
  const double right = layout.flow.left() + layout.flow.width();
  canvas.text({right - 30, across_y - 7.6},
              30,
              "end to end 200\u202fmm",
              in(in(type::fine, Align::right), Ink::text));
  const double down_top = bottom - 14 - bar_mm;
  bar(canvas, {right, down_top}, {0, 1}, {-1, 0});
  for (const auto& [at, words] :
       {std::pair{0.0, "0"}, {50.0, "50"}, {100.0, "100"}, {150.0, "150"}, {200.0, "200\u202fmm"}})
    canvas.text({right - 16.5, down_top + at - 1.6},
                12,
                words,
                in(in(type::fine, Align::right), Ink::text));
  return {across_y - 8.5};
}

/// Room to write what the ruler says.
double bar_question(Layout& layout, double y, double width) {
  auto& canvas = layout.canvas();
  double x = layout.flow.left();
  for (const auto* words : {"My ruler says: across", "mm, down"}) {
    canvas.text({x, y}, 60, words, type::note);
    x += canvas.width(words, type::note) + 1.5;
    canvas.line({x, y + 3.6}, {x + 16, y + 3.6}, Ink::text, 0.15);
    x += 17.5;
  }
  canvas.text({x, y}, 20, "mm", type::note);
  x += canvas.width("mm", type::note) + 4;
  return canvas.text(
      {x, y},
      layout.flow.left() + width - x,
      "Not 200? The printer scaled the page: print it again. Until then, true length "
      "= length on this paper \u00d7 200 \u00f7 what the ruler says. Ends of the bar across not "
      "printed? From 50 to 150 are 100\u202fmm.",
      type::note);
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

void head(Layout& layout,
          const PictureSheet& sheet,
          const record::FootChange& change,
          const Tiles& tiles,
          int index,
          double width) {
  auto& flow = layout.flow;
  auto title = "Life size, 1 : 1. " + picture_title(sheet);
  if (tiles.count() > 1)
    title += ", sheet " + std::to_string(index + 1) + " of " + std::to_string(tiles.count());
  flow.paragraph(title, type::heading, 0, width);
  flow.paragraph(
      "Print at 100\u202f% (actual size), don't fit to page; then lay a ruler on both bars.",
      type::strong,
      0,
      width);
  flow.paragraph(scale_words(sheet), type::note, 0, width);
  for (const auto& each : sheet.conflicts)
    flow.paragraph("Caution: " + each, type::note_strong, 0, width);
  flow.paragraph(
      "All lines together: " + plan::amounts_for_people(change) + ".", type::note_strong, 0, width);
  if (const auto words = decision_words(layout, change.limb); !words.empty())
    flow.paragraph(words, in(type::note_strong, Ink::stop), 0, width);
  if (tiles.count() > 1)
    flow.paragraph(
        "Lay cross on cross, letter on letter; neighbouring sheets overlap by 20\u202fmm.",
        type::note,
        0,
        width);
}

double key_row(Layout& layout, double y) {
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
  return 4;
}

void edge_words(Layout& layout, const PictureSheet& sheet, const PaperBox& window) {
  const auto letters = edge_letters(sheet);
  auto& canvas = layout.canvas();
  const TextStyle style{11, 13, Weight::bold};
  canvas.text({window.left + 1.5, window.top + 1}, 10, letters.left, style);
  canvas.text({window.right() - 11.5, window.top + 1}, 10, letters.right, in(style, Align::right));
}

/// Width for text and drawing beside the bar that runs down.
double beside_bar(const Flow& flow) {
  return flow.width() - 17;
}

/// Where the drawing goes on this page; everything else of the page is drawn.
PaperBox page_of_sheet(Layout& layout,
                       const PictureSheet& sheet,
                       const record::FootChange& change,
                       const Tiles& tiles,
                       int index) {
  auto& flow = layout.flow;
  const double width = beside_bar(flow);
  const double bottom = flow.y() + flow.room();
  head(layout, sheet, change, tiles, index, width);
  const auto bars = draw_bars(layout, bottom);
  constexpr double question = 15.5, key = 5;
  bar_question(layout, bars.across_top - question, width);
  key_row(layout, bars.across_top - question - key);
  const double top = flow.y() + 1.5;
  return {flow.left(), top, width, bars.across_top - question - key - 1 - top};
}

void sheets(Layout& layout,
            const PictureSheet& sheet,
            const record::FootChange& change,
            const LifeOutline& outline) {
  auto& flow = layout.flow;
  const auto extent = extent_of(outline.items);
  // How much room the words leave depends on whether there is one sheet or more, so they are laid
  // out once unseen as on one of several.
  const auto window_for = [&](const Tiles& tiles) {
    PaperBox window;
    (void)flow.measured([&] { window = page_of_sheet(layout, sheet, change, tiles, 0); });
    return window;
  };
  flow.new_page();
  auto window = window_for(Tiles{});
  auto tiles = tiles_for(extent, window.width, window.height);
  if (tiles.count() > 1) {
    window = window_for(tiles);
    tiles = tiles_for(extent, window.width, window.height);
  }
  const auto crosses = registration_marks(tiles);
  layout.begins(part_of(sheet));
  layout.canvas().bookmark("Life size: " + picture_title(sheet));
  for (int i = 0; i < tiles.count(); ++i) {
    if (i > 0)
      flow.new_page();
    const auto here = page_of_sheet(layout, sheet, change, tiles, i);
    const PaperBox window_here{here.left, here.top, tiles.width, tiles.height};
    const auto shift = tiles.shift(i, {here.left, here.top});
    if (tiles.count() > 1)
      layout.canvas().frame(window_here, Ink::faint, 0.1);
    layout.canvas().drawing(outline.items, shift, window_here);
    layout.canvas().drawing(crosses, shift, window_here);
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
