#include "report/canvas.h"

#include <cairo-pdf.h>
#include <cairo.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>
#include <variant>

namespace pritchel::report {
namespace {

using drawing::Ink;
using drawing::look;
using drawing::Rgb;

constexpr double pt_per_mm = 72.0 / 25.4;

double pt(double mm) {
  return mm * pt_per_mm;
}
double mm(double points) {
  return points / pt_per_mm;
}

cairo_status_t append(void* closure, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

void set_colour(cairo_t* cr, Rgb colour) {
  cairo_set_source_rgb(cr,
                       ((colour >> 16U) & 0xFFU) / 255.0,
                       ((colour >> 8U) & 0xFFU) / 255.0,
                       (colour & 0xFFU) / 255.0);
}

void set_dash(cairo_t* cr, const drawing::Dash& dash, double weight_pt) {
  std::array<double, 4> lengths{};
  std::transform(
      dash.begin(), dash.end(), lengths.begin(), [&](double each) { return each * weight_pt; });
  const bool solid = dash[0] <= 0;
  cairo_set_dash(cr, lengths.data(), solid ? 0 : static_cast<int>(lengths.size()), 0);
}

struct LayoutDeleter {
  void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using Layout = std::unique_ptr<PangoLayout, LayoutDeleter>;

PangoWeight pango_weight(Weight weight) {
  switch (weight) {
  case Weight::bold:
    return PANGO_WEIGHT_SEMIBOLD;
  case Weight::medium:
    return PANGO_WEIGHT_MEDIUM;
  case Weight::regular:
    break;
  }
  return PANGO_WEIGHT_NORMAL;
}

PangoAlignment pango_alignment(Align align) {
  switch (align) {
  case Align::right:
    return PANGO_ALIGN_RIGHT;
  case Align::centre:
    return PANGO_ALIGN_CENTER;
  case Align::left:
    break;
  }
  return PANGO_ALIGN_LEFT;
}

/// Tabular figures, so that numbers line up.
PangoAttrList* attributes(const TextStyle& style) {
  PangoAttrList* list = pango_attr_list_new();
  pango_attr_list_insert(list, pango_attr_font_features_new("tnum=1, calt=0"));
  pango_attr_list_insert(
      list, pango_attr_line_height_new_absolute(static_cast<int>(style.line_pt * PANGO_SCALE)));
  return list;
}

const char* tag(Role role) {
  switch (role) {
  case Role::heading_1:
    return "H1";
  case Role::heading_2:
    return "H2";
  default:
    return "P";
  }
}

drawing::Dash mark_dash(std::string_view how) {
  return how == "suggested" ? drawing::Dash{2, 1.2, 2, 1.2} : drawing::Dash{};
}

/// Marks tell by shape and dash how they came about, not what they belong to.
drawing::Dash dash_of(const drawing::Item<ImageFrame>& item) {
  const auto* mark = std::get_if<drawing::MarkItem<ImageFrame>>(&item.shape);
  return mark != nullptr ? mark_dash(mark->how) : look(item.ink).dash;
}

/// Rings of read points are thin, so that the lines through them can be followed.
double weight_of(const drawing::Item<drawing::PaperFrame>& item) {
  const bool mark = std::holds_alternative<drawing::MarkItem<drawing::PaperFrame>>(item.shape);
  return look(mark ? Ink::faint : item.ink).weight_mm;
}

std::string pdf_string_without_quotes(std::string text) {
  std::replace(text.begin(), text.end(), '\'', ' ');
  return text;
}

} // namespace

struct Canvas::Library {
  std::string bytes;
  cairo_surface_t* surface = nullptr;
  cairo_t* cr = nullptr;

  [[nodiscard]] Layout
  layout(std::string_view text, const TextStyle& style, double width_mm) const {
    Layout made(pango_cairo_create_layout(cr));
    pango_cairo_context_set_resolution(pango_layout_get_context(made.get()), 72);
    pango_context_set_round_glyph_positions(pango_layout_get_context(made.get()), FALSE);
    PangoFontDescription* font = pango_font_description_from_string("Inter, DejaVu Sans");
    pango_font_description_set_absolute_size(font, style.size_pt * PANGO_SCALE);
    pango_font_description_set_weight(font, pango_weight(style.weight));
    pango_layout_set_font_description(made.get(), font);
    pango_font_description_free(font);
    PangoAttrList* list = attributes(style);
    pango_layout_set_attributes(made.get(), list);
    pango_attr_list_unref(list);
    if (width_mm > 0)
      pango_layout_set_width(made.get(), static_cast<int>(pt(width_mm) * PANGO_SCALE));
    pango_layout_set_wrap(made.get(), PANGO_WRAP_WORD_CHAR);
    pango_layout_set_alignment(made.get(), pango_alignment(style.align));
    pango_layout_set_text(made.get(), text.data(), static_cast<int>(text.size()));
    return made;
  }

  void show(PangoLayout* layout, PaperPoint at, const TextStyle& style) const {
    if (style.role != Role::artefact)
      cairo_tag_begin(cr, tag(style.role), nullptr);
    set_colour(cr, look(style.ink).on_paper);
    cairo_move_to(cr, pt(at.x), pt(at.y));
    pango_cairo_show_layout(cr, layout);
    if (style.role != Role::artefact)
      cairo_tag_end(cr, tag(style.role));
  }

  void move(PaperPoint p) const { cairo_move_to(cr, pt(p.x), pt(p.y)); }
  void to(PaperPoint p) const { cairo_line_to(cr, pt(p.x), pt(p.y)); }

  void path(const std::vector<PaperPoint>& points) const {
    for (const auto& p : points)
      to(p);
  }

  void ellipse(PaperPoint centre, double rx_mm, double ry_mm) const {
    cairo_save(cr);
    cairo_translate(cr, pt(centre.x), pt(centre.y));
    cairo_scale(cr, std::max(pt(rx_mm), 1e-3), std::max(pt(ry_mm), 1e-3));
    cairo_new_sub_path(cr);
    cairo_arc(cr, 0, 0, 1, 0, 2 * std::numbers::pi);
    cairo_restore(cr);
  }

  /// Open in the middle, so that the pixel that matters is never covered.
  void mark(PaperPoint at, std::string_view how) const {
    const double r = how == "computed" ? 0.9 : 1.15;
    if (how == "computed") {
      for (const auto& [dx, dy] : {std::pair{1.0, 0.0}, {-1.0, 0.0}, {0.0, 1.0}, {0.0, -1.0}}) {
        move({at.x + dx * r * 0.35, at.y + dy * r * 0.35});
        to({at.x + dx * r, at.y + dy * r});
      }
    } else if (how == "snapped") {
      cairo_rectangle(cr, pt(at.x - r), pt(at.y - r), pt(2 * r), pt(2 * r));
    } else if (how == "confirmed") {
      move({at.x, at.y - r});
      path({{at.x + r, at.y}, {at.x, at.y + r}, {at.x - r, at.y}});
      cairo_close_path(cr);
    } else {
      ellipse(at, r, r);
      if (how == "on-dot")
        ellipse(at, r * 0.6, r * 0.6);
    }
  }

  void box(const PaperBox& box) const {
    cairo_rectangle(cr, pt(box.left), pt(box.top), pt(box.width), pt(box.height));
  }

  /// The item's path, its points put on paper by `at`, its radii by the two factors; false when it
  /// has none to stroke.
  template <class F, class At>
  [[nodiscard]] bool
  trace(const drawing::Item<F>& item, const At& at, double mm_across, double mm_down) const {
    if (const auto* line = std::get_if<drawing::LineItem<F>>(&item.shape)) {
      move(at(line->from));
      to(at(line->to));
    } else if (const auto* circle = std::get_if<drawing::CircleItem<F>>(&item.shape)) {
      ellipse(at(circle->centre), circle->radius_x * mm_across, circle->radius_y * mm_down);
    } else if (const auto* open = std::get_if<drawing::PathItem<F>>(&item.shape)) {
      for (const auto& p : open->points)
        to(at(p));
    } else if (const auto* one = std::get_if<drawing::MarkItem<F>>(&item.shape)) {
      mark(at(one->at), one->how);
    } else {
      return false;
    }
    return true;
  }

  [[nodiscard]] bool trace(const drawing::Item<ImageFrame>& item, const PicturePlace& place) const {
    return trace(
        item,
        [&](const ImagePoint& p) { return place.at(p); },
        place.mm_per_column,
        place.mm_per_row);
  }

  void stroke_paper(Ink ink, double weight_mm) const {
    set_colour(cr, look(ink).on_paper);
    cairo_set_line_width(cr, pt(weight_mm));
    set_dash(cr, look(ink).dash, pt(weight_mm));
    cairo_stroke(cr);
  }

  void stroke_over(Ink ink, const drawing::Dash& dash) const {
    const auto& row = look(ink);
    cairo_set_dash(cr, nullptr, 0, 0);
    set_colour(cr, drawing::halo_colour);
    cairo_set_line_width(cr, pt(row.halo_mm));
    cairo_stroke_preserve(cr);
    set_colour(cr, row.over_picture);
    cairo_set_line_width(cr, pt(row.weight_mm));
    set_dash(cr, dash, pt(row.weight_mm));
    cairo_stroke(cr);
  }
};

Canvas::Canvas(PaperSize size, const Metadata& metadata)
    : size_(size),
      library_(std::make_unique<Library>()) {
  auto& lib = *library_;
  lib.surface = cairo_pdf_surface_create_for_stream(
      append, &lib.bytes, pt(size.width_mm), pt(size.height_mm));
  cairo_pdf_surface_restrict_to_version(lib.surface, CAIRO_PDF_VERSION_1_5);
  const auto set = [&](cairo_pdf_metadata_t what, const std::string& value) {
    cairo_pdf_surface_set_metadata(lib.surface, what, value.c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, metadata.title);
  set(CAIRO_PDF_METADATA_SUBJECT, metadata.subject);
  set(CAIRO_PDF_METADATA_CREATOR, "Pritchel");
  set(CAIRO_PDF_METADATA_CREATE_DATE, metadata.created);
  set(CAIRO_PDF_METADATA_MOD_DATE, metadata.created);
  lib.cr = cairo_create(lib.surface);
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_set_font_options(lib.cr, options);
  cairo_font_options_destroy(options);
}

Canvas::~Canvas() {
  cairo_destroy(library_->cr);
  cairo_surface_destroy(library_->surface);
}

void Canvas::turn(Lie lie) {
  if (lie != lie_)
    std::swap(size_.width_mm, size_.height_mm);
  lie_ = lie;
}

void Canvas::begin_page() {
  if (page_ > 0)
    cairo_show_page(library_->cr);
  cairo_pdf_surface_set_size(library_->surface, pt(size_.width_mm), pt(size_.height_mm));
  ++page_;
  cairo_pdf_surface_set_page_label(library_->surface, std::to_string(page_).c_str());
}

double Canvas::text(PaperPoint at, double width_mm, std::string_view text, const TextStyle& style) {
  return short_text(at, width_mm, text, style, 0);
}

double Canvas::short_text(
    PaperPoint at, double width_mm, std::string_view text, const TextStyle& style, int lines) {
  const auto layout = library_->layout(text, style, width_mm);
  if (lines > 0) {
    pango_layout_set_height(layout.get(), -lines);
    pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
  }
  if (painting())
    library_->show(layout.get(), at, style);
  int height = 0;
  pango_layout_get_size(layout.get(), nullptr, &height);
  return mm(static_cast<double>(height) / PANGO_SCALE);
}

std::vector<std::string>
Canvas::lines(double width_mm, std::string_view text, const TextStyle& style) const {
  const auto layout = library_->layout(text, style, width_mm);
  std::vector<std::string> found;
  for (int i = 0; i < pango_layout_get_line_count(layout.get()); ++i) {
    const PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), i);
    std::string part(text.substr(static_cast<std::size_t>(line->start_index),
                                 static_cast<std::size_t>(line->length)));
    while (!part.empty() && part.back() == ' ')
      part.pop_back();
    found.push_back(std::move(part));
  }
  return found;
}

double Canvas::height(double width_mm, std::string_view text, const TextStyle& style) const {
  const auto layout = library_->layout(text, style, width_mm);
  int height = 0;
  pango_layout_get_size(layout.get(), nullptr, &height);
  return mm(static_cast<double>(height) / PANGO_SCALE);
}

double Canvas::width(std::string_view text, const TextStyle& style) const {
  const auto layout = library_->layout(text, style, 0);
  int width = 0;
  pango_layout_get_size(layout.get(), &width, nullptr);
  return mm(static_cast<double>(width) / PANGO_SCALE);
}

void Canvas::line(PaperPoint from, PaperPoint to, Ink ink, double weight_mm) {
  if (!painting())
    return;
  library_->move(from);
  library_->to(to);
  library_->stroke_paper(ink, weight_mm);
}

void Canvas::frame(const PaperBox& box, Ink ink, double weight_mm) {
  if (!painting())
    return;
  library_->box(box);
  library_->stroke_paper(ink, weight_mm);
}

void Canvas::fill(const PaperBox& box, Rgb colour) {
  if (!painting())
    return;
  set_colour(library_->cr, colour);
  library_->box(box);
  cairo_fill(library_->cr);
}

void Canvas::sheet(const drawing::Sheet& sheet) {
  if (!painting())
    return;
  const auto& lib = *library_;
  using drawing::PaperFrame;
  for (const auto& item : sheet) {
    const double weight = look(item.ink).weight_mm * (item.ink == Ink::band ? 0.6 : 1.0);
    if (const auto* line = std::get_if<drawing::LineItem<PaperFrame>>(&item.shape)) {
      lib.move(line->from);
      lib.to(line->to);
      lib.stroke_paper(item.ink, weight);
    } else if (const auto* path = std::get_if<drawing::PathItem<PaperFrame>>(&item.shape)) {
      lib.path(path->points);
      set_colour(lib.cr, look(item.ink).on_paper);
      cairo_set_dash(lib.cr, nullptr, 0, 0);
      cairo_set_line_width(lib.cr, pt(0.2));
      cairo_stroke(lib.cr);
    } else if (const auto* area = std::get_if<drawing::AreaItem<PaperFrame>>(&item.shape)) {
      lib.path(area->points);
      set_colour(lib.cr, look(item.ink).on_paper);
      cairo_fill(lib.cr);
    }
  }
}

void Canvas::drawing(const drawing::Sheet& sheet,
                     const Vector<drawing::PaperFrame>& shift,
                     const PaperBox& window) {
  if (!painting())
    return;
  const auto& lib = *library_;
  cairo_save(lib.cr);
  lib.box(window);
  cairo_clip(lib.cr);
  for (const auto& item : sheet)
    if (lib.trace(
            item, [&](PaperPoint p) { return p + shift; }, 1, 1))
      lib.stroke_paper(item.ink, weight_of(item));
  for (const auto& item : sheet)
    if (const auto* label = std::get_if<drawing::LabelItem<drawing::PaperFrame>>(&item.shape))
      plain_label(*label, shift);
  cairo_restore(lib.cr);
}

void Canvas::plain_label(const drawing::LabelItem<drawing::PaperFrame>& label,
                         const Vector<drawing::PaperFrame>& shift) {
  const TextStyle style{8, 10.6, Weight::medium};
  const double wide = width(label.text, style);
  const double before = label.anchor == drawing::Anchor::left    ? 0
                        : label.anchor == drawing::Anchor::right ? wide
                                                                 : wide / 2;
  const auto at = label.at + shift;
  text({at.x - before, at.y - mm(style.line_pt) / 2}, wide + 2, label.text, style);
}

void Canvas::specimen_on_paper(Ink ink, const PaperBox& box) {
  const double y = box.top + box.height / 2;
  line({box.left, y}, {box.right(), y}, ink, look(ink).weight_mm);
}

void Canvas::picture(const Raster& raster, const PicturePlace& place) {
  if (!painting() || raster.columns < 1)
    return;
  cairo_surface_t* image =
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, raster.columns, raster.rows);
  cairo_surface_flush(image);
  unsigned char* data = cairo_image_surface_get_data(image);
  const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(image));
  const auto channels = static_cast<std::size_t>(raster.channels);
  for (std::size_t y = 0; y < static_cast<std::size_t>(raster.rows); ++y)
    for (std::size_t x = 0; x < static_cast<std::size_t>(raster.columns); ++x) {
      const auto* from =
          &raster.pixels[(y * static_cast<std::size_t>(raster.columns) + x) * channels];
      auto* pixel = data + y * stride + x * 4; // blue, green, red, unused
      pixel[0] = from[channels - 1];
      pixel[1] = from[channels / 2];
      pixel[2] = from[0];
    }
  cairo_surface_mark_dirty(image);
  // The surface reads these bytes until finish(); the raster outlives the canvas's page.
  cairo_surface_set_mime_data(
      image, CAIRO_MIME_TYPE_JPEG, raster.jpeg.data(), raster.jpeg.size(), nullptr, nullptr);
  cairo_t* cr = library_->cr;
  cairo_tag_begin(cr, "Figure", nullptr);
  cairo_save(cr);
  cairo_translate(cr, pt(place.box.left), pt(place.box.top));
  cairo_scale(cr, pt(place.box.width) / raster.columns, pt(place.box.height) / raster.rows);
  cairo_set_source_surface(cr, image, 0, 0);
  cairo_paint(cr);
  cairo_restore(cr);
  cairo_tag_end(cr, "Figure");
  cairo_surface_destroy(image);
}

