/// The plan's prediction on one picture, against the digital foot cut by a plane in space, shod,
/// stood on its new ground and taken again with the same camera. Above both floors.
#include "measure/measure.h"
#include "phantom/reshape.h"
#include "phantom/truth.h"
#include "plan/growth.h"
#include "plan/plan.h"
#include "plan/shares.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <random>
#include <string>

using namespace pritchel;

namespace {

constexpr std::uint64_t feet = 400;
/// What the project promises.
constexpr double largest_angle_deg = 0.3, largest_length_mm = 0.3;
/// 0.3 mm of a heel's wall of 30 mm, twice as long at the toe.
constexpr double largest_ratio = 0.02;

struct Draws {
  std::mt19937_64 random;
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(random);
  }
  bool one_in(int n) { return std::uniform_int_distribution<int>(1, n)(random) == 1; }
};

struct Case {
  phantom::Foot foot;
  phantom::Reshaping reshaping;
  record::FootChange change;
};

/// Within the limits of a visit: turn by the trim -1 to 2 degrees, with the shoe -1 to 3; tilt 1
/// degree in all.
Case drawn(std::uint64_t seed) {
  Draws draw{std::mt19937_64(seed)};
  const auto limb = seed % 2 == 0 ? phantom::Limb::fore : phantom::Limb::hind;
  const auto side = seed / 2 % 2 == 0 ? phantom::Side::left : phantom::Side::right;
  Case result;
  result.foot = phantom::make_foot(phantom::random_foot(seed, limb, side));
  auto& r = result.reshaping;
  const phantom::Reshaped as_is(result.foot, {});
  const double span = result.foot.wall_toe_ground.x - result.foot.heel_ground.x;
  double heel = draw.one_in(2) ? 0 : draw.between(0, 3), cut_deg = 0, tilt_deg = 0;
  if (!draw.one_in(5))
    cut_deg = draw.between(-1, 2);
  double toe = heel + span * std::tan(cut_deg * phantom::radians_per_degree);
  if (toe < 0) {
    heel -= toe;
    toe = 0;
  }
  const double half = result.foot.half_width(result.foot.bearing(0), 1);
  if (draw.one_in(2)) {
    tilt_deg = draw.between(-1, 1);
    r.trim_slope = std::tan(-tilt_deg * phantom::radians_per_degree);
    const double middle = heel + (toe - heel) * -result.foot.heel_ground.x / span;
    const double more = std::max(0.0, 1.05 * std::abs(r.trim_slope) * half - middle);
    heel += more;
    toe += more;
  }
  r.trim_toe_mm = toe;
  r.trim_heel_mm = heel;
  if (!draw.one_in(3)) {
    r.thicker_mm = draw.between(-2, 8);
    r.wedge_deg = draw.between(std::max(-1.0, -1 - cut_deg), 3 - cut_deg);
    r.breakover_back_mm = draw.between(0, 8);
    r.branch_longer_mm = draw.between(0, 10);
    r.side_wedge_deg = draw.one_in(3) ? draw.between(0, 1 - std::max(0.0, tilt_deg)) : 0;
    if (result.foot.parameters.shoeing == phantom::Shoeing::bare)
      r.thicker_mm = std::abs(r.thicker_mm) + 6;
  }
  if (draw.one_in(3))
    r.dress_toe_mm = draw.between(0, 2);
  if (draw.one_in(3)) {
    r.dress_medial_mm = draw.between(0, 2);
    r.dress_lateral_mm = draw.between(0, 2);
  }
  r.p2_share = plan::standing_shares.coffin;
  r.p1_share = plan::standing_shares.coffin + plan::standing_shares.pastern;
  const phantom::Reshaped made(result.foot, r);
  const auto at_quarter = [&](double sign) { return made.cut(as_is.quarter(sign)); };
  const double pad = std::min(2.0, std::max(0.0, r.thicker_mm));
  result.change = {.trim_toe_mm = toe,
                   .trim_heel_mm = heel,
                   .dress_toe_mm = r.dress_toe_mm,
                   .trim_medial_mm = at_quarter(-1),
                   .trim_lateral_mm = at_quarter(1),
                   .shoe_thickness_mm = r.thicker_mm - pad,
                   .wedge_deg = r.wedge_deg,
                   .breakover_back_mm = r.breakover_back_mm,
                   .branch_longer_mm = r.branch_longer_mm,
                   .dress_medial_mm = r.dress_medial_mm,
                   .dress_lateral_mm = r.dress_lateral_mm,
                   .pad_mm = pad,
                   .ml_wedge_deg = r.side_wedge_deg};
  return result;
}

