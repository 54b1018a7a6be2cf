#include "feet.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace feet {

using namespace pritchel;
using namespace pritchel::measure;

namespace {

PlanePoint up(const PlanePoint& p, double slope_deg, double mm) {
  return {p.x - mm * std::cos(slope_deg * degree), p.y + mm * std::sin(slope_deg * degree)};
}

PlanePoint on_circle(const PlanePoint& centre, double radius, double from_below_deg) {
  return {centre.x + radius * std::sin(from_below_deg * degree),
          centre.y - radius * std::cos(from_below_deg * degree)};
}

void put_joint(Points& all, const std::string& bone, const PlanePoint& centre, double radius) {
  const double angles[] = {70, 0, -70};
  for (int i = 0; i < 3; ++i)
    all.emplace_back(bone + "-distal-condyle-" + std::to_string(i + 1),
                     on_circle(centre, radius, angles[i]));
}

/// The shoe's ground surface, the foot's frame staying on its foot surface.
void put_shoe(Points& all, const SideFoot& foot) {
  const double w = foot.worn_wedge_deg * degree;
  const PlanePoint under_toe{foot.span, -foot.shoe_mm};
  const auto on_ground = [&](double ahead) {
    return PlanePoint{under_toe.x + ahead * std::cos(w), under_toe.y + ahead * std::sin(w)};
  };
  // Feet of T and H on the new ground, along it from the point under T.
  const double toe = foot.shoe_mm * std::sin(w);
  const double heel = -foot.span * std::cos(w) + foot.shoe_mm * std::sin(w);
  all.emplace_back("ground-heel", on_ground(-foot.span - 20));
  all.emplace_back("ground-toe", on_ground(22));
  all.emplace_back("breakover", on_ground(toe + foot.breakover_x - foot.span));
  all.emplace_back("shoe-heel-end", on_ground(heel - foot.branch_mm));
  all.emplace_back("foot-plane-heel", PlanePoint{2, 0});
  all.emplace_back("foot-plane-toe", PlanePoint{foot.span - 10, 0});
}

} // namespace

