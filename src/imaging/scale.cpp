#include "imaging/scale.h"

#include "base/limits.h"
#include "base/text.h"
#include "imaging/card_scale.h"
#include "imaging/header_scale.h"
#include "imaging/marker_scale.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

// Shares of uncertainty and plausibility, all own estimates [E].
/// Reads 5-15 % too long and is not corrected: root mean square of that range.
constexpr double detector_share = 0.10;
/// A tape or an eye finds the plane of interest to 10 mm.
constexpr double object_distance_mm = 10.0;
constexpr double conflict_share = 0.03;
/// Longer side of a usual detector plate, mm.
constexpr double usual_plate_mm = 250.0;

std::string percent(double share) {
  return for_people(100 * share, 1) + " %";
}

double nominal_pixel_mm(const Spacing& spacing, int columns, int rows) {
  const auto detector = detector_spacing(spacing);
  if (detector && is_sane(*detector))
    return detector->column_mm;
  return usual_plate_mm / std::max({columns, rows, 1});
}

Calibration calibration_of(const HeaderScale& scale) {
  return {.origin = scale.origin,
          .pixel_width_mm = scale.size.column_mm,
          .pixel_height_mm = scale.size.row_mm,
          .relative_uncertainty = scale.share,
          .sentence = fmt::format("Scale from the header: {}, a pixel is {}, ± {}.",
                                  scale.words,
                                  in_words(scale.size),
                                  percent(scale.share))};
}

Result<Calibration> detector_calibration(const Spacing& spacing) {
  const auto detector = detector_spacing(spacing);
  if (!detector)
    return fail("The picture's header",
                "gives no spacing at the detector",
                "place a marker of known size or measure angles only");
  return Calibration{.origin = ScaleOrigin::detector_only,
                     .pixel_width_mm = detector->column_mm,
                     .pixel_height_mm = detector->row_mm,
                     .relative_uncertainty = detector_share,
                     .sentence =
                         fmt::format("Scale at the detector, magnification unknown: a pixel is {}; "
                                     "lengths read 5\u201315 % too long.",
                                     in_words(*detector))};
}

Result<Calibration> header_calibration(const Spacing& spacing) {
  const auto found = corrected_scales(spacing);
  if (found.empty())
    return fail("The picture's header",
                "holds no spacing corrected for magnification",
                "enter the distances or place a marker of known size");
  return calibration_of(found.front());
}

Calibration no_scale(double aspect) {
  return {.origin = ScaleOrigin::none, .pixel_width_mm = 1, .pixel_height_mm = aspect};
}

Result<Calibration> automatic_calibration(const Spacing& spacing, double aspect) {
  if (const auto found = corrected_scales(spacing); !found.empty())
    return calibration_of(found.front());
  if (detector_spacing(spacing))
    return detector_calibration(spacing);
  auto none = no_scale(aspect);
  if (spacing.pixel_spacing)
    none.sentence = "No scale: what Pixel Spacing means in a screen capture or scan is unknown; "
                    "angles and ratios only.";
  return none;
}

/// The detector's spacing over a magnification that a person vouches for.
Result<Calibration>
magnified(const Spacing& spacing, double magnification, double share, const std::string& words) {
  if (!std::isfinite(magnification) || magnification < limits::least_magnification ||
      magnification > limits::greatest_magnification)
    return fail("A magnification of " + for_people(magnification, 3),
                "cannot be that of a foot against a detector",
                "check the distances; 1.05 to 1.20 is usual");
  if (!spacing.imager_pixel_spacing && is_corrected(spacing))
    return fail("The picture's Pixel Spacing",
                "is already corrected for magnification and must not be divided again",
                "use the header's scale as it is or place a marker");
  const auto detector = detector_spacing(spacing);
  if (!detector)
    return fail("The picture's header",
                "gives no spacing at the detector to divide by the magnification",
                "place a marker of known size");
  const auto size = divided(*detector, magnification);
  return Calibration{.origin = ScaleOrigin::measured_distances,
                     .pixel_width_mm = size.column_mm,
                     .pixel_height_mm = size.row_mm,
                     .relative_uncertainty = share,
                     .sentence = fmt::format("Scale from the detector spacing over a magnification "
                                             "of {}{}: a pixel is {}, ± {}.",
                                             for_people(magnification, 3),
                                             words,
                                             in_words(size),
                                             percent(share))};
}

