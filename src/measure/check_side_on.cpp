#include "geometry/angle.h"
#include "geometry/line.h"
#include "measure/check_work.h"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace pritchel::measure {
namespace {

/// Sizes of the adult foot as shares of the solar border's length (62-75 mm, middle 68): from
/// memory and own estimates, the middle of the range each.
namespace share {
constexpr double condyles = 25.0 / 68;  ///< between the condyles' ridges
constexpr double processes = 57.0 / 68; ///< between the palmar processes
constexpr double margins = 77.0 / 68;   ///< between the solar margins at their widest
constexpr double sole_half = 24.0 / 68; ///< of the sole that the walls leave visible at the tip
constexpr double unsure = 0.07;         ///< of such a width, standard, as a share
} // namespace share

/// In which direction a pair's gap is that of one and the same point, by its definition: the back
/// edges of the condyles are placed at one height, the solar margins straight above one another.
enum class Gap { along, up, both_ways };

struct Twins {
  std::string_view first;
  std::string_view second;
  double width_share;
  Bone bone;
  Gap gap;
  double unsure_along =
      0; ///< least spread along the ground, mm: the lowest point of an arc is flat
};
constexpr std::array all_twins = {
    Twins{"p2-condyle-palmar-1",
          "p2-condyle-palmar-2",
          share::condyles,
          Bone::short_pastern,
          Gap::along},
    Twins{"p2-condyle-distal-1",
          "p2-condyle-distal-2",
          share::condyles,
          Bone::short_pastern,
          Gap::both_ways,
          1.0},
    Twins{"p3-palmar-process-1",
          "p3-palmar-process-2",
          share::processes,
          Bone::coffin,
          Gap::both_ways},
    Twins{"p3-solar-border-1", "p3-solar-border-2", share::margins, Bone::coffin, Gap::up}};

double solar_length(const CheckWork& work) {
  return distance(work.at("p3-tip"), work.at("p3-palmar-process"));
}

/// A gap with the spread of its two points and of the twins' distance, which isn't measured.
Estimate gap(double value, double first, double second) {
  return {value, std::hypot(first, second, share::unsure * value)};
}

Parting parting(const CheckWork& work, const Twins& twins) {
  const auto a = work.at(twins.first), b = work.at(twins.second);
  Parting found{.bone = twins.bone,
                .middle = midpoint(a, b),
                .width = twins.width_share * solar_length(work)};
  if (twins.gap != Gap::up)
    found.ahead = gap(a.x - b.x,
                      std::max(work.unsure_along(twins.first), twins.unsure_along),
                      std::max(work.unsure_along(twins.second), twins.unsure_along));
  if (twins.gap != Gap::along)
    found.up = gap(a.y - b.y, work.unsure_up(twins.first), work.unsure_up(twins.second));
  return found;
}

std::vector<Parting> partings(const CheckWork& work) {
  std::vector<Parting> found;
  for (const auto& twins : all_twins)
    if (work.has({twins.first, twins.second}))
      found.push_back(parting(work, twins));
  return found;
}

bool has_edges(const CheckWork& work) {
  return work.has({"block-edge-near", "block-edge-far"});
}

Estimate height_by_edges(const CheckWork& work) {
  const double gap = work.at("block-edge-far").y - work.at("block-edge-near").y;
  const double placed =
      std::hypot(work.unsure_up("block-edge-near"), work.unsure_up("block-edge-far"));
  const double height = beam_height_mm(gap, usual_block_width_mm, work.source_to_foot().value);
  const double by_gap = beam_height_mm(placed, usual_block_width_mm, work.source_to_foot().value);
  const double by_size = std::hypot(block_size_unsure, work.size_unsure());
  return {height, std::hypot(by_gap, by_size * height)};
}

std::optional<Estimate> height_if_edges(const CheckWork& work) {
  return has_edges(work) ? std::optional(height_by_edges(work)) : std::nullopt;
}

/// Mean apparent slant of the coffin bone's two sides: the beam's and the bone's own together.
std::optional<Estimate> apparent_roll(const CheckWork& work) {
  double weights = 0, sum = 0;
  for (const auto& each : partings(work)) {
    if (each.bone != Bone::coffin || !each.up)
      continue;
    const double angle = obliquity_deg(std::abs(each.up->value), each.width).value_or(90);
    const double u = in_degrees(each.up->uncertainty / each.width);
    weights += 1 / (u * u);
    sum += angle / (u * u);
  }
  if (weights > 0)
    return Estimate{sum / weights, 1 / std::sqrt(weights)};
  return std::nullopt;
}

/// Where the dorsal wall's line meets the ground.
std::optional<double> toe_on_ground(const CheckWork& work) {
  if (!work.has({"wall-dorsal-proximal", "wall-dorsal-distal"}))
    return std::nullopt;
  const auto top = work.at("wall-dorsal-proximal"), low = work.at("wall-dorsal-distal");
  if (!(top.y > low.y))
    return std::nullopt;
  return low.x + (low.x - top.x) * low.y / (top.y - low.y);
}

/// Middle between toe and heel, where a balance picture is centred, as far as one manages.
Estimate middle_of_foot(const CheckWork& work) {
  constexpr double aimed_mm = 10;
  const auto tip = work.at("p3-tip"), process = work.at("p3-palmar-process");
  const double length = distance(tip, process);
  const double toe = toe_on_ground(work).value_or(tip.x + 0.6 * length);
  const double heel = work.has("heel-ground") ? work.at("heel-ground").x : process.x - 0.4 * length;
  return {0.5 * (toe + heel), aimed_mm};
}

Estimate sized(double width) {
  return {width, share::unsure * width};
}

/// The outer sole runs about parallel to the bone's solar border; its two points lie so close
/// together that their own slope says less. Both by weight.
Estimate sole_slope(const CheckWork& work) {
  const auto bone = work.at("p3-tip") - work.at("p3-palmar-process");
  const double parallel = std::atan2(bone.y, bone.x);
  constexpr double unlike = 0.05; // three degrees, own estimate
  if (!work.has({"sole-a", "sole-b"}))
    return {parallel, unlike};
  const auto sole = work.at("sole-a") - work.at("sole-b");
  const double unsure =
      std::hypot(work.unsure_up("sole-a"), work.unsure_up("sole-b")) / length(sole);
  const double w = 1 / (unlike * unlike), v = 1 / (unsure * unsure);
  return {(w * parallel + v * std::atan2(sole.y, sole.x)) / (w + v), 1 / std::sqrt(w + v)};
}

double sole_depth(const CheckWork& work) {
  constexpr double usual_mm = 17;
  if (!work.has({"sole-a", "sole-b"}))
    return usual_mm;
  return distance_from(Line<double>{work.at("sole-b"), work.at("sole-a")}, work.at("p3-tip"));
}

SideOn side_on(const CheckWork& work) {
  const double length = solar_length(work);
  return {.tip = work.at("p3-tip"),
          .process = work.at("p3-palmar-process"),
          .depth = sole_depth(work),
          .sole_slope = sole_slope(work),
          .middle = middle_of_foot(work),
          .process_half_width = sized(0.5 * share::processes * length),
          .sole_half_width = sized(share::sole_half * length),
          .source_to_foot = work.source_to_foot()};
}

/// With the block's edges the beam is known well enough to refuse on a chance of one in fifty;
/// without them the bone's own lean drowns it, and only caution can be asked for.
Fitness judged(const CheckLimit& limit, double bound, bool sharp) {
  if (sharp && bound > *limit.refuse)
    return Fitness::unfit;
  return bound > limit.accept ? Fitness::caution : Fitness::fit;
}

std::string not_placed(const CheckWork& work) {
  if (!work.has({"p3-tip", "p3-palmar-process"}))
    return "the coffin bone's tip and palmar process aren't placed";
  if (!work.has_ground())
    return "the ground isn't placed";
  return "the two outlines of P2's condyles and of the palmar processes aren't placed";
}

Check not_checked(const CheckWork& work) {
  return {.id = "obliquity",
          .title = "Obliquity",
          .fitness = Fitness::not_checked,
          .sentence = "View not checked: " + not_placed(work) + ".",
          .touches = work.all()};
}

std::vector<std::string> joined(std::vector<std::string> a, const std::vector<std::string>& b) {
  for (const auto& each : b)
    if (std::find(a.begin(), a.end(), each) == a.end())
      a.push_back(each);
  return a;
}

Check obliquity(const CheckWork& work, const std::vector<Source>& sources) {
  const bool sharp = has_edges(work);
  const auto worst = view_verdict(side_on(work), sources);
  const auto angle = judged(limit_of("obliquity"), worst.bound.palmar_angle_deg, sharp);
  const auto depth = judged(limit_of("obliquity-depth"), worst.bound.sole_depth_mm, sharp);
  Check check{.id = "obliquity",
              .title = "Obliquity",
              .fitness = worse(angle, depth),
              .value = worst.likely.palmar_angle_deg,
              .unit = "deg"};
  check.sentence = fmt::format(
      "The beam slants so that a reader who follows one side's outline would be off by "
      "{:.1f}\u00b0 "
      "in palmar angle and {:.1f} mm in sole depth (at most {:.1f}\u00b0 and {:.1f} mm).",
      worst.likely.palmar_angle_deg,
      worst.likely.sole_depth_mm,
      worst.bound.palmar_angle_deg,
      worst.bound.sole_depth_mm);
  if (!sharp)
    check.sentence += " The block's two edges aren't placed, so the beam can't be told "
                      " from a lean of the bone itself.";
  // Only what breaks the graver verdict is refused or warned of with it.
  const auto grave = check.fitness;
  if (grave == Fitness::fit)
    return check;
  if (angle == grave)
    check.touches = work.touching({"p3-palmar-process"});
  if (depth == grave)
    check.touches = joined(check.touches, work.touching({"sole-a", "sole-under-palmar"}));
  if (grave == Fitness::unfit)
    check.clause =
        fmt::format("the picture was taken too obliquely (up to {:.1f}\u00b0 or {:.1f} mm "
                    "wrong by the outline followed)",
                    worst.bound.palmar_angle_deg,
                    worst.bound.sole_depth_mm);
  return check;
}

Check yaw(const CheckWork& work, const Estimate& ahead) {
  const auto middle = middle_of_foot(work);
  const double off = ahead.value - middle.value;
  const double angle = in_degrees(std::atan2(std::abs(off), work.source_to_foot().value));
  const double u =
      in_degrees(std::hypot(ahead.uncertainty, middle.uncertainty) / work.source_to_foot().value);
  const auto& limit = limit_of("lm-yaw-gap");
  Check check{.id = "lm-yaw-gap",
              .title = "Turned to the side",
              .fitness = graded(limit, angle, u),
              .value = angle,
              .uncertainty = u,
              .unit = "deg"};
  check.sentence =
      fmt::format("The beam is turned {:.1f} \u00b1 {:.1f}\u00b0 from square to the foot's length.",
                  angle,
                  2 * u);
  if (check.fitness == Fitness::fit)
    return check;
  check.touches = check.fitness == Fitness::unfit
                      ? work.touching({"p3-dorsal-proximal", "p3-dorsal-distal"})
                      : work.all();
  check.clause = fmt::format("the beam is turned {:.0f}\u00b0 from square to the foot", angle);
  return check;
}

/// What the bone itself leans, when the beam's own share is known from the block's edges.
std::string lean_of_bone(const CheckWork& work, const Estimate& roll) {
  if (!has_edges(work) || !work.has_ground())
    return {};
  const double beam = in_degrees(std::atan2(
      height_by_edges(work).value - work.at("p3-palmar-process").y, work.source_to_foot().value));
  return fmt::format(" The beam's own slant there is {:.1f}\u00b0; the rest is the bone's lean.",
                     std::min(std::abs(beam), roll.value));
}

Check roll(const CheckWork& work, const Estimate& angle) {
  auto fitness = graded(limit_of("lm-roll-gap"), angle.value, angle.uncertainty);
  // With the block's edges the view is judged by itself, and a leaning bone is the horse's own.
  if (fitness == Fitness::unfit && has_edges(work))
    fitness = Fitness::caution;
  Check check{.id = "lm-roll-gap",
              .title = "Outlines apart in height",
              .fitness = fitness,
              .value = angle.value,
              .uncertainty = angle.uncertainty,
              .unit = "deg"};
  check.sentence =
      fmt::format("The two solar margins part in height by {:.1f} \u00b1 {:.1f}\u00b0.{}",
                  angle.value,
                  2 * angle.uncertainty,
                  lean_of_bone(work, angle));
  if (check.fitness == Fitness::fit)
    return check;
  check.touches = work.touching({"p3-palmar-process"});
  check.clause =
      fmt::format("the two sides of the coffin bone part in height by {:.1f}\u00b0", angle.value);
  return check;
}

/// The palmar angle is to run to the mean of both processes; a reader who took one of them shows.
void check_one_outline(const CheckWork& work, std::vector<Check>& checks) {
  constexpr std::string_view first = "p3-palmar-process-1", second = "p3-palmar-process-2";
  if (!work.has_ground() || !work.has({first, second, "p3-palmar-process"}))
    return;
  const auto a = work.at(first), b = work.at(second);
  const PlanePoint mean = midpoint(a, b), taken = work.at("p3-palmar-process");
  const double length = solar_length(work);
  const double off = in_degrees((taken.y - mean.y) / length);
  const double u = in_degrees(std::hypot(work.unsure_up("p3-palmar-process"),
                                         0.5 * work.unsure_up(first),
                                         0.5 * work.unsure_up(second)) /
                              length);
  Check check{.id = "one-outline",
              .title = "Mean of both palmar processes",
              .fitness = graded(limit_of("one-outline"), off, u),
              .value = off,
              .uncertainty = u,
              .unit = "deg"};
  check.sentence = fmt::format(
      "The palmar process as placed lies {:.1f} mm from the middle of its two outlines: "
      "{:.1f}\u00b0 of palmar angle.",
      std::abs(taken.y - mean.y),
      std::abs(off));
  if (check.fitness != Fitness::fit) {
    check.touches = work.touching({"p3-palmar-process"});
    check.clause = "the palmar process isn't placed on the mean of its two outlines";
  }
  checks.push_back(check);
}

void check_beam_centre(const CheckWork& work, std::vector<Check>& checks) {
  if (!has_edges(work) || !work.has_ground())
    return;
  const auto height = height_by_edges(work);
  const double outside = std::max(height.value - limit_of("beam-centre").accept, -height.value);
  Check check{.id = "beam-centre",
              .title = "Height of the beam",
              .fitness = outside > height.uncertainty ? Fitness::caution : Fitness::fit,
              .value = height.value,
              .uncertainty = height.uncertainty,
              .unit = "mm"};
  check.sentence =
      fmt::format("The central ray passes {:.0f} \u00b1 {:.0f} mm above the block's top "
                  "(wanted: 10 to 20).",
                  height.value,
                  2 * height.uncertainty);
  if (check.fitness != Fitness::fit) {
    check.sentence += " Don't compare with a visit that was shot at another height.";
    check.touches = work.touching({"p3-palmar-process", "sole-a", "sole-under-palmar"});
  }
  checks.push_back(check);
}

} // namespace

void check_side_on(const CheckWork& work, std::vector<Check>& checks) {
  if (work.reading().view != View::lateromedial)
    return;
  const bool bone = work.has({"p3-tip", "p3-palmar-process"}) && solar_length(work) > 0;
  if (!bone || !work.has_ground()) {
    checks.push_back(not_checked(work));
    return;
  }
  const auto sources = source_places(partings(work),
                                     height_if_edges(work),
                                     work.source_to_foot().value,
                                     middle_of_foot(work).value);
  checks.push_back(sources.empty() ? not_checked(work) : obliquity(work, sources));
  if (!sources.empty())
    checks.push_back(yaw(work, sources.front().ahead));
  if (const auto angle = apparent_roll(work))
    checks.push_back(roll(work, *angle));
  check_one_outline(work, checks);
  check_beam_centre(work, checks);
}

} // namespace pritchel::measure
