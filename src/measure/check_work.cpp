#include "measure/check_work.h"

#include "measure/uncertainty.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::measure {
namespace {

/// Length of the coffin bone from tip to palmar process where the picture has no scale: the middle
/// of 62-75 mm in adult riding horses, from memory. Only ratios to the bone's own width use it.
constexpr double usual_solar_length_mm = 68;
constexpr double solar_length_unsure = 0.06;

/// Own estimates for a sharp picture: a bone's outline, the block's edge, a marker.
double unsure_unlisted(std::string_view id) {
  return id.substr(0, 11) == "block-edge-" ? 0.3 : 0.5;
}

/// Ids of the measurements of the reading's picture that are wanted.
template <class Wanted>
std::vector<std::string> chosen(const Reading& reading, const Wanted& wanted) {
  std::vector<std::string> ids;
  for (const auto& each : definitions())
    if (is_for(each, reading.view, reading.limb) && wanted(each))
      ids.emplace_back(each.id);
  return ids;
}

template <class T> bool contains(const std::vector<T>& all, std::string_view wanted) {
  return std::find(all.begin(), all.end(), wanted) != all.end();
}

} // namespace

CheckWork::CheckWork(const Reading& reading, const Spreads& spreads)
    : reading_(reading),
      spreads_(spreads),
      placed_(placed(reading)),
      axes_(picture_axes<double>()) {
  const auto [from, to] = ground_landmarks(reading.view);
  has_ground_ = has({from, to}) && distance(placed_[from], placed_[to]) > 0;
  if (has_ground_)
    axes_ = ground_of(placed_);
  if (placed_.has_scale)
    mm_per_unit_ = 1;
  else if (has({"p3-tip", "p3-palmar-process"}))
    mm_per_unit_ =
        usual_solar_length_mm / distance(placed_["p3-tip"], placed_["p3-palmar-process"]);
  if (!std::isfinite(mm_per_unit_))
    mm_per_unit_ = 0;
}

bool CheckWork::has(std::initializer_list<std::string_view> ids) const {
  return std::all_of(ids.begin(), ids.end(), [&](auto id) { return placed_.has(id); });
}

PlanePoint CheckWork::at(std::string_view id) const {
  const double mm = mm_per_unit_ > 0 ? mm_per_unit_ : 1;
  return {axes_.along(placed_[id]) * mm, axes_.height(placed_[id]) * mm};
}

double CheckWork::size_unsure() const {
  return placed_.has_scale ? reading_.calibration.relative_uncertainty : solar_length_unsure;
}

Estimate CheckWork::source_to_foot() const {
  const auto stated = reading_.source_to_detector_mm;
  const double mm = stated.value_or(usual_source_to_detector_mm) - usual_plane_to_detector_mm;
  return {mm, mm * (stated ? stated_distance_unsure : usual_distance_unsure)};
}

double CheckWork::unsure(std::string_view id, const PlaneVector& direction) const {
  if (spreads_.find(id) == spreads_.end())
    return unsure_unlisted(id);
  const auto c = placement_covariance(reading_, placed_, spreads_, id);
  const double variance = c.xx * direction.x * direction.x + 2 * c.xy * direction.x * direction.y +
                          c.yy * direction.y * direction.y;
  return std::sqrt(std::max(variance, 0.0)) * (mm_per_unit_ > 0 ? mm_per_unit_ : 1);
}

double CheckWork::unsure_along(std::string_view id) const {
  return unsure(id, axes_.u);
}
double CheckWork::unsure_up(std::string_view id) const {
  return unsure(id, axes_.n);
}

std::vector<std::string>
CheckWork::touching(std::initializer_list<std::string_view> landmarks) const {
  return measurements_needing(reading_, landmarks);
}

std::vector<std::string> CheckWork::all() const {
  return chosen(reading_, [](const Definition& /*each*/) { return true; });
}

std::vector<std::string> CheckWork::lengths() const {
  return chosen(reading_, [](const Definition& each) { return each.scale == Scale::needed; });
}

std::vector<std::string> CheckWork::among(std::initializer_list<std::string_view> ids) const {
  return chosen(reading_, [&](const Definition& each) {
    return std::find(ids.begin(), ids.end(), each.id) != ids.end();
  });
}

Fitness graded(const CheckLimit& limit, double value, double uncertainty) {
  const double size = std::abs(value);
  if (limit.refuse && size - 2 * uncertainty > *limit.refuse)
    return Fitness::unfit;
  return size - uncertainty > limit.accept ? Fitness::caution : Fitness::fit;
}

namespace {

int weight(Fitness fitness) {
  switch (fitness) {
  case Fitness::fit:
    return 0;
  case Fitness::not_checked:
    return 1;
  case Fitness::caution:
    return 2;
  case Fitness::unfit:
    break;
  }
  return 3;
}

} // namespace

Fitness worse(Fitness a, Fitness b) {
  return weight(a) >= weight(b) ? a : b;
}

std::vector<std::string> measurements_needing(const Reading& reading,
                                              std::initializer_list<std::string_view> landmarks) {
  return chosen(reading, [&](const Definition& each) {
    return std::any_of(each.needs.begin(), each.needs.end(), [&](auto need) {
      return std::find(landmarks.begin(), landmarks.end(), need) != landmarks.end();
    });
  });
}

const Check* refusing(const std::vector<Check>& checks, std::string_view measurement) {
  const auto at = std::find_if(checks.begin(), checks.end(), [&](const Check& each) {
    return each.fitness == Fitness::unfit && contains(each.touches, measurement);
  });
  return at == checks.end() ? nullptr : &*at;
}

std::vector<std::string> cautions_for(const std::vector<Check>& checks,
                                      std::string_view measurement) {
  std::vector<std::string> ids;
  for (const auto& each : checks)
    if ((each.fitness == Fitness::caution || each.fitness == Fitness::not_checked) &&
        contains(each.touches, measurement))
      ids.push_back(each.id);
  return ids;
}

Fitness worst_of(const std::vector<Check>& checks) {
  Fitness worst = Fitness::fit;
  for (const auto& each : checks)
    worst = worse(worst, each.fitness);
  return worst;
}

const Check* find(const std::vector<Check>& checks, std::string_view id) {
  const auto at =
      std::find_if(checks.begin(), checks.end(), [&](const Check& each) { return each.id == id; });
  return at == checks.end() ? nullptr : &*at;
}

std::string_view key(Fitness fitness) {
  switch (fitness) {
  case Fitness::fit:
    return "fit";
  case Fitness::caution:
    return "caution";
  case Fitness::unfit:
    return "unfit";
  case Fitness::not_checked:
    break;
  }
  return "not-checked";
}

std::string_view for_people(Fitness fitness) {
  switch (fitness) {
  case Fitness::fit:
    return "fit to measure";
  case Fitness::caution:
    return "with caution";
  case Fitness::unfit:
    return "not fit to measure";
  case Fitness::not_checked:
    break;
  }
  return "not checked";
}

} // namespace pritchel::measure
