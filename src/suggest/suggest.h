/// Landmarks proposed on opening a radiograph, each to be confirmed or moved by a person. No number
/// is ever made of an unconfirmed suggestion. How well it does: docs/suggestions.md.
/// No type of OpenCV appears here.
#pragma once

#include "base/result.h"
#include "geometry/frames.h"
#include "imaging/picture.h"
#include "measure/view.h"

#include <string>
#include <vector>

namespace pritchel::suggest {

/// Side of the stored picture that the toe (lateromedial) or lateral (dorsopalmar) points to.
enum class Toward { left, right, unknown };

struct Ask {
  measure::View view = measure::View::lateromedial;
  /// Unknown: found out in a lateromedial picture; in a dorsopalmar one nobody can see it, and only
  /// landmarks without a side are proposed.
  Toward toward = Toward::unknown;
  measure::Shoeing shoeing = measure::Shoeing::bare;
  double mm_per_pixel = 0; ///< about, in the plane of interest; 0: not known
};

struct Suggestion {
  std::string landmark; ///< id in templates/protocols
  ImagePoint at;
  double confidence = 0; ///< 0...1: estimated chance that it lies within 2.5 mm
};

/// Only what is sure enough; empty when the picture is a photo or isn't recognised as a foot in
/// this view. The same for the same picture.
[[nodiscard]] Result<std::vector<Suggestion>> suggest(const imaging::Picture& radiograph,
                                                      const Ask& ask);

} // namespace pritchel::suggest
