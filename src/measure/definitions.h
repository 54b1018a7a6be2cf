/// THE table: one row for each measurement, in the order of paper and page. Everything that lists
/// measurements (page, paper, command line, docs/measurements.md, schemas) loops over it. The rows
/// stand in table_*.cpp, one file a kind of picture.
#pragma once

#include "base/limits.h"
#include "geometry/dual.h"
#include "measure/attempt.h"
#include "measure/placed.h"

#include <array>
#include <cstddef>
#include <initializer_list>
#include <span>
#include <string_view>

namespace pritchel::measure {

/// First input behind those of a reading: 0 is the common scale, then two for each landmark.
inline constexpr int first_other_input = 1 + 2 * static_cast<int>(limits::landmarks_in_reading);
/// Derivatives to a reading's inputs, and to a few that are not of the reading (a plan's amounts).
using Gradient = Dual<first_other_input + 8>;

enum class Unit { degrees, millimetres, ratio, per_cent };

/// "deg", "mm", "1", "%": the words of the file formats.
[[nodiscard]] std::string_view key(Unit unit);
/// "°", "mm", "", "%"
[[nodiscard]] std::string_view symbol(Unit unit);
/// Digits after the point that are worth showing.
[[nodiscard]] int decimals(Unit unit);

enum class Scale { needed, not_needed };

/// Landmark ids, at most 14.
struct LandmarkList {
  std::array<std::string_view, 14> ids{};
  std::size_t count = 0;

  constexpr LandmarkList(std::initializer_list<std::string_view> list) {
    for (const auto id : list)
      ids[count++] = id;
  }
  [[nodiscard]] constexpr const std::string_view* begin() const { return ids.data(); }
  [[nodiscard]] constexpr const std::string_view* end() const { return ids.data() + count; }
};

template <class T> using Formula = Attempt<Drawn<T>> (*)(const Placed<T>&);

struct Definition {
  std::string_view id;
  std::string_view title; ///< fore wording; worded_for() makes the hind one
  View view;
  Unit unit;
  Scale scale;
  std::string_view what;     ///< one plain sentence: between what it is taken
  std::string_view sign;     ///< what a positive value means; empty where it goes without saying
  std::string_view equation; ///< n, u: ground normal and direction
  std::string_view source;   ///< key in docs/sources.md
  LandmarkList needs;        ///< without these: not measurable
  Formula<double> value;
  Formula<Gradient> gradient;
  Legs legs = Legs::all;
};

/// Is it taken on this kind of picture of this limb?
[[nodiscard]] constexpr bool is_for(const Definition& definition, View view, Limb limb) {
  return definition.view == view && are_for(definition.legs, limb);
}

[[nodiscard]] std::span<const Definition> definitions();

/// Nothing for an unknown id.
[[nodiscard]] const Definition* definition(std::string_view id);

/// Evaluates a definition's formula for either number type. All its landmarks must be placed.
[[nodiscard]] inline Attempt<Drawn<double>> evaluate(const Definition& definition,
                                                     const Placed<double>& placed) {
  return definition.value(placed);
}
[[nodiscard]] inline Attempt<Drawn<Gradient>> evaluate(const Definition& definition,
                                                       const Placed<Gradient>& placed) {
  return definition.gradient(placed);
}

} // namespace pritchel::measure