double between(Random& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

Points points(const SideFoot& foot) {
  Points all;
  const PlanePoint toe{foot.span, 0}, heel{0, 0};
  if (foot.shod) {
    put_shoe(all, foot);
  } else {
    all.emplace_back("ground-heel", PlanePoint{-20, 0});
    all.emplace_back("ground-toe", PlanePoint{foot.span + 22, 0});
    all.emplace_back("breakover", PlanePoint{foot.breakover_x, 0});
  }
  all.emplace_back("p3-tip", foot.tip);
  all.emplace_back("p3-palmar-process", foot.process);
  all.emplace_back("p3-dorsal-distal", up(foot.tip, foot.dorsal_deg, 10));
  all.emplace_back("p3-dorsal-proximal", up(foot.tip, foot.dorsal_deg, 45));
  put_joint(all, "p2", foot.joint, 16);
  const PlanePoint pastern = up(foot.joint, foot.p2_deg, 42);
  put_joint(all, "p1", pastern, 14.5);
  all.emplace_back("p1-axis-distal", up(pastern, foot.p1_deg, 12));
  all.emplace_back("p1-axis-proximal", up(pastern, foot.p1_deg, 50));
  all.emplace_back("wall-toe-ground", toe);
  all.emplace_back("wall-dorsal-distal", up(toe, foot.wall_deg, 20));
  all.emplace_back("wall-dorsal-proximal", up(toe, foot.wall_deg, 76));
  const PlanePoint band = up(toe, foot.wall_deg, 88);
  all.emplace_back("coronary-band", band);
  all.emplace_back("extensor-process", PlanePoint{band.x - 14, band.y - foot.displacement});
  all.emplace_back("coronary-band-heel", PlanePoint{-35, foot.coronary_heel_y});
  all.emplace_back("heel-ground", heel);
  all.emplace_back("heel-wall-distal", up(heel, foot.heel_deg, 8));
  all.emplace_back("heel-wall-proximal", up(heel, foot.heel_deg, 34));
  all.emplace_back("sole-a", PlanePoint{foot.tip.x + 5, foot.sole_y});
  all.emplace_back("sole-b", PlanePoint{foot.tip.x - 13, foot.sole_y});
  all.emplace_back("sole-under-palmar", PlanePoint{foot.process.x, foot.palmar_sole_y});
  return all;
}

Points points(const FrontFoot& foot) {
  Points all;
  const auto put = [&](const char* id, const PlanePoint& p) { all.emplace_back(id, p); };
  const auto tilted = [&](const char* stem, double half, double height, double tilt_deg) {
    const double rise = half * std::tan(tilt_deg * degree);
    all.emplace_back(std::string(stem) + "medial", PlanePoint{-half, height - rise});
    all.emplace_back(std::string(stem) + "lateral", PlanePoint{half, height + rise});
  };
  put("ground-medial", {-80, 0});
  put("ground-lateral", {85, 0});
  put("wall-ground-medial", {foot.medial_x, 0});
  put("wall-ground-lateral", {foot.lateral_x, 0});
  const double medial = foot.medial_wall_deg * degree, lateral = foot.lateral_wall_deg * degree;
  put("wall-proximal-medial", {foot.medial_x + 55 * std::cos(medial), 55 * std::sin(medial)});
  put("wall-proximal-lateral", {foot.lateral_x - 55 * std::cos(lateral), 55 * std::sin(lateral)});
  const PlanePoint coronet_medial{foot.medial_x + foot.medial_length * std::cos(medial),
                                  foot.medial_length * std::sin(medial)};
  // The lateral point on its own wall's line, where the coronet's tilt brings it.
  const double c = std::tan(foot.coronet_tilt_deg * degree);
  const double up_wall = (coronet_medial.y + c * (foot.lateral_x - coronet_medial.x)) /
                         (std::sin(lateral) + c * std::cos(lateral));
  put("coronet-medial", coronet_medial);
  put("coronet-lateral",
      {foot.lateral_x - up_wall * std::cos(lateral), up_wall * std::sin(lateral)});
  tilted("p3-distal-border-", 25, foot.border_height, foot.border_tilt_deg);
  tilted("p3-articular-", 24, 33, foot.articular_tilt_deg);
  tilted("dip-p3-", 20, 34, foot.articular_tilt_deg);
  put("dip-p2-medial",
      {-20, 34 - 20 * std::tan(foot.articular_tilt_deg * degree) + foot.medial_space});
  put("dip-p2-lateral",
      {20, 34 + 20 * std::tan(foot.articular_tilt_deg * degree) + foot.lateral_space});
  put("p2-axis-distal", foot.p2_distal);
  put("p2-axis-proximal", foot.p2_proximal);
  const double share =
      (foot.joint_height - foot.p2_distal.y) / (foot.p2_proximal.y - foot.p2_distal.y);
  put("p2-condyle-mid",
      {foot.p2_distal.x + share * (foot.p2_proximal.x - foot.p2_distal.x), foot.joint_height});
  if (foot.sole_seen) {
    put("sole-medial", {-25, foot.sole_y});
    put("sole-lateral", {25, foot.sole_y});
  }
  return all;
}

PlanePoint at(const Points& points, const std::string& id) {
  for (const auto& [each, p] : points)
    if (each == id)
      return p;
  return {std::nan(""), std::nan("")};
}

namespace {

/// From `from` so many mm down, leaning so far towards lateral.
PlanePoint down(const PlanePoint& from, double lateral_deg, double mm) {
  return {from.x + mm * std::sin(lateral_deg * degree),
          from.y - mm * std::cos(lateral_deg * degree)};
}

Points with_plumb() {
  return {{"plumb-top", {200, 700}}, {"plumb-bottom", {200, 0}}};
}

} // namespace

Points points(const FrontLimb& limb) {
  auto all = with_plumb();
  const auto put = [&](const char* id, const PlanePoint& p) { all.emplace_back(id, p); };
  const PlanePoint carpus{0, 400};
  const double below = limb.cannon_deg + limb.pastern_deg;
  const auto fetlock = down(carpus, limb.cannon_deg, 240);
  const auto toe = down(fetlock, below, 130);
  put("elbow-mid", down(carpus, 0, -350));
  put("radius-mid-proximal", down(carpus, 0, -300));
  put("carpus-mid", carpus);
  put("cannon-mid-proximal", down(carpus, limb.cannon_deg, 40));
  put("cannon-mid-distal", down(carpus, limb.cannon_deg, 200));
  put("fetlock-mid", fetlock);
  put("pastern-mid", down(fetlock, below, 60));
  put("bulb-mid", down(fetlock, below, 100));
  put("foot-mid", down(fetlock, below, 110));
  put("toe-mid", toe);
  put("other-toe-mid", {toe.x - 400 * limb.base, toe.y});
  put("point-of-shoulder", {0, 1000});
  put("other-point-of-shoulder", {-400, 1000});
  return all;
}

Points points(const HindLimb& limb) {
  auto all = with_plumb();
  const PlanePoint hock{0, 500};
  all.emplace_back("hock-lateral", hock);
  all.emplace_back("stifle-lateral", down(hock, limb.hock_deg, 400));
  all.emplace_back("fetlock-lateral", down(hock, 0, 400));
  all.emplace_back("mt3-proximal-lateral", down(hock, 0, 60));
  all.emplace_back("mt3-distal-lateral", down({0, 440}, limb.cannon_deg, 260));
  return all;
}

Points foot_from_front(double medial_less_lateral_deg) {
  auto all = with_plumb();
  const double medial_deg = 80, lateral_deg = medial_deg - medial_less_lateral_deg;
  all.emplace_back("wall-ground-medial", PlanePoint{-60, 0});
  all.emplace_back("wall-ground-lateral", PlanePoint{60, 0});
  all.emplace_back("wall-mid-medial", up({-60, 0}, 180 - medial_deg, 40));
  all.emplace_back("wall-mid-lateral", up({60, 0}, lateral_deg, 40));
  return all;
}

Points foot_from_behind(double lateral_bulb_higher_mm) {
  auto all = with_plumb();
  all.emplace_back("bulb-proximal-medial", PlanePoint{-25, 50});
  all.emplace_back("bulb-proximal-lateral", PlanePoint{25, 50 + lateral_bulb_higher_mm});
  return all;
}

Reading reading(const Points& points, View view, const Film& picture) {
  Reading result{.view = view, .toward = picture.toward, .loading = Loading::weight_bearing};
  const bool shod = std::any_of(points.begin(), points.end(), [](const auto& each) {
    return each.first == "foot-plane-toe";
  });
  result.shoeing = shod ? Shoeing::shod : Shoeing::bare;
  result.calibration = {.origin = picture.origin,
                        .pixel_width_mm = picture.pixel_width_mm,
                        .pixel_height_mm = picture.pixel_height_mm};
  const double c = std::cos(picture.turned_deg * degree), s = std::sin(picture.turned_deg * degree);
  const double sign = picture.toward == PictureSide::right ? 1 : -1;
  for (const auto& [id, p] : points) {
    const double x = p.x * c - p.y * s, y = p.x * s + p.y * c;
    result.landmarks.push_back(
        {.id = id,
         .at = {900 + sign * x / picture.pixel_width_mm, 1300 - y / picture.pixel_height_mm}});
  }
  return result;
}

Reading reading(const SideFoot& foot, const Film& picture) {
  return reading(points(foot), View::lateromedial, picture);
}
Reading reading(const FrontFoot& foot, const Film& picture) {
  return reading(points(foot), View::dorsopalmar, picture);
}

Spreads stated_spreads() {
  const std::string process = "p3-palmar-process", tip = "p3-tip";
  const std::string distal = "p3-dorsal-distal", proximal = "p3-dorsal-proximal";
  Spreads all;
  for (const char* id : {"ground-heel", "ground-toe", "ground-medial", "ground-lateral"})
    all[id] = {0.1, 0.1, {}, {}};
  all[tip] = {0.5, 0.5, {}, {}};
  all[process] = {0.55, 2.5, process, tip};
  all[distal] = all[proximal] = {0.4, 3, distal, proximal};
  all["p1-axis-distal"] = all["p1-axis-proximal"] = {0.49, 0.49, {}, {}};
  // With the tip's 0.5 mm and its place between the two: sqrt(0.25 + 0.5988 * 0.651) = 0.8.
  all["sole-a"] = all["sole-b"] = {0.80702, 0.80702, {}, {}};
  for (const char* id : {"foot-plane-heel", "foot-plane-toe", "shoe-heel-end"})
    all[id] = {0.7, 0.7, {}, {}};
  all["sole-under-palmar"] = {1.0, 1.0, {}, {}};
  all["breakover"] = {0.5, 2.45, "ground-heel", "ground-toe"};
  all["heel-ground"] = {0.5, 3.9, "ground-heel", "ground-toe"};
  for (const char* bone : {"p2", "p1"})
    for (const char* i : {"1", "2", "3"})
      all[std::string(bone) + "-distal-condyle-" + i] = {0.5, 0.5, {}, {}};
  for (const char* id : {"coronary-band", "extensor-process"})
    all[id] = {0.7, 0.7, {}, {}};
  for (const char* id : {"wall-dorsal-distal", "wall-dorsal-proximal", "wall-toe-ground"})
    all[id] = {0.5, 0.5, {}, {}};
  for (const char* id : {"heel-wall-distal", "heel-wall-proximal"})
    all[id] = {1, 1, {}, {}};
  for (const char* side : {"medial", "lateral"}) {
    const std::string s = side;
    all["dip-p2-" + s] = all["dip-p3-" + s] = {0.1, 0.1, {}, {}};
    all["p3-articular-" + s] = {0.25, 0.25, {}, {}};
    all["p3-distal-border-" + s] = {0.5, 0.5, {}, {}};
    all["coronet-" + s] = {0.5, 0.5, {}, {}};
    all["wall-proximal-" + s] = all["wall-ground-" + s] = {0.5, 0.5, {}, {}};
  }
  all["p2-axis-distal"] = all["p2-axis-proximal"] = all["p2-condyle-mid"] = {0.5, 0.5, {}, {}};
  return all;
}

practice::Practice shipped(Doubt doubt) {
  auto loaded = practice::load_practice(std::string(PRITCHEL_SOURCE_DIR) + "/templates");
  if (!loaded) {
    std::fprintf(stderr, "%s\n", loaded.error().sentence().c_str());
    std::abort();
  }
  const auto stated = stated_spreads();
  for (auto& protocol : loaded->protocols)
    for (auto& landmark : protocol.landmarks)
      if (doubt == Doubt::hardly_any)
        landmark.spread.across_mm = landmark.spread.along_mm = 1e-6;
      else if (const auto known = stated.find(landmark.id); known != stated.end())
        landmark.spread = known->second;
  return std::move(*loaded);
}

record::Case sound_case() {
  record::Case c;
  c.id = "bay-gelding";
  c.horse = {.name = "Bay gelding",
             .species = record::Species::horse,
             .work = "riding",
             .age_years = 9,
             .height_cm = 162,
             .weight_kg = 540};
  c.history.laminitis = record::Laminitis::no;
  record::Visit visit;
  visit.id = "visit-1";
  visit.date = day;
  visit.last_trim = last_trim;
  c.visits.push_back(visit);
  return c;
}

plan::FootReadings side_only(const Reading& reading) {
  plan::FootReadings readings{.limb = reading.limb};
  readings.lateromedial = plan::DatedReading{.reading = reading, .taken = day};
  return readings;
}

plan::PlanInput input_of(const record::Case& case_, std::vector<plan::FootReadings> readings) {
  return {.case_ = case_,
          .visit = case_.visits.back(),
          .feet = std::move(readings),
          .made = day + "T10:00:00Z",
          .made_by = "test"};
}

plan::Planned plan_of(const record::Case& case_,
                      std::vector<plan::FootReadings> readings,
                      const practice::Practice& practice) {
  return plan::make_plan(input_of(case_, std::move(readings)), practice);
}

const plan::Prediction* find(const std::vector<plan::Prediction>& predictions,
                             std::string_view id) {
  for (const auto& each : predictions)
    if (each.definition->id == id)
      return &each;
  return nullptr;
}

const record::ProposalLine* line(const record::Plan& plan, std::string_view rule) {
  for (const auto& each : plan.lines)
    if (each.rule == rule)
      return &each;
  return nullptr;
}

bool mentions(const std::vector<std::string>& sentences, std::string_view words) {
  return std::any_of(sentences.begin(), sentences.end(), [&](const auto& each) {
    return each.find(words) != std::string::npos;
  });
}

} // namespace feet
