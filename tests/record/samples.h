/// Invented records with every field filled, for round trips.
#pragma once

#include "base/digest.h"
#include "record/case.h"

namespace pritchel::record::test {

inline PictureEntry sample_picture() {
  return {.digest = sha256_hex(std::string("a picture")),
          .file_name = "left fore, side.dcm",
          .columns = 1600,
          .rows = 1300,
          .taken = "2026-03-02",
          .view = measure::View::dorsopalmar,
          .limb = measure::Limb::right_hind,
          .toward = PictureSide::right,
          .shoeing = measure::Shoeing::shod,
          .loading = measure::Loading::weight_bearing,
          .hints = {.left_limb = false,
                    .toward = PictureSide::right,
                    .marker_is_left = false,
                    .marker_side = PictureSide::right},
          .sides_checked = measure::SidesChecked::by_person,
          .scale = {.kind = imaging::ScaleStatement::Kind::marker,
                    .marker_mm = 25.4,
                    .marker_tolerance_mm = 0.2,
                    .marker_out_of_plane_mm = 7}};
}

inline Case sample_case() {
  Case value;
  value.id = "old-tom";
  value.horse = {.name = "Old Tom \u201cTommo\u201d",
                 .species = Species::donkey,
                 .breed = "mixed",
                 .sex = "gelding",
                 .colour = "grey",
                 .work = "none",
                 .age_years = 14.5,
                 .weight_kg = 210};
  value.owner = {.name = "Bea Example", .registration = "", .contact = "by letter"};
  value.yard = "Lower Example Farm";
  value.farrier = {.name = "Fred Example", .registration = "F-0000"};
  value.vet = {.name = "Vera Example", .registration = "V-0000"};
  value.history = {.complaint = "short",
                   .course = "two\nlines",
                   .diagnosis = "none yet",
                   .laminitis = Laminitis::suspected,
                   .vet_has_seen = VetHasSeen::yes,
                   .sudden_onset = true,
                   .lameness = {{.limb = measure::Limb::right_hind,
                                 .scale = "UK 0-10",
                                 .grade = 7,
                                 .observer = "Vera Example",
                                 .note = "trot"}},
                   .red_flags = {"bounding-pulse"}};
  value.visits = {{.id = "visit-1",
                   .date = "2026-03-02",
                   .last_trim = "2026-01-12",
                   .note = "cold",
                   .pictures = {sample_picture()}}};
  return value;
}

inline Plan sample_plan() {
  return {
      .visit = "visit-1",
      .version = 3,
      .made = "2026-03-02T09:30:00Z",
      .made_by = "Fred Example",
      .changes = {{.limb = measure::Limb::right_hind,
                   .trim_toe_mm = 4,
                   .wedge_deg = -1.5,
                   .extend_lateral_mm = 0.25}},
      .lines = {{.rule = "toe-long",
                 .limb = measure::Limb::right_hind,
                 .what = "Take 4 mm off the toe",
                 .amount = "4 mm",
                 .why = "because",
                 .caution = "watch the sole",
                 .watch = "in six weeks",
                 .source = "common practice, no source",
                 .expected = {{.measurement = "palmar-angle",
                               .before = 3.25,
                               .after = 5.5,
                               .uncertainty_of_change = 0.4}},
                 .decision = Decision::amend,
                 .note = "3 mm"}},
      .stops = {"a stop"},
      .locks = {"a lock"},
      .remeasure = {"again"},
      .taken = {{.limb = measure::Limb::right_hind,
                 .means = Means::trim,
                 .aims = {{.measurement = "palmar-angle",
                           .low = 3,
                           .counts_as_one = 2,
                           .source = "common practice, no source"}},
                 .reached = true,
                 .in_the_way = {"a limit"},
                 .later = {"a visit"}}},
      .by_hand = {{.limb = measure::Limb::left_fore, .by = "Fay Example"}},
      .sign_off = SignOff{
          .name = "Vera Example", .registration = "V-0000", .date = "2026-03-03", .note = "fine"}};
}

inline ReadingEntry sample_reading() {
  return {.picture = sample_picture().digest,
          .reader = "Ada",
          .saved = "2026-03-02T09:30:00Z",
          .revision = 4,
          .landmarks = {{.id = "p3-abaxial-medial", .at = {12.25, -0.5}},
                        {.id = "p3-tip", .at = {812.4, 1033}, .how = measure::Placement::snapped}}};
}

} // namespace pritchel::record::test
