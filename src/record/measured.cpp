#include "record/measured.h"

#include <algorithm>
#include <optional>

namespace pritchel::record {
namespace {

const measure::Landmark* find(const std::vector<measure::Landmark>& landmarks,
                              std::string_view id) {
  const auto at = std::find_if(
      landmarks.begin(), landmarks.end(), [&](const auto& each) { return each.id == id; });
  return at == landmarks.end() ? nullptr : &*at;
}

bool is_near(double place, int size) {
  return place >= -static_cast<double>(size) && place <= 2.0 * size;
}

/// What the program offered and nobody confirmed makes no number.
std::vector<measure::Landmark> confirmed(std::vector<measure::Landmark> landmarks) {
  std::erase_if(landmarks,
                [](const auto& each) { return each.how == measure::Placement::suggested; });
  return landmarks;
}

/// Where something is measured.
std::vector<ImagePoint> places(const std::vector<measure::Landmark>& landmarks) {
  std::vector<ImagePoint> all;
  for (const auto& each : confirmed(landmarks))
    all.push_back(each.at);
  return all;
}

Result<imaging::ScaleStatement> with_marker(imaging::ScaleStatement scale,
                                            const ReadingEntry& reading) {
  const auto* first = find(reading.landmarks, marker_landmarks[0]);
  const auto* second = find(reading.landmarks, marker_landmarks[1]);
  if (first == nullptr || second == nullptr)
    return fail("The scale",
                "is to come from a marker whose ends are not placed",
                "place marker-1 and marker-2 on its two ends");
  scale.marker_1 = first->at;
  scale.marker_2 = second->at;
  return scale;
}

/// Turns placement spreads into pixels where there is no scale. What a photo's longer side usually
/// shows is an own estimate: a limb up to the shoulder or hip with some room, a foot with its
/// pastern.
void set_nominal_pixel(Calibration& calibration,
                       measure::View view,
                       const imaging::Picture& picture) {
  constexpr double limb_mm = 1500, foot_mm = 350;
  const double longer_side = std::max({picture.columns, picture.rows, 1});
  if (!measure::is_radiograph(view))
    calibration.nominal_pixel_mm = (measure::is_limb(view) ? limb_mm : foot_mm) / longer_side;
}

} // namespace

measure::Reading
reading_of(const PictureEntry& picture, const ReadingEntry& entry, const Calibration& calibration) {
  return {.view = picture.view,
          .limb = picture.limb,
          .toward = picture.toward,
          .shoeing = picture.shoeing,
          .loading = picture.loading,
          .hints = picture.hints,
          .sides_checked = picture.sides_checked,
          .calibration = calibration,
          .columns = picture.columns,
          .rows = picture.rows,
          .landmarks = confirmed(entry.landmarks)};
}

Result<Scaled> calibration_of(const PictureEntry& entry,
                              const ReadingEntry& reading,
                              const imaging::Picture& picture) {
  auto statement = entry.scale;
  if (statement.kind == imaging::ScaleStatement::Kind::marker) {
    PRITCHEL_TRY(with_ends, with_marker(statement, reading));
    statement = with_ends;
  }
  const auto reach = places(reading.landmarks);
  PRITCHEL_TRY(
      calibration,
      imaging::calibrate(
          picture.spacing, picture.pixel_aspect, picture.columns, picture.rows, statement, reach));
  set_nominal_pixel(calibration, entry.view, picture);
  auto conflicts = imaging::scale_conflicts(picture.spacing, calibration);
  return Scaled{.calibration = std::move(calibration), .conflicts = std::move(conflicts)};
}

Scaled calibration_or_none(const PictureEntry& entry,
                           const ReadingEntry& reading,
                           const imaging::Picture& picture) {
  auto scaled = calibration_of(entry, reading, picture);
  if (scaled)
    return std::move(*scaled);
  Scaled none{.calibration = {.pixel_height_mm = imaging::pixel_aspect_ratio(picture.spacing,
                                                                             picture.pixel_aspect),
                              .sentence = "No scale: " + scaled.error().sentence()}};
  set_nominal_pixel(none.calibration, entry.view, picture);
  return none;
}

Result<void> check_places(const PictureEntry& entry,
                          const std::vector<measure::Landmark>& landmarks) {
  for (const auto& each : landmarks) {
    const bool x_is_near = is_near(each.at.x, entry.columns);
    if (!x_is_near || !is_near(each.at.y, entry.rows))
      return fail("landmarks." + each.id + (x_is_near ? ".y" : ".x"),
                  "lies further outside the picture than the picture's own size",
                  "give pixels of the stored picture");
  }
  return {};
}

} // namespace pritchel::record
