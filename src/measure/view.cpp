#include "measure/view.h"

#include "base/words.h"

namespace pritchel::measure {
namespace {

constexpr Words<View, 11> views{{{View::lateromedial, "lateromedial"},
                                 {View::dorsopalmar, "dorsopalmar"},
                                 {View::foot_side, "foot-side"},
                                 {View::foot_front, "foot-front"},
                                 {View::foot_behind, "foot-behind"},
                                 {View::foot_above, "foot-above"},
                                 {View::sole, "sole"},
                                 {View::limb_side, "limb-side"},
                                 {View::limb_front, "limb-front"},
                                 {View::limb_behind, "limb-behind"},
                                 {View::limb_hanging, "limb-hanging"}}};
constexpr Words<View, 9> photo_views{{{View::foot_side, "foot, from the side"},
                                      {View::foot_front, "foot, from the front"},
                                      {View::foot_behind, "foot, from behind"},
                                      {View::foot_above, "foot, from above"},
                                      {View::sole, "sole"},
                                      {View::limb_side, "limb, from the side"},
                                      {View::limb_front, "limb, from the front"},
                                      {View::limb_behind, "limb, from behind"},
                                      {View::limb_hanging, "limb, hanging free"}}};
constexpr Words<Legs, 3> leg_words{
    {{Legs::all, "all"}, {Legs::fore, "fore"}, {Legs::hind, "hind"}}};
constexpr Words<Limb, 4> limbs{{{Limb::left_fore, "left-fore"},
                                {Limb::right_fore, "right-fore"},
                                {Limb::left_hind, "left-hind"},
                                {Limb::right_hind, "right-hind"}}};
constexpr Words<Shoeing, 2> shoeings{{{Shoeing::bare, "bare"}, {Shoeing::shod, "shod"}}};
constexpr Words<Loading, 3> loadings{{{Loading::weight_bearing, "weight-bearing"},
                                      {Loading::not_loaded, "not-loaded"},
                                      {Loading::not_stated, "not-stated"}}};

void replace_all(std::string& text, std::string_view from, std::string_view to) {
  for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
    text.replace(at, from.size(), to);
}

} // namespace

std::string_view key(View view) {
  return word(views, view);
}
std::string_view key(Legs legs) {
  return word(leg_words, legs);
}
std::string_view key(Limb limb) {
  return word(limbs, limb);
}
std::string_view key(Shoeing shoeing) {
  return word(shoeings, shoeing);
}
std::string_view key(Loading loading) {
  return word(loadings, loading);
}
std::optional<View> view_from(std::string_view key) {
  return meaning(views, key);
}
std::optional<Legs> legs_from(std::string_view key) {
  return meaning(leg_words, key);
}
std::optional<Limb> limb_from(std::string_view key) {
  return meaning(limbs, key);
}
std::optional<Shoeing> shoeing_from(std::string_view key) {
  return meaning(shoeings, key);
}
std::optional<Loading> loading_from(std::string_view key) {
  return meaning(loadings, key);
}

std::string for_people(Limb limb) {
  std::string text(key(limb));
  replace_all(text, "-", " ");
  return text;
}

std::string for_people(View view, Limb limb) {
  return is_radiograph(view) ? worded_for(limb, key(view)) : std::string(word(photo_views, view));
}

std::string worded_for(Limb limb, std::string_view text) {
  std::string worded(text);
  if (is_hind(limb)) {
    replace_all(worded, "palmar", "plantar");
    replace_all(worded, "Palmar", "Plantar");
    replace_all(worded, "MC3", "MT3");
    replace_all(worded, "MCP", "MTP");
  }
  return worded;
}

} // namespace pritchel::measure
