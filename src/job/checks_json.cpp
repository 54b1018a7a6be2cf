#include "job/checks_json.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <array>
#include <string>

namespace pritchel::job {
namespace {

using nlohmann::json;

struct Looked {
  std::string_view check;
  std::array<std::string_view, 10> points;
  std::size_t count;

  template <class... Ids>
  constexpr explicit Looked(std::string_view id, Ids... ids)
      : check(id),
        points{ids...},
        count(sizeof...(ids)) {}
};

constexpr std::array looked{
    Looked("obliquity",
           "p2-condyle-palmar-1",
           "p2-condyle-palmar-2",
           "p2-condyle-distal-1",
           "p2-condyle-distal-2",
           "p3-palmar-process-1",
           "p3-palmar-process-2",
           "p3-solar-border-1",
           "p3-solar-border-2",
           "block-edge-near",
           "block-edge-far"),
    Looked("lm-yaw-gap",
           "p2-condyle-palmar-1",
           "p2-condyle-palmar-2",
           "p3-palmar-process-1",
           "p3-palmar-process-2"),
    Looked("lm-roll-gap",
           "p2-condyle-distal-1",
           "p2-condyle-distal-2",
           "p3-solar-border-1",
           "p3-solar-border-2"),
    Looked("one-outline",
           "p2-condyle-palmar-1",
           "p2-condyle-palmar-2",
           "p2-condyle-distal-1",
           "p2-condyle-distal-2",
           "p3-palmar-process-1",
           "p3-palmar-process-2",
           "p3-solar-border-1",
           "p3-solar-border-2"),
    Looked("beam-centre", "block-edge-near", "block-edge-far"),
    Looked("dp-rotation", "dorsal-mid-marker", "frog-mid-marker"),
    Looked("dp-beam", "block-edge-near", "block-edge-far"),
    Looked("foot-flat", "ground-heel", "ground-toe", "heel-ground", "shoe-heel-end"),
    Looked("cannon-vertical", "mc3-axis-proximal", "mc3-axis-distal"),
    Looked("ground-tilt", "ground-heel", "ground-toe", "ground-medial", "ground-lateral"),
    Looked("camera-roll",
           "plumb-top",
           "plumb-bottom",
           "ground-heel",
           "ground-toe",
           "ground-medial",
           "ground-lateral"),
    Looked("ground-visible", "ground-heel", "ground-toe", "ground-medial", "ground-lateral"),
    Looked("upright", "plumb-top", "plumb-bottom"),
    Looked("scale", "marker-1", "marker-2")};

json check_json(const measure::Check& check, measure::Limb limb) {
  json points = json::array();
  for (const auto id : points_of_check(check.id))
    points.push_back(id);
  return {{"id", check.id},
          {"title", measure::worded_for(limb, check.title)},
          {"verdict", measure::key(check.fitness)},
          {"sentence", measure::worded_for(limb, check.sentence)},
          {"touches", check.touches},
          {"points", std::move(points)}};
}

} // namespace

std::span<const std::string_view> points_of_check(std::string_view check) {
  const auto* at = std::find_if(
      looked.begin(), looked.end(), [&](const auto& each) { return each.check == check; });
  return at == looked.end() ? std::span<const std::string_view>()
                            : std::span(at->points).first(at->count);
}

json checks_json(const std::vector<measure::Check>& checks, measure::Limb limb) {
  json list = json::array();
  for (const auto& each : checks)
    list.push_back(check_json(each, limb));
  return list;
}

} // namespace pritchel::job
