#include "suggest/search.h"

#include "base/median.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace pritchel::suggest {
namespace {

constexpr double start_spread_mm = 6;
/// Ways count beside descriptions, whose values are about a tenth.
constexpr float way_weight = 0.1F;

void add_description(const EdgeMap& map, const SheetPoint& at, std::vector<float>& to) {
  to.resize(to.size() + description_size);
  map.describe(at, std::span(to).last(description_size));
}

SheetPoint middle_of(const std::vector<Shape>& shapes, std::size_t landmark) {
  std::vector<double> x, y;
  for (const auto& each : shapes) {
    x.push_back(each[landmark].x);
    y.push_back(each[landmark].y);
  }
  return {median(x), median(y)};
}

double mean_distance(const std::vector<Shape>& shapes, std::size_t landmark, const SheetPoint& to) {
  double sum = 0;
  for (const auto& each : shapes)
    sum += distance(each[landmark], to);
  return sum / static_cast<double>(shapes.size());
}

float likeness_of(const Model& model,
                  const EdgeMap& map,
                  const SheetPoint& at,
                  std::size_t landmark) {
  std::array<float, description_size> seen{};
  map.describe(at, seen);
  const float* typical = model.typical.data() + landmark * description_size;
  float both = 0, own = 0;
  for (std::size_t i = 0; i < seen.size(); ++i) {
    both += seen[i] * typical[i];
    own += typical[i] * typical[i];
  }
  return both / std::sqrt(std::max(own, 1e-9F));
}

Outcome searched_from(const Model& model, const std::vector<EdgeMap>& maps, const Stand& stand) {
  std::vector<Shape> shapes, before;
  for (const auto& start : starts_about(stand.centroid))
    shapes.push_back(mean_shape_at(model.shapes, start));
  for (std::size_t i = 0; i < maps.size(); ++i) {
    before = shapes;
    for (auto& each : shapes)
      each = stepped(model, model.stages[i], maps[i], each);
  }
  return concluded(model, maps.back(), before, shapes);
}

} // namespace

Shape mean_shape_at(const Shapes& shapes, const SheetPoint& centroid) {
  Shape shape;
  for (std::size_t i = 0; i < shapes.landmarks(); ++i)
    shape.push_back(centroid + SheetVector{static_cast<double>(shapes.mean[2 * i]),
                                           static_cast<double>(shapes.mean[2 * i + 1])});
  return shape;
}

SheetPoint centroid_of(const Shape& shape) {
  SheetVector sum;
  for (const auto& each : shape)
    sum = sum + (each - SheetPoint{});
  return SheetPoint{} + sum / static_cast<double>(shape.size());
}

std::vector<float> ways_of(const Shapes& shapes, const Shape& shape) {
  const auto centroid = centroid_of(shape);
  std::vector<float> along;
  for (int way = 0; way < shapes.count; ++way) {
    const float* of = shapes.ways.data() + static_cast<std::size_t>(way) * shapes.mean.size();
    double dot_product = 0, squares = 0;
    for (std::size_t i = 0; i < shape.size(); ++i) {
      const auto off = shape[i] - centroid;
      const double x = static_cast<double>(of[2 * i]), y = static_cast<double>(of[2 * i + 1]);
      dot_product += x * (off.x - static_cast<double>(shapes.mean[2 * i])) +
                     y * (off.y - static_cast<double>(shapes.mean[2 * i + 1]));
      squares += x * x + y * y;
    }
    along.push_back(static_cast<float>(dot_product / squares));
  }
  return along;
}

void move_whole(const Shapes& shapes, std::span<const float> by, Shape& shape) {
  for (std::size_t i = 0; i < shape.size(); ++i) {
    double x = static_cast<double>(by[0]), y = static_cast<double>(by[1]);
    for (std::size_t way = 0; way + 2 < by.size(); ++way) {
      const float* of = shapes.ways.data() + way * shapes.mean.size() + 2 * i;
      x += static_cast<double>(by[way + 2] * of[0]);
      y += static_cast<double>(by[way + 2] * of[1]);
    }
    shape[i] = shape[i] + SheetVector{x, y};
  }
}

