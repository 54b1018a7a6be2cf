/// The printed card as a sheet for rendered photos.
#pragma once

#include "phantom/photo.h"

namespace pritchel::phantom {

/// The A4 card; corners carry the card's own ids.
PrintedSheet printed_card();

} // namespace pritchel::phantom
