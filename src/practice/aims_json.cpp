#include "measure/definitions.h"
#include "practice/node.h"
#include "practice/parts.h"

#include <fmt/format.h>

#include <algorithm>

namespace pritchel::practice {
namespace {

Result<OfferedAim> read_aim(const Node& node, const Words& sources) {
  PRITCHEL_CHECK(node.only(
      {"measurement", "for_fore", "for_hind", "low", "high", "counts_as_one", "why", "source"}));
  OfferedAim aim;
  PRITCHEL_TRY(measurement, node.text("measurement"));
  const auto* definition = measure::definition(measurement);
  if (definition == nullptr || !measure::is_radiograph(definition->view))
    return node.wrong(fmt::format(R"(speaks of "{}", which no radiograph measures)", measurement));
  aim.measurement = std::move(measurement);
  PRITCHEL_TRY(fore, node.truth_or("for_fore", true));
  PRITCHEL_TRY(hind, node.truth_or("for_hind", true));
  if (!fore && !hind)
    return node.wrong("is for neither fore nor hind limbs");
  aim.for_fore = fore;
  aim.for_hind = hind;
  if (node.has("low")) {
    PRITCHEL_TRY(low, node.number("low"));
    aim.low = low;
  }
  if (node.has("high")) {
    PRITCHEL_TRY(high, node.number("high"));
    aim.high = high;
  }
  if (!aim.low && !aim.high)
    return node.wrong(R"(has neither "low" nor "high")");
  if (aim.low && aim.high && *aim.low > *aim.high)
    return node.wrong(R"(has a "low" above its "high")");
  PRITCHEL_TRY(one, node.number("counts_as_one"));
  if (!(one > 0))
    return node.wrong(R"(has a "counts_as_one" that isn't above 0)");
  aim.counts_as_one = one;
  PRITCHEL_TRY(why, node.text("why"));
  aim.why = std::move(why);
  PRITCHEL_TRY(source, known_source(node, sources));
  aim.source = std::move(source);
  return aim;
}

bool share_a_limb(const OfferedAim& a, const OfferedAim& b) {
  return a.measurement == b.measurement &&
         ((a.for_fore && b.for_fore) || (a.for_hind && b.for_hind));
}

} // namespace

Result<std::vector<OfferedAim>> read_aims(const std::filesystem::path& file, const Words& sources) {
  if (!std::filesystem::exists(file))
    return std::vector<OfferedAim>{};
  PRITCHEL_TRY(json, read_document(file, "pritchel-aims"));
  const Node node(json, file.string());
  PRITCHEL_CHECK(node.only({"format", "version", "about", "aims"}));
  PRITCHEL_TRY(nodes, node.list("aims"));
  std::vector<OfferedAim> aims;
  for (const auto& each : nodes) {
    PRITCHEL_TRY(aim, read_aim(each, sources));
    if (std::any_of(
            aims.begin(), aims.end(), [&](const auto& known) { return share_a_limb(known, aim); }))
      return each.wrong(
          fmt::format(R"(is a second aim of "{}" for the same legs)", aim.measurement));
    aims.push_back(std::move(aim));
  }
  return aims;
}

} // namespace pritchel::practice
