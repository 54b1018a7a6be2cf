/// A picture file taken into a visit.
#pragma once

#include <span>

#include "job/visit.h"

namespace pritchel::job {

/// Decodes the file (what cannot be shown is not kept), keeps it and adds it to the visit, its
/// entry filled in as far as the header speaks. A file that the visit has already gives its known
/// entry.
[[nodiscard]] Result<record::PictureEntry> take_in_picture(const Desk& desk,
                                                           const std::string& case_id,
                                                           const std::string& visit,
                                                           const std::string& file_name,
                                                           std::span<const char> bytes,
                                                           const record::Stamp& stamp);

} // namespace pritchel::job
