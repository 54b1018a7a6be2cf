#include "job/picture_json.h"

#include "imaging/scale.h"
#include "imaging/windowing.h"

#include <nlohmann/json.hpp>

namespace pritchel::job {
namespace {

using nlohmann::json;

std::string_view key(imaging::Window::Shape shape) {
  switch (shape) {
  case imaging::Window::Shape::linear:
    return "linear";
  case imaging::Window::Shape::linear_exact:
    return "linear-exact";
  case imaging::Window::Shape::sigmoid:
    return "sigmoid";
  case imaging::Window::Shape::table:
    break;
  }
  return "table";
}

json window_json(const imaging::Window& window) {
  return {{"name", window.name},
          {"centre", window.centre},
          {"width", window.width},
          {"shape", key(window.shape)}};
}

json table_json(const imaging::LookupTable& table) {
  return {{"name", table.name},
          {"first_input", table.first_input},
          {"bits", table.bits},
          {"entries", table.entries}};
}

template <class T> void put(json& into, const char* name, const std::optional<T>& value) {
  if (value)
    into[name] = *value;
}

void put(json& into, const char* name, const std::optional<imaging::PixelSize>& size) {
  if (size)
    into[name] = {size->row_mm, size->column_mm};
}

void put(json& into, const char* name, const std::string& text) {
  if (!text.empty())
    into[name] = text;
}

json facts_json(const imaging::Facts& facts) {
  json result = json::object();
  put(result, "patient_name", facts.patient_name);
  put(result, "patient_id", facts.patient_id);
  put(result, "species", facts.species);
  put(result, "breed", facts.breed);
  put(result, "sex", facts.sex);
  put(result, "birth_date", facts.birth_date);
  put(result, "responsible_person", facts.responsible_person);
  put(result, "study_date", facts.study_date);
  put(result, "modality", facts.modality);
  put(result, "manufacturer", facts.manufacturer);
  if (facts.laterality)
    result["laterality"] = std::string(1, *facts.laterality);
  put(result, "orientation_row", facts.orientation_row);
  put(result, "orientation_column", facts.orientation_column);
  put(result, "view", facts.view_meaning);
  put(result, "view_position", facts.view_position);
  put(result, "anatomic_region", facts.anatomic_region);
  put(result, "body_part", facts.body_part);
  result["lossy"] = facts.lossy;
  return result;
}

json spacing_json(const imaging::Spacing& spacing) {
  json result = json::object();
  put(result, "pixel_spacing", spacing.pixel_spacing);
  put(result, "calibration_type", spacing.calibration_type);
  put(result, "calibration_description", spacing.calibration_description);
  put(result, "imager_pixel_spacing", spacing.imager_pixel_spacing);
  put(result, "nominal_scanned_spacing", spacing.nominal_scanned_spacing);
  put(result, "distance_source_to_detector_mm", spacing.distance_source_to_detector_mm);
  put(result, "distance_source_to_patient_mm", spacing.distance_source_to_patient_mm);
  put(result, "magnification_factor", spacing.magnification_factor);
  return result;
}

void put_greys(json& into, const imaging::Picture& picture) {
  into["offset"] = picture.offset;
  into["rescale_slope"] = picture.rescale_slope;
  into["rescale_intercept"] = picture.rescale_intercept;
  into["inverse"] = picture.inverse;
  into["window"] = window_json(imaging::default_window(picture));
  into["windows"] = json::array();
  for (const auto& each : picture.windows)
    into["windows"].push_back(window_json(each));
  if (picture.voi_lut)
    into["voi_lut"] = table_json(*picture.voi_lut);
  if (picture.modality_lut)
    into["modality_lut"] = table_json(*picture.modality_lut);
}

} // namespace

json picture_json(const imaging::Picture& picture) {
  const bool radiograph = picture.kind == imaging::PictureKind::radiograph;
  json result{{"kind", radiograph ? "radiograph" : "photo"},
              {"columns", picture.columns},
              {"rows", picture.rows},
              {"facts", facts_json(picture.facts)},
              {"spacing", spacing_json(picture.spacing)},
              {"pixel_aspect", imaging::pixel_aspect_ratio(picture.spacing, picture.pixel_aspect)},
              {"notes", picture.notes}};
  if (radiograph)
    put_greys(result, picture);
  return result;
}

} // namespace pritchel::job
