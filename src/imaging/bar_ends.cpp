#include "base/median.h"
#include "imaging/find_marker.h"
#include "imaging/value_raster.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace pritchel::imaging {
namespace {

constexpr double step_px = 0.25;
constexpr double least_step_share = 0.3; ///< of the edge's grey to the profile's whole range [E]

/// Mean grey along the axis: s in pixels from end_1, over a band three pixels wide.
class Profile {
public:
  Profile(const cv::Mat& values, const ImagePoint& from, const Vector<ImageFrame>& along)
      : values_(values),
        from_(from),
        along_(along) {}

  [[nodiscard]] std::optional<double> at(double s) const {
    double sum = 0;
    for (const double across : {-1.0, 0.0, 1.0}) {
      const auto value = value_at(
          values_,
          {from_.x + s * along_.x - across * along_.y, from_.y + s * along_.y + across * along_.x});
      if (!value)
        return std::nullopt;
      sum += *value;
    }
    return sum / 3;
  }

  [[nodiscard]] std::vector<double> values(double from, double to) const {
    std::vector<double> out;
    for (double s = from; s <= to; s += step_px)
      if (const auto value = at(s))
        out.push_back(*value);
    return out;
  }

private:
  cv::Mat values_;
  ImagePoint from_;
  Vector<ImageFrame> along_;
};

struct Edge {
  double s = 0;
  double unsure = 0;
};

/// The bar's end near `expected`, `outward` being +1 or -1 along the profile. Grey outside is taken
/// a reach beyond it.
std::optional<Edge>
edge_near(const Profile& profile, double expected, double outward, double reach, double bar) {
  std::vector<double> ground;
  for (double d = reach; d <= 2 * reach; d += step_px)
    if (const auto value = profile.at(expected + outward * d))
      ground.push_back(*value);
  constexpr std::size_t least_ground = 8;
  if (ground.size() < least_ground)
    return std::nullopt;
  const double outside = median(ground);
  const auto crossing = [&](double share) -> std::optional<double> {
    const double level = outside + share * (bar - outside);
    std::optional<double> best;
    for (double d = -reach; d < reach; d += step_px) {
      const auto a = profile.at(expected + outward * d);
      const auto b = profile.at(expected + outward * (d + step_px));
      if (!a || !b || (*a - level) * (bar - outside) < 0 || (*b - level) * (bar - outside) >= 0)
        continue;
      const double at = d + step_px * (*a - level) / (*a - *b);
      if (!best || std::abs(at) < std::abs(*best))
        best = at;
    }
    return best;
  };
  const auto half = crossing(0.5), inner = crossing(0.75), outer = crossing(0.25);
  const double softest = std::max(3.0, reach / 2);
  if (!half || !inner || !outer || std::abs(*outer - *inner) > softest)
    return std::nullopt;
  const double noise = 0.1; // of an edge read from a few pixels [E]
  return Edge{.s = expected + outward * *half,
              .unsure = std::hypot(noise, (*outer - *inner) / std::sqrt(12.0))};
}

double spread(const std::vector<double>& values) {
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  return *most - *least;
}

} // namespace

std::optional<BarSeen>
refine_bar_ends(const Picture& picture, const ImagePoint& end_1, const ImagePoint& end_2) {
  const auto whole = end_2 - end_1;
  const double long_px = length(whole);
  constexpr double least_px = 30;
  if (!std::isfinite(long_px) || long_px < least_px)
    return std::nullopt;
  const auto values = value_raster(picture);
  const auto along = unit(whole);
  const Profile profile(values, end_1, along);
  const double reach = std::max(12.0, long_px / 12);
  const auto inside = profile.values(0.15 * long_px, 0.85 * long_px);
  const auto all = profile.values(-2 * reach, long_px + 2 * reach);
  if (inside.empty() || all.empty())
    return std::nullopt;
  const double bar = median(inside);
  const auto first = edge_near(profile, 0, -1, reach, bar);
  const auto second = edge_near(profile, long_px, 1, reach, bar);
  if (!first || !second || spread(inside) > (1 - least_step_share) * spread(all))
    return std::nullopt;
  return BarSeen{.end_1 = end_1 + along * first->s,
                 .end_2 = end_1 + along * second->s,
                 .unsure_px = std::max(first->unsure, second->unsure)};
}

} // namespace pritchel::imaging
