/// A PDF page to draw on, in millimetres from the top left corner: text, lines, pictures and
/// display lists. Hides Cairo and Pango. Inside report only.
/// Must not know: horses, plans, forms.
#pragma once

#include "drawing/ink.h"

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::report {

using PaperPoint = Point<drawing::PaperFrame>;

enum class Weight { regular, medium, bold };
enum class Align { left, right, centre };
/// What a text is, for readers that speak the page aloud.
enum class Role { paragraph, heading_1, heading_2, artefact };

struct TextStyle {
  double size_pt = 9.5;
  double line_pt = 13;
  Weight weight = Weight::regular;
  drawing::Ink ink = drawing::Ink::text;
  Align align = Align::left;
  Role role = Role::paragraph;
};

namespace type {
inline constexpr TextStyle title{
    20, 25, Weight::bold, drawing::Ink::text, Align::left, Role::heading_1};
inline constexpr TextStyle heading{
    12, 16, Weight::bold, drawing::Ink::text, Align::left, Role::heading_2};
inline constexpr TextStyle body{};
inline constexpr TextStyle strong{9.5, 13, Weight::bold};
inline constexpr TextStyle note{8, 10.6};
inline constexpr TextStyle note_strong{8, 10.6, Weight::bold};
inline constexpr TextStyle fine{7.2, 9.4, Weight::regular, drawing::Ink::faint};
} // namespace type

[[nodiscard]] constexpr TextStyle in(TextStyle style, drawing::Ink ink) {
  style.ink = ink;
  return style;
}
[[nodiscard]] constexpr TextStyle in(TextStyle style, Align align) {
  style.align = align;
  return style;
}

struct PaperBox {
  double left = 0;
  double top = 0;
  double width = 0;
  double height = 0;
  [[nodiscard]] double right() const { return left + width; }
  [[nodiscard]] double bottom() const { return top + height; }
};

struct PaperSize {
  double width_mm = 210;
  double height_mm = 297;
};

/// Which side of the paper lies across: the shorter or the longer.
enum class Lie { upright, across };

/// A compressed picture: JPEG bytes as they go into the PDF.
struct Raster {
  int columns = 0;
  int rows = 0;
  int channels = 1;
  std::vector<std::uint8_t> pixels;
  std::vector<std::uint8_t> jpeg;
};

struct Metadata {
  std::string title;
  std::string subject;
  std::string created; ///< UTC, YYYY-MM-DDThh:mm:ssZ
};

/// How image pixels lie on the paper: paper = corner + (pixel + 0.5) * mm_per_px.
struct PicturePlace {
  PaperBox box; ///< of the whole picture
  double mm_per_column = 1;
  double mm_per_row = 1;
  [[nodiscard]] PaperPoint at(const ImagePoint& p) const {
    return {box.left + (p.x + 0.5) * mm_per_column, box.top + (p.y + 0.5) * mm_per_row};
  }
};

class Canvas {
public:
  Canvas(PaperSize size, const Metadata& metadata);
  ~Canvas();
  Canvas(const Canvas&) = delete;
  Canvas& operator=(const Canvas&) = delete;
  Canvas(Canvas&&) = delete;
  Canvas& operator=(Canvas&&) = delete;

  /// Of the page as it lies.
  [[nodiscard]] PaperSize size() const { return size_; }
  /// How the pages to come lie; size() is theirs at once.
  void turn(Lie lie);
  [[nodiscard]] Lie lie() const { return lie_; }
  [[nodiscard]] int page() const { return page_; } ///< from 1; 0 before the first
  void begin_page();

  /// Draws nothing while quiet; heights and widths are still answered.
  enum class Mode { painting, quiet };
  void set_mode(Mode mode) { mode_ = mode; }
  [[nodiscard]] bool painting() const { return mode_ == Mode::painting; }

  /// Text broken to `width_mm` from its top left corner; the height it takes, mm.
  double text(PaperPoint at, double width_mm, std::string_view text, const TextStyle& style);
  /// At most this many lines; what doesn't fit ends in an ellipsis.
  double short_text(
      PaperPoint at, double width_mm, std::string_view text, const TextStyle& style, int lines);
  /// The text broken into lines, so that a flow can turn the page between two of them.
  [[nodiscard]] std::vector<std::string>
  lines(double width_mm, std::string_view text, const TextStyle& style) const;
  [[nodiscard]] double height(double width_mm, std::string_view text, const TextStyle& style) const;
  [[nodiscard]] double width(std::string_view text, const TextStyle& style) const;

  void line(PaperPoint from, PaperPoint to, drawing::Ink ink, double weight_mm);
  void frame(const PaperBox& box, drawing::Ink ink, double weight_mm);
  void fill(const PaperBox& box, drawing::Rgb colour);

  void sheet(const drawing::Sheet& sheet);
  /// A drawing to scale, moved by `shift` and cut off at the window: every line in its ink's own
  /// dash and weight, marks as rings, labels as small text.
  void drawing(const drawing::Sheet& sheet,
               const Vector<drawing::PaperFrame>& shift,
               const PaperBox& window);
  /// A specimen of a line on white paper, for a drawing's key.
  void specimen_on_paper(drawing::Ink ink, const PaperBox& box);
  void picture(const Raster& raster, const PicturePlace& place);
  /// Over the picture in light ink with a halo; leaders and labels beside it in paper ink.
  void overlay(const drawing::Overlay& overlay, const PicturePlace& place, double label_pt);
  /// Text over a picture: light with a dark halo.
  void text_over_picture(PaperPoint at, std::string_view text, const TextStyle& style);
  /// A specimen of an ink on a dark chip, for the key.
  void specimen(drawing::Ink ink, const PaperBox& box);
  /// A specimen of a landmark's mark on a dark chip.
  void specimen_mark(std::string_view how, const PaperBox& box);
  /// Our own mark: the tapered square hole.
  void own_mark(PaperPoint corner, double side_mm);

  void bookmark(const std::string& title);
  void destination(const std::string& name, PaperPoint at);
  void link(const std::string& destination, const PaperBox& box);

  /// Ends the document. Empty when the library reports an error.
  [[nodiscard]] std::string finish();

private:
  struct Library;
  PaperSize size_;
  Lie lie_ = Lie::upright;
  int page_ = 0;
  Mode mode_ = Mode::painting;
  std::unique_ptr<Library> library_;

  void plain_label(const drawing::LabelItem<drawing::PaperFrame>& label,
                   const Vector<drawing::PaperFrame>& shift);
  void
  label(const drawing::LabelItem<ImageFrame>& label, const PicturePlace& place, double size_pt);
};

} // namespace pritchel::report
