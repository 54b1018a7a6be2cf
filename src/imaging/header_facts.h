/// Who, when and what a DICOM header says the picture shows. Inside imaging only.
#pragma once

#include "imaging/picture.h"

class DcmItem;

namespace pritchel::imaging {

/// Everything but `lossy`. Never fails: what is absent or unreadable stays empty.
/// Source: DICOM PS3.3 C.7 (patient, study), C.8.11 (digital X-ray), PS3.6 for the tags.
[[nodiscard]] Facts header_facts(DcmItem& data_set);

} // namespace pritchel::imaging
