/// The obliquity check on the digital foot: which views it lets through, against what each view
/// really does to palmar angle and sole depth. Landmark geometry only; nothing is rendered.
#include "measure/checks.h"
#include "measure/measure.h"
#include "phantom/placement.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <random>

using namespace pritchel;

namespace {

constexpr std::uint64_t views = 6000;
/// What the project promises.
constexpr double wrong_angle_deg = 1.0, wrong_depth_mm = 1.0;
constexpr std::array readers = {
    phantom::Follows::mean, phantom::Follows::medial, phantom::Follows::lateral};

double between(std::mt19937_64& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}

struct Taken {
  phantom::Foot foot;
  phantom::Shot shot;
};

/// Any foot, seen anyhow. The distances vary over the ranges of real set-ups; the header says how
/// far the tube stood, not how far the foot was from the plate.
Taken any_view(std::uint64_t seed) {
  std::mt19937_64 random(seed);
  const auto limb = seed % 2 == 0 ? phantom::Limb::fore : phantom::Limb::hind;
  const auto side = seed / 2 % 2 == 0 ? phantom::Side::left : phantom::Side::right;
  const auto facing = seed / 4 % 2 == 0 ? phantom::Facing::left : phantom::Facing::right;
  Taken taken{.foot = phantom::make_foot(phantom::random_foot(seed, limb, side))};
  taken.shot = phantom::framed_shot(taken.foot, phantom::View::lateromedial, facing);
  taken.shot.yaw_deg = between(random, -12, 12);
  taken.shot.roll_deg = between(random, -6, 6);
  taken.shot.beam_height_mm = between(random, 0, 80);
  taken.shot.beam_along_mm += between(random, -10, 10);
  taken.shot.source_to_detector_mm = between(random, 620, 750);
  taken.shot.plane_to_detector_mm = between(random, 60, 80);
  return taken;
}

/// The same views as an ordinary person takes them: nearly square, so that many are good.
Taken usual_view(std::uint64_t seed) {
  Taken taken = any_view(seed);
  std::mt19937_64 random(seed);
  taken.shot.yaw_deg = between(random, -4, 4);
  taken.shot.roll_deg = between(random, -1, 1);
  taken.shot.beam_height_mm = between(random, 5, 30);
  return taken;
}

measure::Reading reading_of(const Taken& taken, const phantom::Truth& truth) {
  measure::Reading reading;
  reading.toward =
      taken.shot.facing == phantom::Facing::left ? PictureSide::left : PictureSide::right;
  reading.shoeing = taken.foot.parameters.shoeing == phantom::Shoeing::shod
                        ? measure::Shoeing::shod
                        : measure::Shoeing::bare;
  reading.loading = measure::Loading::weight_bearing;
  reading.limb = taken.foot.parameters.limb == phantom::Limb::fore ? measure::Limb::left_fore
                                                                   : measure::Limb::left_hind;
  reading.source_to_detector_mm = taken.shot.source_to_detector_mm;
  reading.calibration = {.origin = ScaleOrigin::measured_distances,
                         .pixel_width_mm = truth.mm_per_pixel_x,
                         .pixel_height_mm = truth.mm_per_pixel_y};
  return reading;
}

measure::Reading exact(const Taken& taken, phantom::Follows follows) {
  const auto truth = phantom::truth_as_read(taken.foot, taken.shot, follows);
  auto reading = reading_of(taken, truth);
  for (const auto& each : truth.landmarks)
    reading.landmarks.push_back({each.landmark.id, {each.pixel.x, each.pixel.y}});
  return reading;
}

measure::Reading by_hand(const Taken& taken, std::uint64_t seed) {
  auto reading = reading_of(taken, phantom::truth_of(taken.foot, taken.shot));
  for (const auto& each :
       phantom::placed_by_hand(taken.foot, taken.shot, seed, phantom::Follows::mean))
    reading.landmarks.push_back({each.id, {each.pixel.x, each.pixel.y}});
  return reading;
}

double value(const measure::Reading& reading, std::string_view id) {
  const auto placed = measure::placed(reading);
  const auto found = measure::evaluate(*measure::definition(id), placed);
  return found ? found->value : std::numeric_limits<double>::infinity(); // no depth is very wrong
}

struct Off {
  double angle_deg = 0;
  double depth_mm = 0;
};

/// What the view does to a reader who follows the mean or either outline, the worst of the three:
/// what they read in it less what the same outline gives in a view square to the foot from afar.
Off worst_off(const Taken& taken) {
  Taken square = taken;
  square.shot.yaw_deg = square.shot.roll_deg = 0;
  square.shot.source_to_detector_mm = 1e7;
  Off worst;
  for (const auto follows : readers) {
    const auto seen = exact(taken, follows), meant = exact(square, follows);
    worst.angle_deg = std::max(
        worst.angle_deg, std::abs(value(seen, "palmar-angle") - value(meant, "palmar-angle")));
    worst.depth_mm = std::max(
        worst.depth_mm, std::abs(value(seen, "sole-depth-tip") - value(meant, "sole-depth-tip")));
  }
  return worst;
}

/// The same against the foot's own palmar angle and depth.
Off worst_off_truth(const Taken& taken) {
  const auto& p = taken.foot.parameters;
  Off worst;
  for (const auto follows : readers) {
    const auto seen = exact(taken, follows);
    worst.angle_deg =
        std::max(worst.angle_deg, std::abs(value(seen, "palmar-angle") - p.palmar_angle_deg));
    worst.depth_mm =
        std::max(worst.depth_mm, std::abs(value(seen, "sole-depth-tip") - p.sole_depth_mm));
  }
  return worst;
}

struct Tally {
  int wrong = 0;
  int wrong_let_through = 0;
  double worst_let_through = 0; ///< degrees or mm, whichever is more
  int good = 0;
  int good_passed = 0;
};

/// Points where they truly are tell what the check makes of the view; points by hand, what it makes
/// of a reading.
enum class Points { true_places, by_hand };

template <class TakeView, class HowFarOff>
Tally tally(std::uint64_t first, Points points, const TakeView& take, const HowFarOff& off) {
  Tally result;
  for (std::uint64_t seed = first; seed < first + views; ++seed) {
    const Taken taken = take(seed);
    const Off real = off(taken);
    const auto reading =
        points == Points::by_hand ? by_hand(taken, seed) : exact(taken, phantom::Follows::mean);
    const auto checks = measure::check_reading(reading, {});
    const auto* check = measure::find(checks, "obliquity");
    REQUIRE(check != nullptr);
    REQUIRE(check->fitness != measure::Fitness::not_checked);
    const bool refused = check->fitness == measure::Fitness::unfit;
    const bool wrong = real.angle_deg > wrong_angle_deg || real.depth_mm > wrong_depth_mm;
    const bool good = real.angle_deg <= wrong_angle_deg / 2 && real.depth_mm <= wrong_depth_mm / 2;
    result.wrong += wrong ? 1 : 0;
    result.wrong_let_through += wrong && !refused ? 1 : 0;
    if (wrong && !refused)
      result.worst_let_through =
          std::max({result.worst_let_through, real.angle_deg, real.depth_mm});
    result.good += good ? 1 : 0;
    result.good_passed += good && !refused ? 1 : 0;
  }
  if (std::getenv("PRITCHEL_TEST_TABLE"))
    std::printf("wrong %d, let through %d (worst %.2f); good %d, passed %d (%.1f %%)\n",
                result.wrong,
                result.wrong_let_through,
                result.worst_let_through,
                result.good,
                result.good_passed,
                100.0 * result.good_passed / result.good);
  return result;
}

/// A promise over many views.
struct Promise {
  double let_through = 0; ///< most of the wrong ones that may, as a share
  double by_at_most = 0;  ///< what those may be wrong by, degrees or mm
  double passed = 0;      ///< least of the good ones that must, as a share
};

void check_promise(const Tally& result, const Promise& promise) {
  REQUIRE(result.wrong > 100);
  REQUIRE(result.good > 200);
  CHECK(result.wrong_let_through <= promise.let_through * result.wrong);
  CHECK(result.worst_let_through <= promise.by_at_most);
  CHECK(result.good_passed >= promise.passed * result.good);
}

Taken level_view(std::uint64_t seed) {
  Taken taken = any_view(seed);
  auto p = taken.foot.parameters;
  p.p3_tilt_deg = 0;
  taken.foot = phantom::make_foot(p);
  return taken;
}

} // namespace

