#include "phantom/truth_json.h"

#include "phantom/placement.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace pritchel::phantom {

namespace {

using Json = nlohmann::ordered_json;

double rounded(double value, double step) {
  return std::round(value / step) * step;
}

Json place(const Vec3& p) {
  return {p.x, p.y, p.z};
}

const char* side_word(Facing facing) {
  return facing == Facing::left ? "left" : "right";
}

const char* view_word(View view) {
  return view == View::lateromedial ? "lateromedial" : "dorsopalmar";
}

std::string limb_word(const FootParameters& p) {
  return std::string(p.side == Side::left ? "left" : "right") +
         (p.limb == Limb::fore ? "-fore" : "-hind");
}

const char* shoeing_word(const FootParameters& p) {
  return p.shoeing == Shoeing::bare ? "bare" : "shod";
}

const char* unit_word(Unit unit) {
  switch (unit) {
  case Unit::degree:
    return "deg";
  case Unit::millimetre:
    return "mm";
  case Unit::percent:
    return "%";
  case Unit::ratio:
    break;
  }
  return "";
}

Json parameters_json(const FootParameters& p) {
  return {{"limb", limb_word(p)},
          {"shoeing", shoeing_word(p)},
          {"size_ratio", p.size_ratio},
          {"grain", p.grain},
          {"hoof_angle_deg", p.hoof_angle_deg},
          {"palmar_angle_deg", p.palmar_angle_deg},
          {"capsular_divergence_deg", p.capsular_divergence_deg},
          {"p2_slope_deg", p.p2_slope_deg},
          {"p1_slope_deg", p.p1_slope_deg},
          {"heel_angle_deg", p.heel_angle_deg},
          {"coronet_angle_deg", p.coronet_angle_deg},
          {"sole_depth_mm", p.sole_depth_mm},
          {"solar_clearance_mm", p.solar_clearance_mm},
          {"heel_sole_depth_mm", p.heel_sole_depth_mm},
          {"wall_thickness_mm", p.wall_thickness_mm},
          {"coronary_extensor_mm", p.coronary_extensor_mm},
          {"breakover_ahead_mm", p.breakover_ahead_mm},
          {"heel_behind_mm", p.heel_behind_mm},
          {"condyle_radius_mm", p.condyle_radius_mm},
          {"p3_tilt_deg", p.p3_tilt_deg},
          {"p2_lean_deg", p.p2_lean_deg},
          {"joint_space_mm", p.joint_space_mm},
          {"joint_space_ratio", p.joint_space_ratio},
          {"coronet_tilt_deg", p.coronet_tilt_deg},
          {"lateral_wall_deg", p.lateral_wall_deg},
          {"medial_wall_deg", p.medial_wall_deg},
          {"lateral_half_width_mm", p.lateral_half_width_mm},
          {"medial_half_width_mm", p.medial_half_width_mm},
          {"shoe_thickness_mm", p.shoe_thickness_mm},
          {"shoe_web_mm", p.shoe_web_mm},
          {"wedge_deg", p.wedge_deg}};
}

Json shot_json(const Shot& s) {
  Json balls = Json::array();
  for (const Ball& b : s.ball)
    balls.push_back({{"diameter_mm", b.diameter_mm}, {"offset_mm", b.offset_mm}});
  return {{"view", view_word(s.view)},
          {"toward", side_word(s.facing)},
          {"source_to_detector_mm", s.source_to_detector_mm},
          {"plane_to_detector_mm", s.plane_to_detector_mm},
          {"magnification", Camera(s).magnification()},
          {"beam_height_mm", s.beam_height_mm},
          {"beam_along_mm", s.beam_along_mm},
          {"yaw_deg", s.yaw_deg},
          {"roll_deg", s.roll_deg},
          {"detector_spacing_mm", {s.spacing_y_mm, s.spacing_x_mm}},
          {"columns", s.columns},
          {"rows", s.rows},
          {"central_ray_px", {s.centre_column, s.centre_row}},
          {"exposure_ratio", s.exposure_ratio},
          {"focal_spot_mm", s.focal_spot_mm},
          {"motion_mm", s.motion_mm},
          {"photometric", s.polarity == Polarity::monochrome1 ? "MONOCHROME1" : "MONOCHROME2"},
          {"balls", balls},
          {"seed", s.seed}};
}

} // namespace

std::string truth_json(const Foot& foot, const Shot& shot, const std::string& picture) {
  const Truth truth = truth_of(foot, shot);
  Json landmarks = Json::object();
  for (const TrueLandmark& l : truth.landmarks)
    landmarks[l.landmark.id] = {{"foot_mm", place(l.landmark.point)},
                                {"px", {l.pixel.x, l.pixel.y}}};
  Json measurements = Json::object();
  for (const TrueMeasurement& m : truth.measurements)
    measurements[m.id] = {{"value", m.value}, {"unit", unit_word(m.unit)}};
  const Json all{{"format", "pritchel-truth"},
                 {"version", 1},
                 {"picture", picture},
                 {"parameters", parameters_json(foot.parameters)},
                 {"shot", shot_json(shot)},
                 {"mm_per_pixel", {truth.mm_per_pixel_y, truth.mm_per_pixel_x}},
                 {"landmarks", landmarks},
                 {"measurements", measurements}};
  return all.dump(2) + "\n";
}

std::string
reading_json(const Foot& foot, const Shot& shot, const std::string& picture, const Reader& reader) {
  Json landmarks = Json::object();
  for (const PlacedLandmark& l : placed_by_hand(foot, shot, reader.seed))
    if (std::find(reader.left_out.begin(), reader.left_out.end(), l.id) == reader.left_out.end())
      landmarks[l.id] = {rounded(l.pixel.x, 0.25), rounded(l.pixel.y, 0.25)};
  Json calibration{{"kind", "none"}};
  if (!shot.ball.empty())
    calibration = {{"kind", "marker"}, {"length_mm", shot.ball.front().diameter_mm}};
  const Json all{{"format", "pritchel-reading"},
                 {"version", 1},
                 {"picture", picture},
                 {"view", view_word(shot.view)},
                 {"limb", limb_word(foot.parameters)},
                 {"toward", side_word(shot.facing)},
                 {"shoeing", shoeing_word(foot.parameters)},
                 {"loading", "weight-bearing"},
                 {"side_marker",
                  {{"letter", foot.parameters.side == Side::left ? "L" : "R"},
                   {"side", side_word(shot.facing)}}},
                 {"calibration", calibration},
                 {"reader", reader.name},
                 {"made", reader.made},
                 {"landmarks", landmarks}};
  return all.dump(2) + "\n";
}

} // namespace pritchel::phantom
