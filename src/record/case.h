/// The record of a horse's shoeing: values only, as they are kept, sent and printed.
/// Knows no database, no file layout and no drawing. JSON: record/json.h; keeping: record/store.h.
#pragma once

#include "imaging/scale.h"
#include "measure/reading.h"

#include <optional>
#include <string>
#include <vector>

namespace pritchel::record {

/// A number a person may not know. Empty prints as "not known", never as 0.
using Known = std::optional<double>;

enum class Species { horse, pony, donkey, draught };

struct Horse {
  std::string name;
  Species species = Species::horse;
  std::string breed;
  std::string sex;
  std::string colour;
  std::string work;
  Known age_years;
  Known height_cm;
  Known weight_kg;
};

struct Person {
  std::string name;
  std::string registration; ///< professional registration number, as the person writes it
  std::string contact;
};

/// One lameness grade, stored with its scale; scales are never converted into one another.
struct LamenessGrade {
  measure::Limb limb = measure::Limb::left_fore;
  std::string scale; ///< "AAEP 0-5" or "UK 0-10"
  double grade = 0;
  std::string observer;
  std::string note;
};

enum class Laminitis { not_stated, no, suspected, known };
enum class VetHasSeen { not_stated, no, yes };

struct History {
  std::string complaint;
  std::string course;    ///< lameness history and past shoeing, in the writer's words
  std::string diagnosis; ///< as the vet gave it; the program never writes here
  Laminitis laminitis = Laminitis::not_stated;
  VetHasSeen vet_has_seen = VetHasSeen::not_stated;
  bool sudden_onset = false;
  std::vector<LamenessGrade> lameness;
  std::vector<std::string> red_flags; ///< ids of templates/rules/red-flags.json
};

/// One picture of one visit. The file itself is kept by its digest and never changed.
struct PictureEntry {
  std::string digest;    ///< SHA-256 of the file, 64 hex digits
  std::string file_name; ///< as it came
  int columns = 0;       ///< pixels
  int rows = 0;
  std::string taken; ///< YYYY-MM-DD, or empty
  measure::View view = measure::View::lateromedial;
  std::string protocol; ///< id in templates/protocols; empty: the first of its view and legs
  measure::Limb limb = measure::Limb::left_fore;
  PictureSide toward = PictureSide::left;
  measure::Shoeing shoeing = measure::Shoeing::bare;
  measure::Loading loading = measure::Loading::not_stated;
  measure::SideHints hints;
  measure::SidesChecked sides_checked = measure::SidesChecked::no;
  imaging::ScaleStatement scale;
};

/// A blind reading is hidden from other readers until both have said that they are done, and never
/// becomes the picture's working reading unless somebody picks it: record/sight.h.
enum class Sight { open, blind };

/// One person's landmarks on one picture. `revision` grows by one with every save: a save that
/// doesn't name the newest one is a conflict, so nobody overwrites anybody.
struct ReadingEntry {
  std::string picture; ///< digest
  std::string reader;
  int turn = 1; ///< this reader's n-th independent reading of the picture; each begins empty
  Sight sight = Sight::open;
  std::string saved;  ///< when its landmarks were saved; UTC, YYYY-MM-DDThh:mm:ssZ
  std::string done;   ///< when its reader said so, UTC; empty: still being read
  std::string picked; ///< when somebody made a blind one the working reading, UTC; or empty
  int revision = 0;
  std::vector<measure::Landmark> landmarks;
};

struct Visit {
  std::string id;        ///< unique within the case
  std::string date;      ///< YYYY-MM-DD
  std::string last_trim; ///< YYYY-MM-DD or empty
  std::string note;
  std::vector<PictureEntry> pictures;
};

enum class Decision { open, accept, amend, decline };

/// What one line of a plan would do to one measurement.
struct ExpectedChange {
  std::string measurement; ///< id
  double before = 0;       ///< in the measurement's unit
  double after = 0;
  double uncertainty_of_change = 0; ///< standard uncertainty of after - before
};

/// One line of a plan, as it is printed and decided on.
struct ProposalLine {
  std::string rule; ///< id in templates/rules
  measure::Limb limb = measure::Limb::left_fore;
  std::string what;   ///< "Take 4 mm off the toe, nothing off the heels"
  std::string amount; ///< "4 mm at the toe, 0 mm at the heels"
  std::string why;    ///< the measurement behind it, with its uncertainty
  std::string caution;
  std::string watch;  ///< what to look at next, and when
  std::string source; ///< words: "Textbook ..., page" or "common practice, no source"
  std::vector<ExpectedChange> expected;
  Decision decision = Decision::open;
  std::string note; ///< the vet's
};

enum class Bar { none, straight, egg, heart };
enum class FrogSupport { none, plate, pad, pour_in };

/// What a shoe is besides its numbers: for wording and paper. No measurement follows from it.
struct ShoeFacts {
  std::string kind; ///< id in templates/shoes; empty: not chosen
  Bar bar = Bar::none;
  FrogSupport frog_support = FrogSupport::none;
  double web_mm = 0;       ///< width of the web at the toe; 0: not stated
  double roll_rise_mm = 0; ///< how far the shoe's front edge is rolled off the ground

