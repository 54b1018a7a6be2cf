#include "phantom/photo_command.h"

#include "imaging/find_dots.h"
#include "phantom/photo_card.h"

#include <map>

namespace pritchel::phantom {

namespace {

template <class T> CLI::CheckedTransformer words(std::map<std::string, T> of) {
  return CLI::CheckedTransformer(std::move(of));
}

Rgb foil(const std::string& name) {
  const auto c = imaging::dot_colour(name).value_or(imaging::DotColour{});
  return {static_cast<double>(c.red), static_cast<double>(c.green), static_cast<double>(c.blue)};
}

} // namespace

CLI::App& add_photo_command(CLI::App& app, PhotoWish& wish) {
  CLI::App& photo = *app.add_subcommand("photo", "one photo of a limb or foot drawn by a number");
  photo.add_option("--out", wish.folder, "folder for the photo and its truth")->required();
  photo.add_option("--name", wish.name, "name of the files, without ending");
  photo.add_option("--seed", wish.seed, "which photo; the same number gives the same files");
  photo.add_option("--subject", wish.subject, "what is in it")
      ->transform(words<PhotoSubject>({{"fore-side", PhotoSubject::fore_side},
                                       {"hind-side", PhotoSubject::hind_side},
                                       {"fore-front", PhotoSubject::fore_front},
                                       {"hind-behind", PhotoSubject::hind_behind},
                                       {"foot-side", PhotoSubject::foot_side},
                                       {"foot-front", PhotoSubject::foot_front},
                                       {"sole", PhotoSubject::sole}}));
  photo.add_option("--coat", wish.coat)
      ->transform(words<Coat>({{"bay", Coat::bay},
                               {"chestnut", Coat::chestnut},
                               {"grey", Coat::grey},
                               {"black", Coat::black}}));
  photo.add_option("--light", wish.light)
      ->transform(words<Light>({{"sun", Light::sun},
                                {"overcast", Light::overcast},
                                {"dull", Light::dull},
                                {"stable", Light::stable}}));
  photo.add_option("--ground", wish.footing)
      ->transform(words<Footing>(
          {{"concrete", Footing::concrete}, {"sand", Footing::sand}, {"grass", Footing::grass}}));
  photo.add_option("--background", wish.backdrop)
      ->transform(
          words<Backdrop>({{"plain", Backdrop::plain}, {"cluttered", Backdrop::cluttered}}));
  photo.add_option("--side", wish.side, "left or right limb")
      ->transform(words<Side>({{"left", Side::left}, {"right", Side::right}}));
  photo.add_option("--distance", wish.distance_mm, "camera to the limb's plane, mm");
  photo.add_option("--around", wish.around_deg, "camera walked round the limb, degrees");
  photo.add_option("--roll", wish.roll_deg, "camera tipped sideways, degrees");
  photo.add_option("--k1", wish.k1, "radial distortion");
  photo.add_option("--card-offset", wish.card_offset_mm, "card nearer to the camera, mm");
  photo.add_option("--card-turned", wish.card_turned_deg, "card turned against the limb, degrees");
  photo.add_option("--dots", wish.dot_colours, "two colours of the stick-on dots")
      ->expected(2)
      ->check(CLI::IsMember({"orange", "white", "green", "blue", "yellow", "pink"}));
  photo.add_option("--lookalikes", wish.lookalikes, "discs in the dots' colours on the wall");
  photo.add_option("--size", wish.long_side, "longer side in pixels")->check(CLI::Range(200, 6000));
  photo.add_flag("--no-card", wish.no_card);
  photo.add_flag("--no-dots", wish.no_dots);
  photo.add_flag("--cord", wish.cord, "a plumb line beside the limb");
  return photo;
}

PhotoParameters photo_parameters(const PhotoWish& wish) {
  PhotoParameters p = random_photo(wish.seed, wish.subject);
  const auto lay = [](auto& over, const auto& given) {
    if (given)
      over = *given;
  };
  lay(p.coat, wish.coat);
  lay(p.light, wish.light);
  lay(p.footing, wish.footing);
  lay(p.backdrop, wish.backdrop);
  if (wish.side && *wish.side != p.horse.side && p.sheet)
    p.sheet->left_mm = -p.sheet->left_mm - printed_card().width_mm; // the picture's other side
  lay(p.horse.side, wish.side);
  if (wish.distance_mm || wish.around_deg || wish.long_side != 1600) {
    const PhotoCamera drawn = p.camera;
    p.camera = framed_camera(p,
                             wish.distance_mm.value_or(drawn.position.z),
                             wish.around_deg.value_or(0),
                             wish.long_side);
    p.camera.k1 = drawn.k1;
    p.camera.roll_deg = drawn.roll_deg;
  }
  lay(p.camera.roll_deg, wish.roll_deg);
  lay(p.camera.k1, wish.k1);
  if (p.sheet) {
    lay(p.sheet->offset_mm, wish.card_offset_mm);
    lay(p.sheet->turned_deg, wish.card_turned_deg);
  }
  if (wish.dot_colours.size() == 2)
    p.dot_colours = {foil(wish.dot_colours[0]), foil(wish.dot_colours[1])};
  p.lookalikes = wish.lookalikes;
  if (wish.no_card)
    p.sheet.reset();
  if (wish.no_dots)
    p.dots.clear();
  if (wish.cord)
    p.cord = PhotoParameters::Cord::hanging;
  return p;
}

Result<void> make_photo(const PhotoWish& wish) {
  std::error_code ignored; // writing says what is wrong with the folder
  std::filesystem::create_directories(wish.folder, ignored);
  const std::string name = wish.name.empty() ? "photo-" + std::to_string(wish.seed) : wish.name;
  const PrintedSheet sheet = printed_card();
  return write_photo(wish.folder, name, photo_parameters(wish), &sheet);
}

} // namespace pritchel::phantom
