/// Feet for the tests of the plan: made from the numbers that the worked examples state, by
/// arithmetic of their own. Foot frame: heel's bearing point at the origin, toe towards +x, y up.
#pragma once

#include "plan/foot.h"
#include "plan/plan.h"

#include <random>
#include <string>
#include <utility>
#include <vector>

namespace feet {

using pritchel::PlanePoint;

constexpr double degree = 3.14159265358979323846 / 180;

/// Foot F1 of the worked examples, as it stands.
struct SideFoot {
  double span = 128;    ///< S: T is (span, 0)
  double wall_deg = 48; ///< theta
  double heel_deg = 40; ///< eta
  PlanePoint tip{88, 22};
  PlanePoint process{23, 23.5};
  PlanePoint joint{50, 41}; ///< C
  double dorsal_deg = 48.5; ///< of P3
  double p2_deg = 50;
  double p1_deg = 52;
  double sole_y = 4;        ///< level outer sole under the tip
  double palmar_sole_y = 8; ///< outer sole under the process
  double breakover_x = 128;
  double displacement = 5; ///< coronary band above extensor process
  double coronary_heel_y = 45;
  /// A shoe on the picture: thickness under the toe's bearing point, wedge, branches behind H.
  bool shod = false;
  double shoe_mm = 0;
  double worn_wedge_deg = 0;
  double branch_mm = 0;
};

/// Case 11 of the measurements' worked cases, with coronet and walls for the plan.
struct FrontFoot {
  double medial_x = -60;
  double lateral_x = 64;
  double medial_wall_deg = 82;
  double lateral_wall_deg = 78;
  double border_tilt_deg = 2.2906100426; ///< atan(2/50)
  double articular_tilt_deg = 2.2906100426;
  double coronet_tilt_deg = 2;
  double medial_length = 70;
  PlanePoint p2_distal{1, 50};
  PlanePoint p2_proximal{-1, 80};
  double joint_height = 40;  ///< p2-condyle-mid lies on P2's axis
  double border_height = 15; ///< middle of P3's lower border
  double sole_y = 4;
  bool sole_seen = false;
  double medial_space = 2.4;
  double lateral_space = 2.4;
};

/// A limb seen from the front, from behind or sighted down as it hangs, its forearm upright.
struct FrontLimb {
  double pastern_deg = 0; ///< out of the cannon's line, + the pastern and the foot go lateral
  double cannon_deg = 0;  ///< out of the forearm's line, + the cannon goes lateral
  double base = 1;        ///< distance of the feet over that of the points of the shoulders
};

/// A hind limb from the side, its hock over its fetlock.
struct HindLimb {
  double hock_deg = 160;
  double cannon_deg = 0; ///< from upright, + lower end forward
};

using Points = std::vector<std::pair<std::string, PlanePoint>>;
[[nodiscard]] Points points(const SideFoot& foot);
[[nodiscard]] Points points(const FrontFoot& foot);
[[nodiscard]] Points points(const FrontLimb& limb);
[[nodiscard]] Points points(const HindLimb& limb);
/// Photos of the foot: how much steeper the medial wall stands; how much higher the lateral bulb.
[[nodiscard]] Points foot_from_front(double medial_less_lateral_deg);
[[nodiscard]] Points foot_from_behind(double lateral_bulb_higher_mm);
[[nodiscard]] PlanePoint at(const Points& points, const std::string& id);

/// How the film lies in the machine: none of it may change a plan.
struct Film {
  double pixel_width_mm = 0.15;
  double pixel_height_mm = 0.15;
  pritchel::PictureSide toward = pritchel::PictureSide::right;
  pritchel::ScaleOrigin origin = pritchel::ScaleOrigin::marker;
  double turned_deg = 0;
};

[[nodiscard]] pritchel::measure::Reading
reading(const Points& points, pritchel::measure::View view, const Film& picture = {});
[[nodiscard]] pritchel::measure::Reading reading(const SideFoot& foot, const Film& picture = {});
[[nodiscard]] pritchel::measure::Reading reading(const FrontFoot& foot, const Film& picture = {});

/// Spreads that give the standard uncertainties which the sample cases state: palmar angle 0.66,
/// sole depth 0.8, axis 1.4, breakover 2.5, base proportion 0.02.
[[nodiscard]] pritchel::measure::Spreads stated_spreads();

/// The shipped templates, with the spreads above or hardly any.
enum class Doubt { stated, hardly_any };
[[nodiscard]] pritchel::practice::Practice shipped(Doubt doubt = Doubt::stated);

/// "Bay gelding, riding, 9 years, 162 cm": an invented sound horse, six weeks after its trim.
[[nodiscard]] pritchel::record::Case sound_case();

/// The day of all pictures and of the work.
inline const std::string day = "2026-03-16";
inline const std::string last_trim = "2026-02-02"; ///< 42 days before

[[nodiscard]] pritchel::plan::FootReadings side_only(const pritchel::measure::Reading& reading);

/// Of the case's last visit; refers to the case.
[[nodiscard]] pritchel::plan::PlanInput
input_of(const pritchel::record::Case& case_, std::vector<pritchel::plan::FootReadings> readings);

[[nodiscard]] pritchel::plan::Planned plan_of(const pritchel::record::Case& case_,
                                              std::vector<pritchel::plan::FootReadings> readings,
                                              const pritchel::practice::Practice& practice);

[[nodiscard]] const pritchel::plan::Prediction*
find(const std::vector<pritchel::plan::Prediction>& predictions, std::string_view id);
[[nodiscard]] const pritchel::record::ProposalLine* line(const pritchel::record::Plan& plan,
                                                         std::string_view rule);
[[nodiscard]] bool mentions(const std::vector<std::string>& sentences, std::string_view words);

using Random = std::mt19937_64;
[[nodiscard]] double between(Random& random, double low, double high);

} // namespace feet
