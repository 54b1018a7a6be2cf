#include "measure/view.h"

#include "base/words.h"

namespace pritchel::measure {
namespace {

constexpr Words<View, 2> views{
    {{View::lateromedial, "lateromedial"}, {View::dorsopalmar, "dorsopalmar"}}};
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
  return worded_for(limb, key(view));
}

std::string worded_for(Limb limb, std::string_view text) {
  std::string worded(text);
  if (is_hind(limb)) {
    replace_all(worded, "palmar", "plantar");
    replace_all(worded, "Palmar", "Plantar");
    replace_all(worded, "MC3", "MT3");
  }
  return worded;
}

} // namespace pritchel::measure
