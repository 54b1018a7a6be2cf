/// Rendered photos for the tests: drawn, written as JPEG, read back the way a user's photo is.
#pragma once

#include "imaging/find_dots.h"
#include "phantom/photo.h"

#include <string>

struct Taken {
  pritchel::phantom::PhotoParameters parameters;
  pritchel::phantom::PhotoTruth truth;
  pritchel::imaging::Picture picture;
};

/// Long side in pixels; the whole picture's parameters scale with it where they are in pixels.
Taken taken(const pritchel::phantom::PhotoParameters& parameters);

/// "bay, sun"
std::string words(const pritchel::phantom::PhotoParameters& parameters);

/// PRITCHEL_MORE_PHOTOS=N in the environment makes every sweep N times as long.
int times_more();