void Canvas::overlay(const drawing::Overlay& overlay, const PicturePlace& place, double label_pt) {
  if (!painting())
    return;
  const auto& lib = *library_;
  cairo_t* cr = lib.cr;
  cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
  cairo_save(cr);
  lib.box(place.box);
  cairo_clip(cr);
  for (const auto& item : overlay)
    if (lib.trace(item, place))
      lib.stroke_over(item.ink, dash_of(item));
  cairo_restore(cr);
  cairo_save(cr);
  cairo_set_fill_rule(cr, CAIRO_FILL_RULE_EVEN_ODD);
  lib.box({0, 0, size_.width_mm, size_.height_mm});
  lib.box(place.box);
  cairo_clip(cr);
  for (const auto& item : overlay)
    if (item.ink == Ink::faint && lib.trace(item, place))
      lib.stroke_paper(Ink::faint, look(Ink::faint).weight_mm);
  cairo_restore(cr);
  for (const auto& item : overlay)
    if (const auto* label = std::get_if<drawing::LabelItem<ImageFrame>>(&item.shape))
      this->label(*label, place, label_pt);
}

void Canvas::label(const drawing::LabelItem<ImageFrame>& label,
                   const PicturePlace& place,
                   double size_pt) {
  const TextStyle style{size_pt, size_pt * 1.3, Weight::medium};
  const double wide = width(label.text, style);
  const auto at = place.at(label.at);
  const double before = label.anchor == drawing::Anchor::left    ? 0
                        : label.anchor == drawing::Anchor::right ? wide
                                                                 : wide / 2;
  const PaperPoint corner{at.x - before, at.y - mm(style.line_pt) / 2};
  const bool over = corner.x > place.box.left && corner.x + wide < place.box.right();
  if (over)
    text_over_picture(corner, label.text, style);
  else
    text(corner, wide + 2, label.text, style);
}

