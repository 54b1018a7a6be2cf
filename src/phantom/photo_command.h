/// The "photo" command of pritchel-phantom.
#pragma once

#include "phantom/photo_file.h"

#include <CLI/CLI.hpp>

#include <optional>
#include <string>
#include <vector>

namespace pritchel::phantom {

/// What was asked for. Options lie over what the seed draws where they are given.
struct PhotoWish {
  std::string folder;
  std::string name;
  PhotoSubject subject = PhotoSubject::fore_side;
  std::uint64_t seed = 1;
  std::optional<Coat> coat;
  std::optional<Light> light;
  std::optional<Footing> footing;
  std::optional<Backdrop> backdrop;
  std::optional<Side> side;
  std::optional<double> distance_mm;
  std::optional<double> around_deg;
  std::optional<double> roll_deg;
  std::optional<double> k1;
  std::optional<double> card_offset_mm;
  std::optional<double> card_turned_deg;
  std::vector<std::string> dot_colours; ///< two names
  int lookalikes = 0;
  int long_side = 1600;
  bool no_card = false;
  bool no_dots = false;
  bool cord = false;
};
/// Adds the command, which fills in `wish`.
CLI::App& add_photo_command(CLI::App& app, PhotoWish& wish);
PhotoParameters photo_parameters(const PhotoWish& wish);
Result<void> make_photo(const PhotoWish& wish);

} // namespace pritchel::phantom
