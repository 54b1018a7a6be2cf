/// Invented feet for the tests of the measuring code: made from slopes, depths and bone lengths as
/// they vary in adult horses, straight in the plane frame. Independent of src/phantom on purpose.
#pragma once

#include "measure/measure.h"

#include <random>
#include <string>
#include <utility>
#include <vector>

namespace feet {

using pritchel::PlanePoint;

struct PlaneFoot {
  pritchel::measure::View view = pritchel::measure::View::lateromedial;
  pritchel::measure::Shoeing shoeing = pritchel::measure::Shoeing::bare;
  std::vector<std::pair<std::string, PlanePoint>> points; ///< mm, ground level, y up
  pritchel::measure::Limb limb = pritchel::measure::Limb::left_fore;

  [[nodiscard]] PlanePoint at(const std::string& id) const;
  void remove(const std::string& id);
};

/// What turns a foot into a reading: which pixels, which side, which scale.
struct Picture {
  double pixel_width_mm = 0.15;
  double pixel_height_mm = 0.15;
  pritchel::PictureSide toward = pritchel::PictureSide::left;
  double relative_uncertainty = 0;
  double column = 900; ///< where the foot frame's origin lies
  double row = 1300;
  double turned_deg = 0; ///< foot and ground together, in the plane
  pritchel::ScaleOrigin origin = pritchel::ScaleOrigin::marker;
};

using Random = std::mt19937_64;

PlaneFoot lateromedial(Random& random);
PlaneFoot dorsopalmar(Random& random);
PlaneFoot any(pritchel::measure::View view, Random& random);

/// Millimetres to pixels by arithmetic of its own, not by PlaneMap.
pritchel::measure::Reading reading(const PlaneFoot& foot, const Picture& picture = {});

/// The same points as plain numbers in the plane, for formulas without a reading.
pritchel::measure::Placed<double> placed(const PlaneFoot& foot);

/// Placement spreads, mm: own estimates for a sharp picture read by a trained reader; common
/// practice, no source. "Free" along a surface is taken as 3 mm.
const pritchel::measure::Spreads& spreads();

double between(Random& random, double low, double high);

} // namespace feet