void Canvas::text_over_picture(PaperPoint at, std::string_view text, const TextStyle& style) {
  if (!painting())
    return;
  cairo_t* cr = library_->cr;
  const auto layout = library_->layout(text, style, 0);
  // The halo is drawn as outlines; the text itself stays text, to be found and copied.
  cairo_move_to(cr, pt(at.x), pt(at.y));
  pango_cairo_layout_path(cr, layout.get());
  set_colour(cr, drawing::halo_colour);
  cairo_set_dash(cr, nullptr, 0, 0);
  cairo_set_line_width(cr, pt(0.6));
  cairo_stroke(cr);
  set_colour(cr, look(style.ink).over_picture);
  cairo_move_to(cr, pt(at.x), pt(at.y));
  pango_cairo_show_layout(cr, layout.get());
}

void Canvas::specimen(Ink ink, const PaperBox& box) {
  if (!painting())
    return;
  fill(box, 0x5A5A5A);
  library_->move({box.left + 0.8, box.top + box.height / 2});
  library_->to({box.right() - 0.8, box.top + box.height / 2});
  library_->stroke_over(ink, look(ink).dash);
}

void Canvas::specimen_mark(std::string_view how, const PaperBox& box) {
  if (!painting())
    return;
  fill(box, 0x5A5A5A);
  library_->mark({box.left + box.width / 2, box.top + box.height / 2}, how);
  library_->stroke_over(Ink::bone, mark_dash(how));
}

