#include "imaging/find_card.h"

#include "base/median.h"

#include <fmt/format.h>
#include <opencv2/aruco.hpp>
#include <opencv2/calib3d.hpp>
#include <opencv2/imgproc.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <set>
#include <utility>

namespace pritchel::imaging {
namespace {

using Points = std::vector<cv::Point2f>;

/// A marker with its corners in the full picture and on the card.
struct MarkerSeen {
  int id = 0;
  Points at;
  Points on_card;
};

/// Longer sides at which markers are looked for: small is fast and calm, large finds a small card.
constexpr std::array<int, 3> search_sides{1600, 3200, 4800};
/// A picture smaller than these is enlarged, but no more than this.
constexpr double greatest_enlargement = 2.0;
/// Markers that make a closer look needless.
constexpr std::size_t enough_markers = 22;
constexpr std::size_t least_markers = 3;

cv::Mat grey_of(const Picture& photo) {
  const cv::Mat rgb(photo.rows,
                    photo.columns,
                    CV_8UC3,
                    const_cast<std::uint8_t*>(photo.rgb.data())); // NOLINT: only read
  cv::Mat grey;
  cv::cvtColor(rgb, grey, cv::COLOR_RGB2GRAY);
  return grey;
}

cv::Ptr<cv::aruco::DetectorParameters> search_parameters() {
  auto parameters = cv::aruco::DetectorParameters::create();
  parameters->minMarkerPerimeterRate = 0.01;
  parameters->adaptiveThreshWinSizeMax = 43;
  parameters->adaptiveThreshWinSizeStep = 10;
  parameters->cornerRefinementMethod = cv::aruco::CORNER_REFINE_SUBPIX;
  parameters->cornerRefinementWinSize = 3;
  return parameters;
}

Points card_points(const std::vector<CardPoint>& points) {
  Points out;
  for (const auto& p : points)
    out.emplace_back(static_cast<float>(p.x), static_cast<float>(p.y));
  return out;
}

/// Markers of both papers in a part of the picture, at so many pixels for one of the picture's.
std::vector<MarkerSeen> markers_in(const cv::Mat& grey, const cv::Rect& part, double zoom) {
  cv::Mat looked_at = grey(part);
  if (zoom != 1)
    cv::resize(grey(part), looked_at, {}, zoom, zoom, zoom < 1 ? cv::INTER_AREA : cv::INTER_CUBIC);
  std::vector<std::vector<cv::Point2f>> corners;
  std::vector<int> ids;
  cv::aruco::detectMarkers(looked_at,
                           cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_50),
                           corners,
                           ids,
                           search_parameters());
  const double across = static_cast<double>(part.width) / looked_at.cols;
  const double down = static_cast<double>(part.height) / looked_at.rows;
  std::vector<MarkerSeen> markers;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    const auto paper = paper_of_marker(ids[i]);
    if (!paper)
      continue;
    MarkerSeen marker{.id = ids[i], .on_card = card_points(*marker_corners(card(*paper), ids[i]))};
    for (const auto& p : corners[i])
      marker.at.emplace_back(
          static_cast<float>(part.x + (static_cast<double>(p.x) + 0.5) * across - 0.5),
          static_cast<float>(part.y + (static_cast<double>(p.y) + 0.5) * down - 0.5));
    markers.push_back(std::move(marker));
  }
  return markers;
}

cv::Mat plane_of(const std::vector<MarkerSeen>& markers, int method, double tolerance) {
  Points from, to;
  for (const auto& each : markers) {
    from.insert(from.end(), each.on_card.begin(), each.on_card.end());
    to.insert(to.end(), each.at.begin(), each.at.end());
  }
  return cv::findHomography(from, to, method, tolerance);
}

double side_px(const MarkerSeen& marker) {
  return std::sqrt(cv::contourArea(marker.at));
}

double median_side_px(const std::vector<MarkerSeen>& markers) {
  std::vector<double> sides;
  for (const auto& each : markers)
    sides.push_back(side_px(each));
  return median(std::move(sides));
}

