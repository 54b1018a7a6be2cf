/// From a film to the places of its landmarks by a learned model. Source of the way: supervised
/// descent (Xiong and De la Torre 2013, CVPR). Inside this floor and the teacher only.
#pragma once

#include <array>

#include "suggest/model.h"

namespace pritchel::suggest {

using Shape = std::vector<SheetPoint>;

/// The mean shape with its centroid at the place.
[[nodiscard]] Shape mean_shape_at(const Shapes& shapes, const SheetPoint& centroid);
[[nodiscard]] SheetPoint centroid_of(const Shape& shape);
/// How far along each way the shape lies, in deviations.
[[nodiscard]] std::vector<float> ways_of(const Shapes& shapes, const Shape& shape);

/// Where the pattern fits best, and how well (-1...1).
struct Stand {
  SheetPoint centroid;
  double likeness = 0;
};
/// Best first; the second, well apart, is for when the best is a mistake. None when the film is too
/// small for a foot.
inline constexpr std::size_t most_stands = 2;
[[nodiscard]] std::vector<Stand> find_stands(const Pattern& pattern, const Sheet& sheet);

/// Starts of the search about a stand. Their agreement tells how sure the outcome is.
inline constexpr std::size_t start_count = 5;
[[nodiscard]] std::array<SheetPoint, start_count> starts_about(const SheetPoint& stand);

/// What a map of the stage looks at: landmark's own (`of` >= 0) or the whole shape's.
[[nodiscard]] std::vector<float>
inputs_of(const Model& model, const EdgeMap& map, const Shape& shape);
[[nodiscard]] std::vector<float>
inputs_of(const Model& model, const EdgeMap& map, const Shape& shape, std::size_t landmark);

/// Moves a shape by the outputs of a whole stage's map.
void move_whole(const Shapes& shapes, std::span<const float> by, Shape& shape);

/// The shape after one stage.
[[nodiscard]] Shape
stepped(const Model& model, const Stage& stage, const EdgeMap& map, const Shape& shape);

/// What the search tells about one landmark, for Trust.
inline constexpr std::size_t sign_count = 5;
using Signs = std::array<float, sign_count>;

struct Outcome {
  Shape shape;              ///< middle of the starts' outcomes
  std::vector<Signs> signs; ///< of each landmark
  double likeness = 0;      ///< of the film's landmarks to the typical, mean
};

/// The outcome of the starts' last two shapes.
[[nodiscard]] Outcome concluded(const Model& model,
                                const EdgeMap& last_map,
                                const std::vector<Shape>& before_last,
                                const std::vector<Shape>& last);

/// From the stand whose outcome looks most like a foot; nothing without a stand.
[[nodiscard]] std::optional<Outcome>
searched(const Model& model, const Sheet& sheet, const std::vector<Stand>& stands);

[[nodiscard]] double confidence(const Trust& trust, const Signs& signs);

} // namespace pritchel::suggest
