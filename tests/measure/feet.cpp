#include "feet.h"

#include <array>
#include <cmath>

namespace feet {

using namespace pritchel;
using namespace pritchel::measure;

namespace {

constexpr double radians_per_degree = 3.14159265358979323846 / 180;

/// `mm` from p along a line that rises towards the heel with this slope.
PlanePoint up_the_slope(const PlanePoint& p, double slope_deg, double mm) {
  const double a = slope_deg * radians_per_degree;
  return {p.x - mm * std::cos(a), p.y + mm * std::sin(a)};
}
/// `mm` from p dorsally, square to such a line.
PlanePoint dorsally(const PlanePoint& p, double slope_deg, double mm) {
  const double a = slope_deg * radians_per_degree;
  return {p.x + mm * std::sin(a), p.y + mm * std::cos(a)};
}
/// On a circle, `angle_deg` from straight down the axis, positive towards the toe.
PlanePoint on_arc(const PlanePoint& centre, double radius, double axis_deg, double angle_deg) {
  const double a = (axis_deg + angle_deg) * radians_per_degree;
  return {centre.x + radius * std::cos(a), centre.y - radius * std::sin(a)};
}

constexpr std::array solar_border = {
    "p3-solar-1", "p3-solar-2", "p3-solar-3", "p3-solar-4", "p3-solar-5"};

} // namespace

double between(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

PlanePoint PlaneFoot::at(const std::string& id) const {
  for (const auto& [each, point] : points)
    if (each == id)
      return point;
  return {std::nan(""), std::nan("")};
}

void PlaneFoot::remove(const std::string& id) {
  std::erase_if(points, [&](const auto& each) { return each.first == id; });
}

PlaneFoot lateromedial(Random& random) {
  const auto draw = [&](double low, double high) { return between(random, low, high); };
  PlaneFoot foot{.view = View::lateromedial};
  const auto put = [&](const char* id, const PlanePoint& p) { foot.points.emplace_back(id, p); };
  const double palmar = draw(-3, 10), bone = draw(46, 50), divergence = draw(-2, 8);
  const double dorsal = palmar + bone, wall = dorsal - divergence;
  const double p1_slope = draw(46, 60), p2_slope = p1_slope + draw(-7, 7);
  const double depth = draw(9, 22), clearance = draw(1.5, 5), thickness = draw(15, 19);

  const PlanePoint tip{draw(95, 115), depth + clearance};
  const PlanePoint process = up_the_slope(tip, palmar, draw(62, 74));
  put("ground-heel", {tip.x - draw(120, 140), 0});
  put("ground-toe", {tip.x + draw(50, 70), 0});
  put("p3-tip", tip);
  put("p3-palmar-process", process);
  const PlanePoint distal = up_the_slope(tip, dorsal, draw(8, 12));
  const PlanePoint proximal = up_the_slope(distal, dorsal, draw(33, 38));
  put("p3-dorsal-distal", distal);
  put("p3-dorsal-proximal", proximal);
  put("extensor-process", up_the_slope(proximal, dorsal + 4, draw(11, 14)));
  const PlanePoint on_wall = dorsally(proximal, dorsal, thickness);
  put("wall-dorsal-proximal", up_the_slope(on_wall, wall, draw(1, 4)));
  put("wall-dorsal-distal", up_the_slope(on_wall, wall, -draw(42, 50)));
  put("wall-toe-ground", up_the_slope(on_wall, wall, -draw(60, 68)));
  put("coronary-band", up_the_slope(on_wall, wall, draw(10, 14)));
  put("sole-a", {tip.x + 5, tip.y - depth - draw(0, 0.8)});
  put("sole-b", {tip.x - draw(10, 15), tip.y - depth + draw(0, 0.8)});
  put("sole-under-palmar", {process.x + draw(-2, 2), process.y - draw(11, 16)});

  const PlanePoint coffin{tip.x - draw(34, 42), tip.y + draw(40, 46)};
  const PlanePoint pastern = up_the_slope(coffin, p2_slope, draw(38, 45));
  const double r2 = draw(15.5, 18), r1 = draw(13.5, 15.5), half2 = draw(62, 72),
               half1 = draw(60, 66);
  put("p2-distal-condyle-1", on_arc(coffin, r2, p2_slope, -half2));
  put("p2-distal-condyle-2", on_arc(coffin, r2, p2_slope, draw(-5, 5)));
  put("p2-distal-condyle-3", on_arc(coffin, r2, p2_slope, half2 - draw(1, 6)));
  put("p1-distal-condyle-1", on_arc(pastern, r1, p1_slope, -half1));
  put("p1-distal-condyle-2", on_arc(pastern, r1, p1_slope, draw(-5, 5)));
  put("p1-distal-condyle-3", on_arc(pastern, r1, p1_slope, half1 - draw(1, 6)));
  put("p1-axis-distal", up_the_slope(pastern, p1_slope, 15));
  put("p1-axis-proximal", up_the_slope(pastern, p1_slope, draw(55, 65)));

  const PlanePoint heel{coffin.x - draw(42, 60), 0};
  put("breakover", {tip.x + draw(5, 30), draw(0, 1)});
  put("heel-ground", heel);
  const double heel_slope = wall - draw(0, 12);
  put("heel-wall-distal", up_the_slope(heel, heel_slope, 8));
  put("heel-wall-proximal", up_the_slope(heel, heel_slope, draw(24, 32)));

  put("coronary-band-heel", up_the_slope(heel, heel_slope, 42));
  put("wall-dorsal-mid", dorsally(up_the_slope(on_wall, wall, -19), wall, 0.8));
  for (int i = 0; i < 5; ++i) // a shallow arch over the solar line
    put(solar_border.at(static_cast<std::size_t>(i)),
        dorsally(up_the_slope(tip, palmar, 16 + 9 * i), palmar, 1.5 + 0.4 * (i * (4 - i))));
  put("p3-articular-palmar", {coffin.x + 2, coffin.y - 19});
  put("navicular-distal", {coffin.x - 5, coffin.y - 24});
  put("navicular-flexor-mid", {coffin.x - 18, coffin.y - 23});
  put("ddft-insertion", {coffin.x + 4, coffin.y - 32});
  put("toe-most-dorsal", {foot.at("wall-toe-ground").x + 0.5, 1.5});
  put("pastern-dorsal-distal", dorsally(up_the_slope(pastern, p1_slope, 12), p1_slope + 2, 22));
  put("pastern-dorsal-proximal", dorsally(up_the_slope(pastern, p1_slope, 60), p1_slope + 2, 20));
  return foot;
}

PlaneFoot dorsopalmar(Random& random) {
  const auto draw = [&](double low, double high) { return between(random, low, high); };
  PlaneFoot foot{.view = View::dorsopalmar};
  const auto put = [&](const std::string& id, const PlanePoint& p) {
    foot.points.emplace_back(id, p);
  };
  const double tilt = draw(-4, 4) * radians_per_degree, lean = draw(-5, 5) * radians_per_degree;
  const PlanePoint joint{draw(-3, 3), draw(44, 54)};
  const auto across = [&](double mm, double up) {
    return PlanePoint{joint.x + mm * std::cos(tilt) - up * std::sin(tilt),
                      joint.y + mm * std::sin(tilt) + up * std::cos(tilt)};
  };
  for (const double out : {-1.0, 1.0}) {
    const std::string side = out > 0 ? "lateral" : "medial";
    put("ground-" + side, {out * draw(75, 90), 0});
    put("dip-p3-" + side, across(out * 20, 0));
    put("dip-p2-" + side, across(out * 20 + draw(-0.3, 0.3), draw(1.8, 3)));
    put("p3-articular-" + side, across(out * 25, draw(0.2, 0.6)));
    put("p3-distal-border-" + side, {out * draw(34, 40), draw(13, 20)});
    const double foot_at = out * draw(56, 66), wall = draw(72, 86) * radians_per_degree;
    const auto on_wall = [&](double mm) {
      return PlanePoint{foot_at - out * mm * std::cos(wall), mm * std::sin(wall)};
    };
    put("wall-ground-" + side, on_wall(0));
    put("wall-proximal-" + side, on_wall(draw(38, 46)));
    put("coronet-" + side, on_wall(draw(50, 58)));
  }
  const PlanePoint lower{joint.x + 9 * std::sin(lean), joint.y + 9 * std::cos(lean)};
  const double long_axis = draw(24, 30);
  put("p2-axis-distal", lower);
  put("p2-axis-proximal",
      {lower.x + long_axis * std::sin(lean), lower.y + long_axis * std::cos(lean)});
  put("p2-condyle-mid", {joint.x, joint.y + 14});

  const auto up_the_limb = [&](double mm, double aside) {
    return PlanePoint{joint.x + mm * std::sin(lean) + aside * std::cos(lean),
                      joint.y + mm * std::cos(lean) - aside * std::sin(lean)};
  };
  for (const double out : {-1.0, 1.0}) {
    const std::string side = out > 0 ? "lateral" : "medial";
    const auto border = foot.at("p3-distal-border-" + side);
    put("sole-" + side, {border.x + out, border.y - 11});
    put("p3-abaxial-" + side, {out * 39, border.y + 4});
    put("solar-foramen-" + side, across(out * 11, -12));
    put("pip-p2-" + side, up_the_limb(42, out * 14));
    put("pip-p1-" + side, up_the_limb(44.3 + 0.2 * out, out * 14 + 0.2));
  }
  put("p1-axis-distal", up_the_limb(70, 0.5));
  put("p1-axis-proximal", up_the_limb(112, -0.5));
  put("mc3-axis-distal", up_the_limb(170, -1));
  put("mc3-axis-proximal", up_the_limb(200, 1));
  return foot;
}

PlaneFoot any(View view, Random& random) {
  return view == View::lateromedial ? lateromedial(random) : dorsopalmar(random);
}

Reading reading(const PlaneFoot& foot, const Picture& picture) {
  Reading result;
  result.view = foot.view;
  result.limb = foot.limb;
  result.shoeing = foot.shoeing;
  result.toward = picture.toward;
  result.calibration.origin = picture.origin;
  result.calibration.pixel_width_mm = picture.pixel_width_mm;
  result.calibration.pixel_height_mm = picture.pixel_height_mm;
  result.calibration.relative_uncertainty = picture.relative_uncertainty;
  const double c = std::cos(picture.turned_deg * radians_per_degree);
  const double s = std::sin(picture.turned_deg * radians_per_degree);
  const double to_the_right = picture.toward == PictureSide::right ? 1 : -1;
  for (const auto& [id, p] : foot.points) {
    const double x = c * p.x - s * p.y, y = s * p.x + c * p.y;
    result.landmarks.push_back({.id = id,
                                .at = {picture.column + to_the_right * x / picture.pixel_width_mm,
                                       picture.row - y / picture.pixel_height_mm}});
  }
  return result;
}

Placed<double> placed(const PlaneFoot& foot) {
  Placed<double> result;
  result.view = foot.view;
  result.shoeing = foot.shoeing;
  result.has_scale = true;
  for (const auto& [id, p] : foot.points)
    result.put(id, p);
  return result;
}

const Spreads& spreads() {
  static const Spreads table = {
      {"ground-heel", {0.3, 3, "ground-heel", "ground-toe"}},
      {"ground-toe", {0.3, 3, "ground-heel", "ground-toe"}},
      {"p3-tip", {0.7, 0.7, "", ""}},
      {"p3-palmar-process", {0.8, 2.5, "p3-palmar-process", "p3-tip"}},
      {"p3-dorsal-distal", {0.4, 3, "p3-dorsal-distal", "p3-dorsal-proximal"}},
      {"p3-dorsal-proximal", {0.4, 3, "p3-dorsal-distal", "p3-dorsal-proximal"}},
      {"extensor-process", {0.6, 0.8, "p3-dorsal-distal", "p3-dorsal-proximal"}},
      {"wall-dorsal-proximal", {0.5, 3, "wall-dorsal-distal", "wall-dorsal-proximal"}},
      {"wall-dorsal-distal", {0.5, 3, "wall-dorsal-distal", "wall-dorsal-proximal"}},
      {"wall-toe-ground", {0.5, 0.5, "", ""}},
      {"coronary-band", {0.7, 0.7, "", ""}},
      {"sole-a", {0.8, 0.8, "", ""}},
      {"sole-b", {0.8, 0.8, "", ""}},
      {"sole-under-palmar", {1.5, 1.5, "", ""}},
      {"p2-distal-condyle-1", {0.5, 0.5, "", ""}},
      {"p2-distal-condyle-2", {0.5, 0.5, "", ""}},
      {"p2-distal-condyle-3", {0.5, 0.5, "", ""}},
      {"p2-distal-condyle-4", {0.5, 0.5, "", ""}},
      {"p2-distal-condyle-5", {0.5, 0.5, "", ""}},
      {"p1-distal-condyle-1", {0.5, 0.5, "", ""}},
      {"p1-distal-condyle-2", {0.5, 0.5, "", ""}},
      {"p1-distal-condyle-3", {0.5, 0.5, "", ""}},
      {"p1-distal-condyle-4", {0.5, 0.5, "", ""}},
      {"p1-distal-condyle-5", {0.5, 0.5, "", ""}},
      {"p1-axis-distal", {0.6, 3, "p1-axis-distal", "p1-axis-proximal"}},
      {"p1-axis-proximal", {0.6, 3, "p1-axis-distal", "p1-axis-proximal"}},
      {"breakover", {1.0, 2.5, "ground-heel", "ground-toe"}},
      {"heel-ground", {1.0, 1.5, "ground-heel", "ground-toe"}},
      {"heel-wall-distal", {1.0, 1.0, "", ""}},
      {"heel-wall-proximal", {1.0, 1.0, "", ""}},
      {"ground-medial", {0.3, 3, "ground-medial", "ground-lateral"}},
      {"ground-lateral", {0.3, 3, "ground-medial", "ground-lateral"}},
      {"dip-p2-medial", {0.15, 1, "dip-p2-medial", "dip-p2-lateral"}},
      {"dip-p2-lateral", {0.15, 1, "dip-p2-medial", "dip-p2-lateral"}},
      {"dip-p3-medial", {0.15, 1, "dip-p3-medial", "dip-p3-lateral"}},
      {"dip-p3-lateral", {0.15, 1, "dip-p3-medial", "dip-p3-lateral"}},
      {"p3-articular-medial", {0.6, 0.6, "", ""}},
      {"p3-articular-lateral", {0.6, 0.6, "", ""}},
      {"p3-distal-border-medial", {1.2, 1.2, "", ""}},
      {"p3-distal-border-lateral", {1.2, 1.2, "", ""}},
      {"p2-axis-distal", {0.6, 2, "p2-axis-distal", "p2-axis-proximal"}},
      {"p2-axis-proximal", {0.6, 2, "p2-axis-distal", "p2-axis-proximal"}},
      {"p2-condyle-mid", {0.7, 0.7, "", ""}},
      {"coronet-medial", {1.0, 1.0, "", ""}},
      {"coronet-lateral", {1.0, 1.0, "", ""}},
      {"wall-proximal-medial", {0.7, 0.7, "", ""}},
      {"wall-proximal-lateral", {0.7, 0.7, "", ""}},
      {"wall-ground-medial", {0.7, 0.7, "", ""}},
      {"wall-ground-lateral", {0.7, 0.7, "", ""}},
  };
  return table;
}

} // namespace feet
