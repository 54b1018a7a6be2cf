/// A part of a picture looked at for edges. Inside imaging only.
#pragma once

#include "geometry/frames.h"
#include "imaging/picture.h"

#include <opencv2/core.hpp>

#include <optional>
#include <span>
#include <vector>

namespace pritchel::imaging {

/// A step from dark to bright across a profile.
struct EdgePeak {
  double u = 0;    ///< along the profile's direction, where half the exposure is left
  double step = 0; ///< grey over noise of a single pixel
};

/// Which way along a profile a step may go.
enum class Step { brighter, either };

/// The part round some points, its pixels made square. Places within it are in square pixels of the
/// picture's width, from its own corner.
class EdgePatch {
public:
  /// `margin` in widths of a pixel.
  EdgePatch(const Picture& picture, std::span<const ImagePoint> round, double margin);

  [[nodiscard]] bool empty() const { return values_.empty(); }
  [[nodiscard]] const cv::Mat& values() const { return values_; }
  [[nodiscard]] double noise() const { return noise_; }
  [[nodiscard]] ImagePoint inward(const ImagePoint& of_picture) const;
  [[nodiscard]] ImagePoint outward(const ImagePoint& of_patch) const;
  [[nodiscard]] Vector<ImageFrame> inward(const Vector<ImageFrame>& of_picture) const;

  /// Steps along `across` (length 1) within `reach` of `at`; grey is averaged over `wide` pixels to
  /// both sides along the edge. In order along the profile.
  [[nodiscard]] std::vector<EdgePeak> peaks(const ImagePoint& at,
                                            const Vector<ImageFrame>& across,
                                            double reach,
                                            double wide,
                                            Step which) const;

private:
  cv::Mat values_;
  cv::Mat
      exposure_; ///< what was let through, of the brightest place's; negative, so it rises alike
  cv::Point2d corner_;
  double aspect_ = 1;
  double noise_ = 1;
};

} // namespace pritchel::imaging
