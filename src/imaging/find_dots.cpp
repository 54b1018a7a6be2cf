#include "imaging/find_dots.h"

#include "imaging/dot_blobs.h"
#include "imaging/dot_light.h"

#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <cmath>

namespace pritchel::imaging {

namespace {

constexpr double least_dot_px = 5;
/// A dot is 25 mm and the picture holds at least half a foot: it isn't wider than this share.
constexpr double widest_share = 0.12;
/// Larger pictures are searched in a smaller copy; the rim is taken from the picture itself.
constexpr double search_pixels = 2.0e6;
constexpr double least_found = 0.75;
constexpr double least_contrast = 1.35;
constexpr double least_roundness = 0.33;
/// Dots on one limb lie at nearly the same distance: the longer axis differs by less than this.
constexpr double size_spread = 1.3;

cv::Mat3b pixels_of(const Picture& photo) {
  cv::Mat3b rgb(photo.rows, photo.columns);
  std::copy(photo.rgb.begin(), photo.rgb.end(), rgb.data);
  return rgb;
}

/// Own estimates: a rendered dot's rim lies within 2-3 % of its ellipse, a square's is 6 % off.
double confidence_of(const Rim& rim) {
  const double radius = std::sqrt(rim.blob.longer * rim.blob.shorter);
  const double excused = 0.02 + 0.12 / radius; // noise of small dots
  const double rough = rim.roughness / (2 * excused);
  return rim.found * std::exp(-rough * rough) * std::min(1.0, (rim.contrast - 1) / 0.8);
}

double angle_between(const cv::Vec3f& a, const cv::Vec3f& b) {
  const double cosine = static_cast<double>(a.dot(b)) / std::max(cv::norm(a) * cv::norm(b), 1e-9);
  return std::acos(std::clamp(cosine, -1.0, 1.0));
}

cv::Vec3f inner_colour(const cv::Mat3f& light, const Blob& blob) {
  cv::Vec3f sum(0, 0, 0);
  const int reach = std::max(1, static_cast<int>(0.4 * blob.shorter));
  const cv::Point middle(cvRound(blob.centre.x), cvRound(blob.centre.y));
  for (int y = std::max(0, middle.y - reach); y <= std::min(light.rows - 1, middle.y + reach); ++y)
    for (int x = std::max(0, middle.x - reach); x <= std::min(light.cols - 1, middle.x + reach);
         ++x)
      sum += light(y, x);
  return sum;
}

struct Found {
  Dot dot;
  double off_colour = 0; ///< angle
};

/// Of finds at one place the surest stays; of two colours at one place, the nearer colour.
std::vector<Dot> without_doubles(std::vector<Found> all) {
  std::sort(all.begin(), all.end(), [](const Found& a, const Found& b) {
    return a.dot.confidence > b.dot.confidence;
  });
  std::vector<Found> kept;
  for (const Found& f : all) {
    const auto same = std::find_if(kept.begin(), kept.end(), [&](const Found& k) {
      return distance(k.dot.centre, f.dot.centre) <
             0.5 * std::max(k.dot.diameter_px, f.dot.diameter_px);
    });
    if (same == kept.end())
      kept.push_back(f);
    else if (same->dot.colour != f.dot.colour && f.off_colour < same->off_colour)
      *same = f;
  }
  std::vector<Dot> dots;
  dots.reserve(kept.size());
  for (const Found& f : kept)
    dots.push_back(f.dot);
  return dots;
}

/// The size that most dots share: dots come in both colours, while specks of one colour (a card's
/// white squares, grass) don't, and large round things are rarer by chance than small ones.
double shared_size(const std::vector<Dot>& dots) {
  double best = 0;
  double size = 0;
  for (const Dot& middle : dots) {
    std::array<double, 2> weight{0.01, 0.01};
    for (const Dot& d : dots)
      if (std::abs(std::log(d.diameter_px / middle.diameter_px)) < std::log(size_spread))
        weight.at(static_cast<std::size_t>(d.colour)) +=
            d.confidence * d.confidence * d.diameter_px;
    if (weight[0] * weight[1] > best) {
      best = weight[0] * weight[1];
      size = middle.diameter_px;
    }
  }
  return size;
}

std::vector<Dot> of_one_size(const std::vector<Dot>& dots, double told) {
  const double size = told > 0 ? told : shared_size(dots);
  // A click tells a size roughly; what the dots share is told by their rims.
  const double spread = told > 0 ? 1.5 : size_spread;
  std::vector<Dot> kept;
  for (const Dot& d : dots)
    if (std::abs(std::log(d.diameter_px / size)) < std::log(spread))
      kept.push_back(d);
  return kept;
}

class Search {
public:
  explicit Search(const cv::Mat3b& rgb)
      : light_(linear_light(rgb)) {
    const double pixels = static_cast<double>(rgb.cols) * rgb.rows;
    shrink_ = std::max(1.0, std::sqrt(pixels / search_pixels));
    if (shrink_ > 1)
      cv::resize(light_, small_, {}, 1 / shrink_, 1 / shrink_, cv::INTER_AREA);
    else
      small_ = light_;
  }

