#include "teach/learn.h"

#include <Eigen/Eigenvalues>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

#include "suggest/search.h"
#include "teach/pupils.h"
#include "teach/ridge.h"
#include "teach/trust.h"

namespace pritchel::teach {
namespace {

using suggest::EdgeMap;
using suggest::Level;
using suggest::Model;
using suggest::Shape;
using suggest::SheetPoint;
using suggest::SheetVector;

constexpr int way_count = 24;
constexpr std::size_t company_size = 4;

struct Step {
  Level level;
  bool whole = true;
};

/// From far to near. [E]
const std::vector<Step> steps{
    {{.pixel_mm = 1.6, .cell_mm = 7}, true},
    {{.pixel_mm = 1.2, .cell_mm = 4.5}, true},
    {{.pixel_mm = 0.6, .cell_mm = 2}, false},
};
const Level pattern_level{.pixel_mm = 1.6, .cell_mm = 5};

suggest::Shapes shapes_of(const std::vector<Pupil>& pupils) {
  const auto size = static_cast<Eigen::Index>(2 * pupils[0].truth.size());
  Eigen::MatrixXd all(static_cast<Eigen::Index>(pupils.size()), size);
  for (std::size_t p = 0; p < pupils.size(); ++p) {
    const auto centroid = suggest::centroid_of(pupils[p].truth);
    for (std::size_t i = 0; i < pupils[p].truth.size(); ++i) {
      const auto off = pupils[p].truth[i] - centroid;
      all(static_cast<Eigen::Index>(p), static_cast<Eigen::Index>(2 * i)) = off.x;
      all(static_cast<Eigen::Index>(p), static_cast<Eigen::Index>(2 * i + 1)) = off.y;
    }
  }
  const Eigen::RowVectorXd mean = all.colwise().mean();
  all.rowwise() -= mean;
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(all.transpose() * all /
                                                              static_cast<double>(all.rows()));
  suggest::Shapes shapes{.count = way_count};
  shapes.mean.assign(mean.begin(), mean.end());
  for (int way = 0; way < way_count; ++way) {
    const auto column = size - 1 - way;
    const double deviation = std::sqrt(solver.eigenvalues()[column]);
    for (Eigen::Index i = 0; i < size; ++i)
      shapes.ways.push_back(static_cast<float>(deviation * solver.eigenvectors()(i, column)));
  }
  const double left = solver.eigenvalues().head(size - way_count).sum();
  fmt::print(stderr,
             "{} ways leave {:.2f} mm a landmark\n",
             way_count,
             std::sqrt(left / static_cast<double>(pupils[0].truth.size())));
  return shapes;
}

suggest::Pattern empty_pattern(const suggest::Shapes& shapes) {
  constexpr double margin_mm = 10;
  double left = 0, right = 0, top = 0, bottom = 0;
  for (std::size_t i = 0; i < shapes.landmarks(); ++i) {
    const auto x = static_cast<double>(shapes.mean[2 * i]);
    const auto y = static_cast<double>(shapes.mean[2 * i + 1]);
    left = std::min(left, x), right = std::max(right, x);
    top = std::min(top, y), bottom = std::max(bottom, y);
  }
  suggest::Pattern pattern{
      .level = pattern_level, .left_mm = left - margin_mm, .top_mm = top - margin_mm};
  pattern.columns = static_cast<int>((right - left + 2 * margin_mm) / pattern.spacing_mm) + 1;
  pattern.rows = static_cast<int>((bottom - top + 2 * margin_mm) / pattern.spacing_mm) + 1;
  return pattern;
}

std::vector<float> strengths_about(const suggest::Pattern& pattern, const Pupil& pupil) {
  const EdgeMap map(pupil.sheet, pattern.level);
  const auto centroid = suggest::centroid_of(pupil.truth);
  std::vector<float> strengths;
  std::array<float, suggest::edge_directions> here{};
  for (int row = 0; row < pattern.rows; ++row)
    for (int column = 0; column < pattern.columns; ++column) {
      map.at(centroid + SheetVector{pattern.left_mm + column * pattern.spacing_mm,
                                    pattern.top_mm + row * pattern.spacing_mm},
             here);
      strengths.insert(strengths.end(), here.begin(), here.end());
    }
  return strengths;
}

suggest::Pattern pattern_of(const std::vector<Pupil>& pupils, const suggest::Shapes& shapes) {
  auto pattern = empty_pattern(shapes);
  std::vector<std::vector<float>> all(pupils.size());
  for_all(pupils.size(), [&](std::size_t i) { all[i] = strengths_about(pattern, pupils[i]); });
  Eigen::VectorXf sum = Eigen::VectorXf::Zero(static_cast<Eigen::Index>(all[0].size()));
  for (const auto& each : all)
    sum += Eigen::Map<const Eigen::VectorXf>(each.data(), sum.size());
  sum.array() -= sum.mean();
  sum.normalize();
  pattern.strengths.assign(sum.begin(), sum.end());
  return pattern;
}

std::vector<std::vector<int>> company_of(const suggest::Shapes& shapes) {
  std::vector<std::vector<int>> company;
  const auto mean = suggest::mean_shape_at(shapes, {});
  for (const auto& own : mean) {
    std::vector<int> others(mean.size());
    std::iota(others.begin(), others.end(), 0);
    std::stable_sort(others.begin(), others.end(), [&](int a, int b) {
      return distance(mean[static_cast<std::size_t>(a)], own) <
             distance(mean[static_cast<std::size_t>(b)], own);
    });
    others.resize(std::min(company_size, others.size()));
    company.push_back(std::move(others));
  }
  return company;
}

/// All starts of all films, film by film.
using Starts = std::vector<Shape>;

Starts first_starts(const Model& model, const std::vector<Pupil>& pupils) {
  Starts starts(pupils.size() * suggest::start_count);
  std::vector<double> off(pupils.size());
  for_all(pupils.size(), [&](std::size_t p) {
    const auto truth = suggest::centroid_of(pupils[p].truth);
    auto stand = SheetPoint{1e6, 1e6};
    for (const auto& each : suggest::find_stands(model.pattern, pupils[p].sheet))
      if (distance(each.centroid, truth) < distance(stand, truth))
        stand = each.centroid;
    off[p] = distance(stand, truth);
    const auto places = suggest::starts_about(stand);
    for (std::size_t s = 0; s < places.size(); ++s)
      starts[p * places.size() + s] = suggest::mean_shape_at(model.shapes, places[s]);
  });
  std::sort(off.begin(), off.end());
  fmt::print(stderr,
             "stand off by: median {:.1f}, 90 % {:.1f}, 99 % {:.1f}, most {:.1f} mm\n",
             off[off.size() / 2],
             off[off.size() * 9 / 10],
             off[off.size() * 99 / 100],
             off.back());
  return starts;
}

/// Fills rows of a lesson: `inputs` of a start, `outputs` wanted from it.
struct Filler {
  std::function<std::vector<float>(const EdgeMap&, const Shape&)> inputs;
  std::function<std::vector<float>(const Shape& truth, const Shape& now)> wanted;
};

Lesson lesson_of(const std::vector<Pupil>& pupils,
                 const std::vector<EdgeMap>& maps,
                 const Starts& starts,
                 const Filler& filler) {
  Lesson lesson;
  const auto rows = static_cast<Eigen::Index>(starts.size());
  const auto one = filler.inputs(maps[0], starts[0]);
  const auto two = filler.wanted(pupils[0].truth, starts[0]);
  lesson.inputs.resize(rows, static_cast<Eigen::Index>(one.size()));
  lesson.outputs.resize(rows, static_cast<Eigen::Index>(two.size()));
  for_all(starts.size(), [&](std::size_t i) {
    const auto& pupil = pupils[i / suggest::start_count];
    const auto in = filler.inputs(maps[i / suggest::start_count], starts[i]);
    const auto out = filler.wanted(pupil.truth, starts[i]);
    const auto row = static_cast<Eigen::Index>(i);
    lesson.inputs.row(row) = Eigen::Map<const Eigen::RowVectorXf>(in.data(), lesson.inputs.cols());
    lesson.outputs.row(row) =
        Eigen::Map<const Eigen::RowVectorXf>(out.data(), lesson.outputs.cols());
  });
  for (std::size_t i = 0; i < starts.size(); ++i)
    lesson.fold.push_back(pupils[i / suggest::start_count].fold);
  return lesson;
}

std::vector<EdgeMap> maps_of(const std::vector<Pupil>& pupils, const Level& level) {
  std::vector<std::optional<EdgeMap>> some(pupils.size());
  for_all(pupils.size(), [&](std::size_t p) { some[p].emplace(pupils[p].sheet, level); });
  std::vector<EdgeMap> maps;
  for (auto& each : some)
    maps.push_back(std::move(*each));
  return maps;
}

std::vector<float> whole_wanted(const Model& model, const Shape& truth, const Shape& now) {
  const auto shift = suggest::centroid_of(truth) - suggest::centroid_of(now);
  std::vector<float> wanted{static_cast<float>(shift.x), static_cast<float>(shift.y)};
  const auto there = suggest::ways_of(model.shapes, truth),
             here = suggest::ways_of(model.shapes, now);
  for (std::size_t i = 0; i < there.size(); ++i)
    wanted.push_back(there[i] - here[i]);
  return wanted;
}

/// Every start moves as a map would move it that never saw its film.
void learn_whole(Model& model,
                 const Level& level,
                 const std::vector<Pupil>& pupils,
                 const std::vector<EdgeMap>& maps,
                 Starts& starts) {
  const auto lesson =
      lesson_of(pupils,
                maps,
                starts,
                {.inputs = [&](const EdgeMap& map,
                               const Shape& now) { return suggest::inputs_of(model, map, now); },
                 .wanted = [&](const Shape& truth,
                               const Shape& now) { return whole_wanted(model, truth, now); }});
  const auto result = learned(lesson);
  for (std::size_t i = 0; i < starts.size(); ++i) {
    const Eigen::RowVectorXf by = result.elsewhere.row(static_cast<Eigen::Index>(i));
    suggest::move_whole(
        model.shapes, std::span(by.data(), static_cast<std::size_t>(by.size())), starts[i]);
  }
  fmt::print(stderr, "penalty {:.2g}\n", result.penalty);
  model.stages.push_back({.level = level, .maps = {result.map}});
}

void learn_singly(Model& model,
                  const Level& level,
                  const std::vector<Pupil>& pupils,
                  const std::vector<EdgeMap>& maps,
                  Starts& starts) {
  suggest::Stage stage{.level = level};
  auto moved = starts;
  std::vector<double> penalties;
  for (std::size_t landmark = 0; landmark < model.landmarks.size(); ++landmark) {
    const auto lesson = lesson_of(
        pupils,
        maps,
        starts,
        {.inputs = [&](const EdgeMap& map,
                       const Shape& now) { return suggest::inputs_of(model, map, now, landmark); },
         .wanted =
             [&](const Shape& truth, const Shape& now) {
               const auto by = truth[landmark] - now[landmark];
               return std::vector<float>{static_cast<float>(by.x), static_cast<float>(by.y)};
             }});
    const auto result = learned(lesson);
    for (std::size_t i = 0; i < starts.size(); ++i) {
      const auto row = static_cast<Eigen::Index>(i);
      moved[i][landmark] =
          moved[i][landmark] + SheetVector{static_cast<double>(result.elsewhere(row, 0)),
                                           static_cast<double>(result.elsewhere(row, 1))};
    }
    penalties.push_back(result.penalty);
    stage.maps.push_back(result.map);
  }
  std::sort(penalties.begin(), penalties.end());
  fmt::print(stderr,
             "penalties {:.2g} to {:.2g} to {:.2g}\n",
             penalties.front(),
             penalties[penalties.size() / 2],
             penalties.back());
  starts = std::move(moved);
  model.stages.push_back(std::move(stage));
}

void say_errors(const std::vector<Pupil>& pupils, const Starts& starts, const char* after) {
  std::vector<double> errors;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    const auto& pupil = pupils[i / suggest::start_count];
    for (std::size_t k = 0; k < starts[i].size(); ++k)
      errors.push_back(distance(starts[i][k], pupil.truth[k]) * pupil.mm_a_sheet_mm);
  }
  std::sort(errors.begin(), errors.end());
  fmt::print(stderr,
             "{}: median {:.2f}, 90 % {:.2f}, 99 % {:.2f} mm\n",
             after,
             errors[errors.size() / 2],
             errors[errors.size() * 9 / 10],
             errors[errors.size() * 99 / 100]);
}

std::vector<float> typical_of(const std::vector<Pupil>& pupils, const std::vector<EdgeMap>& maps) {
  const auto landmarks = pupils[0].truth.size();
  std::vector<float> sum(landmarks * suggest::description_size), one(suggest::description_size);
  for (std::size_t p = 0; p < pupils.size(); ++p)
    for (std::size_t i = 0; i < landmarks; ++i) {
      maps[p].describe(pupils[p].truth[i], one);
      for (std::size_t k = 0; k < one.size(); ++k)
        sum[i * one.size() + k] += one[k] / static_cast<float>(pupils.size());
    }
  return sum;
}

std::vector<Shape> of_film(const Starts& starts, std::size_t film) {
  const auto first = starts.begin() + static_cast<long>(film * suggest::start_count);
  return {first, first + static_cast<long>(suggest::start_count)};
}

} // namespace

