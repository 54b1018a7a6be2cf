#include "imaging/marker_scale.h"

#include "base/limits.h"
#include "base/text.h"
#include "imaging/card_fit.h"
#include "imaging/header_scale.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

// Own estimates [E].
/// One edge of a marker, placed by hand; in a photo of large pixels, half a pixel.
constexpr double marker_edge_mm = 0.2;
constexpr double marker_edge_px = 0.5;
/// Marker points nearer than this carry no length.
constexpr double least_marker_px = 5.0;
constexpr double least_ball_px = 8.0;
/// How well the distance of the plane is known where nobody measured it.
constexpr double unmeasured_distance_share = 0.15;

std::string percent(double share) {
  return for_people(100 * share, 1) + " %";
}

/// From the source or camera to the plane of interest, with `pixel_mm` at the marker.
double plane_distance_mm(const Spacing& spacing,
                         const MarkedPicture& picture,
                         const ScaleStatement& said,
                         double pixel_mm) {
  if (said.camera_distance_mm > 0)
    return said.camera_distance_mm + said.marker_offset_mm;
  if (said.lens_35mm > 0)
    return focal_px_of(said.lens_35mm, picture.columns, picture.rows) * pixel_mm +
           said.marker_offset_mm;
  const double source = said.source_to_detector_mm > 0
                            ? said.source_to_detector_mm
                            : spacing.distance_source_to_detector_mm.value_or(0);
  const double left = source - said.object_to_detector_mm;
  return std::isfinite(left) && left > 0 && said.object_to_detector_mm > 0
             ? left
             : usual_source_to_object_mm;
}

bool is_inside(const ImagePoint& p, const MarkedPicture& picture) {
  return p.x >= -0.5 && p.x <= picture.columns - 0.5 && p.y >= -0.5 && p.y <= picture.rows - 0.5;
}

Result<void> check_object(const std::string& name, const ScaleStatement& said) {
  const auto sane = [](double mm) { return std::isfinite(mm) && mm >= 0 && mm <= 100; };
  if (!std::isfinite(said.marker_mm) || said.marker_mm < limits::least_marker_mm ||
      said.marker_mm > limits::greatest_marker_mm)
    return fail("A " + name + " of " + for_people(said.marker_mm, 1) + " mm",
                "cannot be used",
                fmt::format("its size must be {} to {} mm",
                            limits::least_marker_mm,
                            limits::greatest_marker_mm));
  if (!sane(said.marker_tolerance_mm) || !sane(said.marker_out_of_plane_mm) ||
      !sane(std::abs(said.marker_offset_mm)))
    return fail("The " + name + "'s tolerance and its distance from the plane of interest",
                "must be 0 to 100 mm");
  return {};
}

/// The object as measured in the picture.
struct Sized {
  std::string words; ///< "a marker of 50.0 mm in the picture"
  double pixels = 0; ///< in widths of a pixel
  double share = 0;  ///< standard uncertainty of its size in the picture and of its own
};

Calibration calibration_of(const Spacing& spacing,
                           const MarkedPicture& picture,
                           const ScaleStatement& said,
                           const Sized& object) {
  const double at_object = said.marker_mm / object.pixels;
  const double distance = plane_distance_mm(spacing, picture, said, at_object);
  const double nearer = said.marker_offset_mm;
  const double width = at_object * distance / (distance - nearer);
  const PixelSize size{.row_mm = picture.aspect * width, .column_mm = width};
  const double plane = said.marker_out_of_plane_mm / distance;
  const double corrected = nearer / distance * unmeasured_distance_share;
  const double share = std::hypot(object.share, plane, corrected);
  const auto words = nearer == 0
                         ? std::string{}
                         : fmt::format(", corrected for lying {} mm {} the plane of interest",
                                       for_people(std::abs(nearer), 0),
                                       nearer > 0 ? "before" : "behind");
  return {.origin = ScaleOrigin::marker,
          .pixel_width_mm = size.column_mm,
          .pixel_height_mm = size.row_mm,
          .relative_uncertainty = share,
          .sentence = fmt::format(
              "Scale from {}{}: a pixel is {}, ± {}. If it lies {} mm {}, lengths are off by at "
              "most {}.",
              object.words,
              words,
              in_words(size),
              percent(share),
              for_people(said.marker_out_of_plane_mm, 0),
              nearer == 0 ? "out of the plane of interest" : "from where it is said to lie",
              percent(out_of_plane_share(said.marker_out_of_plane_mm, distance)))};
}

Result<Calibration> sane_calibration(const Calibration& scale, const std::string& name) {
  if (!is_sane({.row_mm = scale.pixel_height_mm, .column_mm = scale.pixel_width_mm}))
    return fail("The " + name,
                "gives an impossible size of a pixel",
                "place it on its edges and check its size in millimetres");
  return scale;
}

} // namespace

double out_of_plane_share(double nearer_mm, double distance_mm) {
  return nearer_mm / (distance_mm - nearer_mm);
}

Result<Calibration> marker_calibration(const Spacing& spacing,
                                       const MarkedPicture& picture,
                                       const ScaleStatement& said) {
  PRITCHEL_CHECK(check_object("marker", said));
  if (!is_inside(said.marker_1, picture) || !is_inside(said.marker_2, picture))
    return fail("The marker", "has an end outside the picture", "place both ends on its edges");
  const auto across = said.marker_2 - said.marker_1;
  const double pixels = std::hypot(across.x, picture.aspect * across.y);
  if (!(pixels >= least_marker_px))
    return fail("The marker's two ends",
                "give an impossible size of a pixel",
                "place them on its edges and check its size in millimetres");
  const double edge = std::max(marker_edge_mm, marker_edge_px * said.marker_mm / pixels);
  const Sized object{
      .words = fmt::format("a marker of {} mm in the picture", for_people(said.marker_mm, 1)),
      .pixels = pixels,
      .share = std::hypot(std::sqrt(2.0) * edge, said.marker_tolerance_mm) / said.marker_mm};
  return sane_calibration(calibration_of(spacing, picture, said, object), "marker");
}

Result<Calibration>
ball_calibration(const Spacing& spacing, const MarkedPicture& picture, const ScaleStatement& said) {
  PRITCHEL_CHECK(check_object("ball", said));
  if (!is_inside(said.ball_centre, picture) || !std::isfinite(said.ball_diameter_px) ||
      said.ball_diameter_px < least_ball_px || said.ball_diameter_px > picture.columns ||
      !std::isfinite(said.ball_unsure_px) || said.ball_unsure_px < 0 ||
      said.ball_unsure_px > said.ball_diameter_px)
    return fail("The ball", "isn't one that can lie in this picture", "find it again");
  const Sized object{.words = fmt::format("a ball of {} mm found in the picture, {} ± {} px across",
                                          for_people(said.marker_mm, 1),
                                          for_people(said.ball_diameter_px, 1),
                                          for_people(said.ball_unsure_px, 1)),
                     .pixels = said.ball_diameter_px,
                     .share = std::hypot(said.ball_unsure_px / said.ball_diameter_px,
                                         said.marker_tolerance_mm / said.marker_mm)};
  return sane_calibration(calibration_of(spacing, picture, said, object), "ball");
}

} // namespace pritchel::imaging
