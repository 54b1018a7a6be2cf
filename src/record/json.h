/// The record to and from JSON; docs/formats/case.md describes every field.
/// Reading is strict: the first bad value is named by its path ("visits[0].pictures[1].view");
/// numbers must be finite and within stated limits, texts within limits::text_bytes and free of
/// control characters. A field that is absent or null keeps its default where the format says it
/// may; fields nobody knows are ignored. Coming in, every document has "format" and "version".
#pragma once

#include "base/result.h"
#include "record/case.h"

#include <nlohmann/json_fwd.hpp>

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace pritchel::record {

/// The document, or one sentence with the place of the mistake; a key written twice is one. `name`
/// is what the sentence calls the text.
[[nodiscard]] Result<nlohmann::json> parse_json(std::string_view text, const std::string& name);

/// The document as text; bytes that are no UTF-8 are replaced.
[[nodiscard]] std::string text_of(const nlohmann::json& document);

[[nodiscard]] nlohmann::json to_json(const Case& value); ///< a document: format, version
[[nodiscard]] nlohmann::json to_json(const Visit& value);
[[nodiscard]] nlohmann::json to_json(const PictureEntry& value);
[[nodiscard]] nlohmann::json to_json(const ReadingEntry& value);
[[nodiscard]] nlohmann::json to_json(const Plan& value);
[[nodiscard]] nlohmann::json to_json(const ShoeFacts& value);
/// {"p3-tip": {"x": ..., "y": ..., "how": "by-hand"}}
[[nodiscard]] nlohmann::json to_json(const std::vector<measure::Landmark>& value);

[[nodiscard]] Result<Case> case_from(const nlohmann::json& document);
[[nodiscard]] Result<Visit> visit_from(const nlohmann::json& value);
[[nodiscard]] Result<PictureEntry> picture_entry_from(const nlohmann::json& value);
[[nodiscard]] Result<ReadingEntry> reading_from(const nlohmann::json& value);
[[nodiscard]] Result<Plan> plan_from(const nlohmann::json& value);

/// What a person types about a case: horse, owner, yard, farrier, vet, history. A merge patch (RFC
/// 7396): a field that is absent stays as it was, so that two people who fill in different fields
/// don't undo each other; null empties it; a list is replaced. Id and visits are never touched.
[[nodiscard]] Result<Case> case_with_details(Case known, const nlohmann::json& details);

/// The same for a visit: date, last_trim, note.
[[nodiscard]] Result<Visit> visit_with_details(Visit known, const nlohmann::json& details);

/// What a person states about a picture: view, limb, toward, shoeing, loading, sides_checked,
/// hints.marker (null: no letter), scale. Digest, size and the header's hints are never touched.
[[nodiscard]] Result<PictureEntry> entry_with_settings(PictureEntry known,
                                                       const nlohmann::json& settings);

/// {"sight": "open" or "blind"}
[[nodiscard]] Result<Sight> sight_of(const nlohmann::json& value);
/// {"reader": "...", "turn": n}: the reading that is meant; nothing else in it is set.
[[nodiscard]] Result<ReadingEntry> picked_from(const nlohmann::json& value);
/// A turn as it stands behind a question mark; 0 for an empty text.
[[nodiscard]] Result<int> turn_from(const std::string& text);

/// A change number as it stands behind a question mark; 0 for an empty text.
[[nodiscard]] Result<std::int64_t> change_from(const std::string& text);

/// {"revision": n, "landmarks": {...}}; revision may be absent (0).
[[nodiscard]] Result<ReadingEntry> placed_landmarks_from(const nlohmann::json& value);

/// {"landmarks": {...}, "about": "palmar-angle"}; about may be absent or empty.
struct Draft {
  ReadingEntry reading; ///< landmarks only
  std::string about;    ///< id of a measurement, unchecked
};
[[nodiscard]] Result<Draft> draft_from(const nlohmann::json& value);

/// {"scale": {...}, "landmarks": {...}}: a scale to be tried; landmarks may be absent.
struct ScaleDraft {
  imaging::ScaleStatement scale;
  ReadingEntry reading; ///< landmarks only
};
[[nodiscard]] Result<ScaleDraft> scale_draft_from(const nlohmann::json& value);

/// {"colours": [{"at": [x, y]} or {"name": "orange"}, ...]}: two colours of stick-on dots, each by
/// a place on one of them or by its name, which is unchecked.
struct ColourWish {
  std::optional<ImagePoint> at;
  std::string name;
};
[[nodiscard]] Result<std::array<ColourWish, 2>> dot_colours_from(const nlohmann::json& value);

/// What is to settle on an edge: {"kind": "point", "at": [x, y]}, {"kind": "line", "stroke": [[x,
/// y], ...]} or {"kind": "circle", "points": [[x, y], ...]}, each with "reach_px" and, where it is
/// meant for one, "landmark".
struct SnapWish {
  enum class Kind { point, line, circle };
  Kind kind = Kind::point;
  std::vector<ImagePoint> points; ///< one; two or more; three or more
  double reach_px = 0;
  std::string landmark; ///< may be empty
};
[[nodiscard]] Result<SnapWish> snap_wish_from(const nlohmann::json& value);

/// The plan with each line's decision and note from {"lines": [{"decision", "note"}]}; there must
/// be as many as the plan has.
[[nodiscard]] Result<Plan> plan_with_decisions(Plan known, const nlohmann::json& decisions);

[[nodiscard]] Result<SignOff> sign_off_from(const nlohmann::json& value);
/// What is wanted of a foot and, when one is taken, by which means:
/// {"limb", "aims": [{"measurement", "low", "high", "counts_as_one", "source"}], "means"}.
struct AskedFit {
  measure::Limb limb = measure::Limb::left_fore;
  std::vector<Aim> aims;
  Means means = Means::both;
};
[[nodiscard]] Result<AskedFit> asked_fit_from(const nlohmann::json& value);
/// What is tried on a foot: {"change": {"limb", amounts that aren't 0}, "moved": "trim_toe_mm"};
/// `moved`, the amount under the hand, may be absent; "weeks": true asks for what is to be expected
/// later, too; "from_plan": true takes the newest plan's amounts for that limb instead.
struct AskedTry {
  FootChange wished;
  std::string moved;
  bool weeks = false;
  bool from_plan = false;
};
[[nodiscard]] Result<AskedTry> asked_try_from(const nlohmann::json& value);
/// {"version": n}, from 1.
[[nodiscard]] Result<int> plan_version_from(const nlohmann::json& value);
/// {"revision": n}, the last one seen; may be absent (0).
[[nodiscard]] Result<int> plan_revision_from(const nlohmann::json& value);
/// {"made_by": "..."}; may be absent.
[[nodiscard]] Result<std::string> made_by_from(const nlohmann::json& value);

/// A reader's name: 1 to 200 bytes of plain text.
[[nodiscard]] Result<std::string> reader_from(const std::string& name);
/// The last part of a picture file's name as a browser sends it; "picture" when it sends none.
[[nodiscard]] Result<std::string> file_name_from(const std::string& name);

} // namespace pritchel::record