/// Those of one paper that lie on one flat board, within what a lens may bend.
std::vector<MarkerSeen> on_one_board(const std::vector<MarkerSeen>& all, CardPaper paper) {
  std::vector<MarkerSeen> mine;
  std::copy_if(all.begin(), all.end(), std::back_inserter(mine), [&](const MarkerSeen& each) {
    return paper_of_marker(each.id) == paper;
  });
  if (mine.size() < least_markers)
    return {};
  const double tolerance = std::max(2.0, 0.15 * median_side_px(mine));
  const cv::Mat plane = plane_of(mine, cv::RANSAC, tolerance);
  if (plane.empty())
    return {};
  std::vector<MarkerSeen> kept;
  for (const auto& each : mine) {
    Points expected;
    cv::perspectiveTransform(each.on_card, expected, plane);
    if (cv::norm(expected, each.at, cv::NORM_INF) < tolerance)
      kept.push_back(each);
  }
  return kept.size() < least_markers ? std::vector<MarkerSeen>{} : kept;
}

struct BoardSeen {
  CardPaper paper = CardPaper::a4;
  std::vector<MarkerSeen> markers;
};

void take_better(BoardSeen& best, const std::vector<MarkerSeen>& markers) {
  for (const auto paper : {CardPaper::a4, CardPaper::letter})
    if (auto mine = on_one_board(markers, paper); mine.size() > best.markers.size())
      best = {.paper = paper, .markers = std::move(mine)};
}

/// A closer look where some markers were found, at a size at which they are easy to read.
void look_closer(BoardSeen& board, const cv::Mat& grey) {
  const double side = median_side_px(board.markers);
  Points all;
  for (const auto& each : board.markers)
    all.insert(all.end(), each.at.begin(), each.at.end());
  const int more = cvRound(8 * side); // the rest of the board lies within
  const auto found = cv::boundingRect(all);
  const cv::Rect part =
      cv::Rect(found.x - more, found.y - more, found.width + 2 * more, found.height + 2 * more) &
      cv::Rect(0, 0, grey.cols, grey.rows);
  constexpr double easy_side = 60;
  take_better(board, markers_in(grey, part, std::clamp(easy_side / side, 0.25, 4.0)));
}

BoardSeen board_in(const cv::Mat& grey) {
  const cv::Rect whole(0, 0, grey.cols, grey.rows);
  const int longest = std::max(grey.cols, grey.rows);
  BoardSeen best;
  for (const int side : search_sides) {
    const double zoom = static_cast<double>(side) / longest;
    if (zoom > greatest_enlargement)
      break;
    take_better(best, markers_in(grey, whole, zoom));
    if (!best.markers.empty())
      break;
  }
  if (!best.markers.empty() && best.markers.size() < enough_markers)
    look_closer(best, grey);
  return best;
}

struct Pair {
  cv::Point2f on_card;
  cv::Point2f at;
};

/// Where a corner must lie by known places round it; a whole-board map would carry the lens's
/// bending.
struct Expected {
  cv::Point2f at;
  double px_per_mm = 0;
  std::array<cv::Point2f, 4> squares; ///< 2 mm into the squares: upper left, then clockwise
};

std::optional<Expected> expected_corner(std::vector<Pair> known, const CardPoint& place) {
  const cv::Point2f here(static_cast<float>(place.x), static_cast<float>(place.y));
  constexpr std::size_t used = 16;
  const auto few = std::min(used, known.size());
  std::partial_sort(known.begin(),
                    known.begin() + static_cast<long>(few),
                    known.end(),
                    [&](const Pair& a, const Pair& b) {
                      return cv::norm(a.on_card - here) < cv::norm(b.on_card - here);
                    });
  Points from, to;
  for (std::size_t i = 0; i < few; ++i) {
    from.push_back(known[i].on_card);
    to.push_back(known[i].at);
  }
  const cv::Mat plane = cv::findHomography(from, to);
  if (plane.empty())
    return std::nullopt;
  Points out;
  constexpr float into = 2;
  const Points in{here,
                  here + cv::Point2f(-into, -into),
                  here + cv::Point2f(into, -into),
                  here + cv::Point2f(into, into),
                  here + cv::Point2f(-into, into)};
  cv::perspectiveTransform(in, out, plane);
  const double diagonal = std::min(cv::norm(out[1] - out[3]), cv::norm(out[2] - out[4]));
  return Expected{.at = out[0],
                  .px_per_mm = diagonal / (2 * std::sqrt(2.0) * static_cast<double>(into)),
                  .squares = {out[1], out[2], out[3], out[4]}};
}

