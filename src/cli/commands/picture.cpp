#include "cli/commands.h"
#include "imaging/load.h"

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include "job/picture_json.h"

namespace pritchel::cli {

Result<void> run(const PictureArguments& arguments, const Places&) {
  PRITCHEL_TRY(picture, imaging::load_picture_file(arguments.file));
  fmt::print("{}\n", job::picture_json(picture).dump(2));
  return {};
}

} // namespace pritchel::cli
