#include "imaging/card.h"

#include <catch2/catch.hpp>
#include <opencv2/aruco.hpp>
#include <opencv2/aruco/charuco.hpp>
#include <opencv2/imgproc.hpp>

#include <cmath>

using namespace pritchel;
using namespace pritchel::imaging;

namespace {

/// The board at this many pixels a millimetre, as its patches paint it.
cv::Mat painted(const Card& card, int px_per_mm) {
  cv::Mat out(static_cast<int>(card.rows * card.square_mm) * px_per_mm,
              static_cast<int>(card.columns * card.square_mm) * px_per_mm,
              CV_8U,
              cv::Scalar(255));
  for (const auto& patch : board_patches(card)) {
    const cv::Rect box(static_cast<int>((patch.box.left - card.board.x) * px_per_mm),
                       static_cast<int>((patch.box.top - card.board.y) * px_per_mm),
                       static_cast<int>(patch.box.width * px_per_mm),
                       static_cast<int>(patch.box.height * px_per_mm));
    out(box).setTo(patch.paint == CardPatch::Paint::black ? 0 : 255);
  }
  return out;
}

} // namespace

// Truth: OpenCV's aruco module: dictionary DICT_4X4_50 bit by bit
TEST_CASE("the card's markers are those of the published dictionary", "[imaging]") {
  const auto published = cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_50);
  for (int marker = 0; marker < 48; ++marker) {
    const cv::Mat bits = cv::aruco::Dictionary::getBitsFromByteList(
        published->bytesList.rowRange(marker, marker + 1), 4);
    for (int i = 0; i < 16; ++i)
      CHECK(bits.at<std::uint8_t>(i / 4, i % 4) == (marker_bits(marker) >> (15 - i) & 1));
  }
}

// Truth: OpenCV's aruco module: its own drawing of a 6 x 8 board of 30 mm with markers of 24 mm
TEST_CASE("the A4 board is the board that OpenCV draws, square by square", "[imaging]") {
  const auto board = cv::aruco::CharucoBoard::create(
      6, 8, 0.030F, 0.024F, cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_50));
  cv::Mat drawn;
  board->draw(cv::Size(720, 960), drawn, 0, 1);
  const auto ours = painted(card(CardPaper::a4), 4);
  REQUIRE(ours.size() == drawn.size());
  // OpenCV rounds its squares to pixels in its own way: edges may lie one pixel off.
  cv::Mat differing;
  cv::erode(ours != drawn, differing, cv::Mat::ones(3, 3, CV_8U));
  CHECK(cv::countNonZero(differing) == 0);
  for (int id = 0; id < corner_count(card(CardPaper::a4)); ++id) {
    const auto& theirs = board->chessboardCorners[static_cast<std::size_t>(id)];
    const auto mine = corner(card(CardPaper::a4), id);
    CHECK(mine.x - card(CardPaper::a4).board.x == Approx(1000.0 * static_cast<double>(theirs.x)));
    CHECK(mine.y - card(CardPaper::a4).board.y == Approx(1000.0 * static_cast<double>(theirs.y)));
  }
}

// Truth: law: two ways to say the same picture
TEST_CASE("the board as a texture is the board as patches", "[imaging]") {
  for (const auto paper : {CardPaper::a4, CardPaper::letter}) {
    const auto& each = card(paper);
    const auto picture = painted(each, 2);
    int differing = 0;
    for (int y = 0; y < picture.rows; ++y)
      for (int x = 0; x < picture.cols; ++x)
        differing += (picture.at<std::uint8_t>(y, x) == 0) !=
                     is_black(each, {each.board.x + (x + 0.5) / 2, each.board.y + (y + 0.5) / 2});
    CHECK(differing == 0);
    CHECK_FALSE(is_black(each, {1, 1}));
  }
}

// Truth: ISO 216 (A4 210 x 297 mm), Letter 8.5 x 11 in
TEST_CASE("board and bar lie on the paper with a printer's margin, apart from each other",
          "[imaging]") {
  for (const auto paper : {CardPaper::a4, CardPaper::letter}) {
    const auto& each = card(paper);
    CHECK(each.width_mm == Approx(paper == CardPaper::a4 ? 210 : 8.5 * 25.4));
    CHECK(each.height_mm == Approx(paper == CardPaper::a4 ? 297 : 11 * 25.4));
    CHECK(each.bar.width == 100);
    CHECK(each.board.x >= 15);
    CHECK(each.width_mm - each.board.x - each.columns * each.square_mm >= 15);
    const double bottom = each.board.y + each.rows * each.square_mm;
    CHECK(bottom + 3 <= each.bar.top); // a white edge round the board
    CHECK(each.bar.top + each.bar.height <= each.height_mm - 8);
    for (int marker = each.first_marker; marker < each.first_marker + 24; ++marker) {
      CHECK(paper_of_marker(marker) == paper);
      CHECK(marker_corners(each, marker)->size() == 4);
    }
  }
  CHECK_FALSE(paper_of_marker(48));
  CHECK_FALSE(paper_of_marker(-1));
  CHECK_FALSE(marker_corners(card(CardPaper::a4), 24));
  CHECK(card_paper("letter") == CardPaper::letter);
  CHECK_FALSE(card_paper("A3"));
}
