#include "sample_visit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace sample {
namespace {

using namespace pritchel;

constexpr double spacing_mm = 0.2;
constexpr int columns = 1000, rows = 960;
/// Image place of the plane's origin, toe to the left.
constexpr ImagePoint origin{860, 860};

using Placed = std::pair<const char*, PlanePoint>;

constexpr std::array<Placed, 28> side{{
    {"ground-heel", {0, 0}},
    {"ground-toe", {150, 0}},
    {"p3-tip", {112, 17}},
    {"p3-palmar-process", {47, 18}},
    {"p3-dorsal-distal", {104, 25}},
    {"p3-dorsal-proximal", {74, 63}},
    {"extensor-process", {70, 68}},
    {"p2-distal-condyle-1", {62, 62}},
    {"p2-distal-condyle-2", {75, 49}},
    {"p2-distal-condyle-3", {87, 57}},
    {"p1-distal-condyle-1", {41, 96}},
    {"p1-distal-condyle-2", {50, 84}},
    {"p1-distal-condyle-3", {66, 88}},
    {"p1-axis-distal", {60, 95}},
    {"p1-axis-proximal", {20, 145}},
    {"coronary-band", {84, 72}},
    {"wall-dorsal-proximal", {82, 68}},
    {"wall-dorsal-distal", {122, 20}},
    {"sole-a", {122, 3}},
    {"sole-b", {102, 1}},
    {"sole-under-palmar", {47, 5}},
    {"breakover", {150, 0}},
    {"heel-ground", {22, 0}},
    {"wall-toe-ground", {137, 1}},
    {"heel-wall-distal", {24, 2}},
    {"heel-wall-proximal", {4, 26}},
    {"foot-plane-heel", {22, 0}},
    {"foot-plane-toe", {136, 0}},
}};

constexpr std::array<Placed, 18> front{{
    {"ground-medial", {-80, 0}},
    {"ground-lateral", {80, 0}},
    {"dip-p2-medial", {-20, 46.8}},
    {"dip-p3-medial", {-20, 45}},
    {"dip-p2-lateral", {20, 48.4}},
    {"dip-p3-lateral", {20, 46}},
    {"p3-articular-medial", {-24, 45}},
    {"p3-articular-lateral", {24, 47}},
    {"p3-distal-border-medial", {-25, 14}},
    {"p3-distal-border-lateral", {25, 16}},
    {"p2-axis-distal", {1, 50}},
    {"p2-axis-proximal", {-1, 80}},
    {"coronet-medial", {-48, 62}},
    {"coronet-lateral", {50, 64}},
    {"wall-proximal-medial", {-53, 52}},
    {"wall-proximal-lateral", {55, 52}},
    {"wall-ground-medial", {-60, 0}},
    {"wall-ground-lateral", {64, 0}},
}};

ImagePoint pixel(PlanePoint p, double shift_mm) {
  return {origin.x - (p.x + shift_mm) / spacing_mm, origin.y - p.y / spacing_mm};
}

/// A soft foot over a darkening ground: something to look at, nothing to measure.
imaging::Picture picture() {
  imaging::Picture made{.kind = imaging::PictureKind::radiograph, .columns = columns, .rows = rows};
  made.bits_stored = 12;
  made.samples.resize(static_cast<std::size_t>(columns) * rows);
  for (int y = 0; y < rows; ++y)
    for (int x = 0; x < columns; ++x) {
      const double dx = (x - 420.0) / 330, dy = (y - 640.0) / 260;
      const double inside = std::clamp(1.3 - dx * dx - dy * dy, 0.0, 1.0);
      const double leg =
          std::clamp(1.2 - std::abs(x - 640.0 - (y - 300) * -0.2) / 130, 0.0, 1.0) * (y < 640);
      made.samples[static_cast<std::size_t>(y) * columns + static_cast<std::size_t>(x)] =
          static_cast<std::uint16_t>(300 + y / 4 + 2000 * std::max(inside, leg));
    }
  made.windows = {{.centre = 1500, .width = 3000}};
  return made;
}

Calibration calibration(Scale scale) {
  if (scale == Scale::none)
    return {.origin = ScaleOrigin::none};
  return {.origin = ScaleOrigin::marker,
          .pixel_width_mm = spacing_mm,
          .pixel_height_mm = spacing_mm,
          .relative_uncertainty = 0.01,
          .sentence = "Marker of 50 mm in the plane of the foot: 0.200 mm per pixel, ±2 %."};
}

const practice::Practice& practice() {
  static const auto loaded =
      practice::load_practice(std::filesystem::path(PRITCHEL_SOURCE_DIR) / "templates");
  return *loaded;
}

template <std::size_t N>
report::PictureSheet
sheet(measure::View view, const std::array<Placed, N>& points, double shift_mm, Scale scale) {
  report::PictureSheet made{.picture = picture(), .calibration = calibration(scale)};
  made.entry = {.digest = std::string(64, view == measure::View::lateromedial ? 'a' : 'b'),
                .file_name = view == measure::View::lateromedial ? "lf-side.dcm" : "lf-front.dcm",
                .columns = columns,
                .rows = rows,
                .taken = "2026-05-04",
                .view = view,
                .limb = measure::Limb::left_fore,
                .toward = PictureSide::left,
                .loading = measure::Loading::weight_bearing};
  made.reading = {.picture = made.entry.digest,
                  .reader = "A. Reader",
                  .saved = "2026-05-04T10:00:00Z",
                  .revision = 3};
  for (const auto& [id, at] : points)
    made.reading.landmarks.push_back({id, pixel(at, shift_mm), measure::Placement::by_hand});
  made.measurements =
      measure::measure_reading(record::reading_of(made.entry, made.reading, made.calibration),
                               practice::spreads(practice::protocol(practice(), view)),
                               practice().bands);
  return made;
}

} // namespace

