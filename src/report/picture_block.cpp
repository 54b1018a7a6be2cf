#include "report/picture_block.h"

#include "report/words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace pritchel::report {
namespace {

using drawing::Ink;

constexpr double label_pt = 7.6;
constexpr double mm_per_pt = 25.4 / 72;

/// Longest of a few round lengths that stays short beside the limb.
double bar_length_mm(double picture_width_mm) {
  constexpr std::array<double, 6> lengths{200, 100, 50, 20, 10, 5};
  for (const double each : lengths)
    if (each < picture_width_mm / 4)
      return each;
  return lengths.back();
}

void put_bar(Layout& layout, const PictureSheet& sheet, const PicturePlace& place) {
  if (!sheet.calibration.has_scale())
    return;
  // Feet stand at the bottom of photos, on their marks; a radiograph has air there.
  const bool film = measure::is_radiograph(sheet.entry.view);
  const ImagePoint middle{(sheet.entry.columns - 1) * (film ? 0.5 : 0.2),
                          film ? sheet.entry.rows - 6.5 / place.mm_per_row : 5 / place.mm_per_row};
  const auto& calibration = sheet.calibration;
  const double mm = bar_length_mm(sheet.entry.columns * calibration.pixel_width_mm);
  const auto bar = scale_bar(calibration, sheet.entry.toward, middle, mm);
  drawing::Overlay drawn;
  drawn.push_back({bar, Ink::text, ""});
  const double tick = 1 / place.mm_per_row;
  for (const auto& end : {bar.from, bar.to})
    drawn.push_back({drawing::LineItem<ImageFrame>{{end.x, end.y - tick}, {end.x, end.y + tick}},
                     Ink::text,
                     ""});
  layout.canvas().overlay(drawn, place, label_pt);
  const auto end = place.at(bar.from.x > bar.to.x ? bar.from : bar.to);
  layout.canvas().text_over_picture(
      {end.x + 1.5, end.y - 2}, std::to_string(static_cast<int>(mm)) + "\u202fmm", type::note);
}

void put_edge_letters(Layout& layout, const PictureSheet& sheet, const PicturePlace& place) {
  const auto letters = edge_letters(sheet);
  const TextStyle style{11, 13, Weight::bold};
  auto& canvas = layout.canvas();
  const double y = place.box.bottom() - 9.5;
  canvas.text_over_picture({place.box.left + 4, y}, letters.left, style);
  canvas.text_over_picture(
      {place.box.right() - 4 - canvas.width(letters.right, style), y}, letters.right, style);
}

/// Where the scale was taken from: the card's corners as small crosses, a ball's outline.
drawing::Overlay scale_marks(const PictureSheet& sheet, const PicturePlace& place) {
  const auto& scale = sheet.entry.scale;
  drawing::Overlay marks;
  if (sheet.calibration.origin == ScaleOrigin::card) {
    const double arm = 0.7 / place.mm_per_row;
    for (const auto& [id, at] : scale.card_corners) {
      marks.push_back({drawing::LineItem<ImageFrame>{{at.x - arm, at.y}, {at.x + arm, at.y}},
                       Ink::faint,
                       "scale"});
      marks.push_back({drawing::LineItem<ImageFrame>{{at.x, at.y - arm}, {at.x, at.y + arm}},
                       Ink::faint,
                       "scale"});
    }
  }
  if (scale.kind == imaging::ScaleStatement::Kind::ball && scale.ball_diameter_px > 0)
    marks.push_back({drawing::CircleItem<ImageFrame>{
                         scale.ball_centre, scale.ball_diameter_px / 2, scale.ball_diameter_px / 2},
                     Ink::faint,
                     "scale"});
  return marks;
}

} // namespace

drawing::LineItem<ImageFrame>
scale_bar(const Calibration& calibration, PictureSide toward, const ImagePoint& at, double mm) {
  const PlaneMap map(calibration, toward);
  const auto middle = map.to_plane(at);
  const PlaneVector half{mm / 2, 0};
  return {map.to_image(middle - half), map.to_image(middle + half)};
}

drawing::OverlayOptions lettered_beside(const PictureSheet& sheet,
                                        const PicturePlace& place,
                                        std::vector<std::string> ids) {
  const double column_px = label_column_mm / place.mm_per_column;
  return {.measurements = std::move(ids),
          .labels = drawing::Labels::lettered,
          .label_height_px = label_pt * mm_per_pt / place.mm_per_row,
          .room = {-column_px,
                   0,
                   sheet.entry.columns - 1 + column_px,
                   static_cast<double>(sheet.entry.rows - 1)}};
}

void picture_block(Layout& layout,
                   std::size_t index,
                   const PicturePlace& place,
                   const drawing::OverlayOptions& options) {
  const auto& sheet = layout.input.pictures[index];
  auto& canvas = layout.canvas();
  canvas.picture(layout.rasters[index], place);
  canvas.frame(place.box, Ink::faint, 0.15);
  canvas.overlay(scale_marks(sheet, place), place, label_pt);
  canvas.overlay(
      drawing::picture_overlay(reading_of(sheet), sheet.measurements, options), place, label_pt);
  put_edge_letters(layout, sheet, place);
  put_bar(layout, sheet, place);
}

} // namespace pritchel::report
