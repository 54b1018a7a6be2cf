#include "taken.h"

#include "imaging/load.h"
#include "phantom/photo_card.h"
#include "phantom/photo_file.h"

#include <catch2/catch.hpp>

#include <cstdlib>

Taken taken(const pritchel::phantom::PhotoParameters& parameters) {
  using namespace pritchel;
  const phantom::PrintedSheet sheet = phantom::printed_card();
  const auto raster = phantom::render_photo(parameters, &sheet);
  const auto jpeg = phantom::photo_jpeg(raster, parameters);
  REQUIRE(jpeg);
  const std::vector<char> bytes(jpeg->begin(), jpeg->end());
  auto picture = imaging::load_picture(bytes, "photo.jpg");
  REQUIRE(picture);
  return {parameters, phantom::photo_truth(parameters, &sheet), std::move(*picture)};
}

std::string words(const pritchel::phantom::PhotoParameters& p) {
  const char* coats[] = {"bay", "chestnut", "grey", "black"};
  const char* lights[] = {"sun", "overcast", "dull", "stable"};
  return std::string(coats[static_cast<int>(p.coat)]) + ", " + lights[static_cast<int>(p.light)] +
         ", seed " + std::to_string(p.seed);
}

int times_more() {
  const char* wish = std::getenv("PRITCHEL_MORE_PHOTOS");
  return wish == nullptr ? 1 : std::max(1, std::atoi(wish));
}
