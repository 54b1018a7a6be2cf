/// pritchel-phantom: makes sample radiographs of a digital foot and photos of a horse, with truth.
#include "phantom/photo_command.h"
#include "phantom/sample_case.h"

#include <CLI/CLI.hpp>

#include <iostream>
#include <map>

namespace {

using pritchel::phantom::DicomOptions;
using pritchel::phantom::DistanceNote;
using pritchel::phantom::Facing;
using pritchel::phantom::Limb;
using pritchel::phantom::Pictures;
using pritchel::phantom::Polarity;
using pritchel::phantom::Quality;
using pritchel::phantom::SamplePicture;
using pritchel::phantom::Side;
using pritchel::phantom::SpacingNote;
using pritchel::phantom::View;

struct Wish {
  std::string folder;
  std::string name;
  std::uint64_t seed = 1;
  View view = View::lateromedial;
  Facing facing = Facing::left;
  Side side = Side::left;
  Limb limb = Limb::fore;
  Quality quality = Quality::full;
  double yaw_deg = 0;
  double roll_deg = 0;
  double spacing_mm = 0.148;
  Polarity polarity = Polarity::monochrome2;
  DicomOptions dicom;
  bool texts_only = false;
};

int finish(const pritchel::Result<void>& result) {
  if (result)
    return 0;
  std::cerr << "pritchel-phantom: " << result.error().sentence() << '\n';
  return result.error().trouble == pritchel::Trouble::outside ? 1 : 2;
}

int make_one(const Wish& wish) {
  SamplePicture picture;
  picture.foot = pritchel::phantom::random_foot(wish.seed, wish.limb, wish.side);
  picture.shot = pritchel::phantom::framed_shot(
      pritchel::phantom::make_foot(picture.foot), wish.view, wish.facing, wish.spacing_mm);
  picture.shot.yaw_deg = wish.yaw_deg;
  picture.shot.roll_deg = wish.roll_deg;
  picture.shot.polarity = wish.polarity;
  picture.shot.seed = wish.seed;
  picture.occasion.study = wish.seed;
  picture.name = wish.name.empty() ? "foot-" + std::to_string(wish.seed) : wish.name;
  std::error_code ignored; // writing says what is wrong with the folder
  std::filesystem::create_directories(wish.folder, ignored);
  return finish(pritchel::phantom::write_picture(wish.folder, picture, wish.quality, wish.dicom));
}

template <class T> CLI::CheckedTransformer words(std::map<std::string, T> of) {
  return CLI::CheckedTransformer(std::move(of));
}

void add_foot_options(CLI::App& foot, Wish& wish) {
  foot.add_option("--out", wish.folder, "folder for the picture, its truth and a reading")
      ->required();
  foot.add_option("--name", wish.name, "name of the files, without ending");
  foot.add_option("--seed", wish.seed, "which foot; the same number gives the same files");
  foot.add_option("--view", wish.view, "lm or dp")
      ->transform(words<View>({{"lm", View::lateromedial}, {"dp", View::dorsopalmar}}));
  foot.add_option("--toward", wish.facing, "side of the picture for the toe (lm) or lateral (dp)")
      ->transform(words<Facing>({{"left", Facing::left}, {"right", Facing::right}}));
  foot.add_option("--side", wish.side, "left or right limb")
      ->transform(words<Side>({{"left", Side::left}, {"right", Side::right}}));
  foot.add_option("--limb", wish.limb, "fore or hind")
      ->transform(words<Limb>({{"fore", Limb::fore}, {"hind", Limb::hind}}));
  foot.add_option("--quality", wish.quality, "full, or draft for speed")
      ->transform(words<Quality>({{"full", Quality::full}, {"draft", Quality::draft}}));
  foot.add_option("--yaw", wish.yaw_deg, "tube swung round the vertical, degrees")
      ->check(CLI::Range(-30, 30));
  foot.add_option("--roll", wish.roll_deg, "tube tipped, degrees")->check(CLI::Range(-30, 30));
  foot.add_option("--pixel", wish.spacing_mm, "detector pixel, mm")->check(CLI::Range(0.08, 2.0));
  foot.add_option("--photometric", wish.polarity, "MONOCHROME1 or MONOCHROME2")
      ->transform(words<Polarity>(
          {{"MONOCHROME1", Polarity::monochrome1}, {"MONOCHROME2", Polarity::monochrome2}}));
  foot.add_option("--spacing", wish.dicom.spacing, "what the file says about pixel size")
      ->transform(words<SpacingNote>({{"detector", SpacingNote::detector_only},
                                      {"equal", SpacingNote::equal_pixel},
                                      {"fiducial", SpacingNote::fiducial},
                                      {"geometry", SpacingNote::geometry},
                                      {"untyped", SpacingNote::untyped},
                                      {"none", SpacingNote::none}}));
  foot.add_option("--distances", wish.dicom.distances, "which distances the file gives")
      ->transform(words<DistanceNote>({{"both", DistanceNote::both},
                                       {"detector", DistanceNote::source_to_detector},
                                       {"none", DistanceNote::none}}));
}

} // namespace

int main(int argc, char** argv) {
  CLI::App app{"Makes sample radiographs and photos of an invented horse, with their exact truth"};
  app.require_subcommand(1);
  Wish wish;
  CLI::App& sample = *app.add_subcommand("sample", "the eight pictures of the sample case");
  sample.add_option("folder", wish.folder, "where to write them")->required();
  sample.add_option("--quality", wish.quality, "full, or draft for speed")
      ->transform(words<Quality>({{"full", Quality::full}, {"draft", Quality::draft}}));
  sample.add_flag("--texts-only", wish.texts_only, "truth and readings again, pictures left alone");
  CLI::App& foot = *app.add_subcommand("foot", "one picture of a foot drawn by a number");
  add_foot_options(foot, wish);
  pritchel::phantom::PhotoWish photo_wish;
  CLI::App& photo = pritchel::phantom::add_photo_command(app, photo_wish);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& e) {
    return app.exit(e) == 0 ? 0 : 2;
  }
  if (foot.parsed())
    return make_one(wish);
  if (photo.parsed())
    return finish(pritchel::phantom::make_photo(photo_wish));
  return finish(pritchel::phantom::write_sample_case(
      wish.folder,
      wish.texts_only ? Pictures::left_alone : Pictures::written,
      wish.quality,
      [](const std::string& name) { std::cout << name << '\n'
                                              << std::flush; }));
}