measure::Reading reading(const std::vector<phantom::Landmark>& landmarks,
                         const phantom::Foot& foot,
                         const phantom::Shot& shot) {
  const phantom::Camera camera(shot);
  const bool hind = foot.parameters.limb == phantom::Limb::hind;
  const bool left = foot.parameters.side == phantom::Side::left;
  measure::Reading result;
  result.view = shot.view == phantom::View::lateromedial ? measure::View::lateromedial
                                                         : measure::View::dorsopalmar;
  result.limb = hind ? (left ? measure::Limb::left_hind : measure::Limb::right_hind)
                     : (left ? measure::Limb::left_fore : measure::Limb::right_fore);
  result.toward = shot.facing == phantom::Facing::left ? PictureSide::left : PictureSide::right;
  result.calibration = {.origin = ScaleOrigin::measured_distances,
                        .pixel_width_mm = shot.spacing_x_mm / camera.magnification(),
                        .pixel_height_mm = shot.spacing_y_mm / camera.magnification()};
  for (const auto& each : landmarks) {
    const auto pixel = camera.project(each.point);
    result.landmarks.push_back({each.id, {pixel.x, pixel.y}});
    if (each.id == "foot-plane-heel" || foot.parameters.shoeing == phantom::Shoeing::shod)
      result.shoeing = measure::Shoeing::shod;
  }
  return result;
}

double tolerance(measure::Unit unit) {
  switch (unit) {
  case measure::Unit::degrees:
    return largest_angle_deg;
  case measure::Unit::millimetres:
    return largest_length_mm;
  case measure::Unit::per_cent:
  case measure::Unit::ratio:
    break;
  }
  return largest_ratio;
}

struct Worst {
  double off = 0;
  double change = 0; ///< largest, to see that something happened
  std::uint64_t seed = 0;
  long count = 0;
};

/// How the picture is taken, before and after alike.
struct Beam {
  double allowance = 1; ///< times the tolerance
  double yaw_deg = 0;
  double roll_deg = 0;
  double higher_mm = 0;
};

phantom::Shot shot_of(const Case& c, phantom::View view, std::uint64_t seed, const Beam& beam) {
  const auto facing = seed / 4 % 2 == 0 ? phantom::Facing::left : phantom::Facing::right;
  auto shot = phantom::framed_shot(c.foot, view, facing);
  shot.yaw_deg = beam.yaw_deg;
  shot.roll_deg = beam.roll_deg;
  shot.beam_height_mm += beam.higher_mm;
  return shot;
}

using Predictions = measure::Attempt<std::vector<plan::Prediction>>;

Predictions as_planned(const measure::Reading& reading, const record::FootChange& change) {
  return plan::predict(reading, {}, change, {});
}

/// Every number predicted from the picture of the foot as it was, against the picture of the foot
/// as it was made.
template <class Predict>
void compare(const Case& c,
             const phantom::Reshaped& reshaped,
             const phantom::Shot& shot,
             std::uint64_t seed,
             double allowance,
             std::map<std::string, Worst>& worst,
             Predict predict) {
  const bool from_side = shot.view == phantom::View::lateromedial;
  const auto before = reading(from_side ? phantom::lateromedial_landmarks(c.foot)
                                        : phantom::dorsopalmar_landmarks(c.foot),
                              c.foot,
                              shot);
  const auto after = reading(from_side ? phantom::lateromedial_landmarks(reshaped)
                                       : phantom::dorsopalmar_landmarks(reshaped),
                             c.foot,
                             shot);
  const Predictions predicted = predict(before, c.change);
  INFO("seed " << seed << ", " << (from_side ? "from the side" : "from the front"));
  if (!predicted)
    FAIL(predicted.error());
  const auto measured = measure::measure_reading(after, {}, {});
  for (const auto& each : *predicted) {
    const std::string id(each.definition->id);
    const auto* now = measure::find(measured, id);
    INFO(id << " was " << each.before << ", predicted " << each.after);
    REQUIRE(now);
    REQUIRE(now->measurable());
    const double off = std::abs(now->value - each.after);
    CHECK(off < allowance * tolerance(each.definition->unit));
    auto& w = worst[id];
    ++w.count;
    w.change = std::max(w.change, std::abs(each.change));
    if (off > w.off) {
      w.off = off;
      w.seed = seed;
    }
  }
}

void print_when_asked(const std::map<std::string, Worst>& worst) {
  if (std::getenv("PRITCHEL_TEST_TABLE") == nullptr)
    return;
  for (const auto& [id, w] : worst)
    std::printf("%-30s off by %.4f (seed %3lu), largest change %.3f, %ld feet\n",
                id.c_str(),
                w.off,
                static_cast<unsigned long>(w.seed),
                w.change,
                w.count);
}