// Truth: the digital foot seen by a point source, yaw within 4, roll within 1 degrees, beam 5 to 30
// mm high; wrong by the worst of three readers (mean, medial outline, lateral outline). The
// project's own promise: every wrong view is rejected, 95 % of the good ones pass.
TEST_CASE("no usual view that spoils palmar angle or sole depth passes, good ones do", "[checks]") {
  check_promise(tally(800'001, Points::true_places, usual_view, worst_off),
                {.let_through = 0, .by_at_most = 0, .passed = 0.95});
}

// Truth: as above. A hand adds its own spread to a view that lies at the limit: of a thousand wrong
// ones one or two may slip by, by less than a tenth of the limit.
TEST_CASE("with points placed by hand hardly a usual view is judged otherwise", "[checks]") {
  check_promise(tally(810'001, Points::by_hand, usual_view, worst_off),
                {.let_through = 0.002, .by_at_most = 1.1, .passed = 0.94});
}

// Truth: as above, yaw within 12, roll within 6 degrees, beam 0 to 80 mm high. So far from square
// two places of the tube may explain the same outlines: docs/decisions/0005.
TEST_CASE("of views far from square hardly a wrong one passes, and good ones do", "[checks]") {
  check_promise(tally(820'001, Points::true_places, any_view, worst_off),
                {.let_through = 0.001, .by_at_most = 1.2, .passed = 0.93});
  check_promise(tally(830'001, Points::by_hand, any_view, worst_off),
                {.let_through = 0.003, .by_at_most = 2, .passed = 0.88});
}

// Truth: the parameters of feet whose coffin bone doesn't lean sideways, so that both outlines mean
// the same angle
TEST_CASE("on level feet the check holds against the true angle and depth", "[checks]") {
  check_promise(tally(840'001, Points::true_places, level_view, worst_off_truth),
                {.let_through = 0.001, .by_at_most = 2, .passed = 0.93});
  check_promise(tally(850'001, Points::by_hand, level_view, worst_off_truth),
                {.let_through = 0.003, .by_at_most = 2, .passed = 0.88});
}
