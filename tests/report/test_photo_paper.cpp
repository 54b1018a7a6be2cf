#include "measure/checks.h"
#include "measure/comparison.h"
#include "report/report.h"

#include <catch2/catch.hpp>

#include <regex>

#include "paper_text.h"
#include "sample_photos.h"

using namespace pritchel;
using namespace paper_text;
using measure::Limb;
using sample::Scale;

namespace {

std::vector<report::PictureSheet> standing_and_hanging(double hanging_foot_mm) {
  // The foot of the hanging limb is moved aside by so much; the standing one stands as drawn.
  const std::vector<sample::Moved> moved{{"toe-mid", {hanging_foot_mm, 0}},
                                         {"foot-mid", {hanging_foot_mm, 0}}};
  return {sample::photo("fore-limb-front", Limb::left_fore, Scale::marker),
          sample::photo("fore-limb-hanging", Limb::left_fore, Scale::marker, moved)};
}

std::vector<report::PictureSheet> one_of_each(Scale scale) {
  return {sample::photo("fore-limb-side", Limb::left_fore, scale),
          sample::photo("hind-limb-side", Limb::left_hind, scale),
          sample::photo("fore-limb-front", Limb::left_fore, scale),
          sample::photo("hind-limb-behind", Limb::left_hind, scale),
          sample::photo("fore-limb-hanging", Limb::left_fore, scale),
          sample::photo("foot-side", Limb::left_fore, scale),
          sample::photo("foot-front", Limb::left_fore, scale),
          sample::photo("sole", Limb::left_fore, scale)};
}

report::ReportInput checked(std::vector<measure::Check> checks) {
  auto input = sample::visit(Scale::marker);
  input.pictures.resize(1);
  input.pictures[0].checks = std::move(checks);
  for (auto& each : input.pictures[0].measurements)
    each.cautions = measure::cautions_for(input.pictures[0].checks, each.definition->id);
  return input;
}

} // namespace

TEST_CASE("a check's verdict stands in words and with a sign, with what it touches", "[report]") {
  const auto pdf = paper_of(checked({{.id = "beam",
                                      .title = "Beam square to the foot",
                                      .fitness = measure::Fitness::caution,
                                      .sentence = "the outlines of the processes part by 4.1 mm.",
                                      .touches = {"palmar-angle", "sole-depth-tip"}},
                                     {.id = "block",
                                      .title = "Foot on its block",
                                      .fitness = measure::Fitness::not_checked,
                                      .sentence = "the block's edges aren't placed.",
                                      .touches = {"hoof-angle"}},
                                     {.id = "level",
                                      .title = "Ground level",
                                      .fitness = measure::Fitness::fit,
                                      .sentence = "in order.",
                                      .value = 0.4,
                                      .uncertainty = 0.1,
                                      .unit = "deg"}}));
  const auto text = running_text(pdf);
  CHECK(holds(text, "Fit to measure"));
  CHECK(holds(text, "\u25b31 with caution Beam square to the foot: the outlines"));
  CHECK(holds(text, "Touches: Palmar angle and Sole depth at the tip."));
  CHECK(holds(text, "\u25cb2 not checked Foot on its block"));
  CHECK(std::regex_search(
      text,
      std::regex("\u2713 Fit to measure: Ground level 0\\.4\u00b0 \u00b1.{0,3}0\\.2\u00b0\\.")));
  CHECK_FALSE(holds(text, "View not checked"));
}

TEST_CASE("a touched number carries the mark of its check, another doesn't", "[report]") {
  const auto text = all_text(paper_of(checked({{.id = "beam",
                                                .title = "Beam square to the foot",
                                                .fitness = measure::Fitness::caution,
                                                .sentence = "off by 4.1 mm.",
                                                .touches = {"hoof-angle"}}})));
  CHECK(std::regex_search(text, std::regex("Dorsal hoof wall angle +50\\.2.*\u25b31")));
  CHECK_FALSE(std::regex_search(text, std::regex("Long pastern slope +[0-9.]+.*\u25b31")));
}

TEST_CASE("what a refused picture can't give is said with the check's reason", "[report]") {
  auto input = sample::visit(Scale::marker);
  for (auto& each : input.pictures[0].measurements)
    if (each.definition->id == "palmar-angle") {
      each.status = measure::Status::not_measurable;
      each.reason = "the beam was turned by 9\u00b0";
    }
  CHECK(
      holds(running_text(paper_of(input)), "\u2013 Palmar angle: the beam was turned by 9\u00b0."));
}

TEST_CASE("points that nobody has to place fold their measurements into one line", "[report]") {
  const auto text = running_text(paper_of(sample::visit(Scale::marker)));
  CHECK(holds(text, "Not measured, points not placed: "));
  CHECK_FALSE(holds(text, "Navicular bone over the ground \u2013"));
}

