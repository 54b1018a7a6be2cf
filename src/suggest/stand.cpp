#include <algorithm>
#include <cmath>

#include "suggest/search.h"

namespace pritchel::suggest {
namespace {

/// Strengths of the whole film every so many millimetres.
struct Lattice {
  int columns = 0;
  int rows = 0;
  std::vector<float> strengths;

  [[nodiscard]] const float* at(int column, int row) const {
    return strengths.data() +
           (static_cast<std::ptrdiff_t>(row) * columns + column) * edge_directions;
  }
};

Lattice lattice_of(const EdgeMap& map, const Sheet& sheet, double spacing_mm, int margin) {
  Lattice lattice{.columns = static_cast<int>(sheet.width_mm() / spacing_mm) + 1 + 2 * margin,
                  .rows = static_cast<int>(sheet.height_mm() / spacing_mm) + 1 + 2 * margin};
  std::array<float, edge_directions> here{};
  for (int row = 0; row < lattice.rows; ++row)
    for (int column = 0; column < lattice.columns; ++column) {
      map.at({(column - margin) * spacing_mm, (row - margin) * spacing_mm}, here);
      lattice.strengths.insert(lattice.strengths.end(), here.begin(), here.end());
    }
  return lattice;
}

double likeness_at(const Pattern& pattern, const Lattice& lattice, int left, int top) {
  double both = 0, own = 0, sum = 0;
  const int across = pattern.columns * edge_directions;
  for (int row = 0; row < pattern.rows; ++row) {
    const float* of = pattern.strengths.data() + static_cast<std::ptrdiff_t>(row) * across;
    const float* here = lattice.at(left, top + row);
    for (int i = 0; i < across; ++i) {
      const auto value = static_cast<double>(here[i]);
      both += value * static_cast<double>(of[i]);
      own += value * value;
      sum += value;
    }
  }
  const double mean_square = sum * sum / (static_cast<double>(across) * pattern.rows);
  return both / std::sqrt(std::max(own - mean_square, 1e-9));
}

} // namespace

std::vector<Stand> find_stands(const Pattern& pattern, const Sheet& sheet) {
  constexpr double outside_mm = 30; // a foot may be cut off by the film's edge
  constexpr double apart_mm = 20;
  const int margin = static_cast<int>(outside_mm / pattern.spacing_mm);
  const EdgeMap map(sheet, pattern.level);
  const auto lattice = lattice_of(map, sheet, pattern.spacing_mm, margin);
  std::vector<Stand> all;
  for (int top = 0; top + pattern.rows <= lattice.rows; ++top)
    for (int left = 0; left + pattern.columns <= lattice.columns; ++left)
      all.push_back({.centroid = {(left - margin) * pattern.spacing_mm - pattern.left_mm,
                                  (top - margin) * pattern.spacing_mm - pattern.top_mm},
                     .likeness = likeness_at(pattern, lattice, left, top)});
  std::stable_sort(all.begin(), all.end(), [](const Stand& a, const Stand& b) {
    return a.likeness > b.likeness;
  });
  std::vector<Stand> found;
  for (const auto& each : all)
    if (found.empty() || distance(each.centroid, found[0].centroid) >= apart_mm) {
      found.push_back(each);
      if (found.size() == most_stands)
        break;
    }
  return found;
}

} // namespace pritchel::suggest
