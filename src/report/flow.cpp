#include "report/flow.h"

#include <utility>

namespace pritchel::report {
namespace {

constexpr TextStyle running_style{
    7.6, 10, Weight::medium, drawing::Ink::text, Align::left, Role::artefact};
constexpr TextStyle footer_style{
    7.2, 9.2, Weight::regular, drawing::Ink::text, Align::left, Role::artefact};

} // namespace

Flow::Flow(Canvas& canvas, Running running)
    : canvas_(canvas),
      running_(std::move(running)) {}

void Flow::furniture() {
  const double top = margin_mm, right_column = 44;
  canvas_.own_mark({left(), top}, 3.6);
  canvas_.short_text(
      {left() + 6, top}, width() - 6 - right_column, running_.subject, running_style, 1);
  canvas_.text({left() + width() - right_column, top},
               right_column,
               "page " + std::to_string(canvas_.page()) + " of " + std::to_string(running_.pages),
               in(running_style, Align::right));
  canvas_.line({left(), top + 5.2}, {left() + width(), top + 5.2}, drawing::Ink::faint, 0.15);
  const double foot = bottom() + 2.2;
  canvas_.line({left(), foot}, {left() + width(), foot}, drawing::Ink::faint, 0.15);
  const double record_width = 46;
  canvas_.text({left(), foot + 1.4}, width() - record_width - 6, running_.caution, footer_style);
  canvas_.text({left() + width() - record_width, foot + 1.4},
               record_width,
               running_.record,
               in(in(footer_style, drawing::Ink::faint), Align::right));
}

void Flow::new_page(Lie lie) {
  canvas_.turn(lie);
  canvas_.begin_page();
  furniture();
  y_ = top_mm;
}

void Flow::need(double height_mm) {
  if (canvas_.painting() && height_mm > room() && y_ > top_mm)
    new_page();
}

void Flow::paragraph(std::string_view text, const TextStyle& style, double x, double width_mm) {
  const double whole = canvas_.height(width_mm, text, style);
  if (!canvas_.painting() || whole <= room()) {
    canvas_.text({left() + x, y_}, width_mm, text, style);
    y_ += whole;
    return;
  }
  for (const auto& line : canvas_.lines(width_mm, text, style)) {
    const double height = canvas_.height(width_mm, line, style);
    need(height);
    canvas_.text({left() + x, y_}, width_mm + 1, line, style);
    y_ += height;
  }
}

void Flow::heading(std::string_view text, double follows_mm) {
  need(canvas_.height(width(), text, type::heading) + follows_mm);
  paragraph(text, type::heading);
  skip(1);
}

void Flow::rule() {
  canvas_.line({left(), y_}, {left() + width(), y_}, drawing::Ink::faint, 0.15);
}

double Flow::measured(const std::function<void()>& block) {
  const double before = y_;
  const bool painting = canvas_.painting();
  canvas_.set_mode(Canvas::Mode::quiet);
  block();
  canvas_.set_mode(painting ? Canvas::Mode::painting : Canvas::Mode::quiet);
  return std::exchange(y_, before) - before;
}

void Flow::rehearse(Lie lie, const std::function<void()>& block) {
  const auto lay = canvas_.lie();
  canvas_.turn(lie);
  (void)measured([&] {
    y_ = top_mm;
    block();
  });
  canvas_.turn(lay);
}

} // namespace pritchel::report
