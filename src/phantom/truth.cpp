#include "phantom/truth.h"

#include <algorithm>
#include <cmath>

namespace pritchel::phantom {

namespace {

/// A point of the plane of interest: x towards the toe or lateral, y up.
struct Flat {
  double x = 0;
  double y = 0;
};

Flat operator-(const Flat& a, const Flat& b) {
  return {a.x - b.x, a.y - b.y};
}

double degrees(double y, double x) {
  return std::atan2(y, x) / radians_per_degree;
}

double wrapped(double angle) {
  while (angle > 180)
    angle -= 360;
  while (angle <= -180)
    angle += 360;
  return angle;
}

/// Slope of a surface or axis from its distal to its proximal point, open to the palmar side.
double slope(const Flat& distal, const Flat& proximal) {
  return degrees(proximal.y - distal.y, distal.x - proximal.x);
}

double distance(const Flat& a, const Flat& b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// Height of p over the line a-b, square to it; + on the left of a to b.
double square_off(const Flat& p, const Flat& a, const Flat& b) {
  const Flat d = b - a;
  const Flat e = p - a;
  return (d.x * e.y - d.y * e.x) / std::hypot(d.x, d.y);
}

/// Where the line through p along direction d meets the line a-b: multiples of d.
double along_to(const Flat& p, const Flat& d, const Flat& a, const Flat& b) {
  const Flat w = b - a;
  const Flat v = a - p;
  return (v.x * w.y - v.y * w.x) / (d.x * w.y - d.y * w.x);
}

double height_on(double x, const Flat& a, const Flat& b) {
  return a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
}

class Points {
public:
  Points(const std::vector<Landmark>& all, View view)
      : all_(all),
        view_(view) {}

  [[nodiscard]] bool has(const std::string& id) const { return find(id) != all_.end(); }
  [[nodiscard]] Flat operator[](const std::string& id) const {
    const auto it = find(id);
    const Vec3 p = it == all_.end() ? Vec3{std::nan(""), std::nan(""), std::nan("")} : it->point;
    return view_ == View::lateromedial ? Flat{p.x, p.y} : Flat{p.z, p.y};
  }

private:
  [[nodiscard]] std::vector<Landmark>::const_iterator find(const std::string& id) const {
    return std::find_if(all_.begin(), all_.end(), [&](const Landmark& l) { return l.id == id; });
  }
  const std::vector<Landmark>& all_;
  View view_;
};

using Measurements = std::vector<TrueMeasurement>;

void add_bone_angles(const Points& at, Measurements& m) {
  const Flat tip = at["p3-tip"];
  const Flat process = at["p3-palmar-process"];
  const double palmar = degrees(process.y - tip.y, tip.x - process.x);
  const double p3 = slope(at["p3-dorsal-distal"], at["p3-dorsal-proximal"]);
  const double p2 = slope(at["dip-centre-of-rotation"], at["pip-centre-of-rotation"]);
  const double p1 = slope(at["p1-axis-distal"], at["p1-axis-proximal"]);
  const double hoof = slope(at["wall-dorsal-distal"], at["wall-dorsal-proximal"]);
  const double heel = slope(at["heel-wall-distal"], at["heel-wall-proximal"]);
  m.push_back({"palmar-angle", palmar});
  m.push_back({"p3-dorsal-angle", p3});
  m.push_back({"p3-bone-angle", wrapped(p3 - palmar)});
  m.push_back({"hoof-angle", hoof});
  m.push_back({"capsular-rotation", wrapped(p3 - hoof)});
  m.push_back({"p1-angle", p1});
  m.push_back({"p2-angle", p2});
  m.push_back({"pip-deviation", wrapped(p2 - p1)});
  m.push_back({"dip-deviation", wrapped(p3 - p2)});
  m.push_back({"hpa-deviation", wrapped(p3 - p1)});
  m.push_back({"dip-joint-angle", 180 - wrapped(p3 - p2)});
  m.push_back({"heel-angle", heel});
  m.push_back({"toe-heel-difference", wrapped(hoof - heel)});
  const Flat band = at["coronary-band"];
  const Flat band_heel = at["coronary-band-heel"];
  m.push_back({"coronet-angle", degrees(band.y - band_heel.y, band.x - band_heel.x)});
  const Flat wall_mid = at["wall-dorsal-mid"];
  const double upper = slope(wall_mid, at["wall-dorsal-proximal"]);
  m.push_back({"hoof-angle-proximal", upper});
  m.push_back({"capsular-rotation-proximal", wrapped(p3 - upper)});
  if (at.has("foot-plane-heel")) {
    const Flat plane = at["foot-plane-toe"] - at["foot-plane-heel"];
    m.push_back({"palmar-angle-foot", palmar + degrees(plane.y, plane.x)});
  } else {
    m.push_back({"palmar-angle-foot", palmar});
  }
}

void add_depths(const Points& at, Measurements& m) {
  const Flat tip = at["p3-tip"];
  const Flat a = at["sole-a"];
  const Flat b = at["sole-b"];
  const auto mm = [&](const char* id, double value) { m.push_back({id, value, Unit::millimetre}); };
  mm("sole-depth-tip", square_off(tip, b, a));
  mm("sole-depth-tip-vertical", tip.y - height_on(tip.x, b, a));
  mm("sole-depth-palmar", at["p3-palmar-process"].y - at["sole-under-palmar"].y);
  mm("tip-ground-height", tip.y);
  const Flat low = at["p3-dorsal-distal"];
  const Flat high = at["p3-dorsal-proximal"];
  const double span = distance(low, high);
  const Flat normal{(high.y - low.y) / span, (low.x - high.x) / span};
  const Flat middle{0.5 * (low.x + high.x), 0.5 * (low.y + high.y)};
  const auto thickness = [&](const Flat& p) {
    return along_to(p, normal, at["wall-dorsal-proximal"], at["wall-dorsal-distal"]);
  };
  mm("wall-thickness-proximal", thickness(high));
  mm("wall-thickness-mid", thickness(middle));
  mm("wall-thickness-distal", thickness(low));
  mm("coronary-extensor-distance", at["coronary-band"].y - at["extensor-process"].y);
  mm("toe-length", distance(at["coronary-band"], at["wall-toe-ground"]));
}

void add_base(const Points& at, Measurements& m) {
  const double toe = at["breakover"].x;
  const double heel = at[at.has("shoe-heel-end") ? "shoe-heel-end" : "heel-ground"].x;
  const Flat cor = at["dip-centre-of-rotation"];
  m.push_back({"cor-toe", toe - cor.x, Unit::millimetre});
  m.push_back({"cor-heel", cor.x - heel, Unit::millimetre});
  m.push_back({"support-length", toe - heel, Unit::millimetre});
  m.push_back({"base-proportion", (toe - cor.x) / (toe - heel), Unit::ratio});
  m.push_back({"toe-excess", toe + heel - 2 * cor.x, Unit::millimetre});
  m.push_back({"breakover-distance", toe - at["p3-tip"].x, Unit::millimetre});
  m.push_back({"dip-height", cor.y, Unit::millimetre});
  const Flat band = at["coronary-band"];
  const Flat band_heel = at["coronary-band-heel"];
  m.push_back({"heel-height", band_heel.y, Unit::millimetre});
  m.push_back({"heel-toe-height-ratio", band_heel.y / band.y, Unit::ratio});
  m.push_back({"toe-heel-length-ratio",
               distance(band, at["wall-toe-ground"]) / distance(band_heel, at["heel-ground"]),
               Unit::ratio});
}

void add_joint_space(const Points& at, Measurements& m) {
  const Flat medial = at["dip-p3-medial"];
  const Flat lateral = at["dip-p3-lateral"];
  const double wide = square_off(at["dip-p2-lateral"], medial, lateral);
  const double narrow = square_off(at["dip-p2-medial"], medial, lateral);
  m.push_back({"dip-space-lateral", wide, Unit::millimetre});
  m.push_back({"dip-space-medial", narrow, Unit::millimetre});
  m.push_back({"dip-space-ratio", wide / narrow, Unit::ratio});
  m.push_back({"dip-symmetry-index", 200 * (wide - narrow) / (wide + narrow), Unit::percent});
  const Flat p2_medial = at["dip-p2-medial"];
  const Flat p2_lateral = at["dip-p2-lateral"];
  m.push_back({"dip-line-angle",
               degrees(lateral.y + p2_lateral.y - medial.y - p2_medial.y,
                       lateral.x + p2_lateral.x - medial.x - p2_medial.x)});
}

void add_tilts(const Points& at, Measurements& m) {
  const auto tilt = [&](const std::string& id) {
    const Flat d = at[id + "-lateral"] - at[id + "-medial"];
    return degrees(d.y, d.x);
  };
  const Flat axis = at["p2-axis-proximal"] - at["p2-axis-distal"];
  const double lean = degrees(axis.x, axis.y);
  const double articular = tilt("p3-articular");
  m.push_back({"p3-ml-tilt", tilt("p3-distal-border")});
  m.push_back({"p3-ml-tilt-articular", articular});
  m.push_back({"p2-axis-ml-angle", lean});
  m.push_back({"dip-ml-deviation", -(lean + articular)});
  m.push_back({"coronet-ml-tilt", tilt("coronet")});
}

void add_frontal_walls(const Points& at, Measurements& m) {
  const auto length_of = [&](const std::string& side) {
    return distance(at["coronet-" + side], at["wall-ground-" + side]);
  };
  const double lateral = length_of("lateral");
  const double medial = length_of("medial");
  m.push_back({"wall-length-lateral", lateral, Unit::millimetre});
  m.push_back({"wall-length-medial", medial, Unit::millimetre});
  m.push_back({"wall-length-difference", lateral - medial, Unit::millimetre});
  const Flat up_lateral = at["wall-proximal-lateral"] - at["wall-ground-lateral"];
  const Flat up_medial = at["wall-proximal-medial"] - at["wall-ground-medial"];
  m.push_back({"wall-angle-lateral", degrees(up_lateral.y, -up_lateral.x)});
  m.push_back({"wall-angle-medial", degrees(up_medial.y, up_medial.x)});
  const double centre = 0.5 * (at["wall-ground-lateral"].x + at["wall-ground-medial"].x);
  const Flat low = at["p2-axis-distal"];
  const Flat high = at["p2-axis-proximal"];
  const double on_ground = low.x - low.y * (high.x - low.x) / (high.y - low.y);
  m.push_back({"foot-axis-offset", on_ground - centre, Unit::millimetre});
  m.push_back({"foot-centre-offset", at["p2-condyle-mid"].x - centre, Unit::millimetre});
}

/// Ends of the ball's diameter that the picture shows free of the beam's slant: square to the line
/// from the central ray, in the ball's own plane.
void add_marker(const Foot& foot, const Shot& shot, std::vector<Landmark>& all) {
  const Camera camera{shot};
  for (const Ball& ball : shot.ball) {
    const Vec3 centre = ball_centre(foot, shot, ball);
    const Pixel shown = camera.project(centre);
    const double u = (shown.x - shot.centre_column) * shot.spacing_x_mm;
    const double v = -(shown.y - shot.centre_row) * shot.spacing_y_mm;
    const double from_centre = std::max(std::hypot(u, v), 1e-9);
    const Vec3 across = (-v / from_centre) * camera.right() + (u / from_centre) * camera.up();
    const Vec3 half = 0.5 * ball.diameter_mm * across;
    all.push_back({"marker-1", centre - half, {centre - half}, "ball"});
    all.push_back({"marker-2", centre + half, {centre + half}, "ball"});
  }
}

} // namespace

std::vector<Landmark> landmarks_of(const Foot& foot, const Shot& shot) {
  std::vector<Landmark> all =
      shot.view == View::lateromedial ? lateromedial_landmarks(foot) : dorsopalmar_landmarks(foot);
  add_marker(foot, shot, all);
  const std::vector<Landmark> checks = shot.view == View::lateromedial
                                           ? lateromedial_check_landmarks(foot)
                                           : dorsopalmar_check_landmarks(foot);
  all.insert(all.end(), checks.begin(), checks.end());
  return all;
}

std::vector<TrueMeasurement> lateromedial_measurements(const std::vector<Landmark>& landmarks) {
  const Points at{landmarks, View::lateromedial};
  Measurements m;
  add_bone_angles(at, m);
  add_depths(at, m);
  add_base(at, m);
  return m;
}

std::vector<TrueMeasurement> dorsopalmar_measurements(const std::vector<Landmark>& landmarks) {
  const Points at{landmarks, View::dorsopalmar};
  Measurements m;
  add_joint_space(at, m);
  add_tilts(at, m);
  add_frontal_walls(at, m);
  return m;
}

Truth truth_of(const Foot& foot, const Shot& shot) {
  const Camera camera{shot};
  Truth truth;
  const std::vector<Landmark> all = landmarks_of(foot, shot);
  for (const Landmark& l : all)
    truth.landmarks.push_back({l, camera.project(l.point)});
  truth.measurements = shot.view == View::lateromedial ? lateromedial_measurements(all)
                                                       : dorsopalmar_measurements(all);
  truth.mm_per_pixel_x = shot.spacing_x_mm / camera.magnification();
  truth.mm_per_pixel_y = shot.spacing_y_mm / camera.magnification();
  return truth;
}

Truth truth_as_read(const Foot& foot, const Shot& shot, Follows follows) {
  const Camera camera{shot};
  Truth truth = truth_of(foot, shot);
  for (TrueLandmark& l : truth.landmarks)
    l.pixel = shown(l.landmark, camera, follows);
  return truth;
}

} // namespace pritchel::phantom