Result<Calibration> distance_calibration(const Spacing& spacing, const ScaleStatement& said) {
  const double source = said.source_to_detector_mm > 0
                            ? said.source_to_detector_mm
                            : spacing.distance_source_to_detector_mm.value_or(0);
  const double object = said.object_to_detector_mm;
  if (!std::isfinite(source) || source <= 0)
    return fail(
        "The distance from the source to the detector", "is missing", "measure and enter it");
  if (!std::isfinite(object) || object < 0 || object >= source)
    return fail("The distance from the foot to the detector",
                "must be 0 or more and less than the source's distance",
                "measure from the plane of interest to the detector");
  const double source_to_object = source - object;
  return magnified(spacing,
                   source / source_to_object,
                   object_distance_mm / source_to_object,
                   fmt::format(" (source to detector {} mm, foot to detector {} mm)",
                               for_people(source, 0),
                               for_people(object, 0)));
}

Result<Calibration> from_header(const Spacing& spacing, double aspect, const ScaleStatement& said) {
  if (const auto absurd = absurd_spacing(spacing))
    return fail("The header's " + *absurd,
                "is outside what a detector can have",
                "place a marker of known size or measure angles only");
  switch (said.kind) {
  case ScaleStatement::Kind::magnification:
    // No distance is known here: the plane is taken to be as uncertain as a tape leaves it.
    return magnified(
        spacing, said.magnification, object_distance_mm / usual_source_to_object_mm, " as entered");
  case ScaleStatement::Kind::distances:
    return distance_calibration(spacing, said);
  case ScaleStatement::Kind::header:
    return header_calibration(spacing);
  case ScaleStatement::Kind::detector_only:
    return detector_calibration(spacing);
  default:
    return automatic_calibration(spacing, aspect);
  }
}

Result<Calibration> calibration_for(const Spacing& spacing,
                                    const MarkedPicture& picture,
                                    const ScaleStatement& said,
                                    std::span<const ImagePoint> reach) {
  switch (said.kind) {
  case ScaleStatement::Kind::none:
    return no_scale(picture.aspect);
  case ScaleStatement::Kind::card:
    return card_calibration(picture.columns, picture.rows, said, reach);
  case ScaleStatement::Kind::ball:
    return ball_calibration(spacing, picture, said);
  case ScaleStatement::Kind::marker:
    return marker_calibration(spacing, picture, said);
  default:
    return from_header(spacing, picture.aspect, said);
  }
}

} // namespace

double pixel_aspect_ratio(const Spacing& spacing, std::optional<double> pixel_aspect) {
  const auto plausible = [](double ratio) {
    return std::isfinite(ratio) && ratio >= 0.2 && ratio <= 5;
  };
  for (const auto& size :
       {spacing.pixel_spacing, spacing.imager_pixel_spacing, spacing.nominal_scanned_spacing})
    if (size && size->row_mm > 0 && size->column_mm > 0 &&
        plausible(size->row_mm / size->column_mm))
      return size->row_mm / size->column_mm;
  return pixel_aspect && plausible(*pixel_aspect) ? *pixel_aspect : 1.0;
}

Result<Calibration> calibrate(const Spacing& spacing,
                              std::optional<double> pixel_aspect,
                              int columns,
                              int rows,
                              const ScaleStatement& statement,
                              std::span<const ImagePoint> reach) {
  const MarkedPicture picture{
      .columns = columns, .rows = rows, .aspect = pixel_aspect_ratio(spacing, pixel_aspect)};
  PRITCHEL_TRY(calibration, calibration_for(spacing, picture, statement, reach));
  calibration.nominal_pixel_mm = nominal_pixel_mm(spacing, columns, rows);
  return calibration;
}

std::vector<std::string> scale_conflicts(const Spacing& spacing, const Calibration& chosen) {
  std::vector<std::string> conflicts;
  if (!chosen.has_scale())
    return conflicts;
  for (const auto& other : corrected_scales(spacing))
    if (is_sane(other.size) && differ(other.size.column_mm, chosen.pixel_width_mm, conflict_share))
      conflicts.push_back(fmt::format(
          "The header also offers a scale by {}: a pixel of {}, {} from the one in use.",
          other.words,
          in_words(other.size),
          percent(std::abs(other.size.column_mm / chosen.pixel_width_mm - 1))));
  const auto detector = detector_spacing(spacing);
  const double implied =
      detector && is_sane(*detector) ? detector->column_mm / chosen.pixel_width_mm : 1.0;
  if (implied < 1 - conflict_share || implied > greatest_header_magnification)
    conflicts.push_back(fmt::format("Held against the detector's spacing of {}, the scale in use "
                                    "means a magnification of {}, which a foot cannot have.",
                                    in_words(*detector),
                                    for_people(implied, 3)));
  return conflicts;
}

} // namespace pritchel::imaging
