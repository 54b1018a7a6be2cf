#include "teach/judge.h"

#include "phantom/random.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <optional>

#include "suggest/suggest.h"
#include "teach/vary.h"

namespace pritchel::teach {
namespace {

constexpr double false_mm = 5;

suggest::Ask ask_of(const Drawn& film, phantom::View view, std::uint64_t number) {
  phantom::Draws draw{0xA5C'000ULL + number};
  const double most = number % 2 == 0 ? 0.01 : 0.06;
  return {.view = view == phantom::View::lateromedial ? measure::View::lateromedial
                                                      : measure::View::dorsopalmar,
          .toward =
              film.facing == phantom::Facing::left ? suggest::Toward::left : suggest::Toward::right,
          .shoeing = film.shoeing == phantom::Shoeing::shod ? measure::Shoeing::shod
                                                            : measure::Shoeing::bare,
          .mm_per_pixel = film.mm_per_pixel * (1 + draw.between(-most, most))};
}

bool is_marker(const std::string& id) {
  return id == "marker-1" || id == "marker-2";
}

std::optional<ImagePoint> place_of(const std::vector<Point>& truth, const std::string& id) {
  for (const auto& each : truth)
    if (each.id == id)
      return ImagePoint{each.at.x, each.at.y};
  return std::nullopt;
}

std::optional<ImagePoint> place_of(const std::vector<suggest::Suggestion>& list,
                                   const std::string& id) {
  for (const auto& each : list)
    if (each.landmark == id)
      return each.at;
  return std::nullopt;
}

/// Both ends of any diameter serve: what counts is its middle and its length.
std::optional<double> marker_error(const std::vector<suggest::Suggestion>& list,
                                   const std::vector<Point>& truth) {
  const auto a = place_of(list, "marker-1"), b = place_of(list, "marker-2");
  if (!a || !b)
    return std::nullopt;
  const auto c = place_of(truth, "marker-1"), d = place_of(truth, "marker-2");
  if (!c || !d)
    return 1e3; // there is none
  return distance(midpoint(*a, *b), midpoint(*c, *d)) +
         0.5 * std::abs(distance(*a, *b) - distance(*c, *d));
}

bool is_shown(const Drawn& film, const ImagePoint& at) {
  return at.x >= 0 && at.y >= 0 && at.x <= film.picture.columns - 1 &&
         at.y <= film.picture.rows - 1;
}

void add(Verdict& verdict, const Drawn& film, const std::vector<suggest::Suggestion>& found) {
  for (const auto& each : film.truth)
    if (is_shown(film, {each.at.x, each.at.y}))
      ++verdict.landmarks[each.id].shown;
  const auto marker = marker_error(found, film.truth);
  for (const auto& each : found) {
    const auto truth = place_of(film.truth, each.landmark);
    const double pixels = is_marker(each.landmark) ? *marker
                          : truth                  ? distance(each.at, *truth)
                                                   : 1e3;
    verdict.landmarks[each.landmark].errors_mm.push_back(pixels * film.mm_per_pixel);
  }
}

std::string row(const std::string& id, const Record& record) {
  const auto& errors = record.errors_mm;
  const double share = 100.0 * static_cast<double>(errors.size()) /
                       static_cast<double>(std::max<std::size_t>(record.shown, 1));
  if (errors.empty())
    return fmt::format("| {} | {:.0f} % | | | | |\n", id, share);
  const auto far =
      std::count_if(errors.begin(), errors.end(), [](double e) { return e > false_mm; });
  return fmt::format("| {} | {:.0f} % | {:.2f} | {:.2f} | {:.1f} | {} |\n",
                     id,
                     share,
                     quantile(errors, 0.5),
                     quantile(errors, 0.9),
                     quantile(errors, 1),
                     far);
}

} // namespace

Verdict judged(phantom::View view,
               std::uint64_t first,
               std::uint64_t count,
               const std::function<Drawn(std::uint64_t)>& film) {
  Verdict verdict{.films = count};
  for (auto number = first; number < first + count; ++number) {
    const auto drawn = varied(film(number), Kind::unseen, number);
    const auto start = std::chrono::steady_clock::now();
    const auto found = suggest::suggest(drawn.picture, ask_of(drawn, view, number));
    const double took =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    verdict.longest_s = std::max(verdict.longest_s, took);
    verdict.mean_s += took / static_cast<double>(count);
    if (found)
      add(verdict, drawn, *found);
  }
  return verdict;
}

double quantile(std::vector<double> values, double share) {
  const auto at =
      values.begin() + static_cast<long>(std::ceil(share * static_cast<double>(values.size()))) - 1;
  std::nth_element(values.begin(), std::max(at, values.begin()), values.end());
  return *std::max(at, values.begin());
}

double false_share(const Verdict& verdict) {
  double all = 0, far = 0;
  for (const auto& [id, record] : verdict.landmarks) {
    all += static_cast<double>(record.errors_mm.size());
    for (const double error : record.errors_mm)
      far += error > false_mm ? 1 : 0;
  }
  return all > 0 ? far / all : 0;
}

std::string table(const Verdict& verdict) {
  std::string text = "| landmark | proposed | median mm | 90 % within mm | worst mm | over 5 mm |\n"
                     "|---|---|---|---|---|---|\n";
  for (const auto& [id, record] : verdict.landmarks)
    text += row(id, record);
  return text + fmt::format("\n{} films; {:.2f} % of all proposals over 5 mm off.\n",
                            verdict.films,
                            100 * false_share(verdict));
}

} // namespace pritchel::teach
