/// Round blobs in a likeness map, found at every level of brightness. Inside imaging only.
#pragma once

#include <opencv2/core.hpp>

#include <vector>

namespace pritchel::imaging {

/// An ellipse: half axes in pixels, `turn` of the longer one in radians.
struct Blob {
  cv::Point2d centre;
  double longer = 0;
  double shorter = 0;
  double turn = 0;
};

/// What keeps its place and size over several levels. A dot may give more than one blob.
[[nodiscard]] std::vector<Blob> round_blobs(const cv::Mat1f& like, double least_px, double most_px);

/// The ellipse with the same moments as the set pixels of `mask`, its corner at `at`; `filled`: the
/// set's area over the ellipse's.
struct MaskEllipse {
  Blob blob;
  double filled = 0;
};
[[nodiscard]] MaskEllipse ellipse_of(const cv::Mat1b& mask, cv::Point at);

/// The ellipse through the rim: on rays from the middle, where the likeness falls through half-way
/// between inside and outside.
struct Rim {
  Blob blob;
  double found = 0;     ///< share of the rays
  double roughness = 0; ///< root mean square of the rim's distance from the ellipse over its radius
  double contrast = 0;  ///< inside over outside
};
[[nodiscard]] Rim rim_of(const cv::Mat1f& like, const Blob& start);

} // namespace pritchel::imaging
