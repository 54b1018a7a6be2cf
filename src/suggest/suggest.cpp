#include "suggest/suggest.h"

#include <opencv2/core.hpp>

#include <algorithm>
#include <cmath>

#include "suggest/marker.h"
#include "suggest/models.h"
#include "suggest/search.h"

namespace pritchel::suggest {
namespace {

/// A film as it may have to be read, and where a foot may stand in it then, likeliest first.
struct Reading {
  Sheet sheet;
  std::vector<Stand> stands;
};

std::vector<Toward> ways_round(const Ask& ask) {
  if (ask.toward != Toward::unknown)
    return {ask.toward};
  if (ask.view == measure::View::dorsopalmar)
    return {Toward::right};
  return {Toward::right, Toward::left};
}

/// Millimetres in the foot's plane per pixel: what was asked with, else what the header says of the
/// detector less a usual magnification, else all that could show a foot.
std::vector<double> scales(const imaging::Picture& radiograph, const Ask& ask) {
  constexpr double usual_magnification = 1.12; // 650-1100 mm to the tube, 50-110 to the foot
  if (ask.mm_per_pixel > 0)
    return {ask.mm_per_pixel};
  const auto& spacing = radiograph.spacing;
  for (const auto& size : {spacing.imager_pixel_spacing, spacing.pixel_spacing})
    if (size && size->column_mm > 0)
      return {size->column_mm / usual_magnification};
  constexpr double narrowest_mm = 150, widest_mm = 420, step = 1.1;
  std::vector<double> all;
  for (double width = narrowest_mm; width <= widest_mm; width *= step)
    all.push_back(width / radiograph.columns);
  return all;
}

/// A foot is some 150 mm: less is no film of it, far more no scale that fits one.
bool is_plausible(const imaging::Picture& radiograph, double mm_per_pixel) {
  constexpr double least_mm = 80, most_mm = 900;
  const double shorter = std::min(radiograph.columns, radiograph.rows) * mm_per_pixel;
  const double longer = std::max(radiograph.columns, radiograph.rows) * mm_per_pixel;
  return shorter >= least_mm && longer <= most_mm;
}

std::optional<Reading>
likeliest(const imaging::Picture& radiograph, const Ask& ask, const Pattern& pattern) {
  std::optional<Reading> best;
  for (const double scale : scales(radiograph, ask))
    for (const auto toward : ways_round(ask)) {
      if (!is_plausible(radiograph, scale))
        continue;
      Reading reading{.sheet = Sheet(radiograph, toward, scale), .stands = {}};
      reading.stands = find_stands(pattern, reading.sheet);
      if (reading.stands.empty())
        continue;
      if (!best || reading.stands[0].likeness > best->stands[0].likeness)
        best.emplace(std::move(reading));
    }
  return best;
}

bool ends_with(std::string_view text, std::string_view end) {
  return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}

/// Not every landmark of the model belongs to this film.
bool is_asked(std::string_view landmark, const Ask& ask) {
  if (landmark == "breakover") // never sure enough: docs/suggestions.md
    return false;
  if (ask.view == measure::View::dorsopalmar && ask.toward == Toward::unknown &&
      (ends_with(landmark, "-medial") || ends_with(landmark, "-lateral")))
    return false;
  const bool shoes =
      landmark == "shoe-heel-end" || landmark == "foot-plane-heel" || landmark == "foot-plane-toe";
  return !shoes || ask.shoeing == measure::Shoeing::shod;
}

std::vector<Suggestion>
on_foot(const imaging::Picture& radiograph, const Ask& ask, const Model& model) {
  constexpr double edge_mm = 1.5;
  const auto reading = likeliest(radiograph, ask, model.pattern);
  if (!reading)
    return {};
  const auto outcome = searched(model, reading->sheet, reading->stands);
  if (!outcome || outcome->likeness < static_cast<double>(model.least_likeness))
    return {};
  std::vector<Suggestion> found;
  for (std::size_t i = 0; i < model.landmarks.size(); ++i) {
    const double sure = confidence(model.trust[i], outcome->signs[i]);
    if (sure >= static_cast<double>(model.trust[i].floor) && is_asked(model.landmarks[i], ask) &&
        reading->sheet.holds(outcome->shape[i], edge_mm))
      found.push_back({model.landmarks[i], reading->sheet.to_picture(outcome->shape[i]), sure});
  }
  return found;
}

} // namespace

Result<std::vector<Suggestion>> suggest(const imaging::Picture& radiograph, const Ask& ask) {
  if (radiograph.kind != imaging::PictureKind::radiograph || !measure::is_radiograph(ask.view))
    return std::vector<Suggestion>{};
  try {
    auto found = marker_ends(radiograph);
    if (const auto* model = model_of(ask.view)) {
      const auto more = on_foot(radiograph, ask, *model);
      found.insert(found.end(), more.begin(), more.end());
    }
    return found;
  } catch (const cv::Exception& problem) {
    return fail("The picture", std::string("can't be searched: ") + problem.what());
  }
}

} // namespace pritchel::suggest
