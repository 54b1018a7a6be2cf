#include "teach/vary.h"

#include "phantom/exposure.h"
#include "phantom/random.h"

#include <opencv2/imgproc.hpp>

namespace pritchel::teach {
namespace {

constexpr double wider = 1.15;
constexpr double full_scale = (1 << phantom::stored_bits) - 1;

void turn(Drawn& film, cv::Mat& samples, double degrees) {
  const cv::Point2f middle(0.5F * static_cast<float>(samples.cols - 1),
                           0.5F * static_cast<float>(samples.rows - 1));
  const cv::Matx23d way = cv::getRotationMatrix2D(middle, degrees, 1);
  cv::Mat turned;
  cv::warpAffine(samples, turned, way, samples.size(), cv::INTER_LINEAR, cv::BORDER_REPLICATE);
  samples = turned;
  for (auto* list : {&film.truth, &film.as_if_shod})
    for (auto& each : *list) {
      const auto at = way * cv::Vec3d(each.at.x, each.at.y, 1);
      each.at = {at[0], at[1]};
    }
}

void sharpen(cv::Mat& samples, double width_px, double amount) {
  cv::Mat smooth;
  cv::GaussianBlur(samples, smooth, {}, width_px, 0, cv::BORDER_REPLICATE);
  samples += amount * (samples - smooth);
}

void even_out(cv::Mat& samples, double limit) {
  cv::Mat whole;
  samples.convertTo(whole, CV_16U);
  cv::createCLAHE(limit, {6, 6})->apply(whole, whole);
  // The equaliser spreads over all 16 bits.
  whole.convertTo(samples, CV_32F, full_scale / 65'535);
}

} // namespace

Drawn varied(Drawn film, Kind kind, std::uint64_t number) {
  phantom::Draws draw{(kind == Kind::taught ? 0x7A81ED'000ULL : 0xFADED'000ULL) + number};
  const double reach = kind == Kind::taught ? 1 : wider;
  auto& picture = film.picture;
  cv::Mat samples;
  cv::Mat(picture.rows, picture.columns, CV_16U, picture.samples.data()).convertTo(samples, CV_32F);
  if (draw.one_in(2))
    turn(film, samples, reach * draw.between(-5, 5));
  if (draw.one_in(3))
    sharpen(samples, draw.between(0.8, 4) / film.mm_per_pixel, reach * draw.between(0.3, 2.5));
  if (draw.one_in(3))
    even_out(samples, reach * draw.between(1.5, 6));
  samples = cv::min(cv::max(samples, 0), full_scale);
  samples.convertTo(samples, CV_16U);
  picture.samples.assign(samples.begin<std::uint16_t>(), samples.end<std::uint16_t>());
  return film;
}

} // namespace pritchel::teach
