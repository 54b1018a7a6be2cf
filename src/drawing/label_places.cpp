#include "drawing/label_places.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <utility>

namespace pritchel::drawing {
namespace {

struct Slot {
  Anchor anchor = Anchor::left; ///< left: at the room's left edge
  double y = 0;
  bool taken = false;
};

double line_height(const Room& room, double label_height, std::size_t wishes) {
  const double wanted = label_height * 1.35;
  const double rows = std::ceil(static_cast<double>(wishes) / 2.0);
  return std::min(wanted, (room.bottom - room.top) / std::max(rows, 1.0));
}

std::vector<Slot> free_slots(const Room& room, double height) {
  const auto rows = static_cast<int>(std::floor((room.bottom - room.top) / height + 1e-9));
  std::vector<Slot> slots;
  for (int row = 0; row < rows; ++row)
    for (const Anchor anchor : {Anchor::left, Anchor::right})
      slots.push_back({anchor, room.top + (row + 0.5) * height});
  return slots;
}

Room box_of(const Slot& slot, const LabelWish& wish, const Room& room, double height) {
  const bool left = slot.anchor == Anchor::left;
  return {left ? room.left : room.right - wish.width_px,
          slot.y - height / 2,
          left ? room.left + wish.width_px : room.right,
          slot.y + height / 2};
}

/// z of the cross product of ab and ac: which side of ab the point c lies on.
double side(const ImagePoint& a, const ImagePoint& b, const ImagePoint& c) {
  return cross(b - a, c - a);
}

/// Andrew's monotone chain.
std::vector<ImagePoint> hull_of(std::vector<ImagePoint> points) {
  std::sort(points.begin(), points.end(), [](const auto& a, const auto& b) {
    return std::pair(a.x, a.y) < std::pair(b.x, b.y);
  });
  std::vector<ImagePoint> hull;
  for (int pass = 0; pass < 2; ++pass) {
    const std::size_t start = hull.size();
    for (const auto& p : points) {
      while (hull.size() >= start + 2 && side(hull[hull.size() - 2], hull.back(), p) <= 0)
        hull.pop_back();
      hull.push_back(p);
    }
    if (!hull.empty())
      hull.pop_back();
    std::reverse(points.begin(), points.end());
  }
  return hull;
}

bool inside(const std::vector<ImagePoint>& hull, const ImagePoint& p) {
  if (hull.size() < 3)
    return false;
  for (std::size_t i = 0; i < hull.size(); ++i)
    if (side(hull[i], hull[(i + 1) % hull.size()], p) < 0)
      return false;
  return true;
}

bool holds(const Room& box, const ImagePoint& p, double margin) {
  return p.x > box.left - margin && p.x < box.right + margin && p.y > box.top - margin &&
         p.y < box.bottom + margin;
}

/// 2 when the box covers a landmark, 1 when it reaches into the foot, 0 when it is clear.
int covering(const Room& box,
             const std::vector<ImagePoint>& landmarks,
             const std::vector<ImagePoint>& hull,
             double margin) {
  for (const auto& p : landmarks)
    if (holds(box, p, margin))
      return 2;
  const double middle = (box.left + box.right) / 2;
  for (const double x : {box.left, middle, box.right})
    for (const double y : {box.top, box.bottom})
      if (inside(hull, {x, y}))
        return 1;
  return 0;
}

LabelPlace place_at(const Slot& slot, const LabelWish& wish, const Room& room) {
  const bool left = slot.anchor == Anchor::left;
  return {{left ? room.left : room.right, slot.y},
          slot.anchor,
          {left ? room.left + wish.width_px : room.right - wish.width_px, slot.y}};
}

bool leaders_cross(const LabelPlace& a,
                   const ImagePoint& a_end,
                   const LabelPlace& b,
                   const ImagePoint& b_end) {
  return side(a.leader_from, a_end, b.leader_from) * side(a.leader_from, a_end, b_end) < 0 &&
         side(b.leader_from, b_end, a.leader_from) * side(b.leader_from, b_end, a_end) < 0;
}

/// Swapping two crossing leaders of one column shortens their sum, so this ends.
void uncross(std::vector<std::size_t>& slot_of,
             const std::vector<Slot>& slots,
             const std::vector<LabelWish>& wishes,
             const Room& room) {
  for (std::size_t round = 0; round < wishes.size() * wishes.size(); ++round) {
    bool swapped = false;
    for (std::size_t i = 0; i < wishes.size(); ++i)
      for (std::size_t j = i + 1; j < wishes.size(); ++j) {
        const auto &a = slots[slot_of[i]], &b = slots[slot_of[j]];
        if (a.anchor != b.anchor || !leaders_cross(place_at(a, wishes[i], room),
                                                   wishes[i].belongs_to,
                                                   place_at(b, wishes[j], room),
                                                   wishes[j].belongs_to))
          continue;
        std::swap(slot_of[i], slot_of[j]);
        swapped = true;
      }
    if (!swapped)
      return;
  }
}

} // namespace

std::vector<LabelPlace> label_places(const std::vector<LabelWish>& wishes,
                                     const std::vector<ImagePoint>& keep_clear,
                                     const Room& room,
                                     double label_height_px) {
  const double height = line_height(room, label_height_px, wishes.size());
  const auto hull = hull_of(keep_clear);
  auto slots = free_slots(room, height);
  std::vector<std::size_t> slot_of(wishes.size());
  for (std::size_t i = 0; i < wishes.size(); ++i) {
    double best = std::numeric_limits<double>::infinity();
    for (std::size_t s = 0; s < slots.size(); ++s) {
      if (slots[s].taken)
        continue;
      const auto box = box_of(slots[s], wishes[i], room, height);
      const auto from = place_at(slots[s], wishes[i], room).leader_from;
      const double far_away = 10 * (room.right - room.left + room.bottom - room.top);
      const double cost = distance(from, wishes[i].belongs_to) +
                          far_away * covering(box, keep_clear, hull, label_height_px * 0.3);
      if (cost < best) {
        best = cost;
        slot_of[i] = s;
      }
    }
    slots[slot_of[i]].taken = true;
  }
  uncross(slot_of, slots, wishes, room);
  std::vector<LabelPlace> places;
  for (std::size_t i = 0; i < wishes.size(); ++i)
    places.push_back(place_at(slots[slot_of[i]], wishes[i], room));
  return places;
}

} // namespace pritchel::drawing