bool is_inside(const cv::Mat& grey, const cv::Point2d& p, double margin) {
  return p.x >= margin && p.y >= margin && p.x <= grey.cols - 1 - margin &&
         p.y <= grey.rows - 1 - margin;
}

double grey_at(const cv::Mat& grey, const cv::Point2f& p) {
  return grey.at<std::uint8_t>(cvRound(p.y), cvRound(p.x));
}

/// Two white squares and two black ones really meet here: nothing lies over the corner.
bool is_crossing(const cv::Mat& grey, const Expected& expected, bool upper_left_is_black) {
  constexpr double least_contrast = 25;
  std::array<double, 4> values{};
  for (std::size_t i = 0; i < 4; ++i) {
    if (!is_inside(grey, expected.squares[i], 1))
      return false;
    values[i] = grey_at(grey, expected.squares[i]);
  }
  const auto [dark, bright] = upper_left_is_black ? std::pair{0U, 1U} : std::pair{1U, 0U};
  const double between =
      std::min(values[bright], values[bright + 2]) - std::max(values[dark], values[dark + 2]);
  const double mean = (values[bright] + values[bright + 2] - values[dark] - values[dark + 2]) / 2;
  return mean > least_contrast && between > 0.3 * mean;
}

/// The window for the fine search just meets the markers' frames, 3 mm away. They lie alike on both
/// sides of a corner, so a little of them doesn't pull it; tried from 2.8 to 6 mm on painted
/// photos, this scatters least.
int half_window(double px_per_mm) {
  return std::clamp(static_cast<int>(std::floor(3.5 * px_per_mm)), 3, 20);
}

std::optional<cv::Point2f>
refined(const cv::Mat& grey, const Expected& expected, bool upper_left_is_black, double farthest) {
  const int half = half_window(expected.px_per_mm);
  if (!is_inside(grey, expected.at, half + 2) || !is_crossing(grey, expected, upper_left_is_black))
    return std::nullopt;
  const int reach = half + 4;
  const cv::Rect around = cv::Rect(cvRound(expected.at.x) - reach,
                                   cvRound(expected.at.y) - reach,
                                   2 * reach + 1,
                                   2 * reach + 1) &
                          cv::Rect(0, 0, grey.cols, grey.rows);
  const cv::Point2f corner(static_cast<float>(around.x), static_cast<float>(around.y));
  Points found{expected.at - corner};
  cv::cornerSubPix(grey(around),
                   found,
                   {half, half},
                   {-1, -1},
                   {cv::TermCriteria::COUNT | cv::TermCriteria::EPS, 60, 0.001});
  const auto at = found[0] + corner;
  return cv::norm(at - expected.at) < farthest ? std::optional{at} : std::nullopt;
}

/// How far from its expected place a corner may be found.
struct Tolerance {
  double px = 0;
  double mm = 0;
};

std::vector<CardCorner> corners_by(const cv::Mat& grey,
                                   const Card& layout,
                                   const std::vector<Pair>& known,
                                   const Tolerance& tolerance) {
  std::vector<CardCorner> corners;
  for (int id = 0; id < corner_count(layout); ++id) {
    const auto place = corner(layout, id);
    const auto expected = expected_corner(known, place);
    if (!expected)
      continue;
    const bool black = is_black(layout, {place.x - 1, place.y - 1});
    const double farthest = std::max(tolerance.px, tolerance.mm * expected->px_per_mm);
    if (const auto at = refined(grey, *expected, black, farthest))
      corners.push_back({id, {static_cast<double>(at->x), static_cast<double>(at->y)}});
  }
  return corners;
}

