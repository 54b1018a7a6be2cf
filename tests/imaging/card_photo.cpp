#include "card_photo.h"

#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>
#include <random>

namespace pritchel::imaging::test {
namespace {

double radians(double degrees) {
  return degrees * std::acos(-1.0) / 180;
}

cv::Matx33d turn(const CardPhoto& photo) {
  const double y = radians(photo.yaw_deg), p = radians(photo.pitch_deg),
               r = radians(photo.roll_deg);
  const cv::Matx33d yaw(std::cos(y), 0, std::sin(y), 0, 1, 0, -std::sin(y), 0, std::cos(y));
  const cv::Matx33d pitch(1, 0, 0, 0, std::cos(p), -std::sin(p), 0, std::sin(p), std::cos(p));
  const cv::Matx33d roll(std::cos(r), -std::sin(r), 0, std::sin(r), std::cos(r), 0, 0, 0, 1);
  return yaw * pitch * roll;
}

cv::Matx33d camera(const CardPhoto& photo) {
  return {photo.focal_px,
          0,
          (photo.columns - 1) / 2.0,
          0,
          photo.focal_px,
          (photo.rows - 1) / 2.0,
          0,
          0,
          1};
}

/// Where the ray of a straightened, normalised picture point meets the card, mm on it.
class RayToCard {
public:
  explicit RayToCard(const CardPhoto& photo)
      : middle_(board_middle(card(photo.paper))) {
    const auto r = turn(photo);
    const cv::Matx33d plane(
        r(0, 0), r(0, 1), photo.right, r(1, 0), r(1, 1), photo.down, r(2, 0), r(2, 1), photo.away);
    back_ = plane.inv();
  }
  [[nodiscard]] CardPoint operator()(double u, double v) const {
    const auto p = back_ * cv::Vec3d(u, v, 1);
    return {p[0] / p[2] + middle_.x, p[1] / p[2] + middle_.y};
  }

private:
  CardPoint middle_;
  cv::Matx33d back_;
};

/// r (1 + k1 r^2) = seen, by repeated substitution.
double straight_share(double seen_r, double k1) {
  double r = seen_r;
  for (int i = 0; i < 25; ++i)
    r = seen_r / (1 + k1 * r * r);
  return seen_r > 0 ? r / seen_r : 1;
}

/// Paper, print, and behind them a ground with some life in it.
double brightness(const Card& layout, const CardPoint& at) {
  if (at.x < 0 || at.y < 0 || at.x > layout.width_mm || at.y > layout.height_mm)
    return 110 + 25 * std::sin(at.x / 37) * std::sin(at.y / 23);
  return is_black(layout, at) ? 35 : 215;
}

/// The brightness that a point of the sensor sees.
class Sensor {
public:
  explicit Sensor(const CardPhoto& photo)
      : photo_(photo),
        meets_(photo) {}

  [[nodiscard]] double point(double x, double y) const {
    const double u = (x - (photo_.columns - 1) / 2.0) / photo_.focal_px;
    const double v = (y - (photo_.rows - 1) / 2.0) / photo_.focal_px;
    const double share = photo_.k1 == 0 ? 1 : straight_share(std::hypot(u, v), photo_.k1);
    return brightness(card(photo_.paper), meets_(u * share, v * share));
  }

