#include "imaging/edge_patch.h"

#include "base/median.h"
#include "imaging/scale.h"
#include "imaging/value_raster.h"
#include "imaging/windowing.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace pritchel::imaging {
namespace {

constexpr double step_px = 0.5;
constexpr int half_kernel = 5;              ///< steps
constexpr double smooth_px = 0.9;           ///< of the derivative
constexpr double folds_in_range = 5;        ///< from air to metal behind scatter [E]
constexpr double least_step_to_noise = 1.5; ///< of a single profile; the fits ask for many

cv::Rect part_of(const Picture& picture, std::span<const ImagePoint> round, double margin) {
  double left = picture.columns, right = 0, top = picture.rows, bottom = 0;
  for (const auto& p : round) {
    if (!std::isfinite(p.x) || !std::isfinite(p.y))
      return {};
    left = std::min(left, p.x);
    right = std::max(right, p.x);
    top = std::min(top, p.y);
    bottom = std::max(bottom, p.y);
  }
  const auto whole = cv::Rect(0, 0, picture.columns, picture.rows);
  const auto clamped = [](double v) { return static_cast<int>(std::clamp(v, -1e6, 1e6)); };
  const int x = clamped(left - margin), y = clamped(top - margin);
  return cv::Rect(x, y, clamped(right + margin) - x + 1, clamped(bottom + margin) - y + 1) & whole;
}

/// From the noise of the second difference across, which edges hardly touch: variance 6.
double noise_of(const cv::Mat& values) {
  std::vector<double> off;
  for (int y = 0; y < values.rows; y += 2)
    for (int x = 2; x < values.cols; x += 2) {
      const auto* row = values.ptr<float>(y);
      off.push_back(std::abs(static_cast<double>(row[x] - 2 * row[x - 1] + row[x - 2])));
    }
  return std::max(1.4826 * median(std::move(off)) / std::sqrt(6.0), 1e-6);
}

/// Grey by which the exposure falls to 1/e, from the whole picture's range but for its extremes. A
/// photo's luminance goes with the light itself.
double grey_per_fold(const Picture& picture) {
  constexpr double straight = 1e6;
  if (picture.kind == PictureKind::photo)
    return straight;
  std::vector<double> some;
  const std::size_t stride = picture.samples.size() / 5000 + 1;
  for (std::size_t i = 0; i < picture.samples.size(); i += stride)
    some.push_back(rescaled_value(picture, picture.samples[i]));
  std::sort(some.begin(), some.end());
  const auto at = [&](double share) {
    return some[static_cast<std::size_t>(share * static_cast<double>(some.size() - 1))];
  };
  return some.empty() ? straight : std::abs(at(0.999) - at(0.01)) / folds_in_range;
}

/// Between two pixels the exposure is what can be interpolated: a pixel holds the mean of what
/// reached it.
cv::Mat exposure_of(const cv::Mat& values, double per_fold) {
  double dark = 0;
  cv::minMaxLoc(values, &dark);
  cv::Mat exposure;
  cv::exp((dark - values) / per_fold, exposure);
  return -exposure;
}

/// Derivative of a Gaussian, to be laid over steps.
std::array<double, 2 * half_kernel + 1> kernel() {
  std::array<double, 2 * half_kernel + 1> k{};
  double sum = 0;
  for (int i = -half_kernel; i <= half_kernel; ++i) {
    const double u = i * step_px;
    k[static_cast<std::size_t>(i + half_kernel)] =
        u * std::exp(-u * u / (2 * smooth_px * smooth_px));
    sum += u * k[static_cast<std::size_t>(i + half_kernel)];
  }
  for (auto& each : k)
    each /= sum;
  return k;
}

std::vector<double> derivative(const std::vector<double>& profile) {
  static const auto k = kernel();
  std::vector<double> out(profile.size(), 0.0);
  for (std::size_t i = half_kernel; i + half_kernel < profile.size(); ++i)
    for (std::size_t j = 0; j < k.size(); ++j)
      out[i] += k[j] * profile[i + j - half_kernel];
  return out;
}

std::optional<double> mean_along(const cv::Mat& raster,
                                 const ImagePoint& at,
                                 const Vector<ImageFrame>& along,
                                 double wide) {
  double sum = 0;
  int count = 0;
  for (double side = -wide; side <= wide; side += 1)
    if (const auto value = value_at(raster, at + along * side)) {
      sum += *value;
      ++count;
    }
  return count == 0 ? std::nullopt : std::optional(sum / count);
}

/// Top of the parabola through three neighbours, in steps from the middle one.
double top_of(double before, double middle, double after) {
  const double bend = before - 2 * middle + after;
  return bend < 0 ? std::clamp(0.5 * (before - after) / bend, -0.5, 0.5) : 0;
}

/// The steepest place of `slope` (times sign) within a pixel and a half of `i`, in steps.
double steepest_near(const std::vector<double>& slope, std::size_t i, double sign) {
  constexpr std::size_t about = 3;
  std::size_t best = i;
  const std::size_t first = std::max(i, about + 1) - about;
  for (std::size_t j = first; j <= std::min(i + about, slope.size() - 2); ++j)
    if (sign * slope[j] > sign * slope[best])
      best = j;
  return static_cast<double>(best) +
         top_of(sign * slope[best - 1], sign * slope[best], sign * slope[best + 1]);
}

} // namespace

