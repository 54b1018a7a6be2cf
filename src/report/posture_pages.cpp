#include "measure/comparison.h"
#include "report/picture_block.h"
#include "report/words.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace pritchel::report {
namespace {

using drawing::Ink;
using measure::Compared;
using measure::View;

constexpr std::array limbs{measure::Limb::left_fore,
                           measure::Limb::right_fore,
                           measure::Limb::left_hind,
                           measure::Limb::right_hind};

/// One limb's pictures: those of it standing, and the one of it hanging, as indices.
struct Pair {
  std::vector<std::size_t> standing;
  std::size_t hanging = 0;
  std::vector<Compared> shares;
};

std::optional<std::size_t>
first_read(const ReportInput& input, measure::Limb limb, measure::View view) {
  for (std::size_t i = 0; i < input.pictures.size(); ++i) {
    const auto& sheet = input.pictures[i];
    if (sheet.entry.limb == limb && sheet.entry.view == view && !sheet.reading.landmarks.empty())
      return i;
  }
  return std::nullopt;
}

/// Nothing where one of the two is missing, or nothing is measured on both.
std::optional<Pair> pair_of(const ReportInput& input, measure::Limb limb) {
  const auto hanging = first_read(input, limb, View::limb_hanging);
  if (!hanging)
    return std::nullopt;
  Pair pair{.standing = {}, .hanging = *hanging, .shares = {}};
  std::vector<measure::Measurement> standing;
  for (const auto view : {View::limb_front, View::limb_behind})
    if (const auto at = first_read(input, limb, view)) {
      pair.standing.push_back(*at);
      const auto& found = input.pictures[*at].measurements;
      standing.insert(standing.end(), found.begin(), found.end());
    }
  pair.shares = measure::posture_shares(standing, input.pictures[*hanging].measurements);
  std::erase_if(pair.standing, [&](std::size_t index) {
    return std::none_of(pair.shares.begin(), pair.shares.end(), [&](const Compared& share) {
      return measure::find(input.pictures[index].measurements, share.comparison->first) != nullptr;
    });
  });
  return pair.shares.empty() ? std::nullopt : std::optional(std::move(pair));
}

bool is_sure(double value, double standard_uncertainty) {
  return std::abs(value) > measure::coverage_factor * standard_uncertainty;
}

/// What the two numbers allow to be said, no more.
std::string in_words(const Compared& share) {
  if (!is_sure(share.difference, share.standard_uncertainty))
    return "standing and hanging can't be told apart";
  if (!is_sure(share.second.value, share.second.standard_uncertainty))
    return "gone when the limb hangs: posture";
  const bool smaller = std::abs(share.second.value) < std::abs(share.first.value);
  const bool same_way = share.first.value * share.second.value > 0;
  return smaller && same_way ? "part goes (posture), part stays (conformation)"
                             : "other when the limb hangs: look at both numbers";
}

struct Columns {
  double title = 5;
  double standing = 42;
  double hanging = 72;
  double posture = 106;
  double words = 140;
};

void cell(Layout& layout, double x, double to, std::string_view text, const TextStyle& style) {
  layout.canvas().text({layout.flow.left() + x, layout.flow.y()}, to - x - 2, text, style);
}

void table_head(Layout& layout) {
  const Columns at;
  auto& flow = layout.flow;
  const auto style = in(type::fine, Ink::text);
  cell(layout, at.title, at.standing, "\u00b1 2u: 95 % interval", style);
  cell(layout, at.standing, at.hanging, "standing", style);
  cell(layout, at.hanging, at.posture, "hanging: what stays (conformation)", style);
  cell(layout, at.posture, at.words, "what disappears (posture)", style);
  flow.skip(layout.canvas().height(
      at.posture - at.hanging - 2, "hanging: what stays (conformation)", style));
  flow.skip(0.8);
  flow.rule();
  flow.skip(0.8);
}

void row(Layout& layout, const Compared& share, measure::Limb limb, const std::string& letter) {
  const Columns at;
  auto& flow = layout.flow;
  auto& canvas = layout.canvas();
  const auto unit = share.first.definition->unit;
  const auto number = [&](double value, double doubt) {
    return with_uncertainty(value, doubt, unit);
  };
  const bool sure = is_sure(share.difference, share.standard_uncertainty);
  const auto title = measure::worded_for(limb, share.comparison->title);
  const auto words = in_words(share);
  const double words_width = flow.width() - at.words;
  const double high = std::max(canvas.height(at.standing - at.title - 2, title, type::note_strong),
                               canvas.height(words_width, words, type::note));
  flow.need(high);
  cell(layout, 0, at.title + 2, letter, type::note_strong);
  cell(layout, at.title, at.standing, title, type::note_strong);
  cell(layout,
       at.standing,
       at.hanging,
       number(share.first.value, share.first.standard_uncertainty),
       type::note);
  cell(layout,
       at.hanging,
       at.posture,
       number(share.second.value, share.second.standard_uncertainty),
       type::note);
  cell(layout,
       at.posture,
       at.words,
       number(share.difference, share.standard_uncertainty),
       sure ? type::note_strong : in(type::note, Ink::faint));
  canvas.text({flow.left() + at.words, flow.y()},
              words_width,
              words,
              sure ? type::note : in(type::note, Ink::faint));
  flow.skip(high + 1.2);
}

/// The pictures beside one another, all as high as the lowest of them; only the compared lines.
void pictures(Layout& layout, const Pair& pair) {
  auto& flow = layout.flow;
  const auto& input = layout.input;
  auto shown = pair.standing;
  shown.push_back(pair.hanging);
  constexpr double most_high = 112, gap = 4;
  const auto count = static_cast<double>(shown.size());
  const double wide = (flow.width() - gap * (count - 1)) / count;
  double high = most_high;
  for (const auto index : shown)
    high = std::min(
        high,
        place_in(input.pictures[index], {0, 0, wide - 2 * label_column_mm, most_high}).box.height);
  std::vector<std::string> first, second;
  for (const auto& share : pair.shares) {
    first.emplace_back(share.comparison->first);
    second.emplace_back(share.comparison->second);
  }
  double x = flow.left();
  for (const auto index : shown) {
    const auto& sheet = input.pictures[index];
    const bool hangs = index == pair.hanging;
    layout.canvas().text(
        {x, flow.y()},
        wide,
        hangs ? "Hanging" : "Standing, " + measure::for_people(sheet.entry.view, sheet.entry.limb),
        type::note_strong);
    const auto place =
        place_in(sheet, {x + label_column_mm, flow.y() + 5, wide - 2 * label_column_mm, high});
    picture_block(layout, index, place, lettered_beside(sheet, place, hangs ? second : first));
    x += wide + gap;
  }
  flow.skip(high + 8);
}

void posture_page(Layout& layout, const Pair& pair, measure::Limb limb) {
  auto& flow = layout.flow;
  flow.new_page();
  const auto title = capital(measure::for_people(limb)) + ", standing and hanging";
  layout.begins("posture-" + std::string(measure::key(limb)));
  layout.canvas().bookmark(title);
  flow.heading(title);
  flow.paragraph(
      "What disappears when the limb hangs free is posture: how the horse stands. What "
      "stays is conformation: how the limb is built. Common practice, no source. The "
      "two pictures are read independently; the difference carries the uncertainty of both.",
      type::note);
  flow.skip(2);
  pictures(layout, pair);
  table_head(layout);
  for (std::size_t i = 0; i < pair.shares.size(); ++i)
    row(layout, pair.shares[i], limb, drawing::letter(i));
  flow.skip(1);
  flow.paragraph("Grey, and \"can't be told apart\": the difference is smaller than twice its "
                 "standard uncertainty. u knows how surely points are placed, not how the limb was "
                 "held or turned while the picture was taken.",
                 type::fine);
}

} // namespace

void posture_pages(Layout& layout) {
  for (const auto limb : limbs)
    if (const auto pair = pair_of(layout.input, limb))
      posture_page(layout, *pair, limb);
}

} // namespace pritchel::report
