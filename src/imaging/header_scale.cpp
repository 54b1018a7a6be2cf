#include "imaging/header_scale.h"

#include "base/limits.h"
#include "base/text.h"

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {
namespace {

// Shares of uncertainty and plausibility, all own estimates [E].
/// A fiducial's plane is within 10 mm of the bone's, at 630 mm from the source, edges on top.
constexpr double fiducial_share = 0.02;
/// Depth assumed by an unknown hand: half a foot's width either way, 30/(630 sqrt 3).
constexpr double header_share = 0.03;
/// A header's magnification below the first says "nobody filled this in", above the second no foot.
constexpr double least_header_magnification = 1.02;
/// Two spacings nearer than this are the same number written twice.
constexpr double same_spacing_share = 0.005;

bool same(const PixelSize& a, const PixelSize& b) {
  return !differ(a.row_mm, b.row_mm, same_spacing_share) &&
         !differ(a.column_mm, b.column_mm, same_spacing_share);
}

std::optional<double> header_magnification(const Spacing& spacing) {
  const auto m = spacing.magnification_factor;
  if (m && *m >= least_header_magnification && *m <= greatest_header_magnification)
    return m;
  return std::nullopt;
}

void add_pixel_spacing(const Spacing& spacing, std::vector<HeaderScale>& found) {
  const PixelSize& size = *spacing.pixel_spacing;
  if (spacing.calibration_type == "FIDUCIAL" && !spacing.calibration_description.empty())
    found.push_back({size,
                     ScaleOrigin::fiducial_spacing,
                     fiducial_share,
                     "Pixel Spacing calibrated by an object of known size (" +
                         spacing.calibration_description + ")"});
  else if (is_corrected(spacing))
    found.push_back(
        {size,
         ScaleOrigin::header_distances,
         header_share,
         "Pixel Spacing corrected at an unknown depth (" + spacing.calibration_type + ")"});
}

/// Pixel Spacing without a type that differs from the detector's: somebody corrected it, nobody
/// wrote how. Believed only where the magnification it implies is a foot's.
void add_untyped_correction(const Spacing& spacing, std::vector<HeaderScale>& found) {
  const auto detector = detector_spacing(spacing);
  if (is_corrected(spacing) || !spacing.pixel_spacing || !detector ||
      same(*spacing.pixel_spacing, *detector))
    return;
  const double implied = detector->column_mm / spacing.pixel_spacing->column_mm;
  if (implied >= 1 && implied <= greatest_header_magnification)
    found.push_back({*spacing.pixel_spacing,
                     ScaleOrigin::header_distances,
                     header_share,
                     "Pixel Spacing corrected in an unstated way"});
}

} // namespace

bool is_sane(const PixelSize& size) {
  const auto within = [](double mm) {
    return std::isfinite(mm) && mm >= limits::least_spacing_mm && mm <= limits::greatest_spacing_mm;
  };
  return within(size.row_mm) && within(size.column_mm);
}

bool differ(double a, double b, double share) {
  return std::abs(a - b) > share * std::min(std::abs(a), std::abs(b));
}

PixelSize divided(const PixelSize& size, double magnification) {
  return {.row_mm = size.row_mm / magnification, .column_mm = size.column_mm / magnification};
}

std::string in_words(const PixelSize& size) {
  if (size.row_mm == size.column_mm)
    return for_people(size.column_mm, 4) + " mm";
  return for_people(size.column_mm, 4) + " mm wide and " + for_people(size.row_mm, 4) + " mm high";
}

bool is_corrected(const Spacing& spacing) {
  return spacing.calibration_type == "FIDUCIAL" || spacing.calibration_type == "GEOMETRY";
}

std::optional<PixelSize> detector_spacing(const Spacing& spacing) {
  if (spacing.imager_pixel_spacing)
    return spacing.imager_pixel_spacing;
  if (spacing.nominal_scanned_spacing)
    return spacing.nominal_scanned_spacing;
  if (is_corrected(spacing) || spacing.capture == Spacing::Capture::secondary)
    return std::nullopt;
  return spacing.pixel_spacing;
}

std::vector<HeaderScale> corrected_scales(const Spacing& spacing) {
  std::vector<HeaderScale> found;
  if (spacing.pixel_spacing)
    add_pixel_spacing(spacing, found);
  const auto magnification = header_magnification(spacing);
  if (spacing.imager_pixel_spacing && magnification)
    found.push_back(
        {divided(*spacing.imager_pixel_spacing, *magnification),
         ScaleOrigin::header_distances,
         header_share,
         "detector spacing over the header's magnification of " + for_people(*magnification, 3)});
  add_untyped_correction(spacing, found);
  std::stable_sort(
      found.begin(), found.end(), [](const auto& a, const auto& b) { return a.origin < b.origin; });
  return found;
}

std::optional<std::string> absurd_spacing(const Spacing& spacing) {
  const auto absurd = [](const std::optional<PixelSize>& size) { return size && !is_sane(*size); };
  if (absurd(spacing.pixel_spacing))
    return "Pixel Spacing of " + in_words(*spacing.pixel_spacing);
  if (absurd(spacing.imager_pixel_spacing))
    return "Imager Pixel Spacing of " + in_words(*spacing.imager_pixel_spacing);
  if (absurd(spacing.nominal_scanned_spacing))
    return "Nominal Scanned Pixel Spacing of " + in_words(*spacing.nominal_scanned_spacing);
  return std::nullopt;
}

} // namespace pritchel::imaging