std::array<SheetPoint, start_count> starts_about(const SheetPoint& stand) {
  constexpr double far = start_spread_mm;
  return {stand,
          stand + SheetVector{-far, -far},
          stand + SheetVector{far, -far},
          stand + SheetVector{-far, far},
          stand + SheetVector{far, far}};
}

std::vector<float> inputs_of(const Model&, const EdgeMap& map, const Shape& shape) {
  std::vector<float> inputs;
  inputs.reserve(shape.size() * description_size);
  for (const auto& each : shape)
    add_description(map, each, inputs);
  return inputs;
}

std::vector<float>
inputs_of(const Model& model, const EdgeMap& map, const Shape& shape, std::size_t landmark) {
  std::vector<float> inputs;
  for (const int other : model.company[landmark])
    add_description(map, shape[static_cast<std::size_t>(other)], inputs);
  const auto centroid = centroid_of(shape);
  for (const float way : ways_of(model.shapes, shape))
    inputs.push_back(way_weight * way);
  // Where the landmark lies apart from what the ways say.
  const auto off = shape[landmark] - centroid;
  inputs.push_back(way_weight * (static_cast<float>(off.x) - model.shapes.mean[2 * landmark]));
  inputs.push_back(way_weight * (static_cast<float>(off.y) - model.shapes.mean[2 * landmark + 1]));
  return inputs;
}

Shape stepped(const Model& model, const Stage& stage, const EdgeMap& map, const Shape& shape) {
  Shape moved = shape;
  if (stage.moves_whole()) {
    move_whole(model.shapes, stage.maps[0](inputs_of(model, map, shape)), moved);
    return moved;
  }
  for (std::size_t i = 0; i < shape.size(); ++i) {
    const auto by = stage.maps[i](inputs_of(model, map, shape, i));
    moved[i] = moved[i] + SheetVector{static_cast<double>(by[0]), static_cast<double>(by[1])};
  }
  return moved;
}

Outcome concluded(const Model& model,
                  const EdgeMap& last_map,
                  const std::vector<Shape>& before_last,
                  const std::vector<Shape>& last) {
  Outcome outcome;
  std::vector<float> likeness;
  for (std::size_t i = 0; i < model.landmarks.size(); ++i) {
    outcome.shape.push_back(middle_of(last, i));
    likeness.push_back(likeness_of(model, last_map, outcome.shape[i], i));
    outcome.likeness += static_cast<double>(likeness[i]);
  }
  outcome.likeness /= static_cast<double>(model.landmarks.size());
  for (std::size_t i = 0; i < model.landmarks.size(); ++i) {
    const auto& at = outcome.shape[i];
    outcome.signs.push_back(
        {static_cast<float>(std::log(0.05 + mean_distance(last, i, at))),
         static_cast<float>(std::log(0.05 + distance(middle_of(before_last, i), at))),
         likeness[i],
         static_cast<float>(outcome.likeness),
         1.0F});
  }
  return outcome;
}

std::optional<Outcome>
searched(const Model& model, const Sheet& sheet, const std::vector<Stand>& stands) {
  std::vector<EdgeMap> maps;
  for (const auto& stage : model.stages)
    maps.emplace_back(sheet, stage.level);
  std::optional<Outcome> best;
  for (const auto& stand : stands) {
    auto outcome = searched_from(model, maps, stand);
    if (!best || outcome.likeness > best->likeness)
      best = std::move(outcome);
  }
  return best;
}

double confidence(const Trust& trust, const Signs& signs) {
  double sum = 0;
  for (std::size_t i = 0; i < signs.size(); ++i)
    sum += static_cast<double>(trust.weights[i] * signs[i]);
  return 1 / (1 + std::exp(-sum));
}

} // namespace pritchel::suggest
