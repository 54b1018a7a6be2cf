/// A film as a DICOM file: Digital X-Ray Image Storage - For Presentation, with a horse's
/// attributes. Which calibration attributes the file carries is chosen, for every way in which real
/// files differ. Source: DICOM PS3.3 (DX module tables, section 10.7 on pixel spacing), PS3.16 CIDs
/// 7454, 7482, 7484.
#pragma once

#include "base/result.h"
#include "phantom/exposure.h"

#include <filesystem>
#include <string>

namespace pritchel::phantom {

enum class SpacingNote {
  detector_only, ///< Imager Pixel Spacing alone
  equal_pixel,   ///< Pixel Spacing the same as Imager Pixel Spacing: not calibrated
  fiducial,      ///< Pixel Spacing corrected by a marker, type FIDUCIAL
  geometry,      ///< Pixel Spacing corrected by the distances, type GEOMETRY
  untyped,       ///< Pixel Spacing corrected, nobody says how
  none           ///< no spacing at all
};
enum class DistanceNote { both, source_to_detector, none };
enum class Packing { raw, lossless };

/// Who and when. All invented.
struct Horse {
  std::string name = "Larkspur";
  std::string number = "EX-0217";
  std::string breed = "Irish Sport Horse";
  std::string birth_date = "20150418"; ///< DICOM date
  std::string owner = "Example^Rosamund";
  std::string practice = "Example Equine Practice";
};
struct Occasion {
  std::string date = "20260302"; ///< DICOM date
  std::string time = "093000";
  std::string study_name = "Fore feet, balance views";
  std::uint64_t study = 1; ///< seed of the study's identifiers
  int number = 1;          ///< instance number within the series
};
struct DicomOptions {
  SpacingNote spacing = SpacingNote::detector_only;
  DistanceNote distances = DistanceNote::source_to_detector;
  Packing packing = Packing::lossless;
};

Result<void> write_dicom(const std::filesystem::path& path,
                         const Film& film,
                         const Foot& foot,
                         const Shot& shot,
                         const Horse& horse,
                         const Occasion& occasion,
                         const DicomOptions& options = {});

/// "2.25." and the decimal of a 128-bit number that depends on the seed and the purpose alone.
std::string identifier(std::uint64_t seed, const std::string& purpose);

} // namespace pritchel::phantom
