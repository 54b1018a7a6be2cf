#include "imaging/find_dots.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {

namespace {

/// How far a step from joint to joint may differ from the drawing's: horses differ in proportion
/// by some 20 % and stand differently by some 10 degrees; a step across a missing joint is mostly
/// half as long again. Own estimates.
constexpr double most_stretch = 1.28;
constexpr double most_turn_rad = 14 * 3.14159265358979323846 / 180;

using Steps = std::vector<Vector<ImageFrame>>;

double whole(const Steps& steps) {
  double sum = 0;
  for (const auto& s : steps)
    sum += length(s);
  return sum;
}

/// Index of the first step that doesn't fit; the number of steps when all do.
std::size_t first_misfit(const Steps& seen, const Steps& drawn, double mirror) {
  const double scale = whole(seen) / whole(drawn);
  for (std::size_t i = 0; i < seen.size(); ++i) {
    const Vector<ImageFrame> expected{mirror * drawn[i].x * scale, drawn[i].y * scale};
    const double stretch = std::log(length(seen[i]) / length(expected));
    const double turn = std::atan2(cross(expected, seen[i]), dot(expected, seen[i]));
    if (!(std::abs(stretch) <= std::log(most_stretch)) || !(std::abs(turn) <= most_turn_rad))
      return i;
  }
  return seen.size();
}

std::string why_not(const std::vector<Dot>& dots, const std::vector<JointPlace>& joints) {
  if (dots.size() != joints.size())
    return fmt::format(
        "{} dots were found for {} joints; place them by hand or choose among the dots.",
        dots.size(),
        joints.size());
  if (dots.size() < 3)
    return "Fewer than three dots can't be told from others by their places; name them by hand.";
  Steps seen;
  Steps drawn;
  for (std::size_t i = 1; i < dots.size(); ++i) {
    seen.push_back(dots[i].centre - dots[i - 1].centre);
    drawn.push_back({joints[i].x - joints[i - 1].x, joints[i].y - joints[i - 1].y});
  }
  const std::size_t one = first_misfit(seen, drawn, 1);
  const std::size_t other = first_misfit(seen, drawn, -1);
  if (one == seen.size() || other == seen.size())
    return {};
  const std::size_t worst = std::max(one, other);
  return fmt::format("The dots don't lie as {} and {} do in the drawing; one may be missing and "
                     "something else be taken for a dot. Name them by hand.",
                     joints[worst].id,
                     joints[worst + 1].id);
}

} // namespace

DotOffer offer_joints(const std::vector<Dot>& dots, const std::vector<JointPlace>& joints) {
  const std::vector<Dot> ordered = order_along_limb(dots);
  DotOffer offer{.dots = {}, .reason = why_not(ordered, joints)};
  for (std::size_t i = 0; i < ordered.size(); ++i)
    offer.dots.push_back({ordered[i], offer.reason.empty() ? joints[i].id : std::string{}});
  return offer;
}

} // namespace pritchel::imaging
