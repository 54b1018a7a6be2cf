#include "teach/pupils.h"

#include "phantom/random.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <map>
#include <optional>
#include <thread>

#include "teach/ridge.h"
#include "teach/vary.h"

namespace pritchel::teach {
namespace {

/// How wrong a scale taken from a header alone may be: detector to foot isn't known.
constexpr double greatest_scale_error = 0.06;

std::map<std::string, phantom::Pixel> all_points(const Drawn& film) {
  std::map<std::string, phantom::Pixel> points;
  for (const auto& list : {film.truth, film.as_if_shod})
    for (const auto& each : list)
      if (each.id.rfind("marker", 0) != 0)
        points[each.id] = each.at;
  return points;
}

Pupil pupil_of(const Drawn& film, std::uint64_t number, const std::vector<std::string>& ids) {
  phantom::Draws draw{0x5CA1E'000ULL + number};
  const double error = std::exp(draw.between(-greatest_scale_error, greatest_scale_error));
  const auto toward =
      film.facing == phantom::Facing::left ? suggest::Toward::left : suggest::Toward::right;
  Pupil pupil{.sheet = suggest::Sheet(film.picture, toward, film.mm_per_pixel * error),
              .mm_a_sheet_mm = 1 / error,
              .fold = static_cast<int>(number % fold_count)};
  const auto points = all_points(film);
  for (const auto& id : ids) {
    const auto& at = points.at(id);
    pupil.truth.push_back(pupil.sheet.from_picture({at.x, at.y}));
  }
  return pupil;
}

} // namespace

std::vector<std::string> ids_of(const Drawn& film) {
  std::vector<std::string> ids;
  for (const auto& [id, at] : all_points(film))
    ids.push_back(id);
  return ids;
}

std::vector<Pupil> pupils_of(const Taught& from, const std::vector<std::string>& ids) {
  std::vector<std::optional<Pupil>> some(from.count);
  for_all(from.count, [&](std::size_t i) {
    some[i] = pupil_of(varied(from.film(i), Kind::taught, i), i, ids);
  });
  std::vector<Pupil> pupils;
  for (auto& each : some)
    pupils.push_back(std::move(*each));
  return pupils;
}

void for_all(std::size_t count, const std::function<void(std::size_t)>& work) {
  std::atomic<std::size_t> next = 0;
  const auto loop = [&] {
    for (auto i = next++; i < count; i = next++)
      work(i);
  };
  std::vector<std::thread> threads;
  for (unsigned i = 1; i < std::max(1U, std::thread::hardware_concurrency()); ++i)
    threads.emplace_back(loop);
  loop();
  for (auto& each : threads)
    each.join();
}

} // namespace pritchel::teach
