#include "phantom/sample_case.h"

#include "phantom/truth_json.h"

#include <fmt/format.h>

#include <fstream>
#include <iterator>

namespace pritchel::phantom {

namespace {

FootParameters left_fore_before() {
  FootParameters p{.side = Side::left};
  p.size_ratio = 1.03;
  p.grain = 217;
  p.palmar_angle_deg = 0.4;
  p.hoof_angle_deg = 48.4;
  p.capsular_divergence_deg = 0.7;
  p.p2_slope_deg = 52.6;
  p.p1_slope_deg = 54.8;
  p.heel_angle_deg = 39;
  p.coronet_angle_deg = 24;
  p.sole_depth_mm = 20.5;
  p.solar_clearance_mm = 5.5;
  p.heel_sole_depth_mm = 18;
  p.wall_thickness_mm = 17.1;
  p.coronary_extensor_mm = 6.2;
  p.breakover_ahead_mm = 37;
  p.heel_behind_mm = 49;
  p.p3_tilt_deg = 1.3;
  p.p2_lean_deg = -1.2;
  p.joint_space_mm = 2.3;
  p.joint_space_ratio = 0.82;
  p.coronet_tilt_deg = 1.1;
  p.lateral_wall_deg = 76;
  p.medial_wall_deg = 81;
  return p;
}

FootParameters left_fore_after() {
  FootParameters p = left_fore_before();
  p.palmar_angle_deg = 4.4;
  p.hoof_angle_deg = 52.4;
  p.capsular_divergence_deg = 0.5;
  p.p2_slope_deg = 53.6;
  p.p1_slope_deg = 54.4;
  p.heel_angle_deg = 45;
  p.coronet_angle_deg = 21;
  p.sole_depth_mm = 20.0;
  p.solar_clearance_mm = 4.5;
  p.heel_sole_depth_mm = 18;
  p.wall_thickness_mm = 16.9;
  p.coronary_extensor_mm = 5.4;
  p.breakover_ahead_mm = 20;
  p.heel_behind_mm = 54;
  p.p3_tilt_deg = 0.3;
  p.p2_lean_deg = -0.4;
  p.joint_space_ratio = 0.96;
  p.coronet_tilt_deg = 0.5;
  p.lateral_wall_deg = 78;
  p.shoeing = Shoeing::shod;
  p.shoe_thickness_mm = 9.5;
  p.wedge_deg = 2;
  return p;
}

FootParameters right_fore_before() {
  FootParameters p{.side = Side::right};
  p.size_ratio = 1.03;
  p.grain = 218;
  p.palmar_angle_deg = 3.8;
  p.hoof_angle_deg = 51.5;
  p.capsular_divergence_deg = 0.9;
  p.p2_slope_deg = 53.2;
  p.p1_slope_deg = 54.1;
  p.heel_angle_deg = 44;
  p.sole_depth_mm = 19.5;
  p.wall_thickness_mm = 16.6;
  p.coronary_extensor_mm = 5.1;
  p.breakover_ahead_mm = 23;
  p.heel_behind_mm = 52;
  p.p3_tilt_deg = -0.5;
  p.p2_lean_deg = 0.4;
  p.joint_space_ratio = 1.04;
  p.coronet_tilt_deg = -0.4;
  p.lateral_wall_deg = 78;
  p.medial_wall_deg = 80;
  return p;
}

FootParameters right_fore_after() {
  FootParameters p = right_fore_before();
  p.palmar_angle_deg = 5.1;
  p.hoof_angle_deg = 53.0;
  p.capsular_divergence_deg = 0.7;
  p.p2_slope_deg = 53.8;
  p.heel_angle_deg = 47;
  p.sole_depth_mm = 20.0;
  p.solar_clearance_mm = 3.4;
  p.breakover_ahead_mm = 18;
  p.heel_behind_mm = 54;
  p.p3_tilt_deg = -0.3;
  p.p2_lean_deg = 0.2;
  p.shoeing = Shoeing::shod;
  p.shoe_thickness_mm = 9.5;
  return p;
}

struct Visit {
  const char* date;      ///< as in file names
  const char* date_code; ///< as in DICOM
  std::uint64_t study;
};

/// Nobody holds the plate quite square or twice at the same distance.
Shot taken(const Foot& foot, View view, std::uint64_t seed) {
  const bool toe_or_lateral_right = view == View::dorsopalmar && foot.parameters.side == Side::left;
  Shot shot = framed_shot(foot, view, toe_or_lateral_right ? Facing::right : Facing::left);
  const double swing = static_cast<double>(seed % 5) - 2;
  shot.yaw_deg = 0.35 * swing;
  shot.roll_deg = 0.2 * (static_cast<double>(seed % 3) - 1);
  shot.exposure_ratio = 1 + 0.06 * swing;
  shot.seed = seed;
  return shot;
}

Result<void> save_text(const std::filesystem::path& path, const std::string& text) {
  std::ofstream out(path, std::ios::binary);
  out << text;
  out.close();
  if (!out)
    return fail(
        path.string(), "could not be written", "check the folder and the disk", Trouble::outside);
  return {};
}

} // namespace

std::vector<SamplePicture> sample_case() {
  constexpr Visit visits[] = {{"2026-03-02", "20260302", 2170}, {"2026-04-13", "20260413", 2171}};
  const FootParameters feet[2][2] = {{left_fore_before(), right_fore_before()},
                                     {left_fore_after(), right_fore_after()}};
  std::vector<SamplePicture> all;
  std::uint64_t seed = 4100;
  for (std::size_t v = 0; v < std::size(visits); ++v) {
    int number = 0;
    for (const FootParameters& parameters : feet[v])
      for (const View view : {View::lateromedial, View::dorsopalmar}) {
        const Foot foot = make_foot(parameters);
        const char* side = parameters.side == Side::left ? "left" : "right";
        const char* word = view == View::lateromedial ? "lateromedial" : "dorsopalmar";
        ++number;
        all.push_back({fmt::format("{}-{}-fore-{}", visits[v].date, side, word),
                       parameters,
                       taken(foot, view, seed++),
                       Occasion{.date = visits[v].date_code,
                                .time = fmt::format("0{}{:02}00", 9, 30 + 4 * number),
                                .study = visits[v].study,
                                .number = number}});
      }
  }
  return all;
}

namespace {

Result<void> write_texts(const std::filesystem::path& folder, const SamplePicture& picture) {
  const Foot foot = make_foot(picture.foot);
  const std::string file = picture.name + ".dcm";
  PRITCHEL_CHECK(
      save_text(folder / (picture.name + ".truth.json"), truth_json(foot, picture.shot, file)));
  const std::string& d = picture.occasion.date;
  // Of the shod feet's side views the block's edges aren't placed: see the folder's README.
  const bool edges =
      picture.shot.view != View::lateromedial || picture.foot.shoeing == Shoeing::bare;
  const Reader reader{.name = "Ada Example",
                      .made = fmt::format("{}-{}-{}T14:{:02}:00Z",
                                          d.substr(0, 4),
                                          d.substr(4, 2),
                                          d.substr(6, 2),
                                          5 * picture.occasion.number),
                      .seed = picture.shot.seed ^ 0xADAULL,
                      .left_out =
                          edges ? std::vector<std::string>{}
                                : std::vector<std::string>{"block-edge-near", "block-edge-far"}};
  return save_text(folder / (picture.name + ".reading.json"),
                   reading_json(foot, picture.shot, file, reader));
}

} // namespace

Result<void> write_picture(const std::filesystem::path& folder,
                           const SamplePicture& picture,
                           Quality quality,
                           const DicomOptions& options) {
  const Foot foot = make_foot(picture.foot);
  const std::string file = picture.name + ".dcm";
  const Film film = make_film(foot, picture.shot, quality);
  PRITCHEL_CHECK(
      write_dicom(folder / file, film, foot, picture.shot, Horse{}, picture.occasion, options));
  return write_texts(folder, picture);
}

Result<void> write_sample_case(const std::filesystem::path& folder,
                               Pictures pictures,
                               Quality quality,
                               const std::function<void(const std::string&)>& tell) {
  std::error_code trouble;
  std::filesystem::create_directories(folder, trouble);
  if (trouble)
    return fail(folder.string(), "could not be made", "choose another folder", Trouble::outside);
  for (const SamplePicture& picture : sample_case()) {
    tell(picture.name);
    if (pictures == Pictures::left_alone)
      PRITCHEL_CHECK(write_texts(folder, picture));
    else
      PRITCHEL_CHECK(write_picture(folder, picture, quality, {}));
  }
  return {};
}

} // namespace pritchel::phantom
