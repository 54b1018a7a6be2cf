/// Films of feet drawn by number, for teaching the suggestions and for judging them. Feet, shoes,
/// blocks, beams, distances, exposure, noise and what the maker's software does to the greys are
/// all drawn. The two kinds never share a number, and the unseen kind draws from wider ranges.
#pragma once

#include "imaging/picture.h"
#include "phantom/truth.h"

#include <cstdint>
#include <string>
#include <vector>

namespace pritchel::teach {

enum class Kind { taught, unseen };

struct Point {
  std::string id;
  phantom::Pixel at;
};

struct Drawn {
  imaging::Picture picture;
  phantom::Facing facing = phantom::Facing::left;
  phantom::Shoeing shoeing = phantom::Shoeing::bare;
  double mm_per_pixel = 0;
  std::vector<Point> truth; ///< of the main landmarks
  /// Where a bare foot would have its shoe's points: lets one model hold both.
  std::vector<Point> as_if_shod;
};

/// The same on every machine. `number` from 0.
Drawn drawn_film(Kind kind, phantom::View view, std::uint64_t number);

} // namespace pritchel::teach
