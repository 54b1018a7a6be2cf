/// Which kind of picture of which limb. Fore and hind share all ids; only the shown words change.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace pritchel::measure {

/// A kind of picture: it fixes the plane frame and which measurements there are. What a person is
/// asked for is a protocol (templates/protocols), of which several may belong to one view.
/// Frame: y up; x towards toe or front of the horse from the side, else towards lateral. Sole: y
/// towards the toe. From above: y the way the horse goes.
enum class View {
  lateromedial, ///< radiograph
  dorsopalmar,  ///< radiograph
  foot_side,    ///< from here on photos
  foot_front,
  foot_behind,
  foot_above,
  sole,
  limb_side,
  limb_front,
  limb_behind,
  limb_hanging ///< held free, sighted down from behind or in front
};
enum class Limb { left_fore, right_fore, left_hind, right_hind };
/// Which legs a measurement or protocol is for.
enum class Legs { all, fore, hind };
enum class Shoeing { bare, shod };
/// Does the limb carry the horse in this picture? A person states it.
enum class Loading { weight_bearing, not_loaded, not_stated };

[[nodiscard]] constexpr bool is_hind(Limb limb) {
  return limb == Limb::left_hind || limb == Limb::right_hind;
}
[[nodiscard]] constexpr bool is_left(Limb limb) {
  return limb == Limb::left_fore || limb == Limb::left_hind;
}

[[nodiscard]] constexpr bool is_radiograph(View view) {
  return view == View::lateromedial || view == View::dorsopalmar;
}
[[nodiscard]] constexpr bool is_side_view(View view) {
  return view == View::lateromedial || view == View::foot_side || view == View::limb_side;
}
[[nodiscard]] constexpr bool is_limb(View view) {
  return view == View::limb_side || view == View::limb_front || view == View::limb_behind ||
         view == View::limb_hanging;
}
[[nodiscard]] constexpr bool are_for(Legs legs, Limb limb) {
  return legs == Legs::all || (legs == Legs::hind) == is_hind(limb);
}

/// "lateromedial", "foot-side"; "all", "fore", "hind"; "left-fore" and so on; "bare", "shod";
/// "weight-bearing", "not-loaded", "not-stated": the words of every file format.
[[nodiscard]] std::string_view key(View view);
[[nodiscard]] std::string_view key(Legs legs);
[[nodiscard]] std::string_view key(Limb limb);
[[nodiscard]] std::string_view key(Shoeing shoeing);
[[nodiscard]] std::string_view key(Loading loading);
[[nodiscard]] std::optional<View> view_from(std::string_view key);
[[nodiscard]] std::optional<Legs> legs_from(std::string_view key);
[[nodiscard]] std::optional<Limb> limb_from(std::string_view key);
[[nodiscard]] std::optional<Shoeing> shoeing_from(std::string_view key);
[[nodiscard]] std::optional<Loading> loading_from(std::string_view key);

/// "left fore"
[[nodiscard]] std::string for_people(Limb limb);
/// "dorsopalmar", or "dorsoplantar" for a hind limb; "foot, from the side".
[[nodiscard]] std::string for_people(View view, Limb limb);

/// The text with palmar turned into plantar, and MC3 into MT3, for a hind limb.
[[nodiscard]] std::string worded_for(Limb limb, std::string_view text);

} // namespace pritchel::measure
