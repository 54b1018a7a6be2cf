/// One person's landmarks on one picture, as the measuring code needs them.
/// Knows no file, no store and no picture.
#pragma once

#include "geometry/calibration.h"
#include "measure/check.h"
#include "measure/view.h"

#include <map>
#include <optional>
#include <string>
#include <vector>

namespace pritchel::measure {

/// How a landmark came to be where it is.
enum class Placement {
  by_hand,
  suggested, ///< by the program, and not confirmed by a person
  confirmed, ///< where the program proposed it, and a person said that it lies right there
  snapped,   ///< by hand, then moved by the program onto the edge that is near
  on_dot     ///< on a stick-on dot that was found, and confirmed by a person
};

struct Landmark {
  std::string id;
  ImagePoint at; ///< pixels
  Placement how = Placement::by_hand;
};

/// What the picture itself says about sides, where it says anything.
struct SideHints {
  std::optional<bool> left_limb;          ///< header's laterality
  std::optional<PictureSide> toward;      ///< toe or lateral side by the header's orientation
  std::optional<bool> marker_is_left;     ///< the lead letter as a person read it: L or R
  std::optional<PictureSide> marker_side; ///< side of the picture where the letter lies
};

/// Has a person looked at a contradiction about sides and said that the reading is right?
enum class SidesChecked { no, by_person };

struct Reading {
  View view = View::lateromedial;
  Limb limb = Limb::left_fore;
  /// Side of the stored picture on which the toe (lateromedial) or lateral (dorsopalmar) lies.
  PictureSide toward = PictureSide::left;
  Shoeing shoeing = Shoeing::bare;
  Loading loading = Loading::not_stated;
  SideHints hints;
  SidesChecked sides_checked = SidesChecked::no;
  Calibration calibration;
  int columns = 0; ///< of the picture, pixels; 0 where nobody said
  int rows = 0;
  /// Of a radiograph, from the header or a tape; nothing where nobody said.
  std::optional<double> source_to_detector_mm;
  std::vector<Landmark> landmarks;
  std::vector<Check> picture_checks; ///< what the pixels themselves said (exposure)
};

/// How surely one person places one landmark again: a standard deviation across and along a
/// direction, mm. The direction runs from one landmark to another; empty names mean a round spread.
struct Spread {
  double across_mm = 1;
  double along_mm = 1;
  std::string from;
  std::string to;
  /// Round spread where the landmark was placed on a stick-on dot; 0: dots make no difference.
  double on_dot_mm = 0;
};

/// By landmark id. A landmark without an entry has a round spread of `unlisted_spread_mm`.
using Spreads = std::map<std::string, Spread, std::less<>>;
inline constexpr double unlisted_spread_mm = 2.0;
/// A confirmed proposal is less sure than a point of one's own: whoever is shown a place tends to
/// agree with it. Own estimate, no source.
inline constexpr double confirmed_spread_ratio = 1.5;

} // namespace pritchel::measure
