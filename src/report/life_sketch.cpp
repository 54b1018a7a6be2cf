#include "report/life_sketch.h"

#include <algorithm>
#include <utility>

namespace pritchel::report {

using drawing::Anchor;
using drawing::Ink;
using drawing::PaperFrame;

Sketch::Sketch(const measure::Placed<double>& now, PlanePoint origin, PictureSide toward)
    : now_(now),
      ground_(measure::ground_of(now)),
      origin_(origin),
      right_(toward == PictureSide::right ? 1 : -1) {}

Point<PaperFrame> Sketch::on_paper(const PlanePoint& p) const {
  return {right_ * dot(p - origin_, ground_.u), -dot(p - origin_, ground_.n)};
}

void Sketch::path(const std::vector<PlanePoint>& points, Ink ink, std::string about) {
  if (points.size() < 2)
    return;
  drawing::PathItem<PaperFrame> drawn;
  for (const auto& each : points)
    drawn.points.push_back(on_paper(each));
  outline_.items.push_back({std::move(drawn), ink, std::move(about)});
}

void Sketch::through(Ids ids, Ink ink, const char* about, const std::vector<PlanePoint>& last) {
  auto points = placed(ids);
  points.insert(points.end(), last.begin(), last.end());
  path(points, ink, about);
}

void Sketch::tick(const PlanePoint& at, double above, double below, Ink ink, const char* about) {
  const auto middle = on_paper(at);
  outline_.items.push_back(
      {drawing::LineItem<PaperFrame>{{middle.x, middle.y - above}, {middle.x, middle.y + below}},
       ink,
       about});
}

void Sketch::label(const PlanePoint& at, double outward, double down, std::string text) {
  const auto from = on_paper(at);
  const double across = outward * right_;
  const auto anchor = outward == 0 ? Anchor::middle : across > 0 ? Anchor::left : Anchor::right;
  outline_.items.push_back({drawing::LabelItem<PaperFrame>{
                                from + Vector<PaperFrame>{across, down}, std::move(text), anchor},
                            Ink::proposal,
                            "amount"});
}

LifeOutline Sketch::finished() && {
  for (const auto& id : outline_.landmarks)
    outline_.items.push_back(
        {drawing::MarkItem<PaperFrame>{on_paper(now_[id]), "by-hand"}, Ink::text, id});
  return std::move(outline_);
}

std::vector<PlanePoint> Sketch::placed(Ids ids) {
  std::vector<PlanePoint> points;
  for (const char* id : ids) {
    if (!now_.has(id))
      continue;
    points.push_back(now_[id]);
    auto& used = outline_.landmarks;
    if (std::find(used.begin(), used.end(), id) == used.end())
      used.emplace_back(id);
  }
  return points;
}

} // namespace pritchel::report
