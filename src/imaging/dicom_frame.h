/// The compressed bytes of a data set's first frame, fragments joined. Inside imaging only.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

class DcmDataset;

namespace pritchel::imaging {

/// By the offset table where there is one, else by the frame's start marker. Empty when the data
/// are not encapsulated or make no sense. Source: DICOM PS3.5 A.4.
[[nodiscard]] std::optional<std::vector<std::uint8_t>> first_frame_bytes(DcmDataset& data_set,
                                                                         int frames);

} // namespace pritchel::imaging
