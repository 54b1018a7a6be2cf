/// Draws one foot of the plane frame on paper in real millimetres; the ground of the foot as it is
/// lies level. Inside report only.
#pragma once

#include "geometry/frames.h"
#include "measure/measure.h"
#include "report/life_outline.h"

#include <initializer_list>
#include <string>
#include <vector>

namespace pritchel::report {

class Sketch {
public:
  using Ids = std::initializer_list<const char*>;

  /// `now` must outlive it; `origin` comes to lie at 0, 0 on paper.
  Sketch(const measure::Placed<double>& now, PlanePoint origin, PictureSide toward);

  [[nodiscard]] const GroundLine<double>& ground() const { return ground_; }
  [[nodiscard]] Point<drawing::PaperFrame> on_paper(const PlanePoint& p) const;

  void path(const std::vector<PlanePoint>& points, drawing::Ink ink, std::string about);
  /// Through those of the landmarks that are placed, in this order, and on to `last`.
  void
  through(Ids ids, drawing::Ink ink, const char* about, const std::vector<PlanePoint>& last = {});
  /// Upright on paper, across a line, by this much above and below it.
  void tick(const PlanePoint& at, double above, double below, drawing::Ink ink, const char* about);
  /// `outward` runs towards the toe or lateral, `down` down the paper, mm.
  void label(const PlanePoint& at, double outward, double down, std::string text);

  /// With a ring about every landmark that a line went through.
  [[nodiscard]] LifeOutline finished() &&;

private:
  const measure::Placed<double>& now_;
  GroundLine<double> ground_;
  PlanePoint origin_;
  double right_;
  LifeOutline outline_;

  std::vector<PlanePoint> placed(Ids ids);
};

} // namespace pritchel::report
