#include "job/snap.h"

#include "imaging/snap.h"

#include <nlohmann/json.hpp>

#include "job/visit.h"

namespace pritchel::job {
namespace {

using nlohmann::json;

json place(const ImagePoint& at) {
  return json::array({at.x, at.y});
}

/// A drawing has toe or lateral to the right.
std::optional<Vector<ImageFrame>> bright_of(const practice::SnapGuide& guide, PictureSide toward) {
  if (guide.bright_x == 0 && guide.bright_y == 0)
    return std::nullopt;
  const double facing = toward == PictureSide::right ? 1 : -1;
  return Vector<ImageFrame>{facing * guide.bright_x, guide.bright_y};
}

json snapped_point(const imaging::Picture& picture,
                   const record::SnapWish& wish,
                   const imaging::Snapping& how) {
  const auto at = imaging::snap_point(picture, wish.points.front(), how);
  return at ? json{{"at", place(*at)}, {"how", "snapped"}} : json{{"at", nullptr}};
}

json snapped_line(const imaging::Picture& picture,
                  const record::SnapWish& wish,
                  const imaging::Snapping& how) {
  const auto line = imaging::snap_line(picture, wish.points, how);
  if (!line)
    return {{"from", nullptr}, {"to", nullptr}};
  return {{"from", place(line->from)}, {"to", place(line->to)}, {"how", "snapped"}};
}

json snapped_circle(const imaging::Picture& picture,
                    const record::SnapWish& wish,
                    const imaging::Snapping& how) {
  const auto points = imaging::snap_circle(picture, wish.points, how);
  if (!points)
    return {{"points", nullptr}};
  json places = json::array();
  for (const auto& each : *points)
    places.push_back(place(each));
  return {{"points", std::move(places)}, {"how", "snapped"}};
}

} // namespace

json snapped(const imaging::Picture& picture,
             const record::PictureEntry& entry,
             const practice::Practice& practice,
             const record::SnapWish& wish) {
  imaging::Snapping how{.reach_px = wish.reach_px};
  if (const auto* guide = practice::guide(protocol_of(entry, practice), wish.landmark))
    how.bright = bright_of(guide->snap, entry.toward);
  switch (wish.kind) {
  case record::SnapWish::Kind::point:
    return snapped_point(picture, wish, how);
  case record::SnapWish::Kind::line:
    return snapped_line(picture, wish, how);
  case record::SnapWish::Kind::circle:
    return snapped_circle(picture, wish, how);
  }
  return nullptr;
}

} // namespace pritchel::job
