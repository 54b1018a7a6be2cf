/// DICOM's character sets to UTF-8, by iconv. DCMTK as Debian builds it cannot convert the code
/// extensions of ISO 2022, so they are taken apart here.
/// Source: DICOM PS3.3 C.12.1.1.2, PS3.5 6.1.2.5; ISO/IEC 2022.
#pragma once

#include <string>
#include <string_view>

namespace pritchel::imaging {

/// `defined_terms` is Specific Character Set (0008,0005) as stored, values joined by backslashes.
/// Always valid UTF-8 without control characters: what cannot be read becomes U+FFFD.
[[nodiscard]] std::string to_utf8(std::string_view text, std::string_view defined_terms);

} // namespace pritchel::imaging