report::PictureSheet side_picture(Scale scale) {
  return sheet(measure::View::lateromedial, side, 0, scale);
}

report::PictureSheet front_picture(Scale scale) {
  return sheet(measure::View::dorsopalmar, front, 85, scale);
}

report::ReportInput visit(Scale scale) {
  report::ReportInput input;
  input.case_ = {.id = "tarn",
                 .horse = {.name = "Tarn",
                           .breed = "Hanoverian",
                           .sex = "gelding",
                           .colour = "bay",
                           .work = "riding",
                           .age_years = 9,
                           .height_cm = 162,
                           .weight_kg = 540},
                 .owner = {.name = "Ida Holm"},
                 .yard = "Nether Yard",
                 .farrier = {.name = "Ben Oake"},
                 .vet = {.name = "Dr Mara Lind"}};
  input.case_.history.complaint = "Shorter in front on the left since the winter.";
  input.visit = {.id = "visit-2", .date = "2026-05-04", .last_trim = "2026-03-23"};
  input.practice = practice();
  input.pictures = {side_picture(scale), front_picture(scale)};
  input.made = "2026-05-04T12:00:00Z";
  input.case_.visits = {input.visit};
  for (const auto& each : input.pictures)
    input.case_.visits.front().pictures.push_back(each.entry);
  input.visit = input.case_.visits.front();
  return input;
}

std::string long_text(int letters) {
  const std::string sentence =
      "Der Huf wächst schräg nach vorn, die Trachten sind untergeschoben; größere Änderungen nur "
      "in kleinen Schritten. ";
  std::string text;
  while (static_cast<int>(text.size()) < letters)
    text += sentence;
  return text;
}

record::Plan plan_of_lines(int lines, int letters) {
  record::Plan plan{
      .visit = "visit-2", .version = 2, .made = "2026-05-04T11:00:00Z", .made_by = "Ben Oake"};
  for (int i = 0; i < lines; ++i)
    plan.lines.push_back(
        {.rule = "rule-" + std::to_string(i),
         .limb = measure::Limb::left_fore,
         .what = "Proposal " + std::to_string(i + 1) + ": take 4 mm off the toe",
         .amount = "4 mm at the toe, 0 mm at the heels",
         .why = long_text(letters),
         .caution = "Sole at the tip is the price.",
         .watch = "Film after the trim; again in five weeks.",
         .source = "Common practice of the trade, no source",
         .expected = {{"palmar-angle", 0.9, 2.7, 0.4}, {"hpa-deviation", 0.4, 2.6, 0.5}}});
  return plan;
}

} // namespace sample
