/// Landmarks as a careful person would place them: truth plus error.
#pragma once

#include "phantom/truth.h"

#include <cstdint>
#include <string>
#include <vector>

namespace pritchel::phantom {

struct PlacedLandmark {
  std::string id;
  Pixel pixel;
};

/// The required landmarks of the view (and the marker's ends), each off by a normal error across
/// and along the edge it lies on. Same seed, same errors. Source of the errors: own estimates for a
/// sharp picture and a trained reader; no published source.
std::vector<PlacedLandmark> placed_by_hand(const Foot& foot, const Shot& shot, std::uint64_t seed);

} // namespace pritchel::phantom
