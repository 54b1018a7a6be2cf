/// What is exactly true of a foot and a shot: each landmark in the foot and in the picture, and
/// each measurement, by formulas of its own in the sagittal (lateromedial) or frontal (dorsopalmar)
/// plane. Never calls the measuring code, so that the two can be held against each other. Source of
/// definitions and signs: the trade's; the same as in docs for readers of measurements.
#pragma once

#include "phantom/check_landmarks.h"
#include "phantom/shot.h"

#include <string>
#include <vector>

namespace pritchel::phantom {

struct TrueLandmark {
  Landmark landmark;
  Pixel pixel;
};

enum class Unit { degree, millimetre, ratio, percent };

struct TrueMeasurement {
  std::string id;
  double value = 0;
  Unit unit = Unit::degree;
};

struct Truth {
  std::vector<TrueLandmark> landmarks;
  std::vector<TrueMeasurement> measurements;
  /// Millimetres in the plane of interest per pixel.
  double mm_per_pixel_x = 0;
  double mm_per_pixel_y = 0;
};

/// Landmarks of the view in reading order, marker ends included where the shot has a ball, then
/// those of the view's check.
std::vector<Landmark> landmarks_of(const Foot& foot, const Shot& shot);

/// The measurements that these landmarks carry.
std::vector<TrueMeasurement> lateromedial_measurements(const std::vector<Landmark>& landmarks);
std::vector<TrueMeasurement> dorsopalmar_measurements(const std::vector<Landmark>& landmarks);

Truth truth_of(const Foot& foot, const Shot& shot);

/// Pixels of the same landmarks for a reader who follows `follows` where two outlines part; the
/// measurements stay the foot's own.
Truth truth_as_read(const Foot& foot, const Shot& shot, Follows follows);

} // namespace pritchel::phantom