  /// Finely where an edge runs through the pixel.
  [[nodiscard]] double pixel(int x, int y) const {
    const double a = point(x - 0.5, y - 0.5), b = point(x + 0.5, y + 0.5),
                 c = point(x - 0.5, y + 0.5), d = point(x + 0.5, y - 0.5);
    if (std::max({a, b, c, d}) - std::min({a, b, c, d}) < 20)
      return (a + b + c + d) / 4;
    constexpr int fine = 12;
    double sum = 0;
    for (int i = 0; i < fine; ++i)
      for (int k = 0; k < fine; ++k)
        sum += point(x - 0.5 + (i + 0.5) / fine, y - 0.5 + (k + 0.5) / fine);
    return sum / (fine * fine);
  }

private:
  const CardPhoto& photo_;
  RayToCard meets_;
};

/// The card with a little round it.
cv::Rect card_box(const CardPhoto& photo) {
  const auto& layout = card(photo.paper);
  std::vector<cv::Point2f> outline;
  for (const auto& p : seen(photo,
                            {{-20, -20},
                             {layout.width_mm + 20, -20},
                             {layout.width_mm + 20, layout.height_mm + 20},
                             {-20, layout.height_mm + 20}}))
    outline.emplace_back(static_cast<float>(p.x), static_cast<float>(p.y));
  return cv::boundingRect(outline) & cv::Rect(0, 0, photo.columns, photo.rows);
}

cv::Mat bare_picture(const CardPhoto& photo) {
  const Sensor sensor(photo);
  cv::Mat grey(photo.rows, photo.columns, CV_32F);
  const auto box = card_box(photo);
  for (int y = 0; y < photo.rows; ++y)
    for (int x = 0; x < photo.columns; ++x) {
      const double light = 1 - 0.25 * x / photo.columns; // falls off to the right
      const double value = box.contains({x, y})
                               ? sensor.pixel(x, y)
                               : 110 + 25 * std::sin(x / 53.0) * std::sin(y / 41.0);
      grey.at<float>(y, x) = static_cast<float>(light * value);
    }
  return grey;
}

} // namespace

CardPoint board_middle(const Card& layout) {
  return {layout.board.x + layout.columns * layout.square_mm / 2,
          layout.board.y + layout.rows * layout.square_mm / 2};
}

std::vector<ImagePoint> seen(const CardPhoto& photo, const std::vector<CardPoint>& places) {
  const auto middle = board_middle(card(photo.paper));
  std::vector<cv::Point3d> on_card;
  for (const auto& p : places)
    on_card.emplace_back(p.x - middle.x, p.y - middle.y, 0);
  cv::Vec3d rotation;
  cv::Rodrigues(turn(photo), rotation);
  std::vector<cv::Point2d> out;
  cv::projectPoints(on_card,
                    rotation,
                    cv::Vec3d(photo.right, photo.down, photo.away),
                    camera(photo),
                    cv::Vec4d(photo.k1, 0, 0, 0),
                    out);
  std::vector<ImagePoint> points;
  for (const auto& p : out)
    points.push_back({p.x, p.y});
  return points;
}

std::vector<CardCorner> true_corners(const CardPhoto& photo) {
  std::vector<CardPoint> places;
  for (int id = 0; id < corner_count(card(photo.paper)); ++id)
    places.push_back(corner(card(photo.paper), id));
  std::vector<CardCorner> corners;
  for (const auto& p : seen(photo, places))
    corners.push_back({static_cast<int>(corners.size()), p});
  return corners;
}

Picture painted(const CardPhoto& photo) {
  cv::Mat grey = bare_picture(photo);
  if (photo.blur_px > 0)
    cv::GaussianBlur(grey, grey, {0, 0}, photo.blur_px);
  std::mt19937 random(photo.seed);
  std::normal_distribution<double> noise(0, photo.noise);
  Picture picture{.kind = PictureKind::photo, .columns = photo.columns, .rows = photo.rows};
  picture.bits_stored = 8;
  picture.rgb.reserve(std::size_t{3} * static_cast<std::size_t>(photo.columns * photo.rows));
  for (int y = 0; y < photo.rows; ++y)
    for (int x = 0; x < photo.columns; ++x) {
      const double value =
          static_cast<double>(grey.at<float>(y, x)) + (photo.noise > 0 ? noise(random) : 0.0);
      picture.rgb.insert(picture.rgb.end(),
                         3,
                         static_cast<std::uint8_t>(std::clamp(std::lround(value), 0L, 255L)));
    }
  return picture;
}

} // namespace pritchel::imaging::test
