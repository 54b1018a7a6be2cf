#include "serve/measured_json.h"

#include "drawing/overlay.h"
#include "serve/overlay_json.h"

#include <nlohmann/json.hpp>

#include "job/result_json.h"

namespace pritchel::serve {
namespace {

Result<drawing::OverlayOptions> options_for(const record::PictureEntry& entry,
                                            const std::string& about) {
  auto options = drawing::overlay_options(entry.view, entry.columns, entry.rows);
  if (about.empty())
    return options;
  if (measure::definition(about) == nullptr)
    return fail("The measurement " + about, "is not known", "take an id of /api/practice");
  options.measurements = {about};
  return options;
}

} // namespace

Result<nlohmann::json> measured_json(Office& office,
                                     const record::Horse& horse,
                                     const record::PictureEntry& entry,
                                     const record::ReadingEntry& reading,
                                     const std::string& about) {
  PRITCHEL_TRY(options, options_for(entry, about));
  PRITCHEL_TRY(picture, office.picture(entry.digest));
  const auto practice = office.practice();
  const auto found = job::measured(picture, entry, reading, horse, *practice);
  auto result = job::result_json(found, *practice);
  result["overlay"] =
      overlay_json(drawing::picture_overlay(found.reading, found.measurements, options));
  return result;
}

} // namespace pritchel::serve