std::map<std::string, Worst> compare_all(const Beam& beam) {
  std::map<std::string, Worst> worst;
  for (std::uint64_t seed = 1; seed <= feet; ++seed) {
    const auto c = drawn(seed);
    const phantom::Reshaped reshaped(c.foot, c.reshaping);
    for (const auto view : {phantom::View::lateromedial, phantom::View::dorsopalmar})
      compare(c, reshaped, shot_of(c, view, seed, beam), seed, beam.allowance, worst, as_planned);
  }
  print_when_asked(worst);
  return worst;
}

} // namespace

// Truth: the digital foot's own solids and points, cut, turned and projected in space; its joints
// turn by the stated shares, which are the horse's own and not geometry's
TEST_CASE("what the plan predicts is what the reshaped foot's picture shows", "[plan][phantom]") {
  const auto worst = compare_all({});
  CHECK(worst.size() >= 45);
  for (const auto& [id, w] : worst) {
    INFO(id);
    CHECK(w.count >= 200);
  }
  // Something did happen to what can change.
  CHECK(worst.at("palmar-angle").change > 2.5);
  CHECK(worst.at("sole-depth-tip").change > 1);
  CHECK(worst.at("cor-toe").change > 8);
  CHECK(worst.at("p3-ml-tilt").change > 0.9);
  CHECK(worst.at("wall-angle-lateral").change > 2);
}

// Truth: as above, with a beam 2 degrees aside, 1 degree tipped and 20 mm too high in both
// pictures; what is nearer to the tube then shifts: a third more is allowed
TEST_CASE("a beam that is a little off doesn't spoil a prediction", "[plan][phantom]") {
  CHECK(compare_all({.allowance = 4.0 / 3, .yaw_deg = 2, .roll_deg = 1, .higher_mm = 20}).size() >=
        45);
}

namespace {

/// The shod foot some weeks later: both walls grown straight on, the shoe as far from the toe as it
/// was. In the knife's terms the horn is cut below the old plane.
phantom::Reshaping grown_on(const phantom::Foot& foot, double toe_mm, double heel_mm) {
  const double worn = foot.parameters.wedge_deg;
  const auto down = [&](double slope_deg, double mm) {
    const double a = (slope_deg - worn) * phantom::radians_per_degree; // against the shoe's top
    return std::pair{mm * std::cos(a), -mm * std::sin(a)};
  };
  const auto [toe_x, toe_y] = down(foot.parameters.hoof_angle_deg, toe_mm);
  const auto [heel_x, heel_y] = down(foot.parameters.heel_angle_deg, heel_mm);
  const double c = std::cos(worn * phantom::radians_per_degree);
  const double s = std::sin(worn * phantom::radians_per_degree);
  const auto across = foot.wall_toe_ground - foot.heel_ground;
  const double span = across.x * c - across.y * s;
  const double sharp = phantom::Reshaped(foot, {}).old_sharp_toe().x - foot.heel_ground.x;
  const double rise = (toe_y - heel_y) / (sharp / c + toe_x - heel_x);
  phantom::Reshaping r;
  r.trim_heel_mm = heel_y - rise * heel_x;
  r.trim_toe_mm = r.trim_heel_mm + rise * span;
  r.p2_share = plan::standing_shares.coffin;
  r.p1_share = plan::standing_shares.coffin + plan::standing_shares.pastern;
  const phantom::Reshaped later(foot, r);
  const auto length = [](double from, double to) { return to - from; };
  const double before = length(foot.heel_ground.x, later.old_sharp_toe().x);
  const auto now = [&](const phantom::Vec3& p) { return later.standing(p).x; };
  const double after =
      length(0.5 * (now(later.heel(-1)) + now(later.heel(1))), now(later.sharp_toe()));
  r.branch_longer_mm = before - after;
  return r;
}

} // namespace

// Truth: the digital foot with its walls grown straight on in space, its shoe riding with the toe
TEST_CASE("what is foreseen for week six is what the grown foot's picture shows",
          "[plan][phantom][growth]") {
  constexpr int weeks = 6;
  const auto& growth = plan::usual_growth;
  std::map<std::string, Worst> worst;
  for (std::uint64_t seed = 1; seed <= feet; ++seed) {
    auto c = drawn(seed);
    if (c.foot.parameters.shoeing != phantom::Shoeing::shod)
      continue;
    c.change = {};
    const phantom::Reshaped later(c.foot,
                                  grown_on(c.foot, weeks * growth.toe_mm, weeks * growth.heel_mm));
    compare(c,
            later,
            shot_of(c, phantom::View::lateromedial, seed, {}),
            seed,
            1,
            worst,
            [&](const measure::Reading& reading, const record::FootChange& nothing) {
              return plan::predict_week(reading, {}, nothing, {}, weeks, growth);
            });
  }
  print_when_asked(worst);
  CHECK(worst.at("palmar-angle").count >= 150);
  CHECK(worst.at("palmar-angle").change > 2);
}