void Canvas::own_mark(PaperPoint corner, double side_mm) {
  if (!painting())
    return;
  const auto& lib = *library_;
  const double inset = side_mm * 0.3;
  const double x0 = corner.x, y0 = corner.y, x1 = x0 + side_mm, y1 = y0 + side_mm;
  for (const auto& [from, to] : {std::pair{PaperPoint{x0, y0}, PaperPoint{x0 + inset, y0 + inset}},
                                 {PaperPoint{x1, y0}, PaperPoint{x1 - inset, y0 + inset}},
                                 {PaperPoint{x0, y1}, PaperPoint{x0 + inset, y1 - inset}},
                                 {PaperPoint{x1, y1}, PaperPoint{x1 - inset, y1 - inset}}}) {
    lib.move(from);
    lib.to(to);
  }
  lib.stroke_paper(Ink::text, 0.2);
  frame({x0, y0, side_mm, side_mm}, Ink::text, 0.3);
  fill({x0 + inset, y0 + inset, side_mm - 2 * inset, side_mm - 2 * inset},
       look(Ink::text).on_paper);
}

void Canvas::bookmark(const std::string& title) {
  if (!painting())
    return;
  const std::string where = "page=" + std::to_string(page_);
  cairo_pdf_surface_add_outline(library_->surface,
                                CAIRO_PDF_OUTLINE_ROOT,
                                title.c_str(),
                                where.c_str(),
                                CAIRO_PDF_OUTLINE_FLAG_OPEN);
}