std::vector<Pair> marker_pairs(const std::vector<MarkerSeen>& markers) {
  std::vector<Pair> pairs;
  for (const auto& each : markers)
    for (std::size_t i = 0; i < each.at.size(); ++i)
      pairs.push_back({each.on_card[i], each.at[i]});
  return pairs;
}

std::vector<Pair> corner_pairs(const Card& layout, const std::vector<CardCorner>& corners) {
  std::vector<Pair> pairs;
  for (const auto& each : corners) {
    const auto place = corner(layout, each.id);
    pairs.push_back({{static_cast<float>(place.x), static_cast<float>(place.y)},
                     {static_cast<float>(each.at.x), static_cast<float>(each.at.y)}});
  }
  return pairs;
}

/// First by the markers, whose own corners are good to a pixel or two; then each by its
/// neighbours, which finds those the markers missed and drops those that went astray.
std::vector<CardCorner> corners_of(const cv::Mat& grey, const BoardSeen& board) {
  const auto& layout = card(board.paper);
  auto corners = corners_by(grey, layout, marker_pairs(board.markers), {.px = 2.5, .mm = 1});
  if (corners.size() < least_card_corners)
    return corners;
  return corners_by(grey, layout, corner_pairs(layout, corners), {.px = 1, .mm = 0.5});
}

/// Distances of the corners from one flat board. A lens bends them too, but gently: the limit is
/// several times the median.
std::vector<double> strays_px(const Card& layout, const std::vector<CardCorner>& corners) {
  Points from, to;
  for (const auto& each : corners) {
    const auto place = corner(layout, each.id);
    from.emplace_back(static_cast<float>(place.x), static_cast<float>(place.y));
    to.emplace_back(static_cast<float>(each.at.x), static_cast<float>(each.at.y));
  }
  const cv::Mat plane = cv::findHomography(from, to, cv::LMEDS);
  if (plane.empty())
    return {};
  Points expected;
  cv::perspectiveTransform(from, expected, plane);
  std::vector<double> strays;
  for (std::size_t i = 0; i < to.size(); ++i)
    strays.push_back(cv::norm(to[i] - expected[i]));
  return strays;
}

std::vector<CardCorner> without_strays(const Card& layout, std::vector<CardCorner> corners) {
  if (corners.size() < least_card_corners)
    return corners;
  const auto strays = strays_px(layout, corners);
  if (strays.empty())
    return {};
  auto sorted = strays;
  std::sort(sorted.begin(), sorted.end());
  const double most = std::max(0.5, 6 * sorted[sorted.size() / 2]);
  std::vector<CardCorner> kept;
  for (std::size_t i = 0; i < corners.size(); ++i)
    if (strays[i] <= most)
      kept.push_back(corners[i]);
  return kept;
}

/// Three columns and three rows at least: a strip would leave the plane's turn unknown.
bool spread(const Card& layout, const std::vector<CardCorner>& corners) {
  std::set<int> columns, rows;
  for (const auto& each : corners) {
    columns.insert(each.id % (layout.columns - 1));
    rows.insert(each.id / (layout.columns - 1));
  }
  return columns.size() >= 3 && rows.size() >= 3;
}

Result<CardSeen> card_in(const cv::Mat& grey) {
  const auto board = board_in(grey);
  if (board.markers.empty())
    return fail("The printed card",
                "isn't seen in the photo",
                "show the whole card, sharp and unshaded, or place a known length");
  const auto& layout = card(board.paper);
  auto corners = without_strays(layout, corners_of(grey, board));
  if (corners.size() < least_card_corners || !spread(layout, corners))
    return fail("The printed card",
                fmt::format("shows only {} of its {} corners clearly",
                            corners.size(),
                            corner_count(layout)),
                "show the whole card, sharp and larger in the photo");
  return CardSeen{.paper = board.paper, .corners = std::move(corners)};
}

} // namespace

Result<CardSeen> find_card(const Picture& photo) {
  if (photo.kind != PictureKind::photo)
    return fail("The printed card", "is looked for in photos only", "use a marker ball or bar");
  try {
    return card_in(grey_of(photo));
  } catch (const cv::Exception&) {
    return fail("The printed card", "couldn't be looked for in this photo", "place a known length");
  }
}

} // namespace pritchel::imaging