EdgePatch::EdgePatch(const Picture& picture, std::span<const ImagePoint> round, double margin)
    : aspect_(pixel_aspect_ratio(picture.spacing, picture.pixel_aspect)) {
  const auto part = part_of(picture, round, margin);
  constexpr int least_side = 8;
  if (part.width < least_side || part.height < least_side)
    return;
  corner_ = part.tl();
  values_ = value_raster(picture, part);
  noise_ = noise_of(values_);
  exposure_ = exposure_of(values_, std::max(grey_per_fold(picture), noise_));
  if (std::abs(aspect_ - 1) > 1e-6)
    for (auto* each : {&values_, &exposure_})
      cv::resize(
          *each, *each, {part.width, cvRound(part.height * aspect_)}, 0, 0, cv::INTER_LINEAR);
}

ImagePoint EdgePatch::inward(const ImagePoint& of_picture) const {
  const double y = of_picture.y - corner_.y;
  return {of_picture.x - corner_.x, (y + 0.5) * aspect_ - 0.5};
}

ImagePoint EdgePatch::outward(const ImagePoint& of_patch) const {
  return {of_patch.x + corner_.x, (of_patch.y + 0.5) / aspect_ - 0.5 + corner_.y};
}

Vector<ImageFrame> EdgePatch::inward(const Vector<ImageFrame>& of_picture) const {
  return {of_picture.x, of_picture.y * aspect_};
}

std::vector<EdgePeak> EdgePatch::peaks(const ImagePoint& at,
                                       const Vector<ImageFrame>& across,
                                       double reach,
                                       double wide,
                                       Step which) const {
  const Vector<ImageFrame> along{-across.y, across.x};
  const double room = reach + half_kernel * step_px + 1;
  std::vector<double> u, grey, exposure;
  for (double at_u = -room; at_u <= room; at_u += step_px) {
    const auto here = at + across * at_u;
    const auto value = mean_along(values_, here, along, wide);
    const auto let_through = mean_along(exposure_, here, along, wide);
    if (!value || !let_through)
      continue;
    if (!u.empty() && at_u - u.back() > 1.5 * step_px)
      break; // beyond the picture's corner
    u.push_back(at_u);
    grey.push_back(*value);
    exposure.push_back(*let_through);
  }
  std::vector<EdgePeak> found;
  if (grey.size() < 2 * half_kernel + 3)
    return found;
  const auto slope = derivative(grey), fall = derivative(exposure);
  for (std::size_t i = half_kernel + 1; i + half_kernel + 1 < slope.size(); ++i) {
    const double sign = slope[i] < 0 ? -1 : 1;
    if ((sign < 0 && which == Step::brighter) || std::abs(u[i]) > reach ||
        sign * slope[i] < sign * slope[i - 1] || sign * slope[i] <= sign * slope[i + 1])
      continue;
    // A blurred step's height from its slope: root of 2 pi times the blur, kernel and pixel's own.
    const double step =
        sign * slope[i] * std::sqrt(2 * std::numbers::pi) * std::hypot(smooth_px, 0.9);
    if (step < least_step_to_noise * noise_)
      continue;
    found.push_back(
        {.u = u.front() + step_px * steepest_near(fall, i, sign), .step = step / noise_});
  }
  return found;
}

} // namespace pritchel::imaging
