/// Films kept in a folder, since drawing one takes seconds and learning wants hundreds again and
/// again.
#pragma once

#include <filesystem>

#include "teach/films.h"

namespace pritchel::teach {

/// From the folder; drawn and written there first where it isn't yet.
Drawn kept_film(const std::filesystem::path& folder,
                Kind kind,
                phantom::View view,
                std::uint64_t number);

} // namespace pritchel::teach
