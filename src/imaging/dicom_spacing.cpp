#include "imaging/dicom_spacing.h"

#include "imaging/character_sets.h"
#include "imaging/dicom_item.h"

namespace pritchel::imaging {
namespace {

using dicom::Tag;

std::optional<PixelSize> pixel_size(DcmItem& item, Tag tag) {
  const auto pair = dicom::numbers(item, tag);
  if (pair.size() != 2)
    return std::nullopt;
  return PixelSize{.row_mm = pair[0], .column_mm = pair[1]};
}

/// Secondary Capture Image Storage and its multi-frame relatives.
bool is_secondary_capture(DcmItem& data_set) {
  const std::string family = "1.2.840.10008.5.1.4.1.1.7";
  const auto uid = dicom::raw_text(data_set, {0x0008, 0x0016});
  return uid == family || uid.rfind(family + ".", 0) == 0;
}

} // namespace

Spacing header_spacing(DcmItem& data_set) {
  const auto terms = dicom::raw_text(data_set, {0x0008, 0x0005});
  DcmItem& measures = dicom::frame_macro(data_set, {0x0028, 0x9110});
  return {
      .pixel_spacing = pixel_size(measures, {0x0028, 0x0030}),
      .calibration_type = to_utf8(dicom::raw_text(measures, {0x0028, 0x0A02}), terms),
      .calibration_description = to_utf8(dicom::raw_text(measures, {0x0028, 0x0A04}), terms),
      .imager_pixel_spacing = pixel_size(data_set, {0x0018, 0x1164}),
      .nominal_scanned_spacing = pixel_size(data_set, {0x0018, 0x2010}),
      .detector_element_spacing = pixel_size(data_set, {0x0018, 0x7022}),
      .distance_source_to_detector_mm = dicom::number(data_set, {0x0018, 0x1110}),
      .distance_source_to_patient_mm = dicom::number(data_set, {0x0018, 0x1111}),
      .magnification_factor = dicom::number(data_set, {0x0018, 0x1114}),
      .capture =
          is_secondary_capture(data_set) ? Spacing::Capture::secondary : Spacing::Capture::direct,
  };
}

std::optional<double> header_pixel_aspect(DcmItem& data_set) {
  const auto ratio = dicom::numbers(data_set, {0x0028, 0x0034});
  if (ratio.size() != 2 || ratio[0] <= 0 || ratio[1] <= 0)
    return std::nullopt;
  return ratio[0] / ratio[1];
}

} // namespace pritchel::imaging
