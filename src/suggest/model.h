/// What was learned of a foot in one view: its shapes, how to step from a guess to the landmarks,
/// and how far to trust the outcome. Learned by src/teach from digital feet. Inside this floor and
/// the teacher only.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "suggest/edges.h"

namespace pritchel::suggest {

/// outputs = weights * inputs + offsets; weights output by output.
struct Linear {
  int inputs = 0;
  int outputs = 0;
  std::vector<float> weights;
  std::vector<float> offsets;

  [[nodiscard]] std::vector<float> operator()(std::span<const float> in) const;
};

/// The mean shape about its centroid and the ways in which shapes differ, each scaled to deviation
/// 1. Coordinates x0, y0, x1, y1... in mm.
struct Shapes {
  std::vector<float> mean;
  std::vector<float> ways; ///< way by way, of the size of `mean`
  int count = 0;

  [[nodiscard]] std::size_t landmarks() const { return mean.size() / 2; }
};

/// One step of the search. Either one map moves the whole shape (outputs: shift x, y in mm, then
/// the ways), or each landmark has a map of its own (outputs: shift x, y).
struct Stage {
  Level level;
  std::vector<Linear> maps;

  [[nodiscard]] bool moves_whole() const { return maps.size() == 1; }
};

/// What a foot looks like as a whole, for finding where it stands.
struct Pattern {
  Level level;
  double spacing_mm = 5; ///< between its places
  double left_mm = 0;    ///< first place from the centroid of the shape
  double top_mm = 0;
  int columns = 0;
  int rows = 0;
  std::vector<float> strengths; ///< place by place, mean 0, length 1
};

/// How sure a landmark is, of what the search tells (Signs in search.h): a logistic of their
/// weighted sum; the last weight stands alone.
struct Trust {
  std::vector<float> weights;
  float floor = 1; ///< below it nothing is proposed
};

struct Model {
  std::vector<std::string> landmarks; ///< ids
  Shapes shapes;
  Pattern pattern;
  std::vector<Stage> stages;
  /// Each landmark's nearest others in the mean shape, itself first: whose surroundings its own
  /// maps look at.
  std::vector<std::vector<int>> company;
  std::vector<float> typical; ///< description of each landmark at the last stage's level
  std::vector<Trust> trust;
  float least_likeness = 0; ///< of the whole film to the typical; below it, it is no foot
};

/// Nothing when the bytes are no model.
[[nodiscard]] std::optional<Model> read_model(std::span<const std::uint8_t> bytes);
[[nodiscard]] std::vector<std::uint8_t> written(const Model& model);

} // namespace pritchel::suggest
