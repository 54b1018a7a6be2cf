#include "report/life_outline.h"

#include "plan/change.h"
#include "plan/plan.h"
#include "report/layout.h"
#include "report/life_sketch.h"
#include "report/words.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace pritchel::report {
namespace {

using drawing::Ink;
using measure::Attempt;
using measure::because;
using Placed = measure::Placed<double>;

/// How far a line to work to is drawn beyond the horn, so that it can be carried over to the foot.
constexpr double beyond_mm = 10;
/// A shoe thinner than this is a line, not a section.
constexpr double least_shoe_mm = 0.5;

std::string millimetres(double value) {
  return number_for_people(value) + "\u202fmm";
}

PlanePoint
crossing(const PlanePoint& from, const PlaneVector& along, const GroundLine<double>& at) {
  return from - along * (at.height(from) / dot(along, at.n));
}

// ---- side view ----

/// The foot after the knife, in the plane frame.
struct SideCut {
  PlanePoint heel;
  PlanePoint toe;     ///< where the cut meets the front wall
  PlanePoint dressed; ///< the same, with the wall dressed back
  PlaneVector u;      ///< along the cut towards the toe
  PlaneVector n;
};

SideCut cut_of(const plan::Bearing<double>& bearing,
               const record::FootChange& change,
               const Placed& now,
               const Placed& after) {
  const auto amounts = plan::amounts_of<double>(change);
  const double rise = (amounts.trim_toe - amounts.trim_heel) / bearing.span;
  SideCut cut;
  cut.u = unit(bearing.u + bearing.n * rise);
  cut.n = left_normal(cut.u);
  cut.heel = bearing.heel + (after["heel-ground"] - now["heel-ground"]);
  cut.toe = bearing.toe + bearing.wall * plan::wall_taken(bearing, amounts);
  cut.dressed = cut.toe - cut.u * (amounts.dress_toe / dot(bearing.wall, cut.n));
  return cut;
}

enum class Under { horn, shoe };

void draw_ground(Sketch& sketch, const PlanePoint& back, const PlanePoint& front, Under what) {
  const auto& ground = sketch.ground();
  const auto from = ground.below(back), to = ground.below(front);
  const auto on = ground.u * beyond_mm;
  if (what == Under::shoe)
    return sketch.path({from - on, to + on}, Ink::ground, "ground");
  // Bare, the ground lies under the bearing line; two dashed lines over one another are neither.
  sketch.path({from - on, from}, Ink::ground, "ground");
  sketch.path({to, to + on}, Ink::ground, "ground");
}

void draw_shoe_worn(Sketch& sketch, const Placed& now, const plan::Bearing<double>& bearing) {
  const auto& ground = sketch.ground();
  const auto end =
      now.has("shoe-heel-end") ? ground.below(now["shoe-heel-end"]) : ground.below(bearing.heel);
  const auto front =
      now.has("breakover") ? ground.below(now["breakover"]) : ground.below(bearing.toe);
  const GroundLine<double> plane{bearing.heel, bearing.u, bearing.n};
  const auto top = crossing(end, ground.n, plane);
  sketch.path({top, bearing.toe, front, end, top}, Ink::faint, "shoe worn");
}

void draw_side_now(Sketch& sketch, const Placed& now, const plan::Bearing<double>& bearing) {
  const bool shod = now.shoeing == measure::Shoeing::shod;
  draw_ground(sketch, bearing.heel, bearing.toe, shod ? Under::shoe : Under::horn);
  if (shod)
    draw_shoe_worn(sketch, now, bearing);
  sketch.through({"extensor-process",
                  "p3-dorsal-proximal",
                  "p3-dorsal-distal",
                  "p3-tip",
                  "p3-solar-1",
                  "p3-solar-2",
                  "p3-solar-3",
                  "p3-solar-4",
                  "p3-solar-5",
                  "p3-palmar-process",
                  "p3-articular-palmar"},
                 Ink::bone,
                 "coffin bone");
  sketch.through({"sole-a", "sole-b", "sole-under-palmar"}, Ink::hoof, "sole");
  sketch.through({"coronary-band", "wall-dorsal-proximal", "wall-dorsal-mid", "wall-dorsal-distal"},
                 Ink::hoof,
                 "front wall",
                 {bearing.toe, bearing.heel});
  sketch.through({"coronary-band-heel", "heel-wall-proximal", "heel-wall-distal"},
                 Ink::hoof,
                 "heel wall",
                 {bearing.heel});
  if (now.has("coronary-band") && now.has("coronary-band-heel"))
    sketch.through({"coronary-band", "coronary-band-heel"}, Ink::hoof, "coronary band");
}

/// How far under a place on the new ground words stand clear of it and of the ground now.
double below_both(const Sketch& sketch, const PlanePoint& on_new_ground) {
  constexpr double clear_mm = 2.5;
  return clear_mm + std::max(0.0, sketch.ground().height(on_new_ground));
}

enum class TrimLine { none, drawn };

/// From the toe down to the breakover, back along the new ground to the branch's end, and up to the
/// cut. The foot surface itself is drawn once: two dashed lines over one another look solid.
void draw_new_shoe(Sketch& sketch, const SideCut& cut, const Placed& after, TrimLine trim_line) {
  const auto ground = measure::ground_of(after);
  const GroundLine<double> plane{cut.heel, cut.u, cut.n};
  const auto end = ground.below(after.has("shoe-heel-end") ? after["shoe-heel-end"] : cut.heel);
  const auto front = ground.below(after.has("breakover") ? after["breakover"] : cut.dressed);
  const auto top = crossing(end, ground.n, plane);
  sketch.path({cut.dressed, front, end, top}, Ink::proposal, "shoe");
  if (trim_line == TrimLine::none)
    sketch.path({top, cut.dressed}, Ink::proposal, "shoe");
  sketch.path({end - ground.u * beyond_mm, end}, Ink::proposal, "new ground");
  const auto toe_foot = ground.below(cut.dressed);
  const auto reach = std::max(ground.along(toe_foot), ground.along(front)) - ground.along(front);
  sketch.path({front, front + ground.u * (reach + beyond_mm)}, Ink::proposal, "new ground");
  sketch.label(end, 1, below_both(sketch, end), millimetres(ground.height(top)) + " thick");
  sketch.label(toe_foot,
               3,
               below_both(sketch, toe_foot),
               millimetres(ground.height(cut.dressed)) + " thick");
}

void draw_breakover(Sketch& sketch, const Placed& now, const Placed& after, const SideCut& cut) {
  if (!now.has("breakover"))
    return;
  sketch.through({"breakover"}, Ink::ground, "breakover now");
  const auto ground = measure::ground_of(after);
  const auto at = ground.below(after["breakover"]);
  sketch.tick(at, 2, 6, Ink::proposal, "breakover");
  const double behind = ground.along(ground.below(cut.dressed)) - ground.along(at);
  constexpr double plain = 0.05;
  const auto where = std::abs(behind) < plain
                         ? std::string("below the toe")
                         : millimetres(std::abs(behind)) +
                               (behind > 0 ? " behind the toe" : " in front of the toe");
  sketch.label(at, -1, 9.5, "breakover, " + where);
}

void draw_dressed_wall(Sketch& sketch,
                       const SideCut& cut,
                       const plan::Bearing<double>& bearing,
                       const Placed& now,
                       double amount) {
  if (amount == 0)
    return;
  // Dressing runs out over the lower third of the wall: docs/plan.md.
  const double third = distance(now["wall-dorsal-proximal"], cut.toe) / 3;
  sketch.path({cut.dressed, cut.toe + bearing.wall * third}, Ink::proposal, "dressed wall");
  sketch.label(cut.toe + bearing.wall * (third / 2), 4, 0, millimetres(amount) + " dressed off");
}

void draw_side_plan(Sketch& sketch,
                    const record::FootChange& change,
                    const plan::Bearing<double>& bearing,
                    const Placed& now,
                    const Placed& after) {
  const auto cut = cut_of(bearing, change, now, after);
  const bool cuts = change.trim_toe_mm != 0 || change.trim_heel_mm != 0;
  if (cuts) {
    const auto back = cut.heel - cut.u * beyond_mm, front = cut.toe + cut.u * beyond_mm;
    sketch.path({back, front}, Ink::proposal, "trim line");
    sketch.label(cut.toe, 2.5, -3.2, millimetres(change.trim_toe_mm) + " off");
    // Past the line's end and the branch: above it the heel's wall runs up.
    const double branch =
        after.has("shoe-heel-end") ? dot(cut.heel - after["shoe-heel-end"], cut.u) : 0;
    sketch.label(
        cut.heel, -std::max(beyond_mm, branch) - 1.5, 0, millimetres(change.trim_heel_mm) + " off");
  }
  draw_dressed_wall(sketch, cut, bearing, now, change.dress_toe_mm);
  const bool shoe = after.shoeing == measure::Shoeing::shod &&
                    measure::ground_of(after).height(cut.dressed) >= least_shoe_mm;
  if (shoe)
    draw_new_shoe(sketch, cut, after, cuts ? TrimLine::drawn : TrimLine::none);
  draw_breakover(sketch, now, after, cut);
}

Attempt<LifeOutline> side_outline(const Placed& now,
                                  const Placed& after,
                                  const record::FootChange& change,
                                  PictureSide toward) {
  const auto bearing = plan::bearing_of(now);
  if (!bearing)
    return because(bearing.error());
  Sketch sketch(now, bearing->heel, toward);
  draw_side_now(sketch, now, *bearing);
  draw_side_plan(sketch, change, *bearing, now, after);
  return std::move(sketch).finished();
}

// ---- front view ----

struct Side {
  const char* wall_end;
  double outward;
  double trim;
  double dress;
  double extend;
};

void draw_front_now(Sketch& sketch, const Placed& now) {
  const auto &medial = now["wall-ground-medial"], &lateral = now["wall-ground-lateral"];
  constexpr double on_ground_mm = 1.5;
  const auto& ground = sketch.ground();
  const bool stands_on_it = std::abs(ground.height(medial)) < on_ground_mm &&
                            std::abs(ground.height(lateral)) < on_ground_mm;
  draw_ground(sketch, medial, lateral, stands_on_it ? Under::horn : Under::shoe);
  sketch.through({"p3-articular-lateral",
                  "p3-articular-medial",
                  "p3-abaxial-medial",
                  "p3-distal-border-medial",
                  "p3-distal-border-lateral",
                  "p3-abaxial-lateral",
                  "p3-articular-lateral"},
                 Ink::bone,
                 "coffin bone");
  sketch.through({"coronet-medial",
                  "wall-proximal-medial",
                  "wall-distal-medial",
                  "wall-ground-medial",
                  "wall-ground-lateral",
                  "wall-distal-lateral",
                  "wall-proximal-lateral",
                  "coronet-lateral"},
                 Ink::hoof,
                 "walls");
  sketch.through({"coronet-medial", "coronet-lateral"}, Ink::hoof, "coronary band");
}

void draw_front_plan(Sketch& sketch,
                     const record::FootChange& change,
                     const Placed& now,
                     const Placed& after) {
  const auto &medial = after["wall-ground-medial"], &lateral = after["wall-ground-lateral"];
  const auto u = unit(lateral - medial);
  const Side sides[] = {{"wall-ground-medial",
                         -1,
                         change.trim_medial_mm,
                         change.dress_medial_mm,
                         change.extend_medial_mm},
                        {"wall-ground-lateral",
                         1,
                         change.trim_lateral_mm,
                         change.dress_lateral_mm,
                         change.extend_lateral_mm}};
  const bool cuts = change.trim_medial_mm != 0 || change.trim_lateral_mm != 0;
  if (cuts)
    sketch.path({medial - u * beyond_mm, lateral + u * beyond_mm}, Ink::proposal, "trim line");
  const auto ground = measure::ground_of(after);
  const bool shoe = (now.shoeing == measure::Shoeing::shod || plan::changes_shoe(change)) &&
                    ground.height(midpoint(medial, lateral)) >= least_shoe_mm;
  if (shoe) {
    const auto inner = medial - u * change.extend_medial_mm;
    const auto outer = lateral + u * change.extend_lateral_mm;
    const auto below_inner = ground.below(inner), below_outer = ground.below(outer);
    sketch.path({inner, below_inner, below_outer, outer}, Ink::proposal, "shoe");
    if (!cuts)
      sketch.path({inner, outer}, Ink::proposal, "shoe");
    sketch.path({below_inner - ground.u * beyond_mm, below_inner}, Ink::proposal, "new ground");
    sketch.path({below_outer, below_outer + ground.u * beyond_mm}, Ink::proposal, "new ground");
  }
  for (const auto& side : sides) {
    const auto& end = after[side.wall_end];
    const double out = side.outward * 2;
    if (cuts)
      sketch.label(end, out, -2.5, millimetres(side.trim) + " off");
    if (side.dress != 0) {
      sketch.tick(end, 8, 0, Ink::proposal, "dressed wall");
      sketch.label(end, out, -6, millimetres(side.dress) + " dressed off");
    }
    if (!shoe)
      continue;
    const auto edge = end + u * (side.outward * side.extend);
    sketch.label(edge,
                 -out,
                 ground.height(edge) + 2.5,
                 millimetres(ground.height(edge)) + " thick" +
                     (side.extend == 0 ? "" : ", " + millimetres(side.extend) + " wider"));
  }
}

LifeOutline front_outline(const Placed& now,
                          const Placed& after,
                          const record::FootChange& change,
                          PictureSide toward) {
  Sketch sketch(now, midpoint(now["wall-ground-medial"], now["wall-ground-lateral"]), toward);
  draw_front_now(sketch, now);
  draw_front_plan(sketch, change, now, after);
  return std::move(sketch).finished();
}

} // namespace

Attempt<LifeOutline> life_outline(const PictureSheet& sheet, const record::FootChange& change) {
  const auto reading = reading_of(sheet);
  if (!reading.calibration.has_scale())
    return because("the picture has no scale");
  const bool front = reading.view == measure::View::dorsopalmar;
  if (!front && reading.view != measure::View::lateromedial)
    return because("only side and front views are drawn");
  const auto now = measure::placed(reading);
  if (front)
    for (const char* id :
         {"ground-medial", "ground-lateral", "wall-ground-medial", "wall-ground-lateral"})
      if (!now.has(id))
        return because(std::string("the landmark ") + id + " isn't placed");
  const auto after = plan::ghost(reading, change);
  if (!after)
    return because(after.error());
  return front ? front_outline(now, *after, change, reading.toward)
               : side_outline(now, *after, change, reading.toward);
}

} // namespace pritchel::report
