#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>
#include <numbers>
#include <regex>

#include "life_samples.h"
#include "paper_text.h"

using namespace pritchel;
using namespace paper_text;
using pdf_tools::Segment;

namespace {

constexpr double bar_mm = 200;
/// Asked for: 0.2 mm over 200 mm. Shorter lengths get their share, but no less than three dots.
constexpr int dots_per_inch = 600;
constexpr double mm_per_dot = 25.4 / dots_per_inch;
double allowed(double length_mm) {
  return std::max(0.2 * length_mm / 200, 3 * mm_per_dot);
}

std::vector<int> life_size_pages(const std::vector<char>& pdf) {
  std::vector<int> found;
  const auto pages = pdf_tools::pages(pdf);
  for (std::size_t i = 0; i < pages.size(); ++i)
    if (holds(pages[i], "Life size, 1 : 1."))
      found.push_back(static_cast<int>(i) + 1);
  return found;
}

enum class Lies { upright, across };
Lies lie_of(const std::vector<char>& pdf, int page) {
  const auto words = pdf_tools::words(pdf);
  const auto at =
      std::find_if(words.begin(), words.end(), [&](const auto& word) { return word.page == page; });
  REQUIRE(at != words.end());
  return at->page_width > at->page_height ? Lies::across : Lies::upright;
}

double length_of(const Segment& s) {
  return std::hypot(s.x1 - s.x0, s.y1 - s.y0);
}

struct Spot {
  double x = 0, y = 0;
};
double apart(Spot a, Spot b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// Where the reader put a landmark, in mm along and above the ground of his picture, toe left.
Spot read_at(const report::PictureSheet& sheet, const std::string& id) {
  for (const auto& each : sheet.reading.landmarks)
    if (each.id == id)
      return {each.at.x * sheet.calibration.pixel_width_mm,
              each.at.y * sheet.calibration.pixel_height_mm};
  FAIL("no landmark " << id);
  return {};
}

/// The sample's ground is level in the picture and the drawing shows the toe on the picture's side,
/// so paper is the picture's millimetres moved. The move is found from one drawn line: the front of
/// the coffin bone, whose two ends are read points.
Spot move_of(const std::vector<Segment>& drawn, const report::PictureSheet& sheet) {
  const auto a = read_at(sheet, "p3-dorsal-proximal"), b = read_at(sheet, "p3-dorsal-distal");
  constexpr double same = 0.02;
  for (const auto& s : drawn)
    if (std::abs(s.x1 - s.x0 - (b.x - a.x)) < same && std::abs(s.y1 - s.y0 - (b.y - a.y)) < same)
      return {s.x0 - a.x, s.y0 - a.y};
  FAIL("the front of the coffin bone isn't drawn at life size");
  return {};
}

bool has_end(const std::vector<Segment>& drawn, Spot at) {
  constexpr double same = 0.02; // mm: rounding of the numbers in the file
  return std::any_of(drawn.begin(), drawn.end(), [&](const auto& s) {
    return apart({s.x0, s.y0}, at) < same || apart({s.x1, s.y1}, at) < same;
  });
}

/// A line of 10 mm across with one of 10 mm down through its middle.
bool is_cross(const Segment& across, const std::vector<Segment>& drawn) {
  constexpr double arms = 10, same = 0.02;
  if (std::abs(length_of(across) - arms) > same || std::abs(across.y1 - across.y0) > same)
    return false;
  return std::any_of(drawn.begin(), drawn.end(), [&](const auto& s) {
    return std::abs(length_of(s) - arms) < same && std::abs(s.x1 - s.x0) < same &&
           apart({(s.x0 + s.x1) / 2, (s.y0 + s.y1) / 2}, {(across.x0 + across.x1) / 2, across.y0}) <
               same;
  });
}

// ---- in the raster ----

constexpr int dark = 140;

int dots(double mm) {
  return static_cast<int>(std::lround(mm / mm_per_dot));
}

struct Run {
  int from = 0, to = 0; ///< one past the last
  int line = 0;         ///< row of a run across, column of a run down
  [[nodiscard]] int length() const { return to - from; }
  [[nodiscard]] double middle() const { return (from + to - 1) / 2.0; }
};

enum class Way { across, down };

int grey_at(const pdf_tools::Grey& image, Way way, int along, int line) {
  return way == Way::across ? image.at(along, line) : image.at(line, along);
}

/// Dark runs on one row or column.
std::vector<Run> runs(const pdf_tools::Grey& image, Way way, int line) {
  const int length = way == Way::across ? image.columns : image.rows;
  std::vector<Run> found;
  for (int i = 0; i < length; ++i) {
    if (grey_at(image, way, i, line) >= dark)
      continue;
    if (found.empty() || found.back().to != i)
      found.push_back({i, i, line});
    ++found.back().to;
  }
  return found;
}

/// Ticks stand up from the bar across and to the left of the one down; so far from it only the
/// longest are met.
constexpr double among_long_ticks_mm = 3.3;

/// The bar is the longest dark line of the page with a tick at either end.
Run bar_of(const pdf_tools::Grey& image, Way way) {
  Run best;
  const int lines = way == Way::across ? image.rows : image.columns;
  const int tick = dots(among_long_ticks_mm);
  for (int line = tick; line < lines; ++line)
    for (const auto& run : runs(image, way, line))
      if (run.length() > best.length() && grey_at(image, way, run.from, line - tick) < dark &&
          grey_at(image, way, run.to - 1, line - tick) < dark)
        best = run;
  return best;
}

/// Distances of the long ticks at 100 and 200 mm from the one at 0, mm, as the dots show them.
std::array<double, 2> long_ticks(const pdf_tools::Grey& image, Way way) {
  const auto bar = bar_of(image, way);
  INFO((way == Way::across ? "across" : "down"));
  REQUIRE(bar.length() > 0);
  std::vector<double> middles;
  for (const auto& run : runs(image, way, bar.line - dots(among_long_ticks_mm)))
    if (run.length() < dots(0.6) && run.from >= bar.from - dots(0.5) &&
        run.to <= bar.to + dots(0.5))
      middles.push_back(run.middle());
  REQUIRE(middles.size() == 3);
  return {(middles[1] - middles[0]) * mm_per_dot, (middles[2] - middles[0]) * mm_per_dot};
}

/// The ring of a read point, looked for within 2 mm of where it is expected: the place at which the
/// most of a ring of 1.15 mm radius is dark.
Spot ring_near(const pdf_tools::Grey& image, Spot expected) {
  constexpr double ring_mm = 1.15, reach_mm = 2;
  constexpr int steps = 72;
  std::array<std::pair<double, double>, steps> ring;
  for (int i = 0; i < steps; ++i)
    ring[static_cast<std::size_t>(i)] = {
        ring_mm / mm_per_dot * std::cos(2 * std::numbers::pi * i / steps),
        ring_mm / mm_per_dot * std::sin(2 * std::numbers::pi * i / steps)};
  const int middle_x = dots(expected.x), middle_y = dots(expected.y), reach = dots(reach_mm);
  long best = -1;
  double sum_x = 0, sum_y = 0, count = 0;
  for (int y = middle_y - reach; y <= middle_y + reach; ++y)
    for (int x = middle_x - reach; x <= middle_x + reach; ++x) {
      long sum = 0;
      for (const auto& [dx, dy] : ring)
        sum += 255 - image.at(static_cast<int>(std::lround(x + dx)),
                              static_cast<int>(std::lround(y + dy)));
      if (sum > best) {
        best = sum;
        sum_x = sum_y = count = 0;
      }
      if (sum == best) {
        sum_x += x;
        sum_y += y;
        count += 1;
      }
    }
  constexpr long mostly_dark = steps * 255L / 2;
  CHECK(best > mostly_dark);
  // A dot's middle lies half a dot behind its corner.
  return {(sum_x / count + 0.5) * mm_per_dot, (sum_y / count + 0.5) * mm_per_dot};
}

report::ReportInput on(report::ReportInput input, report::Paper paper) {
  input.paper = paper;
  return input;
}

} // namespace

// Truth: the bars say themselves what they are; the landmarks' distances come from the sample's
// round numbers. Read by QPDF's parser from the paths of the PDF (ISO 32000-1, 8.3 and 8.5: 72
// units to the inch) and by Poppler's pdftoppm in dots.
TEST_CASE("Life-size pages measured in the PDF's own geometry and at 600 dpi by pdftoppm: within "
          "0.2 mm over 200 mm",
          "[report]") {
  const std::pair<report::ReportInput, Lies> papers[] = {
      {on(life_samples::fore_bare(), report::Paper::a4), Lies::upright},
      {on(life_samples::hind_shod(), report::Paper::letter), Lies::upright},
      {on(life_samples::large(1.2), report::Paper::a4), Lies::across},
      {on(life_samples::large(1.2), report::Paper::letter), Lies::across}};
  for (const auto& [input, lies] : papers) {
    const auto pdf = paper_of(input);
    const auto pages = life_size_pages(pdf);
    REQUIRE_FALSE(pages.empty());
    CHECK(lie_of(pdf, pages.front()) == lies);
    const auto drawn = pdf_tools::segments(pdf, pages.front());
    int across = 0, down = 0;
    for (const auto& s : drawn)
      if (std::abs(length_of(s) - bar_mm) < 0.02) {
        across += std::abs(s.y1 - s.y0) < 1e-6 ? 1 : 0;
        down += std::abs(s.x1 - s.x0) < 1e-6 ? 1 : 0;
      }
    CHECK(across == 1);
    CHECK(down == 1);
    const auto& sheet = input.pictures.front();
    const auto move = move_of(drawn, sheet);
    const std::array ids{"wall-dorsal-proximal",
                         "p3-tip",
                         "p3-palmar-process",
                         "heel-wall-proximal",
                         "coronary-band",
                         "sole-under-palmar"};
    for (const auto* id : ids) {
      INFO(id);
      const auto at = read_at(sheet, id);
      CHECK(has_end(drawn, {at.x + move.x, at.y + move.y}));
    }

    const auto image = pdf_tools::rastered(pdf, pages.front(), dots_per_inch);
    if (image.columns == 0) {
      std::cout << "skipped: pdftoppm is not installed\n";
      continue;
    }
    for (const auto way : {Way::across, Way::down}) {
      const auto ticks = long_ticks(image, way);
      CHECK(std::abs(ticks[0] - 100) < allowed(100));
      CHECK(std::abs(ticks[1] - 200) < allowed(200));
    }
    std::vector<Spot> seen;
    for (const auto* id : ids) {
      const auto at = read_at(sheet, id);
      seen.push_back(ring_near(image, {at.x + move.x, at.y + move.y}));
    }
    for (std::size_t i = 0; i < ids.size(); ++i)
      for (std::size_t j = i + 1; j < ids.size(); ++j) {
        const double truth = apart(read_at(sheet, ids[i]), read_at(sheet, ids[j]));
        INFO(ids[i] << " to " << ids[j] << ": " << apart(seen[i], seen[j]) << " for " << truth);
        CHECK(std::abs(apart(seen[i], seen[j]) - truth) < allowed(truth));
      }
  }
}

// Truth: by hand. The sample foot: H (22, 0), T where the wall's line, from (82, 68) to (122, 20),
// meets the ground unless the wall's end is placed: (137, 1), its foot (137, 0); S 115. 4 mm at T
// and 1 mm at H: the cut runs through (22, 1) and (137, 4), and 10 mm along it beyond the horn.
TEST_CASE("the trim line lies as far above the bearing line as the plan says", "[report]") {
  const auto input = life_samples::fore_bare();
  const auto pdf = paper_of(input);
  const auto drawn = pdf_tools::segments(pdf, life_size_pages(pdf).front());
  const auto move = move_of(drawn, input.pictures.front());
  // mm of the sample's plane, toe left, on paper
  const auto on_paper = [&](double x, double y) {
    constexpr double origin_mm = 860 * 0.2;
    return Spot{origin_mm - x + move.x, origin_mm - y + move.y};
  };
  const auto height_on = [&](const Segment& s, double x) {
    const double at = on_paper(x, 0).x;
    const double y = s.y0 + (s.y1 - s.y0) * (at - s.x0) / (s.x1 - s.x0);
    return on_paper(0, 0).y - y;
  };
  const auto cut = std::find_if(drawn.begin(), drawn.end(), [&](const auto& s) {
    return length_of(s) > 115 && std::abs(s.x1 - s.x0) > 115 &&
           std::abs(height_on(s, 22) - 1) < 0.05 && std::abs(height_on(s, 137) - 4) < 0.05;
  });
  REQUIRE(cut != drawn.end());
  CHECK(std::min(cut->x0, cut->x1) < on_paper(137, 0).x);
  CHECK(std::max(cut->x0, cut->x1) > on_paper(22, 0).x);
}

// Truth: ISO 216 (A4 210 by 297 mm) and ANSI/ASME Y14.1 (Letter 8.5 by 11 inches). The sample foot
// of 115 mm between its bearing points, 1.2 times as large, with 10 mm of each line beyond either
// end and its words, is wider than an upright page's window beside the bar, about 163 mm, and
// narrower than a page that lies across leaves beside its words.
TEST_CASE("a foot too wide for an upright sheet lies on one that lies across, and the other pages "
          "stay upright",
          "[report]") {
  const std::pair<report::Paper, std::array<double, 2>> papers[] = {
      {report::Paper::a4, {297, 210}}, {report::Paper::letter, {11 * 25.4, 8.5 * 25.4}}};
  for (const auto& [paper, sides] : papers) {
    const auto pdf = paper_of(on(life_samples::large(1.2), paper));
    const auto life = life_size_pages(pdf);
    CHECK(life.size() == 2); // one of each view
    CHECK_FALSE(holds(all_text(pdf), "sheet 1 of"));
    constexpr double mm_per_point = 25.4 / 72, rounding = 0.01;
    const auto words = pdf_tools::words(pdf);
    for (const auto& word : words) {
      const bool across = std::find(life.begin(), life.end(), word.page) != life.end();
      INFO("page " << word.page);
      CHECK(word.page_width * mm_per_point == Approx(sides[across ? 0 : 1]).margin(rounding));
      CHECK(word.page_height * mm_per_point == Approx(sides[across ? 1 : 0]).margin(rounding));
    }
    check_margins(words);
    check_no_word_over_another(words);
    const auto file = pdf_tools::File(pdf);
    CHECK(pdf_tools::run("qpdf --check " + file.path()).exit_code == 0);
  }
}

// Truth: paper. What the page draws must lie on it: a printer leaves 5 mm at the edge of an A4.
TEST_CASE("nothing of a life-size page is drawn nearer to the paper's edge than 5 mm", "[report]") {
  constexpr double least_mm = 5 - 0.01;
  for (const double times : {1.0, 1.2})
    for (const auto paper : {report::Paper::a4, report::Paper::letter}) {
      const auto pdf = paper_of(on(life_samples::large(times), paper));
      const auto words = pdf_tools::words(pdf);
      for (const int page : life_size_pages(pdf)) {
        const auto any = std::find_if(
            words.begin(), words.end(), [&](const auto& word) { return word.page == page; });
        const double width = any->page_width * 25.4 / 72, height = any->page_height * 25.4 / 72;
        for (const auto& s : pdf_tools::segments(pdf, page)) {
          INFO("page " << page << ": " << s.x0 << ", " << s.y0 << " to " << s.x1 << ", " << s.y1);
          CHECK(std::min(s.x0, s.x1) >= least_mm);
          CHECK(std::max(s.x0, s.x1) <= width - least_mm);
          CHECK(std::min(s.y0, s.y1) >= least_mm);
          CHECK(std::max(s.y0, s.y1) <= height - least_mm);
        }
      }
    }
}

// Truth: the crosses of two neighbouring sheets are the same points of one drawing, so their
// distances from one another agree; and the foot's landmarks, put together over them, lie as far
// apart as they were read.
TEST_CASE("a foot larger than the page stands on sheets that fit together at their crosses",
          "[report]") {
  for (const auto paper : {report::Paper::a4, report::Paper::letter}) {
    const auto input = on(life_samples::large(1.7), paper);
    const auto pdf = paper_of(input);
    const auto text = pdf_tools::pages(pdf);
    const auto pages = life_size_pages(pdf);
    REQUIRE(pages.size() >= 2);
    CHECK(holds(text[static_cast<std::size_t>(pages[0] - 1)], "sheet 1 of 2"));
    CHECK(holds(text[static_cast<std::size_t>(pages[1] - 1)], "sheet 2 of 2"));
    std::array<std::vector<Spot>, 2> crosses;
    std::array<std::vector<Segment>, 2> drawn;
    for (std::size_t i = 0; i < 2; ++i) {
      drawn[i] = pdf_tools::segments(pdf, pages[i]);
      for (const auto& s : drawn[i])
        if (is_cross(s, drawn[i]))
          crosses[i].push_back({(s.x0 + s.x1) / 2, s.y0});
    }
    REQUIRE(crosses[0].size() == 2);
    REQUIRE(crosses[1].size() == 2);
    CHECK(apart(crosses[0][0], crosses[0][1]) == Approx(apart(crosses[1][0], crosses[1][1])));
    const auto& sheet = input.pictures.front();
    const auto first = move_of(drawn[0], sheet);
    const auto heel = read_at(sheet, "heel-wall-proximal");
    const Spot over{crosses[1][0].x - crosses[0][0].x, crosses[1][0].y - crosses[0][0].y};
    CHECK(has_end(drawn[1], {heel.x + first.x + over.x, heel.y + first.y + over.y}));
  }
}

TEST_CASE(
    "every life-size page says how to print it, how sure its scale is and that it is unsigned",
    "[report]") {
  for (const auto& input : {on(life_samples::fore_bare(), report::Paper::a4),
                            on(life_samples::fore_bare(), report::Paper::letter),
                            on(life_samples::large(1.2), report::Paper::a4),
                            on(life_samples::large(1.2), report::Paper::letter)}) {
    const auto pdf = paper_of(input);
    CHECK(pdf_tools::viewer_preference(pdf, "/PrintScaling") == "/None");
    const auto life = life_size_pages(pdf);
    CHECK(life.size() == 2);
    const auto words = pdf_tools::words(pdf);
    for (const int page : life) {
      const auto text = sentences_of(words, page);
      INFO(text);
      const auto bar = lie_of(pdf, page) == Lies::across ? "bar down" : "bar across";
      CHECK(holds(text, "t fit to page; then lay a ruler on both bars."));
      CHECK(holds(text, std::string("Ends of the ") + bar + " not printed"));
      CHECK(std::regex_search(
          text, std::regex("\u00b1\\D{1,4}2\\D{1,4}mm over 100"))); // u 1 %, coverage 2
      CHECK(holds(text, "My ruler says"));
      CHECK(holds(text, "Not signed"));
      CHECK(holds(text, "Tarn"));
      CHECK(holds(text, "plan version 2"));
      CHECK(holds(text,
                  "page " + std::to_string(page) + " of " +
                      std::to_string(pdf_tools::pages(pdf).size())));
      CHECK(holds(text, "not a diagnosis"));
    }
    check_margins(words);
    check_no_word_over_another(words);
    CHECK(holds(running_text(pdf),
                "At life size, lateromedial: page " + std::to_string(life.front())));
  }
}

TEST_CASE(
    "a foot that nothing is planned for, or whose scale can't be trusted, isn't drawn at life "
    "size, and the paper says why",
    "[report]") {
  auto unplanned = life_samples::fore_bare();
  unplanned.plan.reset();
  CHECK(life_size_pages(paper_of(unplanned)).empty());

  auto askew = life_samples::fore_bare();
  for (auto& sheet : askew.pictures)
    sheet.calibration.origin = ScaleOrigin::detector_only;
  const auto pdf = paper_of(askew);
  CHECK(life_size_pages(pdf).empty());
  CHECK(holds(running_text(pdf),
              "Not drawn at life size, lateromedial: the scale comes from the "
              "detector alone"));

  auto none = life_samples::fore_bare();
  for (auto& sheet : none.pictures)
    sheet.calibration = {.origin = ScaleOrigin::none};
  CHECK(life_size_pages(paper_of(none)).empty());

  auto unfit = life_samples::fore_bare();
  unfit.pictures[0].checks.push_back({.id = "obliquity",
                                      .title = "Square to the foot",
                                      .fitness = measure::Fitness::unfit,
                                      .sentence = "The foot was turned.",
                                      .clause = "the foot was turned too far",
                                      .touches = {"palmar-angle"}});
  CHECK(life_size_pages(paper_of(unfit)).size() == 1); // the front view alone

  auto suggested = life_samples::fore_bare();
  for (auto& sheet : suggested.pictures)
    for (auto& each : sheet.reading.landmarks)
      each.how = measure::Placement::suggested;
  CHECK(life_size_pages(paper_of(suggested)).empty());
}

TEST_CASE("a front view on which the plan changes nothing has no life-size page", "[report]") {
  const auto pdf = paper_of(life_samples::hind_shod());
  CHECK(life_size_pages(pdf).size() == 1);
}