void Canvas::destination(const std::string& name, PaperPoint at) {
  if (!painting())
    return;
  const std::string attributes = "name='" + pdf_string_without_quotes(name) +
                                 "' x=" + std::to_string(static_cast<int>(pt(at.x))) +
                                 " y=" + std::to_string(static_cast<int>(pt(at.y)));
  cairo_tag_begin(library_->cr, CAIRO_TAG_DEST, attributes.c_str());
  cairo_tag_end(library_->cr, CAIRO_TAG_DEST);
}

void Canvas::link(const std::string& destination, const PaperBox& box) {
  if (!painting())
    return;
  const auto number = [](double value) { return std::to_string(static_cast<int>(pt(value))); };
  const std::string attributes = "dest='" + pdf_string_without_quotes(destination) + "' rect=[" +
                                 number(box.left) + " " + number(box.top) + " " +
                                 number(box.width) + " " + number(box.height) + "]";
  cairo_tag_begin(library_->cr, CAIRO_TAG_LINK, attributes.c_str());
  cairo_tag_end(library_->cr, CAIRO_TAG_LINK);
}

std::string Canvas::finish() {
  cairo_show_page(library_->cr);
  cairo_surface_finish(library_->surface);
  const bool fine = cairo_surface_status(library_->surface) == CAIRO_STATUS_SUCCESS &&
                    cairo_status(library_->cr) == CAIRO_STATUS_SUCCESS;
  return fine ? std::move(library_->bytes) : std::string();
}

} // namespace pritchel::report
