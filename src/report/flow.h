/// Text and blocks one below the other, with page turns, and what stands on every page: whose foot,
/// which visit and version, page x of y, digest, cautions. Inside report only.
#pragma once

#include "report/canvas.h"

#include <functional>
#include <string>
#include <string_view>

namespace pritchel::report {

/// What every page carries.
struct Running {
  std::string subject; ///< horse, feet, visit, version
  std::string caution;
  std::string record; ///< "record 3fa9c1d2e4b0, made 4 May 2026"
  int pages = 0;      ///< 0 while it is not known yet
};

class Flow {
public:
  Flow(Canvas& canvas, Running running);

  [[nodiscard]] Canvas& canvas() { return canvas_; }
  [[nodiscard]] double left() const { return left_; }
  [[nodiscard]] double width() const { return canvas_.size().width_mm - 2 * margin_mm; }
  [[nodiscard]] double y() const { return y_; }
  [[nodiscard]] double room() const { return bottom() - y_; }
  /// Height of an empty page between header and footer.
  [[nodiscard]] double page_room() const { return bottom() - top_mm; }

  void new_page(Lie lie = Lie::upright);
  /// Turns the page unless this much still fits.
  void need(double height_mm);
  void skip(double height_mm) { y_ += height_mm; }
  void go_to(double y_mm) { y_ = y_mm; }

  /// Text at `x` from the left margin; turns the page between lines where it must.
  void paragraph(std::string_view text, const TextStyle& style, double x, double width_mm);
  void paragraph(std::string_view text, const TextStyle& style) {
    paragraph(text, style, 0, width());
  }
  /// Heading that stays with at least `follows_mm` of what comes after it.
  void heading(std::string_view text, double follows_mm = 20);
  void rule();

  /// Height that `block` would take, without drawing it.
  [[nodiscard]] double measured(const std::function<void()>& block);
  /// Lays `block` out at the top of a page that lies like this, without drawing it.
  void rehearse(Lie lie, const std::function<void()>& block);

  static constexpr double margin_mm = 15;

private:
  Canvas& canvas_;
  Running running_;
  double left_ = margin_mm;
  double y_ = 0;
  static constexpr double top_mm = margin_mm + 8;
  static constexpr double footer_mm = 13.5;

  [[nodiscard]] double bottom() const { return canvas_.size().height_mm - margin_mm - footer_mm; }
  void furniture();
};

} // namespace pritchel::report