Model learned_model(const Taught& from) {
  Model model{.landmarks = ids_of(from.film(0))};
  // A bare foot's film names the shoe's points as well, a shod one's has them: the lists agree.
  const auto pupils = pupils_of(from, model.landmarks);
  model.shapes = shapes_of(pupils);
  model.pattern = pattern_of(pupils, model.shapes);
  model.company = company_of(model.shapes);
  auto starts = first_starts(model, pupils), before = starts;
  std::vector<EdgeMap> maps;
  for (const auto& step : steps) {
    maps = maps_of(pupils, step.level);
    before = starts;
    (step.whole ? learn_whole : learn_singly)(model, step.level, pupils, maps, starts);
    say_errors(pupils, starts, fmt::format("cells of {} mm", step.level.cell_mm).c_str());
  }
  model.typical = typical_of(pupils, maps);
  std::vector<Judged> judged;
  for (std::size_t p = 0; p < pupils.size(); ++p) {
    Judged one{.outcome =
                   suggest::concluded(model, maps[p], of_film(before, p), of_film(starts, p))};
    for (std::size_t i = 0; i < pupils[p].truth.size(); ++i)
      one.error_mm.push_back(distance(one.outcome.shape[i], pupils[p].truth[i]) *
                             pupils[p].mm_a_sheet_mm);
    judged.push_back(std::move(one));
  }
  learn_trust(model, judged);
  return model;
}

} // namespace pritchel::teach
