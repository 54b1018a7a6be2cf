#include "phantom/reshape.h"

#include <algorithm>
#include <string_view>

namespace pritchel::phantom {

namespace {

bool starts(const std::string& id, std::string_view with) {
  return id.compare(0, with.size(), with) == 0;
}

bool is_of_p1(const std::string& id) {
  return starts(id, "p1-") || id == "pip-centre-of-rotation";
}
bool is_of_p2(const std::string& id) {
  return starts(id, "p2-") || starts(id, "dip-p2-");
}

/// Points of bone and of horn that is left, where they now stand.
void carry(const Reshaped& foot, std::vector<Landmark>& all) {
  for (Landmark& each : all) {
    const auto carried = [&](const Vec3& p) {
      return is_of_p1(each.id)   ? foot.p1_standing(p)
             : is_of_p2(each.id) ? foot.p2_standing(p)
                                 : foot.standing(p);
    };
    each.point = carried(each.point);
    for (Vec3& witness : each.witnesses)
      witness = carried(witness);
  }
}

/// `at` in the standing frame.
void put(std::vector<Landmark>& all, const std::string& id, const Vec3& at) {
  const auto it =
      std::find_if(all.begin(), all.end(), [&](const Landmark& each) { return each.id == id; });
  Landmark& landmark = it != all.end() ? *it : all.emplace_back();
  landmark = {id, at, {at}, landmark.part};
}

const Landmark& find(const std::vector<Landmark>& all, std::string_view id) {
  return *std::find_if(all.begin(), all.end(), [&](const Landmark& each) { return each.id == id; });
}

/// Middle of a medial and a lateral point, in the mid-plane of the own frame.
Vec3 between(const Vec3& medial, const Vec3& lateral) {
  const Vec3 middle = mean(medial, lateral);
  return {middle.x, middle.y, 0};
}

void find_sole(const Reshaped& foot,
               const std::vector<Landmark>& before,
               std::vector<Landmark>& all) {
  for (const char* id : {"sole-a", "sole-b"}) {
    const auto& witnesses = find(before, id).witnesses;
    const auto up_to_horn = [&](const Vec3& p) {
      return foot.underside(p - Vec3{0, 6, 0}, {0, 1, 0});
    };
    put(all,
        id,
        foot.standing(between(up_to_horn(witnesses.front()), up_to_horn(witnesses.back()))));
  }
  const auto& process = find(before, "p3-palmar-process");
  const auto& under = find(before, "sole-under-palmar");
  const auto down = [&](const Vec3& beside) {
    return foot.underside({process.point.x, process.point.y, beside.z}, foot.down());
  };
  put(all,
      "sole-under-palmar",
      foot.standing(between(down(under.witnesses.front()), down(under.witnesses.back()))));
}

void find_shoe(const Reshaped& foot,
               const std::vector<Landmark>& before,
               std::vector<Landmark>& all) {
  const auto& change = foot.change();
  const double behind_toe = foot.old_sharp_toe().x - find(before, "breakover").point.x;
  const double toe = foot.standing(foot.sharp_toe()).x;
  put(all, "breakover", {toe - behind_toe - change.breakover_back_mm, 1, 0});
  const Vec3 heel = foot.standing(between(foot.heel(-1), foot.heel(1)));
  put(all, "heel-ground", heel);
  put(all, "wall-toe-ground", foot.standing(foot.rolled_toe()));
  put(all, "ground-heel", {heel.x - 40, 0, 0});
  put(all, "ground-toe", {toe + 18, 0, 0});
  if (!foot.shod())
    return;
  const bool was_shod = foot.foot().parameters.shoeing == Shoeing::shod;
  const double behind_heel = was_shod ? foot.foot().heel_ground.x - foot.foot().shoe_heel_x() : 0;
  put(all, "shoe-heel-end", {heel.x - behind_heel - change.branch_longer_mm, 0, 0});
  put(all, "foot-plane-toe", foot.standing(foot.on_cut(14)));
  put(all, "foot-plane-heel", heel);
}

} // namespace

std::vector<Landmark> lateromedial_landmarks(const Reshaped& foot) {
  const std::vector<Landmark> before = lateromedial_landmarks(foot.foot());
  std::vector<Landmark> all = before;
  carry(foot, all);
  find_sole(foot, before, all);
  find_shoe(foot, before, all);
  return all;
}

std::vector<Landmark> dorsopalmar_landmarks(const Reshaped& foot) {
  std::vector<Landmark> all = dorsopalmar_landmarks(foot.foot());
  carry(foot, all);
  for (const double sign : {-1.0, 1.0}) {
    const std::string side = sign > 0 ? "lateral" : "medial";
    const Vec3 end = foot.standing(foot.quarter(sign));
    put(all, "wall-ground-" + side, end);
    put(all, "ground-" + side, {0, 0, end.z + sign * 14});
  }
  return all;
}

} // namespace pritchel::phantom
