/// How well the program's suggestions do on films that they weren't taught.
#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "teach/films.h"

namespace pritchel::teach {

/// What came of one landmark over many films.
struct Record {
  std::size_t shown = 0;         ///< films whose picture holds it
  std::vector<double> errors_mm; ///< of those proposed
};

struct Verdict {
  std::map<std::string, Record> landmarks;
  std::size_t films = 0;
  double longest_s = 0; ///< of one film
  double mean_s = 0;
};

/// Unseen films `first`...`first + count - 1`, varied (vary.h). The program is told what a person
/// states: which way the film faces, shoeing, and a scale that is wrong by up to 1 % (every other
/// film) or, as from a header alone, by up to 6 %.
[[nodiscard]] Verdict judged(phantom::View view,
                             std::uint64_t first,
                             std::uint64_t count,
                             const std::function<Drawn(std::uint64_t)>& film);

/// Of sorted or unsorted values, not empty.
[[nodiscard]] double quantile(std::vector<double> values, double share);

/// Share of all proposals that lie more than 5 mm off.
[[nodiscard]] double false_share(const Verdict& verdict);

/// A table in Markdown.
[[nodiscard]] std::string table(const Verdict& verdict);

} // namespace pritchel::teach