TEST_CASE("the paper says whose placement spreads it used", "[report]") {
  auto input = sample::visit(Scale::marker);
  CHECK(holds(running_text(paper_of(input)), "the program's usual spreads, not yet this practice"));
  input.pictures[0].spreads_used = {.own = 5, .fewest_repeats = 12};
  const auto all = std::to_string(input.pictures[0].reading.landmarks.size());
  CHECK(holds(running_text(paper_of(input)),
              "this practice's own repeats (at least 12 a point) for 5 of " + all + " points"));
}

// Truth: 1.96 * sqrt(2) * u for two readings of the same uncertainty (Bland and Altman 1986):
// u = 0.5 gives 1.386, printed as 1.4.
TEST_CASE("beside an earlier value stands the smallest change that can be told", "[report]") {
  auto input = sample::visit(Scale::marker);
  for (auto& each : input.pictures[0].measurements)
    if (each.definition->id == "hoof-angle")
      each.standard_uncertainty = 0.5;
  input.pictures[0].earlier = report::EarlierVisit{"2026-03-23", {{"hoof-angle", 49.2, 0.5}}};
  CHECK(holds(running_text(paper_of(input)), "(1.4\u00b0) ?"));
  input.pictures[0].earlier = report::EarlierVisit{"2026-03-23", {{"hoof-angle", 45.2, 0.5}}};
  CHECK_FALSE(holds(running_text(paper_of(input)), "(1.4\u00b0) ?"));
}

TEST_CASE("a photo's sheet holds its numbers, its card and what the card can't tell", "[report]") {
  const auto text = running_text(paper_of(
      sample::visit_of({sample::photo("fore-limb-side", Limb::left_fore, Scale::marker)})));
  CHECK(holds(text, "Printed card (A4), 35 corners found."));
  CHECK(holds(text, "with caution Scale: Nobody said how far the card stood from the limb."));
  CHECK(holds(text, "Shoulder slope"));
  CHECK(holds(text, "Load line at the heel"));
  CHECK_FALSE(holds(text, "whether the beam was square"));
}

TEST_CASE("no millimetre is printed for photos without a scale", "[report]") {
  auto text = running_text(paper_of(sample::visit_of(one_of_each(Scale::none))));
  const std::string of_the_hand = "A hand keeps to about 1 mm"; // not of any picture
  if (const auto at = text.find(of_the_hand); at != std::string::npos)
    text.erase(at, of_the_hand.size());
  std::smatch found;
  const bool any = std::regex_search(text, found, std::regex(".{60}[0-9][^a-z0-9.]{0,6}mm"));
  INFO(found.str());
  CHECK_FALSE(any);
  CHECK(holds(text, "Load line at the carpus, share"));
}

TEST_CASE("papers of every photo keep their margins, and words apart", "[report]") {
  for (const auto paper : {report::Paper::a4, report::Paper::letter}) {
    auto input = sample::visit_of(one_of_each(Scale::marker));
    input.paper = paper;
    const auto words = pdf_tools::words(paper_of(input));
    check_margins(words);
    check_no_word_over_another(words);
  }
}

TEST_CASE("a picture takes at most two pages", "[report]") {
  for (const auto paper : {report::Paper::a4, report::Paper::letter}) {
    auto input = sample::visit_of(one_of_each(Scale::marker));
    const auto pictures = input.pictures.size();
    input.paper = paper;
    const auto pages = pdf_tools::pages(paper_of(input));
    std::size_t of_pictures = 0;
    for (const auto& page : pages)
      of_pictures += holds(page, "low \u2013 high") ? 1 : 0;
    CHECK(of_pictures >= pictures);
    CHECK(of_pictures <= 2 * pictures);
  }
}

// Truth: law, of a foot drawn straight under its cannon: moved aside by 60 mm while it hangs, the
// standing one surely differs; left where it is, nothing can be told apart.
TEST_CASE("standing and hanging stand side by side, with what can and can't be told", "[report]") {
  auto text = running_text(paper_of(sample::visit_of(standing_and_hanging(0))));
  CHECK(holds(text, "Left fore, standing and hanging"));
  CHECK(holds(text, "hanging: what stays"));
  CHECK(holds(text, "(conformation)"));
  CHECK(holds(text, "what disappears (posture)"));
  CHECK(holds(text, "standing and hanging can't be told apart"));
  text = running_text(paper_of(sample::visit_of(standing_and_hanging(60))));
  CHECK(std::regex_search(text, std::regex("gone when|part goes|other when")));
}

TEST_CASE("without a hanging picture there is no page on posture", "[report]") {
  const auto text = running_text(paper_of(
      sample::visit_of({sample::photo("fore-limb-front", Limb::left_fore, Scale::marker)})));
  CHECK_FALSE(holds(text, "standing and hanging"));
}
