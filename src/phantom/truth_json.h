/// Truth and readings as JSON text.
#pragma once

#include "phantom/truth.h"

#include <string>
#include <vector>

namespace pritchel::phantom {

/// Parameters, shot, landmarks (foot millimetres and pixels), measurements with units.
std::string truth_json(const Foot& foot, const Shot& shot, const std::string& picture);

struct Reader {
  std::string name;
  std::string made; ///< YYYY-MM-DDThh:mm:ssZ
  std::uint64_t seed = 1;
  std::vector<std::string> left_out; ///< landmarks that this reader doesn't place
};

/// A reading as a careful person would place it: truth plus placement error, landmark by landmark,
/// across and along the edge it lies on. Source of the errors: own estimates for a sharp picture
/// and a trained reader; no published source.
std::string
reading_json(const Foot& foot, const Shot& shot, const std::string& picture, const Reader& reader);

} // namespace pritchel::phantom
