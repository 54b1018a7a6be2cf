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

/// The required landmarks of the view, the marker's ends and those of the view's check, each off by
/// a normal error across and along the edge it lies on. Same seed, same errors. Source of the
/// errors: own estimates for a sharp picture and a trained reader; no published source.
std::vector<PlacedLandmark> placed_by_hand(const Foot& foot, const Shot& shot, std::uint64_t seed);

/// The same by a reader who follows one outline where two part.
std::vector<PlacedLandmark>
placed_by_hand(const Foot& foot, const Shot& shot, std::uint64_t seed, Follows follows);

} // namespace pritchel::phantom
