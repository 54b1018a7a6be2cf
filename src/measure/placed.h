/// The landmarks of a reading brought into the plane frame, over any number type.
#pragma once

#include "base/assert.h"
#include "geometry/line.h"
#include "measure/attempt.h"
#include "measure/reading.h"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace pritchel::measure {

/// Landmarks in the plane frame, mm when `scale` is known, else in pixel widths.
/// A value: the plan moves copies of it and measures them again.
template <class T> class Placed {
public:
  View view = View::lateromedial;
  Shoeing shoeing = Shoeing::bare;
  bool has_scale = false;

  void put(std::string id, Point<PlaneFrame, T> at) {
    if (auto* known = look_for(id))
      *known = std::move(at);
    else
      points_.emplace_back(std::move(id), std::move(at));
  }
  void remove(std::string_view id) {
    std::erase_if(points_, [&](const auto& each) { return each.first == id; });
  }
  [[nodiscard]] bool has(std::string_view id) const { return look_for(id) != nullptr; }
  /// The landmark must have been placed: see has().
  [[nodiscard]] const Point<PlaneFrame, T>& operator[](std::string_view id) const {
    const auto* at = look_for(id);
    PRITCHEL_ASSERT(at != nullptr);
    return *at;
  }
  [[nodiscard]] const auto& points() const { return points_; }
  [[nodiscard]] auto& points() { return points_; }

private:
  std::vector<std::pair<std::string, Point<PlaneFrame, T>>> points_;

  [[nodiscard]] const Point<PlaneFrame, T>* look_for(std::string_view id) const {
    const auto at = std::find_if(
        points_.begin(), points_.end(), [&](const auto& each) { return each.first == id; });
    return at == points_.end() ? nullptr : &at->second;
  }
  [[nodiscard]] Point<PlaneFrame, T>* look_for(std::string_view id) {
    return const_cast<Point<PlaneFrame, T>*>(std::as_const(*this).look_for(id));
  }
};

/// The landmarks that carry the ground line, from the one behind (or medial) to the one in front.
[[nodiscard]] inline std::pair<std::string_view, std::string_view> ground_landmarks(View view) {
  using Pair = std::pair<std::string_view, std::string_view>;
  return is_side_view(view) ? Pair{"ground-heel", "ground-toe"}
                            : Pair{"ground-medial", "ground-lateral"};
}

/// Both ground landmarks must be placed.
template <class T> [[nodiscard]] GroundLine<T> ground_of(const Placed<T>& placed) {
  const auto [from, to] = ground_landmarks(placed.view);
  return ground_through(placed[from], placed[to]);
}

/// Upright and level of a photo: the plumb pair where it is placed (a hanging line, a door post),
/// else the ground. The origin lies on the ground pair where that is placed.
template <class T> [[nodiscard]] Attempt<GroundLine<T>> upright_of(const Placed<T>& placed) {
  const auto [from, to] = ground_landmarks(placed.view);
  const bool has_ground = placed.has(from) && placed.has(to);
  if (placed.has("plumb-top") && placed.has("plumb-bottom")) {
    const auto n = unit(placed["plumb-top"] - placed["plumb-bottom"]);
    return GroundLine<T>{
        has_ground ? midpoint(placed[from], placed[to]) : placed["plumb-bottom"], {n.y, -n.x}, n};
  }
  if (has_ground)
    return ground_of(placed);
  return because("neither a plumb line nor the ground is placed");
}

/// For angles between bones, which need no ground: the picture's own axes.
template <class T> [[nodiscard]] GroundLine<T> picture_axes() {
  return {{T(0), T(0)}, {T(1), T(0)}, {T(0), T(1)}};
}

} // namespace pritchel::measure
