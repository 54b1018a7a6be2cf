/// A picture as measured upon: a greyscale radiograph with all its stored depth, or a colour photo.
/// Knows what a header said; decides nothing about scale (scale.h), view or limb.
/// No type of a DICOM or image library appears here.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace pritchel::imaging {

enum class PictureKind { radiograph, photo };

/// Size of a pixel, mm, in DICOM's order: the first value is vertical (between rows), the second
/// horizontal (between columns). Source: DICOM PS3.3 10.7.1.3.
struct PixelSize {
  double row_mm = 0;
  double column_mm = 0;
};

/// How a range of values (after rescale) becomes grey. Source: DICOM PS3.3 C.11.2.1.2.
/// `table` sends the range through the picture's own VOI LUT: at the default centre and width it is
/// the LUT itself, and a person can stretch it like any other window.
struct Window {
  enum class Shape { linear, linear_exact, sigmoid, table };
  double centre = 0;
  double width = 1;
  Shape shape = Shape::linear;
  std::string name;
};

/// A DICOM lookup table: values below first_input take the first entry, beyond the end the last.
/// Source: DICOM PS3.3 C.11.1.1.1.
struct LookupTable {
  int first_input = 0;
  int bits = 16; ///< of an entry; full scale is 2^bits - 1
  std::vector<std::uint16_t> entries;
  std::string name;
};

/// Stored values that mark pixels outside the exposed area; first <= last.
struct PaddingRange {
  int first = 0;
  int last = 0;
};

/// What the header says of spacing, each attribute apart: their meanings are not the same.
/// Source: DICOM PS3.3 10.7, C.8.11.7, C.7.6.3.1.7.
struct Spacing {
  std::optional<PixelSize> pixel_spacing;            ///< (0028,0030)
  std::string calibration_type;                      ///< (0028,0A02) GEOMETRY, FIDUCIAL or empty
  std::string calibration_description;               ///< (0028,0A04)
  std::optional<PixelSize> imager_pixel_spacing;     ///< (0018,1164) at the detector's front
  std::optional<PixelSize> nominal_scanned_spacing;  ///< (0018,2010) on the scanned medium
  std::optional<PixelSize> detector_element_spacing; ///< (0018,7022) pitch before binning, no scale
  std::optional<double> distance_source_to_detector_mm; ///< (0018,1110)
  /// (0018,1111): to the table, support or isocentre, not to the bone; never used without a person.
  std::optional<double> distance_source_to_patient_mm;
  std::optional<double> magnification_factor; ///< (0018,1114)
  /// A screen capture or scan (SOP class): what its Pixel Spacing means nobody knows.
  enum class Capture { direct, secondary };
  Capture capture = Capture::direct;
};

/// What the header says of patient, study and view; texts are valid UTF-8 without control
/// characters, empty when absent. Never trusted for side or view without a person's word.
struct Facts {
  std::string patient_name; ///< as stored, component groups and carets kept
  std::string patient_id;
  std::string species;
  std::string breed;
  std::string sex;
  std::string birth_date; ///< YYYY-MM-DD or empty
  std::string responsible_person;
  std::string study_date; ///< YYYY-MM-DD or empty; of a photo: when it was taken
  std::string modality;
  std::string manufacturer;
  std::optional<char> laterality; ///< 'L' or 'R': Image Laterality, else Laterality
  std::string orientation_row;    ///< Patient Orientation, direction of rows to the right
  std::string orientation_column; ///< and of columns downwards
  std::string view_code;          ///< View Code Sequence: code value
  std::string view_meaning;       ///< and its meaning
  std::string view_position;
  std::string anatomic_region_code;
  std::string anatomic_region;
  std::string body_part;
  std::string sop_instance_uid;
  bool lossy = false;   ///< compressed with loss, or with a scheme that may have lost
  double lens_35mm = 0; ///< of a photo: focal length as on 35-mm film, mm; 0 unknown
};

/// Invariants of a picture that load_picture returned: columns and rows are 1 or more and within
/// limits; a radiograph has columns*rows samples and no rgb, a photo 3*columns*rows rgb bytes and
/// no samples; offset + 65535 covers every stored value.
struct Picture {
  PictureKind kind = PictureKind::radiograph;
  int columns = 0;
  int rows = 0;
  /// Radiograph: stored value - offset, row by row from the top left.
  std::vector<std::uint16_t> samples;
  int offset = 0;
  int bits_stored = 16;
  double rescale_slope = 1;
  double rescale_intercept = 0;
  std::optional<LookupTable> modality_lut; ///< instead of the rescale
  bool inverse = false;                    ///< MONOCHROME1: low values are bright
  std::vector<Window> windows;             ///< the header's, best first; only usable ones
  std::optional<LookupTable> voi_lut;
  std::optional<PaddingRange> padding;
  /// Photo: red, green, blue, row by row; the camera's orientation is already applied.
  std::vector<std::uint8_t> rgb;
  /// Pixel height over width, where the header gives it and no spacing.
  std::optional<double> pixel_aspect;
  Facts facts;
  Spacing spacing;
  std::vector<std::string> notes; ///< worth showing, one sentence each
};

} // namespace pritchel::imaging
