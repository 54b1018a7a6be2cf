#include "job/picture_checks.h"

#include "imaging/exposure_check.h"
#include "measure/checks.h"

#include <fmt/core.h>

#include <array>
#include <optional>
#include <string_view>

namespace pritchel::job {
namespace {

using measure::Fitness;
using measure::View;

/// A wall that no longer shows over a fifth of its placed length may be misplaced; over half of it
/// its line is a guess. Own estimate.
constexpr double caution_share = 0.2;
constexpr double refused_share = 0.5;

struct Wall {
  View view;
  std::string_view from;
  std::string_view to;
  std::string_view inside;
  std::string_view name;
};
constexpr std::array walls = {Wall{View::lateromedial,
                                   "wall-dorsal-proximal",
                                   "wall-dorsal-distal",
                                   "p3-dorsal-proximal",
                                   "dorsal wall"},
                              Wall{View::dorsopalmar,
                                   "wall-proximal-medial",
                                   "wall-ground-medial",
                                   "p3-articular-lateral",
                                   "medial wall"},
                              Wall{View::dorsopalmar,
                                   "wall-proximal-lateral",
                                   "wall-ground-lateral",
                                   "p3-articular-medial",
                                   "lateral wall"}};

std::optional<ImagePoint> place(const measure::Reading& reading, std::string_view id) {
  for (const auto& each : reading.landmarks)
    if (each.id == id)
      return each.at;
  return std::nullopt;
}

std::optional<imaging::EdgeLook>
look(const imaging::Picture& picture, const measure::Reading& reading, const Wall& wall) {
  const auto from = place(reading, wall.from), to = place(reading, wall.to);
  const auto inside = place(reading, wall.inside);
  if (!from || !to || !inside)
    return std::nullopt;
  const auto& c = reading.calibration;
  const auto seen =
      imaging::look_at_edge(picture,
                            {.from = *from,
                             .to = *to,
                             .inside = *inside,
                             .pixel_mm = c.has_scale() ? c.pixel_width_mm : c.nominal_pixel_mm});
  return seen.places > 0 ? std::optional(seen) : std::nullopt;
}

measure::Check
verdict(const measure::Reading& reading, const Wall& wall, const imaging::EdgeLook& seen) {
  measure::Check check{.id = "exposure-" + std::string(wall.name.substr(0, wall.name.find(' '))),
                       .title = "Exposure of the " + std::string(wall.name),
                       .value = 100 * seen.share_lost,
                       .unit = "%"};
  if (seen.share_lost <= caution_share) {
    check.sentence = fmt::format("The {} stands out against the air.", wall.name);
    return check;
  }
  check.fitness = seen.share_lost > refused_share ? Fitness::unfit : Fitness::caution;
  check.sentence =
      fmt::format("The {} doesn't stand out against the air over {:.0f} % of its "
                  "placed length{}.",
                  wall.name,
                  100 * seen.share_lost,
                  seen.share_at_end > caution_share ? ": over-exposed, burnt out" : "");
  check.touches = measure::measurements_needing(reading, {wall.from, wall.to});
  if (check.fitness == Fitness::unfit)
    check.clause = fmt::format("the {} is burnt out in this picture", wall.name);
  return check;
}

} // namespace

std::vector<measure::Check> picture_checks(const imaging::Picture& picture,
                                           const measure::Reading& reading) {
  std::vector<measure::Check> checks;
  if (picture.samples.empty())
    return checks;
  for (const auto& wall : walls)
    if (wall.view == reading.view)
      if (const auto seen = look(picture, reading, wall))
        checks.push_back(verdict(reading, wall, *seen));
  return checks;
}

} // namespace pritchel::job
