/// A proposal rule as a practice writes it (templates/rules): when, what, how much at most, why.
/// Data only: the plan floor interprets it.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::practice {

/// What a condition may look at beside measurements: facts of the case or of the foot, as numbers.
inline constexpr std::array<std::string_view, 13> case_facts{
    "lameness-aaep",      ///< worst grade on the AAEP scale, 0-5
    "lameness-uk",        ///< worst grade on the UK scale, 0-10
    "lame",               ///< 1 when any grade above 0 is recorded
    "sudden-onset",       ///< 1 when the lameness came suddenly
    "vet-has-seen",       ///< 1 when a vet is named in the case and has seen the horse
    "laminitis",          ///< 1 when known or suspected
    "age-years",          ///< of the horse
    "days-since-trim",    ///< from the last trim to the day of the work
    "days-since-picture", ///< from the picture to the day of the work
    "red-flags",          ///< how many are ticked
    "front-pictures",     ///< 2 when a second dorsopalmar picture was read as well, else 1 or 0
    "wedge-worn-before",  ///< 1 when the previous visit's side picture surely shows a heel wedge
    "findings"};          ///< how many rules above this one have fired for this foot

/// What may follow a measurement's id in a condition or an aim, after a point. Several may follow
/// one another: "coronary-extensor-distance.rise.value".
inline constexpr std::array<std::string_view, 9> measurement_suffixes{
    "value",           ///< the value itself, as if it were certain
    "rise",            ///< less the previous visit's; what the foot's turn alone does is taken out
    "shift",           ///< size of the difference from the previous visit's
    "repeat",          ///< the same on this visit's second dorsopalmar picture
    "less-other-foot", ///< less the same of the other foot of the pair
    "apart",           ///< size of that difference; known on the left foot only, so said once
    "size",            ///< its size, to whichever side
    "gone-hanging",    ///< of a standing limb: per cent of it that is gone when the limb hangs
    "against-base"};   ///< of an offset from the foot's middle: from the middle of the shoe's base
/// "less:<id>" may follow too: less another measurement of the same picture.
inline constexpr std::string_view less_measurement = "less:";

/// What a rule may lock or use: the numbers of a record::FootChange.
inline constexpr std::array<std::string_view, 15> change_fields{"trim_toe_mm",
                                                                "trim_heel_mm",
                                                                "dress_toe_mm",
                                                                "trim_medial_mm",
                                                                "trim_lateral_mm",
                                                                "shoe_thickness_mm",
                                                                "wedge_deg",
                                                                "breakover_back_mm",
                                                                "branch_longer_mm",
                                                                "extend_medial_mm",
                                                                "extend_lateral_mm",
                                                                "dress_medial_mm",
                                                                "dress_lateral_mm",
                                                                "pad_mm",
                                                                "ml_wedge_deg"};

/// How a value is held against a limit; u is its standard uncertainty. "Surely" wants the whole 95
/// % interval on the far side, "maybe" is satisfied when any of it is.
enum class Comparison {
  surely_below, ///< value + 2u < limit
  surely_above, ///< value - 2u > limit
  maybe_below,  ///< value - 2u < limit: the cautious end, for floors
  maybe_above   ///< value + 2u > limit: the cautious end, for ceilings
};

struct Condition {
  std::string measurement; ///< id, or a case fact such as "lameness-aaep", "age-years"
  Comparison comparison = Comparison::surely_below;
  double limit = 0;
};

enum class RuleKind {
  stop,    ///< no plan from the program; the vet first
  lock,    ///< one kind of change stays at zero
  propose, ///< an amount is sought
  note     ///< shown, nothing is done
};

struct Rule {
  std::string id;
  RuleKind kind = RuleKind::note;
  std::string view; ///< key of the view whose reading it looks at; empty: case facts only
  bool for_fore = true;
  bool for_hind = true;
  std::vector<Condition> when;        ///< all must hold
  std::vector<std::string> locks;     ///< names of FootChange fields held at zero (lock)
  std::vector<std::string> variables; ///< FootChange fields that may be used, in order (propose)
  std::string aim_measurement;        ///< measurement to bring back (propose)
  std::optional<double> aim_low;      ///< the least change that reaches this is proposed
  std::optional<double> aim_high;
  std::string what; ///< words; {toe}, {heel}, ... stand for the amounts found
  std::string why;
  std::string caution;
  std::string watch;
  std::string source; ///< key in sources, or "common-practice"
};

/// Something a person ticks that stops everything ("bounding pulse").
struct RedFlag {
  std::string id;
  std::string words;
};

} // namespace pritchel::practice