  friend bool operator==(const ShoeFacts&, const ShoeFacts&) = default;
};

/// Trim and shoe of one foot in numbers; zero means unchanged. Signs: plan/change.h.
struct FootChange {
  measure::Limb limb = measure::Limb::left_fore;
  double trim_toe_mm = 0;
  double trim_heel_mm = 0;
  double dress_toe_mm = 0;
  double trim_medial_mm = 0;
  double trim_lateral_mm = 0;
  double shoe_thickness_mm = 0;
  double wedge_deg = 0;
  double breakover_back_mm = 0;
  double branch_longer_mm = 0;
  double extend_medial_mm = 0;
  double extend_lateral_mm = 0;
  double dress_medial_mm = 0;
  double dress_lateral_mm = 0;
  double pad_mm = 0;
  double ml_wedge_deg = 0;
  ShoeFacts shoe = {};
};

/// A band that a person wants a measurement of one foot in. The program has none of its own.
struct Aim {
  std::string measurement; ///< id
  Known low;               ///< one of the two at least, in the measurement's unit
  Known high;
  double counts_as_one = 1; ///< as far off as weighs one, in the measurement's unit; above 0
  std::string source;       ///< words: whose band it is, or "common practice, no source"
};

enum class Means { trim, shoe, both };

/// What a person took for one foot out of the ways that were offered (plan/fit.h).
struct TakenWay {
  measure::Limb limb = measure::Limb::left_fore;
  Means means = Means::both;
  std::vector<Aim> aims;               ///< those switched on
  bool reached = false;                ///< all of them, in this visit
  std::vector<std::string> in_the_way; ///< what stood in the way, in words
  std::vector<std::string> later;      ///< the visits that would follow, in words
};

/// A foot whose amounts a person set by hand; they stand in the plan's changes.
struct SetByHand {
  measure::Limb limb = measure::Limb::left_fore;
  std::string by;
};

struct SignOff {
  std::string name;
  std::string registration;
  std::string date; ///< YYYY-MM-DD
  std::string note;
};

/// A version of a plan. Once signed it is frozen; a later change is a new version. `revision` grows
/// by one with every save of the version, as a reading's does; 0 in plans of older stores.
struct Plan {
  std::string visit;
  int version = 1;
  int revision = 0;
  std::string made; ///< UTC, YYYY-MM-DDThh:mm:ssZ
  std::string made_by;
  std::vector<FootChange> changes;
  std::vector<ProposalLine> lines;
  std::vector<std::string> stops;     ///< why there is no plan, or what only the vet may decide
  std::vector<std::string> locks;     ///< limits that hold amounts at zero, in words
  std::vector<std::string> remeasure; ///< what to measure again, and why
  std::vector<TakenWay> taken;        ///< for at most one foot each; its lines are among `lines`
  std::vector<SetByHand> by_hand;     ///< the same; no foot is in both
  std::optional<SignOff> sign_off;
};

struct Case {
  std::string id; ///< lower-case letters, digits, hyphens
  Horse horse;
  Person owner;
  std::string yard;
  Person farrier;
  Person vet;
  History history;
  std::vector<Visit> visits; ///< oldest first
};

/// The reading as measuring needs it: the entry's landmarks with what the picture's entry states.
[[nodiscard]] measure::Reading
reading_of(const PictureEntry& picture, const ReadingEntry& entry, const Calibration& calibration);

} // namespace pritchel::record
