/// Which picture of which limb. Fore and hind share all ids; only the shown words change.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace pritchel::measure {

enum class View { lateromedial, dorsopalmar };
enum class Limb { left_fore, right_fore, left_hind, right_hind };
enum class Shoeing { bare, shod };
/// Does the limb carry the horse in this picture? A person states it.
enum class Loading { weight_bearing, not_loaded, not_stated };

[[nodiscard]] constexpr bool is_hind(Limb limb) {
  return limb == Limb::left_hind || limb == Limb::right_hind;
}
[[nodiscard]] constexpr bool is_left(Limb limb) {
  return limb == Limb::left_fore || limb == Limb::left_hind;
}

/// "lateromedial", "dorsopalmar"; "left-fore" and so on; "bare", "shod"; "weight-bearing",
/// "not-loaded", "not-stated": the words of every file format.
[[nodiscard]] std::string_view key(View view);
[[nodiscard]] std::string_view key(Limb limb);
[[nodiscard]] std::string_view key(Shoeing shoeing);
[[nodiscard]] std::string_view key(Loading loading);
[[nodiscard]] std::optional<View> view_from(std::string_view key);
[[nodiscard]] std::optional<Limb> limb_from(std::string_view key);
[[nodiscard]] std::optional<Shoeing> shoeing_from(std::string_view key);
[[nodiscard]] std::optional<Loading> loading_from(std::string_view key);

/// "left fore"
[[nodiscard]] std::string for_people(Limb limb);
/// "dorsopalmar", or "dorsoplantar" for a hind limb.
[[nodiscard]] std::string for_people(View view, Limb limb);

/// The text with palmar turned into plantar, and MC3 into MT3, for a hind limb.
[[nodiscard]] std::string worded_for(Limb limb, std::string_view text);

} // namespace pritchel::measure
