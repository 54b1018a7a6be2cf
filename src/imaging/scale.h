/// From what the header says of spacing, and what a person says, to the picture's Calibration.
/// Knows no file. Source of the meanings: DICOM PS3.3 10.7; the order of trust is common practice,
/// no source. Every share of uncertainty is an own estimate, reasoned beside its constant.
#pragma once

#include "base/result.h"
#include "geometry/calibration.h"
#include "imaging/picture.h"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace pritchel::imaging {

/// One corner of the printed card as found in a photo.
struct CardCorner {
  int id = 0; ///< of card.h
  ImagePoint at;
};

/// What a person says about the scale, with what was found in the picture and confirmed. Only the
/// fields of the chosen kind are read.
struct ScaleStatement {
  enum class Kind {
    automatic,     ///< the best that the header alone can give, which may be none
    card,          ///< the printed card, found in a photo
    ball,          ///< a marker ball, found on a radiograph
    marker,        ///< an object of known size in the plane of interest, by its two ends
    magnification, ///< detector spacing over this magnification
    distances,     ///< detector spacing over the magnification from tape-measured distances
    header,        ///< the header's own correction (fiducial, geometry, magnification factor)
    detector_only, ///< detector spacing as it is: lengths read 5-15 % too long
    none           ///< no millimetres
  };
  Kind kind = Kind::automatic;
  double marker_mm = 0;
  ImagePoint marker_1;
  ImagePoint marker_2;
  double marker_tolerance_mm = 0.1; ///< standard uncertainty of its size
  /// How far it may lie before or behind the plane of interest. Nobody places one closer than 5 mm
  /// by eye (own estimate).
  double marker_out_of_plane_mm = 5;
  /// How far the marker or ball is known to lie nearer to the source or camera than the plane of
  /// interest; corrected for.
  double marker_offset_mm = 0;
  ImagePoint ball_centre;
  double ball_diameter_px = 0; ///< marker_mm is its true diameter
  double ball_unsure_px = 0;   ///< standard uncertainty of the found diameter
  std::string card_paper;      ///< "a4" or "letter"
  std::vector<CardCorner> card_corners;
  /// How the card was made parallel to the limb: by eye, or along a straight board that lies along
  /// foot or limb, its distance from there by tape.
  enum class CardStood { by_eye, along_a_board };
  CardStood card_stood = CardStood::by_eye;
  /// How far the card stood nearer to the camera than the plane of interest; nothing: nobody said.
  std::optional<double> card_offset_mm;
  /// Standard uncertainty of that; nothing: what is usual for how it stood.
  std::optional<double> card_offset_unsure_mm;
  double card_bar_mm = 100;          ///< what a ruler reads on its bar; 100 when nobody measured
  double camera_distance_mm = 0;     ///< 0: from the picture, where it can be known
  double lens_35mm = 0; ///< the lens by EXIF, as a focal length on 35-mm film; 0 unknown
  double magnification = 0;
  double source_to_detector_mm = 0; ///< 0: the header's Distance Source to Detector
  double object_to_detector_mm = 0; ///< plane of interest to detector
};

/// The calibration, or one sentence why the statement cannot be followed: no spacing to divide, a
/// spacing already corrected (divided by the magnification once only), absurd numbers, marker
/// points that coincide or lie outside the picture. Distance Source to Patient is never used.
/// `reach`: where in the picture something is measured, for the cautions of a card; empty stands
/// for the whole picture but its edges. Laws: pixel_width : pixel_height is the pixel's own shape
/// for every kind; turning the marker's points round changes nothing.
[[nodiscard]] Result<Calibration> calibrate(const Spacing& spacing,
                                            std::optional<double> pixel_aspect,
                                            int columns,
                                            int rows,
                                            const ScaleStatement& statement,
                                            std::span<const ImagePoint> reach = {});

/// Other sources of scale that differ from the chosen calibration by more than 3 %, one sentence
/// each; never averaged. Empty without a scale.
[[nodiscard]] std::vector<std::string> scale_conflicts(const Spacing& spacing,
                                                       const Calibration& chosen);

/// Pixel height over width: from the spacing attributes, else the header's aspect, else 1.
[[nodiscard]] double pixel_aspect_ratio(const Spacing& spacing, std::optional<double> pixel_aspect);

} // namespace pritchel::imaging
