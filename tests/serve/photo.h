/// A photo of the printed card, drawn square-on for a test.
/// Truth: the card's own layout (imaging/card.h) at a stated number of pixels a millimetre.
#pragma once

#include "imaging/card.h"
#include "imaging/encode.h"

#include <catch2/catch.hpp>

#include <cstdint>
#include <string>
#include <vector>

namespace pritchel::serve::test {

struct CardPhoto {
  imaging::CardPaper paper = imaging::CardPaper::a4;
  double pixels_a_mm = 3;
  double left = 120; ///< of the paper in the picture, px
  double top = 80;
  int columns = 1000;
  int rows = 1100;

  [[nodiscard]] ImagePoint seen(const imaging::CardPoint& at) const {
    return {left + pixels_a_mm * at.x, top + pixels_a_mm * at.y};
  }

  [[nodiscard]] std::string bytes() const {
    const auto& card = imaging::card(paper);
    std::vector<std::uint8_t> rgb;
    for (int y = 0; y < rows; ++y)
      for (int x = 0; x < columns; ++x)
        for (int channel = 0; channel < 3; ++channel)
          rgb.push_back(grey(card, x, y));
    const auto encoded = imaging::encode_png(rgb, columns, rows, imaging::Channels::rgb);
    REQUIRE(encoded);
    return {encoded->begin(), encoded->end()};
  }

private:
  /// Mean of 4 x 4 places within the pixel, so that edges lie where they should.
  [[nodiscard]] std::uint8_t grey(const imaging::Card& card, int x, int y) const {
    int sum = 0;
    for (int i = 0; i < 16; ++i) {
      const double px = x + (i % 4 - 1.5) / 4;
      const double py = y + (i / 4 - 1.5) / 4;
      const imaging::CardPoint at{(px - left) / pixels_a_mm, (py - top) / pixels_a_mm};
      const bool on_paper = at.x >= 0 && at.x < card.width_mm && at.y >= 0 && at.y < card.height_mm;
      sum += !on_paper ? 120 : imaging::is_black(card, at) ? 25 : 235;
    }
    return static_cast<std::uint8_t>(sum / 16);
  }
};

} // namespace pritchel::serve::test
