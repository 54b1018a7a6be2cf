#include "measure/definitions.h"
#include "practice/node.h"
#include "practice/parts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace pritchel::practice {
namespace {

/// Nothing agreed exists for these, or an outline that looks like one would mislead: they depend on
/// size, stance, beam or taste. Nobody's file may give them a range.
constexpr std::array<std::string_view, 25> never_a_band{"breakover-distance",
                                                        "base-proportion",
                                                        "toe-excess",
                                                        "cor-toe",
                                                        "cor-toe-capsule",
                                                        "cor-heel",
                                                        "support-length",
                                                        "toe-length",
                                                        "photo-toe-length",
                                                        "ddft-moment-arm",
                                                        "navicular-height",
                                                        "navicular-p3-distance",
                                                        "dip-space-medial",
                                                        "dip-space-lateral",
                                                        "dip-space-ratio",
                                                        "dip-symmetry-index",
                                                        "dip-line-angle",
                                                        "dip-ml-deviation",
                                                        "pip-space-medial",
                                                        "pip-space-lateral",
                                                        "pip-symmetry-index",
                                                        "heel-collapse",
                                                        "solar-base-proportion",
                                                        "stifle-angle",
                                                        "hip-angle"};

constexpr std::array<std::pair<std::string_view, measure::Standing>, 3> standings{
    {{"published", measure::Standing::published},
     {"trade-rule", measure::Standing::trade_rule},
     {"own-practice", measure::Standing::own_practice}}};

Result<measure::Standing> standing_of(const Node& node) {
  PRITCHEL_TRY(word, node.text("standing"));
  for (const auto& [known, standing] : standings)
    if (known == word)
      return standing;
  return node.wrong(fmt::format(R"(has the standing "{}", which doesn't exist)", word),
                    "write published, trade-rule or own-practice");
}

Result<std::string> measurement_of(const Node& node) {
  PRITCHEL_TRY(id, node.text("measurement"));
  if (measure::definition(id) == nullptr)
    return node.wrong(fmt::format(R"(speaks of "{}", a measurement that doesn't exist)", id));
  if (std::find(never_a_band.begin(), never_a_band.end(), id) != never_a_band.end())
    return node.wrong(fmt::format(R"(gives a range for "{}", which has none)", id),
                      "see templates/README.md for the measurements that never get one");
  return id;
}

Result<void> read_range(const Node& node, measure::Band& band) {
  if (node.has("low")) {
    PRITCHEL_TRY(low, node.number("low"));
    band.low = low;
  }
  if (node.has("high")) {
    PRITCHEL_TRY(high, node.number("high"));
    band.high = high;
  }
  if (!band.low && !band.high)
    return node.wrong(R"(has neither "low" nor "high")");
  if (band.low && band.high && *band.low >= *band.high)
    return node.wrong(R"(has a "low" that isn't below its "high")");
  return {};
}

Result<void> read_limbs(const Node& node, measure::Band& band) {
  PRITCHEL_TRY(fore, node.truth_or("for_fore", band.for_fore));
  PRITCHEL_TRY(hind, node.truth_or("for_hind", band.for_hind));
  if (!fore && !hind)
    return node.wrong("is for neither fore nor hind limbs");
  band.for_fore = fore;
  band.for_hind = hind;
  return {};
}

Result<measure::Band> band_from(const Node& node, const Words& sources) {
  PRITCHEL_CHECK(node.only({"measurement",
                            "low",
                            "high",
                            "for_fore",
                            "for_hind",
                            "population",
                            "source",
                            "standing",
                            "seen"}));
  measure::Band band;
  PRITCHEL_TRY(id, measurement_of(node));
  PRITCHEL_CHECK(read_range(node, band));
  PRITCHEL_CHECK(read_limbs(node, band));
  PRITCHEL_TRY(population, node.text("population"));
  PRITCHEL_TRY(source, known_source(node, sources));
  PRITCHEL_TRY(standing, standing_of(node));
  // Nobody shows a number that nobody has looked up: how it was checked must be said.
  PRITCHEL_CHECK(node.text("seen"));
  band.measurement = std::move(id);
  band.population = std::move(population);
  band.source = std::move(source);
  band.standing = standing;
  return band;
}

bool is_own(const measure::Band& band) {
  return band.standing == measure::Standing::own_practice;
}

/// The practice's own band stands before the shipped one; apart from that there is one.
bool clash(const measure::Band& a, const measure::Band& b) {
  return a.measurement == b.measurement && is_own(a) == is_own(b) &&
         ((a.for_fore && b.for_fore) || (a.for_hind && b.for_hind));
}

Result<void>
read_file(const std::filesystem::path& file, const Words& sources, measure::Bands& bands) {
  PRITCHEL_TRY(json, read_document(file, "pritchel-references"));
  const Node node(json, file.string());
  PRITCHEL_CHECK(node.only({"format", "version", "about", "bands"}));
  PRITCHEL_TRY(nodes, node.list("bands"));
  for (const auto& each : nodes) {
    PRITCHEL_TRY(band, band_from(each, sources));
    if (std::any_of(bands.begin(), bands.end(), [&](const auto& b) { return clash(b, band); }))
      return each.wrong(
          fmt::format(R"(gives a second range for "{}" in the same limbs)", band.measurement));
    bands.push_back(std::move(band));
  }
  return {};
}

} // namespace

Result<measure::Bands> read_references(const std::filesystem::path& folder, const Words& sources) {
  PRITCHEL_TRY(files, json_files(folder));
  measure::Bands bands;
  for (const auto& file : files)
    PRITCHEL_CHECK(read_file(file, sources, bands));
  std::stable_partition(bands.begin(), bands.end(), is_own);
  return bands;
}

} // namespace pritchel::practice