  void add(const DotColours& colours, int which, std::vector<Found>& found) const {
    const cv::Vec3f wanted = linear_light(colours.colours.at(static_cast<std::size_t>(which)));
    const cv::Vec3f other = linear_light(colours.colours.at(static_cast<std::size_t>(1 - which)));
    const double told = colours.diameter_px / shrink_;
    const double least = told > 0 ? 0.35 * told : least_dot_px / shrink_;
    const double most = told > 0 ? 2 * told : widest_share * std::max(small_.cols, small_.rows);
    const cv::Mat1f like = likeness(light_, wanted);
    for (Blob blob : round_blobs(likeness(small_, wanted), std::max(least, 3.0), most)) {
      blob.centre = (blob.centre + cv::Point2d(0.5, 0.5)) * shrink_ - cv::Point2d(0.5, 0.5);
      blob.longer *= shrink_;
      blob.shorter *= shrink_;
      const Rim rim = rim_of(like, blob);
      const cv::Vec3f inside = inner_colour(light_, rim.blob);
      const double off = angle_between(inside, wanted);
      if (is_dot(rim) && off <= angle_between(inside, other))
        found.push_back({{.centre = {rim.blob.centre.x, rim.blob.centre.y},
                          .diameter_px = 2 * rim.blob.longer,
                          .roundness = rim.blob.shorter / rim.blob.longer,
                          .colour = which,
                          .confidence = confidence_of(rim)},
                         off});
    }
  }

private:
  static bool is_dot(const Rim& rim) {
    constexpr double least_confidence = 0.25;
    return rim.found >= least_found && rim.contrast >= least_contrast &&
           rim.blob.shorter >= least_roundness * rim.blob.longer &&
           2 * rim.blob.longer >= least_dot_px && confidence_of(rim) >= least_confidence;
  }

  cv::Mat3f light_;
  cv::Mat3f small_;
  double shrink_ = 1;
};

} // namespace

std::optional<DotColour> dot_colour(std::string_view name) {
  struct Named {
    std::string_view name;
    DotColour colour;
  };
  constexpr Named offered[] = {{"orange", {240, 110, 20}},
                               {"white", {235, 235, 235}},
                               {"green", {30, 165, 70}},
                               {"blue", {30, 90, 205}},
                               {"yellow", {245, 215, 30}},
                               {"pink", {245, 70, 150}}};
  for (const Named& n : offered)
    if (n.name == name)
      return n.colour;
  return std::nullopt;
}

std::optional<PickedDot> picked_dot(const Picture& photo, const ImagePoint& at) {
  const cv::Point click(cvRound(at.x), cvRound(at.y));
  if (photo.kind != PictureKind::photo || click.x < 1 || click.y < 1 ||
      click.x >= photo.columns - 1 || click.y >= photo.rows - 1)
    return std::nullopt;
  const cv::Mat3b rgb = pixels_of(photo);
  const int reach = static_cast<int>(widest_share * std::max(rgb.cols, rgb.rows));
  const auto window = cv::Rect(click.x - reach, click.y - reach, 2 * reach + 1, 2 * reach + 1) &
                      cv::Rect({}, rgb.size());
  const cv::Mat3f light = linear_light(rgb(window));
  const cv::Point middle = click - window.tl();
  const cv::Scalar mean = cv::mean(light(cv::Rect(middle.x - 1, middle.y - 1, 3, 3)));
  const cv::Mat1f like = likeness(
      light,
      {static_cast<float>(mean[0]), static_cast<float>(mean[1]), static_cast<float>(mean[2])});
  const auto here = static_cast<double>(like(middle));
  for (const double share : {0.5, 0.6, 0.7, 0.8}) {
    cv::Mat1i labels;
    cv::connectedComponents(cv::Mat1b(like > share * here), labels, 4);
    const cv::Mat1b patch(labels == labels(middle));
    const MaskEllipse ellipse = ellipse_of(patch, window.tl());
    if (labels(middle) == 0 || ellipse.filled < 0.9 || 2 * ellipse.blob.longer < least_dot_px ||
        ellipse.blob.shorter < least_roundness * ellipse.blob.longer ||
        2 * ellipse.blob.longer > 0.9 * std::min(window.width, window.height))
      continue;
    const cv::Scalar colour = cv::mean(rgb(window), patch);
    const auto byte = [&](int c) { return static_cast<std::uint8_t>(std::lround(colour[c])); };
    return PickedDot{{byte(0), byte(1), byte(2)}, 2 * ellipse.blob.longer};
  }
  return std::nullopt;
}

std::vector<Dot> find_dots(const Picture& photo, const DotColours& colours) {
  if (photo.kind != PictureKind::photo || photo.rgb.empty())
    return {};
  const Search search(pixels_of(photo));
  std::vector<Found> found;
  for (const int which : {0, 1})
    search.add(colours, which, found);
  return of_one_size(without_doubles(std::move(found)), colours.diameter_px);
}

std::vector<Dot> order_along_limb(std::vector<Dot> dots) {
  std::stable_sort(
      dots.begin(), dots.end(), [](const Dot& a, const Dot& b) { return a.centre.y < b.centre.y; });
  return dots;
}

} // namespace pritchel::imaging
