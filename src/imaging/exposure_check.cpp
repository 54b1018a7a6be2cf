#include "imaging/exposure_check.h"

#include "base/median.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

namespace pritchel::imaging {
namespace {

/// Beside the edge, mm: beyond the spread of placing it and the blur, well within the wall's horn.
constexpr double beside_mm = 2.0;
constexpr int patch_reach = 2; ///< pixels either way: 5 by 5
constexpr double least_step_to_noise = 2.0;

struct Patch {
  double mean = 0;
  double variance = 0;
  bool at_end = false;
};

struct Range {
  double low = 0;
  double high = 0;
};

/// Ends of what the picture holds, padding left out.
Range stored_range(const Picture& picture) {
  int low = 65535, high = 0;
  for (const int sample : picture.samples) {
    const int value = sample + picture.offset;
    if (picture.padding && value >= picture.padding->first && value <= picture.padding->last)
      continue;
    low = std::min(low, sample);
    high = std::max(high, sample);
  }
  return {static_cast<double>(low), static_cast<double>(high)};
}

std::optional<Patch> patch_at(const Picture& picture, const Range& range, const ImagePoint& at) {
  const int column = static_cast<int>(std::lround(at.x)), row = static_cast<int>(std::lround(at.y));
  if (column < patch_reach || row < patch_reach || column >= picture.columns - patch_reach ||
      row >= picture.rows - patch_reach)
    return std::nullopt;
  double sum = 0, squares = 0;
  int count = 0;
  for (int y = row - patch_reach; y <= row + patch_reach; ++y)
    for (int x = column - patch_reach; x <= column + patch_reach; ++x, ++count) {
      const auto index = static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.columns) +
                         static_cast<std::size_t>(x);
      const double value = picture.samples[index];
      sum += value;
      squares += value * value;
    }
  const double mean = sum / count;
  const double margin = 0.002 * (range.high - range.low);
  return Patch{.mean = mean,
               .variance = std::max(squares / count - mean * mean, 0.0),
               .at_end = mean <= range.low + margin || mean >= range.high - margin};
}

} // namespace

EdgeLook look_at_edge(const Picture& picture, const EdgeToLook& edge) {
  EdgeLook look;
  const auto along = edge.to - edge.from;
  const double span = length(along);
  if (!(span > 0) || !(edge.pixel_mm > 0))
    return look;
  const Vector<ImageFrame> normal{-along.y / span, along.x / span};
  const double inward = dot(edge.inside - edge.from, normal) > 0 ? 1 : -1;
  const auto beside = normal * (inward * beside_mm / edge.pixel_mm);
  const int places = static_cast<int>(span * edge.pixel_mm);
  const Range range = stored_range(picture);
  std::vector<double> steps, noises;
  int ends = 0, both_ends = 0;
  for (int i = 0; i < places; ++i) {
    const auto at = edge.from + along * ((i + 0.5) / places);
    const auto horn = patch_at(picture, range, at + beside);
    const auto air = patch_at(picture, range, at - beside);
    if (!horn || !air)
      continue;
    steps.push_back(std::abs(horn->mean - air->mean));
    noises.push_back(std::sqrt(horn->variance));
    ends += horn->at_end ? 1 : 0;
    both_ends += horn->at_end && air->at_end ? 1 : 0;
  }
  look.places = static_cast<int>(steps.size());
  if (look.places == 0)
    return look;
  // A burnt-out place has no noise of its own: the picture's stored steps are the least there is.
  const double noise = std::max(median(noises), 1.0);
  const auto lost = std::count_if(
      steps.begin(), steps.end(), [&](double step) { return step < least_step_to_noise * noise; });
  look.share_lost = static_cast<double>(std::max<std::ptrdiff_t>(lost, both_ends)) / look.places;
  look.step_to_noise = median(steps) / noise;
  look.share_at_end = static_cast<double>(ends) / look.places;
  return look;
}

} // namespace pritchel::imaging
