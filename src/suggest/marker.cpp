#include "suggest/marker.h"

#include "imaging/find_marker.h"

namespace pritchel::suggest {
namespace {

/// An edge so much softer than the ball is small is no steel ball's.
constexpr double unsure_share = 0.03;
constexpr double ball_confidence = 0.95;

/// Across the line to the picture's middle, downwards.
Vector<ImageFrame> short_side(const imaging::Picture& picture, const imaging::BallSeen& ball) {
  const ImagePoint middle{0.5 * (picture.columns - 1), 0.5 * (picture.rows - 1)};
  const auto outward = ball.centre - middle;
  if (length(outward) < 1)
    return {0, 1};
  const auto across = unit(left_normal(outward));
  return across.y < 0 ? -across : across;
}

} // namespace

std::vector<Suggestion> marker_ends(const imaging::Picture& radiograph) {
  const auto balls = imaging::find_balls(radiograph);
  if (balls.size() != 1 || balls[0].unsure_px > unsure_share * balls[0].diameter_px)
    return {};
  const auto half = short_side(radiograph, balls[0]) * (0.5 * balls[0].diameter_px);
  return {{"marker-1", balls[0].centre + half, ball_confidence},
          {"marker-2", balls[0].centre - half, ball_confidence}};
}

} // namespace pritchel::suggest
