/// What a practice may change without a compiler, loaded from templates/: protocols (landmarks),
/// reference bands, proposal rules, shoes and words. Knows no case and no picture.
#pragma once

#include "base/result.h"
#include "measure/band.h"
#include "measure/reading.h"
#include "practice/rule.h"
#include "practice/shoe.h"

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::practice {

/// When a landmark is offered. Within a protocol the groups follow one another in this order.
enum class Group {
  main,  ///< the job: asked for first, required ones and what belongs beside them
  check, ///< shows whether the picture is fit to measure; offered right after the main ones
  more   ///< further measurements; never asked for, always there to be placed
};

/// What a landmark settles on in a picture.
enum class Snap {
  none,  ///< placed by eye: a corner, a middle, an edge that no film shows reliably
  edge,  ///< a smooth edge
  line,  ///< a straight edge, with the others of it
  circle ///< a round edge, with the others of it
};

struct SnapGuide {
  Snap to = Snap::none;
  std::string of; ///< a name shared by all landmarks of a line or circle; empty for an edge
  /// Towards the edge's bright side on the protocol's drawing, y down; nought for a circle, which
  /// is bright inside.
  double bright_x = 0;
  double bright_y = 0;
};

/// How one landmark is explained and asked for. Texts are the fore wording; measure::worded_for()
/// makes the hind one.
struct LandmarkGuide {
  std::string id;
  std::string title;      ///< plain words, short: "Tip of the coffin bone"
  std::string definition; ///< one sentence a groom would understand
  std::string finding;    ///< how to find it
  std::string mistakes;   ///< what is often taken for it
  bool required = true;   ///< optional ones are offered after the required ones
  bool only_shod = false; ///< asked for only when the foot is shod
  Group group = Group::main;
  SnapGuide snap;
  measure::Spread spread; ///< placement spread of one trained reader; by default an estimate
  int own_repeats = 0;    ///< above 0: `spread` is this practice's own, from so many repeats
  double schematic_x = 0; ///< where it lies on the protocol's drawing, 0..1 from its left
  double schematic_y = 0; ///< 0..1 from its top
};

/// What a person is asked for on one kind of picture: its landmarks in the order in which they are
/// asked for. Several protocols may belong to one view.
struct Protocol {
  std::string id; ///< unique; "fore-limb-side"
  measure::Legs legs = measure::Legs::all;
  measure::View view = measure::View::lateromedial;
  std::string title;
  /// SVG file in templates/protocols, to scale; toe, head or lateral side to the right.
  std::string schematic;
  double schematic_width_mm = 0;  ///< what the drawing's width shows of the horse
  double schematic_height_mm = 0; ///< by the drawing's own shape
  std::vector<LandmarkGuide> landmarks;
};

/// A band that a person may want a measurement in: offered switched off, never sought unasked.
struct OfferedAim {
  std::string measurement; ///< of a radiograph
  bool for_fore = true;
  bool for_hind = true;
  std::optional<double> low; ///< one of the two at least, in the measurement's unit
  std::optional<double> high;
  double counts_as_one = 1; ///< as far off as weighs one
  std::string why;
  std::string source; ///< key in sources
};

struct Practice {
  std::vector<Protocol> protocols;
  /// Of adult riding horses. For a pony, a donkey, a draught horse or a foal use none of them.
  measure::Bands bands;
  std::vector<Rule> rules; ///< in the order in which they are read
  std::vector<RedFlag> red_flags;
  std::vector<OfferedAim> aims;
  std::vector<ShoeKind> shoes; ///< plainest first
  std::map<std::string, std::string, std::less<>> words;   ///< report and page wording by key
  std::map<std::string, std::string, std::less<>> sources; ///< citation by key
};

/// Reads and checks every file; the first bad value is named by file and path.
[[nodiscard]] Result<Practice> load_practice(const std::filesystem::path& templates);

/// The protocol with this id; else the first of the view and the limb's legs; else the view's
/// first.
[[nodiscard]] const Protocol& protocol(const Practice& practice,
                                       measure::View view,
                                       measure::Limb limb = measure::Limb::left_fore,
                                       std::string_view id = {});
/// Nothing for an unknown id.
[[nodiscard]] const Protocol* protocol_by_id(const Practice& practice, std::string_view id);
[[nodiscard]] const LandmarkGuide* guide(const Protocol& protocol, std::string_view landmark);
/// The landmark's title, worded for the limb; its id when the protocol doesn't know it.
[[nodiscard]] std::string
landmark_title(const Protocol& protocol, std::string_view landmark, measure::Limb limb);

[[nodiscard]] measure::Spreads spreads(const Protocol& protocol);
/// For people: whether the spreads are the default ones or the practice's own, and from how many
/// repeats.
[[nodiscard]] std::string spread_sentence(const Protocol& protocol);

/// "none", "edge", "line", "circle"
[[nodiscard]] std::string_view key(Snap snap);
[[nodiscard]] std::optional<Snap> snap_from(std::string_view key);

/// "main", "check", "more": the words of the file format.
[[nodiscard]] std::string_view key(Group group);
[[nodiscard]] std::optional<Group> group_from(std::string_view key);

} // namespace pritchel::practice
