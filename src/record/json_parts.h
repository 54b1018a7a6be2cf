/// Readers of the parts that several documents share. Inside record only.
#pragma once

#include "record/case.h"
#include "record/json_node.h"

#include <vector>

namespace pritchel::record {

/// The fields of a scale statement; those its kind needs must be there. `marker_*` points are
/// landmarks and not part of it.
[[nodiscard]] imaging::ScaleStatement scale_at(const Node& node);
[[nodiscard]] nlohmann::json scale_json(const imaging::ScaleStatement& scale);

/// {"letter": "L", "side": "left"} into the hints; an absent node clears both.
void read_side_marker(const Node& node, measure::SideHints& hints);

/// Objects or [x, y].
[[nodiscard]] std::vector<measure::Landmark> landmarks_at(const Node& node);

/// View, protocol, limb, toward, shoeing, loading, sides_checked: absent ones stay as in `known`; a
/// view that comes without its protocol has none.
[[nodiscard]] PictureEntry with_statements(PictureEntry known, const Node& node);

[[nodiscard]] PictureEntry picture_entry_at(const Node& node);

/// Landmarks may lie outside the picture, yet not absurdly far. px.
inline constexpr double farthest_px = 2.0 * limits::picture_side_px;

inline constexpr std::string_view view_words =
    "lateromedial, dorsopalmar, foot-side, foot-front, foot-behind, foot-above, sole, limb-side, "
    "limb-front, limb-behind, limb-hanging";
inline constexpr std::string_view limb_words = "left-fore, right-fore, left-hind, right-hind";
inline constexpr std::string_view side_words = "left, right";
inline constexpr std::string_view decision_words = "open, accept, amend, decline";
inline constexpr std::string_view bar_words = "none, straight, egg, heart";
inline constexpr std::string_view frog_support_words = "none, plate, pad, pour-in";

} // namespace pritchel::record
